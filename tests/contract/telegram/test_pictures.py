"""A file with a picture is shown as one, where Telegram can."""

from __future__ import annotations

import base64
import dataclasses

import pytest

from bot.chat import Document, Sent
from bot.transport.telegram.pictures import MOST_PHOTO_BYTES, is_photo, sides_of
from tests.contract.telegram.pictures import JPEG, jpeg, picture, png
from tests.contract.telegram.sending import DONE, TOPIC_MARK, row, transport
from tests.fakes.botapi import FakeTelegram
from tests.fakes.botapi.methods import NO_PICTURE


@pytest.mark.asyncio
async def test_a_picture_is_shown_with_its_words_and_buttons(fake: FakeTelegram) -> None:
    """Every byte, the words as caption, the buttons, in its topic, and a reference that names the message."""
    group = fake.group("Harrow Lane supper", kind="supergroup", topics=(7,))
    async with transport(fake) as telegram:
        outcome = await telegram.send(row(group, "Dinner 18:00.", document=picture(png()), choices=DONE, thread=7))
    (message,) = fake.messages(group)
    assert outcome == Sent(ref=f"telegram:{group}:{message.message_id}")
    assert (message.photo, message.text, message.thread) == (True, "Dinner 18:00.", 7)
    assert message.buttons == (("Done", "Not yet"),)
    assert base64.b64decode(fake.calls("sendPhoto")[0]["parameters"]["photo"]["base64"]) == png()
    assert fake.calls("sendDocument") == []


@pytest.mark.asyncio
async def test_a_caption_of_a_picture_that_is_too_long_is_cut(fake: FakeTelegram) -> None:
    """1024 units and a sign; the picture still arrives."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        await telegram.send(row(ines, "x" * 1025, document=picture(jpeg(), JPEG)))
    assert fake.messages(ines)[0].text == "x" * 1023 + "…"


@pytest.mark.asyncio
async def test_a_picture_outlives_its_topic(fake: FakeTelegram) -> None:
    """It goes to the chat itself, and says why."""
    group = fake.group("Harrow Lane supper", kind="supergroup")
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(group, "Now.", document=picture(png()), thread=9)), Sent)
    (message,) = fake.messages(group)
    assert (message.thread, message.photo, message.text) == (None, True, f"{TOPIC_MARK}\nNow.")


@pytest.mark.asyncio
async def test_what_telegram_cannot_show_goes_as_a_file(fake: FakeTelegram) -> None:
    """Refused as a picture, the same bytes are sent as a file: they arrive."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(ines, document=picture(png(tail=NO_PICTURE)))), Sent)
    (message,) = fake.messages(ines)
    assert (message.photo, message.file) == (False, "chart.png")


@pytest.mark.parametrize(
    ("document", "shown"),
    [
        (picture(png()), True),
        (picture(jpeg(), JPEG), True),
        (picture(png(5000, 5000)), True),
        (picture(png(5001, 5000)), False),
        (picture(png(2000, 100)), True),
        (picture(png(2001, 100)), False),
        (picture(png(0, 100)), False),
        (picture(png(tail=bytes(MOST_PHOTO_BYTES))), False),
        (picture(b"GIF89a", "image/gif"), False),
        (picture(b"", JPEG), False),
        (picture(b"\xff\xd8\xff", JPEG), False),
        (dataclasses.replace(picture(png()), media_type="application/pdf"), False),
    ],
)
def test_what_can_be_a_picture(document: Document, shown: bool) -> None:
    """PNG and JPEG within 10 MB, 10000 pixels of width and height together, and one to twenty; all else is a file."""
    assert is_photo(document) is shown


def test_sides_are_read_from_the_first_bytes() -> None:
    """Width and height of both kinds; of anything else, nothing is said."""
    assert (sides_of(png(3, 4)), sides_of(jpeg(3, 4)), sides_of(b"%PDF")) == ((3, 4), (3, 4), None)
