"""What becomes of a row with a file on Telegram, against a server that checks every call."""

from __future__ import annotations

import base64
import dataclasses

import pytest
from telegram import constants

from bot.chat import Document, Rejected, Sent, TryAgain, Unknown, Unreachable
from bot.transport.telegram.shapes import MOST_CAPTION_UNITS, MOST_UPLOAD_BYTES
from tests.contract.telegram.sending import DONE, REPEAT_MARK, TOPIC_MARK, row, transport
from tests.fakes.botapi import FakeTelegram

pytestmark = pytest.mark.asyncio

PLAN = Document(name="plan-1.pdf", media_type="application/pdf", data=bytes(range(256)) * 100)


async def test_a_file_arrives_whole_with_its_words_and_buttons(fake: FakeTelegram) -> None:
    """Every byte, the name, the words as caption, the buttons, and a reference that names the message."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        outcome = await telegram.send(row(ines, "Tape it up.", document=PLAN, choices=DONE, silent=True))
    (message,) = fake.messages(ines)
    assert outcome == Sent(ref=f"telegram:{ines}:{message.message_id}")
    assert (message.file, message.text, message.silent) == ("plan-1.pdf", "Tape it up.", True)
    assert message.buttons == (("Done", "Not yet"),)
    (call,) = fake.calls("sendDocument")
    assert base64.b64decode(call["parameters"]["document"]["base64"]) == PLAN.data
    assert call["parameters"]["document"]["mime_type"] == "application/pdf"


async def test_a_file_needs_no_words(fake: FakeTelegram) -> None:
    """Without words it is sent without a caption."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(ines, "", document=PLAN)), Sent)
    assert "caption" not in fake.calls("sendDocument")[0]["parameters"]


async def test_a_caption_that_is_too_long_is_cut(fake: FakeTelegram) -> None:
    """A caption holds a quarter of what a text holds; the rest is cut with a sign, the file still arrives."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(ines, "\N{FIRE}" * 600, document=PLAN)), Sent)
    assert fake.messages(ines)[0].text == "\N{FIRE}" * 511 + "…"


async def test_what_a_person_typed_is_never_markup_in_a_caption(fake: FakeTelegram) -> None:
    """Angle brackets and stars arrive as typed."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        await telegram.send(row(ines, "<b>178</b> *x*", document=PLAN))
    assert fake.messages(ines)[0].text == "<b>178</b> *x*"
    assert "parse_mode" not in fake.calls("sendDocument")[0]["parameters"]


async def test_a_possible_repeat_is_marked_on_the_file(fake: FakeTelegram) -> None:
    """A file that may have come before says so first."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        await telegram.send(row(ines, "Tape it up.", document=PLAN, possible_repeat=True))
    assert fake.messages(ines)[0].text == f"{REPEAT_MARK}\nTape it up."


async def test_a_file_outlives_its_topic(fake: FakeTelegram) -> None:
    """When the topic was deleted, the file goes to the group itself."""
    group = fake.group("Harrow Lane supper", kind="supergroup", topics=(7,))
    fake.delete_topic(group, 7)
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(group, thread=7, document=PLAN)), Sent)
    (message,) = fake.messages(group)
    assert (message.thread, message.file) == (None, "plan-1.pdf")
    assert message.text == f"{TOPIC_MARK}\nSpritz the ribs."


async def test_a_file_that_can_never_be_sent_is_not_tried(fake: FakeTelegram) -> None:
    """An empty file is rejected without a call."""
    empty = dataclasses.replace(PLAN, data=b"")
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(1, document=empty)), Rejected)
    assert fake.calls() == []


async def test_outcomes_of_a_file_are_those_of_a_message(fake: FakeTelegram) -> None:
    """Flood, an answer that is lost after the file was taken, and a block are told apart as for a text."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        fake.inject("flood", method="sendDocument", retry_after=3)
        assert isinstance(await telegram.send(row(ines, document=PLAN)), TryAgain)
        fake.inject("drop", method="sendDocument", executed=True)
        assert isinstance(await telegram.send(row(ines, document=PLAN)), Unknown)
        assert len(fake.messages(ines)) == 1
        fake.block(ines)
        assert isinstance(await telegram.send(row(ines, document=PLAN)), Unreachable)


async def test_limits_are_those_of_the_library() -> None:
    """The figures of the transport equal the library's own."""
    assert constants.MessageLimit.CAPTION_LENGTH == MOST_CAPTION_UNITS
    assert constants.FileSizeLimit.FILESIZE_UPLOAD == MOST_UPLOAD_BYTES
