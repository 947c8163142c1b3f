"""What becomes of a row on Telegram, against a server that checks every call."""

from __future__ import annotations

import asyncio
import datetime as dt
import logging

import pytest

from bot.chat import (
    Address,
    Choice,
    Declined,
    Locked,
    Moved,
    OutgoingKind,
    Rejected,
    Sent,
    TryAgain,
    Unknown,
    Unreachable,
)
from bot.delivery.courier import LEASE
from bot.ports import ClaimedRow
from bot.transport.telegram.outgoing import Timeouts
from tests.contract.telegram.sending import DONE, JITTER, REPEAT_MARK, TOPIC_MARK, edit, row, transport
from tests.fakes.botapi import FakeTelegram

pytestmark = pytest.mark.asyncio

NOWHERE = "http://127.0.0.1:1"
TOO_SHORT_S = 0.2


async def test_a_message_is_sent_with_its_buttons(fake: FakeTelegram) -> None:
    """The text arrives as it is, the buttons in their rows, and the reference names it."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        outcome = await telegram.send(row(ines, choices=DONE))
    (message,) = fake.messages(ines)
    assert outcome == Sent(ref=f"telegram:{ines}:{message.message_id}")
    assert message.text == "Spritz the ribs."
    assert message.buttons == (("Done", "Not yet"),)
    assert not message.silent


@pytest.mark.parametrize("text", ["<b>178</b> & *bold* _x_ `y` [a](b)", "1 < 2 > 0 &amp; ok", "/start@x #tag @Tomas"])
async def test_what_a_person_typed_is_never_markup(fake: FakeTelegram, text: str) -> None:
    """Angle brackets, stars and entities in a text arrive as typed, and the server is told of no markup."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        await telegram.send(row(ines, text))
    assert fake.messages(ines)[0].text == text
    assert "parse_mode" not in fake.calls("sendMessage")[0]["parameters"]


async def test_previews_are_off_and_silence_is_kept(fake: FakeTelegram) -> None:
    """A link shows no preview; a silent message makes no sound."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        await telegram.send(row(ines, "https://example.invalid", silent=True))
    (call,) = fake.calls("sendMessage")
    assert call["parameters"]["link_preview_options"] == {"is_disabled": True}
    assert fake.messages(ines)[0].silent


async def test_a_possible_repeat_is_marked(fake: FakeTelegram) -> None:
    """A message that may have come before says so first, on a line of its own; an edit does not."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        sent = await telegram.send(row(ines, possible_repeat=True))
        assert fake.messages(ines)[0].text == f"{REPEAT_MARK}\nSpritz the ribs."
        assert isinstance(sent, Sent)
        await telegram.send(edit(ines, sent.ref, "Spritzed.", possible_repeat=True))
    assert fake.messages(ines)[0].text == "Spritzed."


