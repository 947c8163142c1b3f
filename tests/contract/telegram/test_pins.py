"""Pinning and unpinning on Telegram: idempotent, silent, and no failure where it is not allowed."""

from __future__ import annotations

import pytest

from bot.chat import Declined, Lack, Moved, OutgoingKind, Sent, TryAgain, Unreachable
from bot.ports import ClaimedRow
from tests.contract.telegram.sending import row, transport
from tests.fakes.botapi import FakeTelegram

pytestmark = pytest.mark.asyncio


def pin(chat: int, ref: str | None, *, kind: OutgoingKind = OutgoingKind.PIN) -> ClaimedRow:
    """Return a row that pins (or unpins) a message."""
    return row(chat, "", kind=kind, target="board", target_ref=ref)


async def _posted(fake: FakeTelegram, chat: int) -> str:
    async with transport(fake) as telegram:
        sent = await telegram.send(row(chat, "The board."))
    assert isinstance(sent, Sent)
    assert sent.ref is not None
    return sent.ref


async def test_a_message_is_pinned_without_a_sound(fake: FakeTelegram) -> None:
    """Once or twice, it is pinned; taken off twice, it is off."""
    ines = fake.private("Ines")
    ref = await _posted(fake, ines)
    async with transport(fake) as telegram:
        for _ in range(2):
            assert await telegram.send(pin(ines, ref)) == Sent()
        assert fake.messages(ines)[0].pinned
        for _ in range(2):
            assert await telegram.send(pin(ines, ref, kind=OutgoingKind.UNPIN)) == Sent()
    assert not fake.messages(ines)[0].pinned
    assert [call["parameters"]["disable_notification"] for call in fake.calls("pinChatMessage")] == [True, True]


async def test_a_group_may_not_let_it_pin(fake: FakeTelegram) -> None:
    """Without the right to pin the outcome says so, and the message stays as it was; with it, it is pinned."""
    group = fake.group("Harrow Lane supper", kind="supergroup")
    ref = await _posted(fake, group)
    async with transport(fake) as telegram:
        outcome = await telegram.send(pin(group, ref))
        assert isinstance(outcome, Declined)
        assert outcome.lack is Lack.PIN
        fake.promote(group)
        assert await telegram.send(pin(group, ref)) == Sent()
    assert [(one.text, one.pinned) for one in fake.messages(group)] == [("The board.", True)]


async def test_a_message_that_is_gone_cannot_be_pinned(fake: FakeTelegram) -> None:
    """Deleted, never sent, or left behind by a group that moved: the outcome says that it is gone."""
    ines, group = fake.private("Ines"), fake.group("Harrow Lane supper")
    refs = [await _posted(fake, chat) for chat in (ines, group)]
    fake.delete(fake.messages(ines)[0])
    new = fake.migrate(group)
    async with transport(fake) as telegram:
        for chat, ref in ((ines, refs[0]), (ines, None), (new, refs[1])):
            outcome = await telegram.send(pin(chat, ref))
            assert isinstance(outcome, Declined)
            assert outcome.lack is Lack.GONE
        assert isinstance(await telegram.send(pin(group, refs[1])), Moved)


async def test_other_outcomes_of_a_pin_are_those_of_a_message(fake: FakeTelegram) -> None:
    """A flood, a lost answer and a block are told apart as for a text."""
    ines = fake.private("Ines")
    ref = await _posted(fake, ines)
    async with transport(fake) as telegram:
        fake.inject("flood", method="pinChatMessage")
        assert isinstance(await telegram.send(pin(ines, ref)), TryAgain)
        fake.inject("drop", method="pinChatMessage", executed=True)
        assert isinstance(await telegram.send(pin(ines, ref)), TryAgain)
        fake.block(ines)
        assert isinstance(await telegram.send(pin(ines, ref)), Unreachable)
