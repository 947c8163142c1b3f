"""Changing, acknowledging and ending: what is done at a message that is there, on Telegram."""

from __future__ import annotations

import pytest

from bot.chat import Declined, Document, Lack, OutgoingKind, Rejected, Sent
from tests.contract.telegram.pictures import picture, png
from tests.contract.telegram.sending import DONE, edit, row, transport
from tests.fakes.botapi import FakeTelegram
from tests.fakes.botapi.methods import NO_PICTURE

pytestmark = pytest.mark.asyncio


async def test_an_edit_changes_text_and_buttons(fake: FakeTelegram) -> None:
    """The message is the same, its text new, its buttons gone."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        sent = await telegram.send(row(ines, choices=DONE))
        assert isinstance(sent, Sent)
        assert await telegram.send(edit(ines, sent.ref, "Spritzed at 13:05.")) == sent
    (message,) = fake.messages(ines)
    assert (message.text, message.buttons) == ("Spritzed at 13:05.", ())


async def test_an_edit_made_twice_is_sent(fake: FakeTelegram) -> None:
    """The server's "not modified" proves that the first one arrived."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        sent = await telegram.send(row(ines))
        assert isinstance(sent, Sent)
        change = edit(ines, sent.ref, "Spritzed.", choices=DONE)
        assert await telegram.send(change) == sent
        assert await telegram.send(change) == sent
    assert [call["code"] for call in fake.calls("editMessageText")] == [200, 400]
    assert fake.messages(ines)[0].edits == 1


@pytest.mark.parametrize("document", [picture(png()), picture(png(tail=NO_PICTURE))], ids=["photo", "file"])
async def test_an_edit_of_a_picture_changes_its_words(fake: FakeTelegram, document: Document) -> None:
    """What went with a file has no text: its caption is changed, its buttons too, cut where a caption ends."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        sent = await telegram.send(row(ines, "Look at the bark.", choices=DONE, document=document))
        assert isinstance(sent, Sent)
        assert await telegram.send(edit(ines, sent.ref, "Ines: bark set.", choices=DONE, target_file=True)) == sent
        assert fake.messages(ines)[0].labels == ("Done", "Not yet")
        assert await telegram.send(edit(ines, sent.ref, "Ines: " + "x" * 1100, target_file=True)) == sent
        assert await telegram.send(edit(ines, sent.ref, "Ines: " + "x" * 1100, target_file=True)) == sent
    (message,) = fake.messages(ines)
    assert (message.text, message.buttons) == ("Ines: " + "x" * 1017 + "…", ())
    assert [call["code"] for call in fake.calls("editMessageCaption")] == [200, 200, 400]
    assert fake.calls("editMessageText") == []


async def test_the_server_keeps_texts_and_captions_apart(fake: FakeTelegram) -> None:
    """A text cannot be changed as a caption nor a caption as a text: whoever mixes them up is refused."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        text, shown = await telegram.send(row(ines)), await telegram.send(row(ines, document=picture(png())))
        assert isinstance(text, Sent)
        assert isinstance(shown, Sent)
        as_caption = await telegram.send(edit(ines, text.ref, "x", target_file=True))
        as_text = await telegram.send(edit(ines, shown.ref, "x"))
    assert as_caption == Rejected(why="There is no caption in the message to edit")
    assert as_text == Rejected(why="There is no text in the message to edit")


@pytest.mark.parametrize("ref", [None, "terminal:ines:4", "telegram:2:4"], ids=["never sent", "elsewhere", "moved"])
async def test_an_edit_of_what_is_not_there_is_declined(fake: FakeTelegram, ref: str | None) -> None:
    """A message that was never sent, or lies in another chat, is gone; no call is made."""
    async with transport(fake) as telegram:
        outcome = await telegram.send(edit(1, ref, "x"))
    assert isinstance(outcome, Declined)
    assert outcome.lack is Lack.GONE
    assert fake.calls() == []


