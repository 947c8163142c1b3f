"""How fast a transport may be used."""

from __future__ import annotations

import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from bot.chat import Address
from bot.delivery.pace import BOT_API_PACE, UNHURRIED, Limiter

NOON = dt.datetime(2026, 9, 5, 12, 0, tzinfo=dt.UTC)
SECOND = dt.timedelta(seconds=1)
PRIVATE = Address(transport="telegram", chat="41")
GROUP = Address(transport="telegram", chat="-100")


def test_a_chat_waits_a_second_between_messages() -> None:
    """The second message to a chat may go one second after the first; another chat need not wait."""
    limiter = Limiter(BOT_API_PACE)
    limiter.use(PRIVATE, NOON)
    assert limiter.ready_at(PRIVATE, NOON) == NOON + SECOND
    assert limiter.ready_at(PRIVATE, NOON + SECOND) == NOON + SECOND
    assert limiter.ready_at(GROUP, NOON) == NOON


def test_a_group_takes_twenty_a_minute_over_all_its_topics() -> None:
    """The 21st message of a minute waits for the first to be a minute old, whatever the topic."""
    limiter = Limiter(BOT_API_PACE)
    for i in range(20):
        topic = Address(transport="telegram", chat=GROUP.chat, thread=i % 3)
        assert limiter.ready_at(topic, NOON + i * SECOND) == NOON + i * SECOND
        limiter.use(topic, NOON + i * SECOND)
    assert limiter.ready_at(GROUP, NOON + 20 * SECOND) == NOON + 60 * SECOND
    assert limiter.ready_at(PRIVATE, NOON + 20 * SECOND) == NOON + 20 * SECOND


def test_all_chats_together_take_twenty_five_a_second() -> None:
    """When the transport as a whole is used up, every chat waits."""
    limiter = Limiter(BOT_API_PACE)
    assert limiter.allowance(NOON) == 25
    for i in range(25):
        limiter.use(Address(transport="telegram", chat=str(i)), NOON)
    assert limiter.allowance(NOON) == 0
    assert limiter.overall_ready_at(NOON) == NOON + SECOND
    assert limiter.ready_at(PRIVATE, NOON) == NOON + SECOND
    assert limiter.allowance(NOON + SECOND) == 25


def test_what_is_no_message_does_not_hold_up_the_chat() -> None:
    """An answer to a button counts over all chats, not within its own."""
    limiter = Limiter(BOT_API_PACE)
    limiter.use(PRIVATE, NOON, counts_in_chat=False)
    assert limiter.ready_at(PRIVATE, NOON) == NOON
    assert limiter.allowance(NOON) == 24


def test_no_pace_is_no_limit() -> None:
    """A screen is never waited for."""
    limiter = Limiter(UNHURRIED)
    for _ in range(100):
        limiter.use(PRIVATE, NOON)
    assert limiter.allowance(NOON) is None
    assert limiter.ready_at(PRIVATE, NOON) == NOON


@given(
    steps=st.lists(
        st.tuples(st.floats(min_value=0, max_value=10), st.sampled_from(["41", "42", "-100", "-200"])),
        max_size=150,
    )
)
def test_obeying_it_keeps_every_limit(steps: list[tuple[float, str]]) -> None:
    """Whoever waits as told never passes a limit in any window of time, in any order of chats."""
    limiter = Limiter(BOT_API_PACE)
    now = NOON
    used: list[tuple[dt.datetime, str]] = []
    for wait_s, chat in steps:
        address = Address(transport="telegram", chat=chat)
        now = limiter.ready_at(address, now + dt.timedelta(seconds=wait_s))
        limiter.use(address, now)
        used.append((now, chat))
    for begin, chat in used:
        second = [one for at, one in used if begin <= at < begin + SECOND]
        minute = [one for at, one in used if begin <= at < begin + 60 * SECOND]
        assert len(second) <= 25
        assert second.count(chat) <= 1
        assert not chat.startswith("-") or minute.count(chat) <= 20


def test_a_message_of_a_chat_is_changed_once_in_fifteen_seconds() -> None:
    """Another chat need not wait, nor do messages; without such a limit nothing waits."""
    limiter = Limiter(BOT_API_PACE)
    limiter.use_edit(GROUP, NOON)
    assert limiter.edit_ready_at(GROUP, NOON + SECOND) == NOON + 15 * SECOND
    assert limiter.edit_ready_at(PRIVATE, NOON) == NOON
    assert limiter.ready_at(GROUP, NOON) == NOON
    limiter.use_edit(GROUP, NOON + 15 * SECOND)
    assert limiter.edit_ready_at(GROUP, NOON + 16 * SECOND) == NOON + 30 * SECOND
    free = Limiter(UNHURRIED)
    free.use_edit(GROUP, NOON)
    assert free.edit_ready_at(GROUP, NOON) == NOON
