"""Questions that want a reply: of whom, and never beside buttons."""

from __future__ import annotations

import pytest

from bot.chat import Asking, Sent
from tests.contract.telegram.sending import DONE, row, transport
from tests.fakes.botapi import FakeTelegram

pytestmark = pytest.mark.asyncio


async def test_a_question_opens_a_reply(fake: FakeTelegram) -> None:
    """Asked of nobody in particular, everybody's reply opens."""
    group = fake.group("Harrow Lane supper")
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(group, "Core?", wants_reply=Asking())), Sent)
    (message,) = fake.messages(group)
    assert (message.force_reply, message.selective, message.reply_to) == (True, False, None)


async def test_a_question_about_a_message_asks_its_writer_alone(fake: FakeTelegram) -> None:
    """It is a reply to that message and opens the reply of that person only, also when the message is gone."""
    group = fake.group("Harrow Lane supper")
    said = fake.say(group, "Ines", "/temp")
    asking = Asking(to=f"telegram:{group}:{said}")
    async with transport(fake) as telegram:
        await telegram.send(row(group, "Core?", wants_reply=asking))
        fake.delete(fake.history(group)[0])
        assert isinstance(await telegram.send(row(group, "Core?", wants_reply=asking)), Sent)
    first, second = fake.messages(group)
    assert (first.force_reply, first.selective, first.reply_to) == (True, True, said)
    assert (second.selective, second.reply_to) == (True, None)


async def test_a_question_names_whom_it_asks(fake: FakeTelegram) -> None:
    """Whoever pressed a button wrote nothing: their name in the text makes the question theirs (UTF-16 units)."""
    group = fake.group("Harrow Lane supper")
    async with transport(fake) as telegram:
        await telegram.send(row(group, "🔥 Ines: core?", wants_reply=Asking(person="5000001", name="Ines")))
        await telegram.send(row(group, "Core?", wants_reply=Asking(person="5000001", name="Ines")))
    first, second = [call["parameters"] for call in fake.calls("sendMessage")]
    (mark,) = first["entities"]
    assert (mark["type"], mark["offset"], mark["length"], mark["user"]["id"]) == ("text_mention", 3, 4, 5000001)
    assert [one.selective for one in fake.messages(group)] == [True, False]
    assert "entities" not in second


async def test_buttons_win(fake: FakeTelegram) -> None:
    """A message with buttons opens no reply: the messenger shows one or the other."""
    group = fake.group("Harrow Lane supper")
    async with transport(fake) as telegram:
        await telegram.send(row(group, "Core?", choices=DONE, wants_reply=Asking()))
    (message,) = fake.messages(group)
    assert (message.force_reply, message.labels) == (False, ("Done", "Not yet"))


async def test_a_question_about_a_message_of_another_chat_asks_everybody(fake: FakeTelegram) -> None:
    """A reference that is not of this chat is left out."""
    group = fake.group("Harrow Lane supper")
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(group, "Core?", wants_reply=Asking(to="telegram:1:1"))), Sent)
    assert fake.messages(group)[0].reply_to is None