async def test_an_edit_of_a_message_too_old_is_declined(fake: FakeTelegram) -> None:
    """The server no longer lets it be changed: it is gone as far as edits go."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        sent = await telegram.send(row(ines))
        assert isinstance(sent, Sent)
        fake.freeze(fake.messages(ines)[0])
        outcome = await telegram.send(edit(ines, sent.ref, "x"))
    assert outcome == Declined(lack=Lack.GONE, why="Message can't be edited")


async def test_an_edit_of_a_deleted_message_is_declined(fake: FakeTelegram) -> None:
    """It will never be possible again."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        sent = await telegram.send(row(ines))
        assert isinstance(sent, Sent)
        fake.delete(fake.messages(ines)[0])
        outcome = await telegram.send(edit(ines, sent.ref, "x"))
    assert outcome == Declined(lack=Lack.GONE, why="Message to edit not found")


async def test_a_reaction_acknowledges(fake: FakeTelegram) -> None:
    """A reading gets one reaction, the same again when repeated."""
    ines = fake.private("Ines")
    said = fake.say(ines, "Ines", "178")
    reaction = row(ines, "", kind=OutgoingKind.REACTION, target=f"telegram:{ines}:{said}")
    async with transport(fake) as telegram:
        assert await telegram.send(reaction) == Sent()
        assert await telegram.send(reaction) == Sent()
    assert fake.history(ines)[0].reactions == ("👍",)


async def test_a_reaction_may_be_chosen(fake: FakeTelegram) -> None:
    """A text that is an allowed reaction is used; any other is not."""
    ines = fake.private("Ines")
    said = f"telegram:{ines}:{fake.say(ines, 'Ines', '178')}"
    async with transport(fake) as telegram:
        assert await telegram.send(row(ines, "✍\ufe0f", kind=OutgoingKind.REACTION, target=said)) == Sent()
        assert fake.history(ines)[0].reactions == ("✍",)
        assert await telegram.send(row(ines, "noted", kind=OutgoingKind.REACTION, target=said)) == Sent()
    assert fake.history(ines)[0].reactions == ("👍",)


async def test_a_chat_without_reactions_declines(fake: FakeTelegram) -> None:
    """Where reactions are not allowed, or the message is gone, nothing happens and the reason is remembered."""
    group = fake.group("Harrow Lane supper", kind="supergroup")
    said = fake.say(group, "Ines", "/temp 178")
    reaction = row(group, "", kind=OutgoingKind.REACTION, target=f"telegram:{group}:{said}")
    async with transport(fake) as telegram:
        assert await telegram.send(reaction) == Sent()
        fake.allow_reactions(group, allowed=False)
        outcome = await telegram.send(reaction)
        lost = await telegram.send(row(group, "", kind=OutgoingKind.REACTION, target=f"telegram:{group}:99"))
    assert outcome == Declined(lack=Lack.REACTION, why="Reaction_invalid")
    assert isinstance(lost, Declined)
    assert fake.history(group)[0].reactions == ("👍",)


async def test_a_tap_is_answered(fake: FakeTelegram) -> None:
    """The button stops waiting; a text that is too long is cut."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        await telegram.send(row(ines, choices=DONE))
        tap = fake.tap(fake.messages(ines)[0], "Done")
        assert await telegram.send(row(ines, "x" * 300, kind=OutgoingKind.TAP_ANSWER, target=tap)) == Sent()
    assert fake.answered(tap)
    assert len(fake.calls("answerCallbackQuery")[0]["parameters"]["text"]) == 200


async def test_a_tap_that_is_too_old_counts_as_answered(fake: FakeTelegram) -> None:
    """The server's refusal of an old query is no failure."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        await telegram.send(row(ines, choices=DONE))
        tap = fake.tap(fake.messages(ines)[0], "Done")
        fake.expire_taps()
        assert await telegram.send(row(ines, "", kind=OutgoingKind.TAP_ANSWER, target=tap)) == Sent()


async def test_a_tap_answer_is_never_tried_again(fake: FakeTelegram) -> None:
    """When its answer is lost, nobody waits for it any more."""
    ines = fake.private("Ines")
    fake.inject("status", code=502)
    async with transport(fake) as telegram:
        assert await telegram.send(row(ines, "", kind=OutgoingKind.TAP_ANSWER, target="1")) == Sent()