async def test_a_text_that_is_too_long_is_cut_and_told(fake: FakeTelegram, caplog: pytest.LogCaptureFixture) -> None:
    """It arrives in one message of at most 4096 units, with a sign at the cut, and is logged as an error."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        outcome = await telegram.send(row(ines, "\N{FIRE}" * 3000))
    assert isinstance(outcome, Sent)
    assert fake.messages(ines)[0].text == "\N{FIRE}" * 2047 + "…"
    assert [record.levelno for record in caplog.records if "too long" in record.getMessage()] == [logging.ERROR]


@pytest.mark.parametrize(
    "bad",
    [
        row(1, " \n"),
        row("everybody"),
        row(1, choices=((Choice(label="Done", token="x" * 65),),)),
        row(1, "", kind=OutgoingKind.REACTION, target="terminal:1"),
        row(1, "", kind=OutgoingKind.TAP_ANSWER),
        row(1, "photo-1.jpg", kind=OutgoingKind.FETCH, target="f"),
    ],
    ids=["empty", "no chat", "long token", "no message", "no tap", "no album"],
)
async def test_what_can_never_be_sent_is_not_tried(fake: FakeTelegram, bad: ClaimedRow) -> None:
    """A row that breaks a limit, or names nothing, is rejected without a call."""
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(bad), Rejected)
    assert fake.calls() == []


# --- topics -------------------------------------------------------------------------------------------------------


async def test_a_topic_is_answered_in_the_topic(fake: FakeTelegram) -> None:
    """The thread of an address is kept."""
    group = fake.group("Harrow Lane supper", kind="supergroup", topics=(7,))
    async with transport(fake) as telegram:
        await telegram.send(row(group, thread=7))
    assert fake.messages(group)[0].thread == 7


async def test_a_prompt_outlives_its_topic(fake: FakeTelegram) -> None:
    """When the topic was deleted, the message goes to the group itself."""
    group = fake.group("Harrow Lane supper", kind="supergroup", topics=(7,))
    fake.delete_topic(group, 7)
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(group, thread=7)), Sent)
    (message,) = fake.messages(group)
    assert (message.thread, message.text) == (None, f"{TOPIC_MARK}\nSpritz the ribs.")


async def test_a_closed_topic_is_told(fake: FakeTelegram) -> None:
    """What was meant for it goes to the group itself and says why; the outcome tells that the room is there now."""
    group = fake.group("Harrow Lane supper", kind="supergroup", topics=(7,))
    fake.close_topic(group, 7)
    async with transport(fake) as telegram:
        outcome = await telegram.send(row(group, thread=7))
    (message,) = fake.messages(group)
    assert (message.thread, message.text) == (None, f"{TOPIC_MARK}\nSpritz the ribs.")
    itself = Address(transport="telegram", chat=str(group))
    assert outcome == Sent(ref=f"telegram:{group}:{message.message_id}", at=itself)


async def test_the_general_topic_has_no_number(fake: FakeTelegram) -> None:
    """What goes to topic 1 goes without a number: the server knows no thread 1."""
    group = fake.group("Harrow Lane supper", kind="supergroup", topics=(7,))
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(group, thread=1)), Sent)
    assert "message_thread_id" not in fake.calls("sendMessage")[0]["parameters"]


# --- refusals ---------------------------------------------------------------------------------------------------------


async def test_a_chat_that_blocked_the_bot_is_unreachable(fake: FakeTelegram) -> None:
    """Blocked, thrown out, unknown or never started: the chat is paused, the reason told."""
    ines, group = fake.private("Ines"), fake.group("Harrow Lane supper")
    fake.block(ines)
    fake.block(group)
    async with transport(fake) as telegram:
        for chat in (ines, group, 123):
            assert isinstance(await telegram.send(row(chat)), Unreachable)


async def test_a_group_that_moved_tells_where(fake: FakeTelegram) -> None:
    """The outcome holds the new address; sending there works; edits of old messages are given up."""
    group = fake.group("Harrow Lane supper")
    async with transport(fake) as telegram:
        sent = await telegram.send(row(group))
        assert isinstance(sent, Sent)
        new = fake.migrate(group)
        moved = Moved(to=Address(transport="telegram", chat=str(new)))
        assert await telegram.send(row(group)) == moved
        assert await telegram.send(edit(group, sent.ref, "x")) == moved
        assert isinstance(await telegram.send(edit(new, sent.ref, "x")), Declined)
        assert isinstance(await telegram.send(row(new)), Sent)


async def test_a_revoked_token_locks_the_transport(fake: FakeTelegram) -> None:
    """Everything waits, and the reason does not hold the token."""
    ines = fake.private("Ines")
    fake.revoke()
    async with transport(fake) as telegram:
        outcome = await telegram.send(row(ines))
    assert isinstance(outcome, Locked)
    assert fake.token not in repr(outcome)


# --- floods -----------------------------------------------------------------------------------------------------------


async def test_a_flood_limit_pauses_this_chat_first(fake: FakeTelegram) -> None:
    """One chat waits as long as asked plus jitter; a second chat that meets a limit pauses all."""
    ines, tomas = fake.private("Ines"), fake.private("Tomas")
    fake.inject("flood", times=3, retry_after=7)
    wait = dt.timedelta(seconds=7) + JITTER
    why = "Telegram asks for a pause"
    async with transport(fake) as telegram:
        first, again, other = [await telegram.send(row(chat)) for chat in (ines, ines, tomas)]
        assert first == again == TryAgain(wait=wait, why=why, costs_attempt=False)
        assert other == TryAgain(wait=wait, why=why, costs_attempt=False, whole_transport=True)
        assert isinstance(await telegram.send(row(ines)), Sent)


async def test_limits_of_groups_say_nothing_about_other_chats(fake: FakeTelegram) -> None:
    """Two groups in slow mode wait, each for itself; nobody else does."""
    shed, club = fake.group("Shed", kind="supergroup"), fake.group("Club", kind="supergroup")
    fake.inject("flood", times=2, retry_after=3600)
    async with transport(fake) as telegram:
        first, second = [await telegram.send(row(chat)) for chat in (shed, club)]
    assert [isinstance(one, TryAgain) and one.whole_transport for one in (first, second)] == [False, False]


async def test_slow_mode_is_a_flood_limit(fake: FakeTelegram) -> None:
    """A group that allows one message in thirty seconds makes the second one wait."""
    group = fake.group("Harrow Lane supper", kind="supergroup")
    fake.slow_mode(group, 30)
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(group)), Sent)
        outcome = await telegram.send(row(group))
    assert isinstance(outcome, TryAgain)
    assert not outcome.costs_attempt
    assert len(fake.messages(group)) == 1


# --- what may have arrived ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("executed", [True, False], ids=["carried out", "not carried out"])
@pytest.mark.parametrize("fault", ["status", "page", "drop"])
async def test_a_lost_answer_leaves_it_open(fake: FakeTelegram, fault: str, executed: bool) -> None:
    """After a 5xx, a page of something in between or a cut connection, nobody knows: both are possible."""
    ines = fake.private("Ines")
    fake.inject(fault, executed=executed, code=502)
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(row(ines)), Unknown)
    assert len(fake.messages(ines)) == executed


@pytest.mark.parametrize("executed", [True, False], ids=["carried out", "not carried out"])
async def test_a_time_out_leaves_it_open(fake: FakeTelegram, executed: bool) -> None:
    """No answer within the time: it may have been sent."""
    ines = fake.private("Ines")
    fake.inject("hang", executed=executed)
    async with transport(fake, read_s=TOO_SHORT_S) as telegram:
        assert isinstance(await telegram.send(row(ines)), Unknown)
    fake.release()
    assert len(fake.messages(ines)) == executed


async def test_an_attempt_has_an_end(fake: FakeTelegram) -> None:
    """However patient each part of a call is, the whole attempt ends before the lease of its row does."""
    ines = fake.private("Ines")
    fake.inject("hang")
    async with transport(fake, whole_s=TOO_SHORT_S) as telegram:
        assert isinstance(await telegram.send(row(ines)), Unknown)
    fake.release()
    assert Timeouts().whole_s < LEASE.total_seconds()


@pytest.mark.parametrize("fault", ["status", "drop"])
async def test_an_edit_whose_answer_was_lost_is_made_again(fake: FakeTelegram, fault: str) -> None:
    """An edit is simply tried again, and the second try counts as sent."""
    ines = fake.private("Ines")
    async with transport(fake) as telegram:
        sent = await telegram.send(row(ines))
        assert isinstance(sent, Sent)
        fake.inject(fault, method="editMessageText", executed=True)
        assert isinstance(await telegram.send(edit(ines, sent.ref, "x")), TryAgain)
        assert await telegram.send(edit(ines, sent.ref, "x")) == sent


async def test_no_network_proves_that_nothing_was_sent(fake: FakeTelegram) -> None:
    """A server that cannot be reached: try again, all chats, no attempt spent."""
    async with transport(fake, base_url=NOWHERE) as telegram:
        outcome = await telegram.send(row(1))
    assert isinstance(outcome, TryAgain)
    assert outcome.whole_transport
    assert not outcome.costs_attempt


async def test_an_address_of_the_wrong_form_locks_the_transport(fake: FakeTelegram) -> None:
    """A server address that is none is for the operator, not for retries."""
    async with transport(fake, base_url="nonsense") as telegram:
        assert isinstance(await telegram.send(row(1)), Locked)


async def test_being_cancelled_is_not_an_outcome(fake: FakeTelegram) -> None:
    """A send that is called off while it waits raises, and the row stays claimed."""
    ines = fake.private("Ines")
    fake.inject("hang")
    async with transport(fake) as telegram:
        sending = asyncio.create_task(telegram.send(row(ines)))
        await asyncio.to_thread(fake.wait, "held", 1)
        sending.cancel()
        with pytest.raises(asyncio.CancelledError):
            await sending
    fake.release()
