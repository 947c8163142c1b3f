"""Claim and fence: who may send what, when, and what each outcome makes of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

import pytest

from bot.chat import Address, Locked, OutgoingKind, Rejected, Sent, TryAgain, Unknown, Unreachable
from bot.ports import Apply, RoomWrite
from bot.store import SqlStore
from tests.contract.sending import attempt, claim, keys
from tests.contract.written import INES, LEASE, NOON, SHED, TOMAS, after, edit, message, put

SECOND = dt.timedelta(seconds=1)


def wait(seconds: float, **changes: bool) -> TryAgain:
    """Return the outcome that asks to come back."""
    return TryAgain(wait=dt.timedelta(seconds=seconds), why="later", **changes)


# --- order ----------------------------------------------------------------------------------------------------------


def test_one_message_per_address_in_order_of_writing(store: SqlStore) -> None:
    """The next one of an address comes only after the one before was recorded."""
    put(store, message("i1"), message("i2"), message("t1", TOMAS))
    first, other = claim(store)
    assert keys((first, other)) == ["i1", "t1"]
    assert claim(store) == ()
    store.record(first, Sent(ref="1"), NOON)
    assert keys(claim(store)) == ["i2"]


def test_a_topic_is_an_address_of_its_own(store: SqlStore) -> None:
    """The group and its topic do not wait for one another."""
    put(store, message("m1", SHED), message("m2", SHED), message("m3", INES))
    assert keys(claim(store)) == ["m1", "m3"]


def test_the_limit_holds(store: SqlStore) -> None:
    """No more rows are claimed than asked for; the others stay free for another courier."""
    put(store, message("i1"), message("t1", TOMAS), message("s1", SHED))
    assert keys(claim(store, limit=2)) == ["i1", "t1"]
    assert keys(claim(store, owner="second")) == ["s1"]


def test_urgent_ones_go_first(store: SqlStore) -> None:
    """Over all addresses, and before what waits for the same address."""
    put(store, message("t1", TOMAS), message("i1"), message("i2", urgent=True))
    assert keys(claim(store)) == ["i2", "t1"]
    assert store.outbox_counts()["waiting"] == 1


def test_an_urgent_one_waits_for_the_one_under_way(store: SqlStore) -> None:
    """Two messages to one address are never on their way at once."""
    put(store, message("i1"))
    (under_way,) = claim(store)
    put(store, message("i2", urgent=True))
    assert claim(store) == ()
    store.record(under_way, Sent(), NOON)
    assert keys(claim(store)) == ["i2"]


def test_an_urgent_one_does_not_jump_a_back_off(store: SqlStore) -> None:
    """The wait that the other side asked of a chat holds for everything in it."""
    put(store, message("i1"))
    attempt(store, wait(30))
    put(store, message("i2", urgent=True))
    assert claim(store, after(seconds=29)) == ()
    assert keys(attempt(store, Sent(), after(seconds=30 + at)) for at in range(2)) == ["i2", "i1"]


def test_only_the_transports_asked_for_are_claimed(store: SqlStore) -> None:
    """Messages for a transport that nobody serves wait."""
    put(store, message("m1"))
    assert claim(store, transports=("telegram",)) == ()
    assert store.next_send_at(["telegram"]) is None
    assert keys(claim(store)) == ["m1"]


# --- fence ----------------------------------------------------------------------------------------------------------


def test_a_lease_that_ran_out_counts_as_unknown(store: SqlStore) -> None:
    """The message comes back, marked, with the next attempt; the late record of the first is void."""
    put(store, message("m1"))
    (lost,) = claim(store)
    assert claim(store, NOON + LEASE - SECOND) == ()
    (again,) = claim(store, NOON + LEASE, owner="second")
    assert (again.outgoing.key, again.attempt, again.outgoing.possible_repeat) == ("m1", 2, True)
    assert not store.record(lost, Rejected(why="too late"), NOON + LEASE)
    assert store.record(again, Sent(ref="2"), NOON + LEASE)
    assert not store.record(again, Sent(ref="3"), NOON + LEASE)
    counts = store.outbox_counts()
    assert (counts["sent"], counts["parked"], counts["possible_repeat"]) == (1, 0, 1)


def test_a_late_record_counts_while_nobody_else_has_claimed(store: SqlStore) -> None:
    """A slow answer is still an answer."""
    put(store, message("m1"))
    (row,) = claim(store)
    assert store.record(row, Sent(ref="1"), after(hours=1))
    assert store.outbox_counts()["possible_repeat"] == 0


def test_whoever_knows_that_the_couriers_are_dead_need_not_wait(
    store: SqlStore, reopen: Callable[[], SqlStore]
) -> None:
    """After `end_leases` for a transport its rows under way come back at once, those of others do not."""
    put(store, message("m1"))
    claim(store)
    successor = reopen()
    successor.end_leases(["telegram"], after(seconds=1))
    assert claim(successor, after(seconds=1)) == ()
    successor.end_leases(["memory"], after(seconds=1))
    (again,) = claim(successor, after(seconds=1))
    assert again.outgoing.possible_repeat


def test_a_courier_that_dies_again_and_again_loses_nothing(store: SqlStore) -> None:
    """It may have died before sending each time: the message is never taken for sent, and waits longer each time."""
    put(store, message("m1"))
    now, waits = NOON, []
    for _death in range(6):
        assert keys(claim(store, now)) == ["m1"]
        store.end_leases(["memory"], now)
        again_at = max(now, store.next_send_at(["memory"]) or now)
        waits.append(again_at - now)
        now = again_at
    assert waits == sorted(waits)
    assert waits[0] == dt.timedelta(0) < waits[1] < waits[-1]
    row = attempt(store, Sent(ref="1"), now)
    assert (row.outgoing.key, row.outgoing.possible_repeat) == ("m1", True)


def test_a_message_that_always_brings_death_is_parked(store: SqlStore) -> None:
    """After a dozen deaths it is kept for the operator, with the reason, and the next one goes."""
    put(store, message("m1"), message("m2"))
    deaths, now = 0, NOON
    while (rows := claim(store, now)) and keys(rows) == ["m1"]:
        deaths += 1
        store.end_leases(["memory"], now)
        now = max(now, store.next_send_at(["memory"]) or now)
    assert keys(rows) == ["m2"]
    assert (deaths, store.outbox_counts()["parked"]) == (12, 1)


# --- outcomes -------------------------------------------------------------------------------------------------------


def test_a_certain_failure_is_tried_again_after_its_wait(store: SqlStore) -> None:
    """Not before, not as a possible repeat, and before what was written later for the address."""
    put(store, message("m1"), message("m2"))
    attempt(store, wait(30))
    assert store.next_send_at(["memory"]) == after(seconds=30)
    assert claim(store, after(seconds=29)) == ()
    row = attempt(store, Sent(), after(seconds=30))
    assert (row.outgoing.key, row.attempt, row.outgoing.possible_repeat) == ("m1", 2, False)


@pytest.mark.parametrize(("costs", "state"), [(True, "parked"), (False, "waiting")])
def test_a_message_is_parked_after_many_failures_of_its_own(store: SqlStore, costs: bool, state: str) -> None:
    """A rate limit costs no attempt and never parks anything."""
    put(store, message("m1"))
    for at in range(12):
        attempt(store, wait(1, costs_attempt=costs), after(seconds=at))
    assert store.outbox_counts()[state] == 1


def test_a_whole_transport_can_pause(store: SqlStore) -> None:
    """All its chats wait, even those that were never tried; of two pauses the later end holds."""
    put(store, message("i1"), message("t1", TOMAS), message("x1", SHED))
    first, second, _ = claim(store)
    store.record(first, wait(60, whole_transport=True, costs_attempt=False), NOON)
    store.record(second, wait(20, whole_transport=True), NOON)
    put(store, message("n1", Address(transport="memory", chat="new")))
    assert claim(store, after(seconds=59)) == ()
    assert store.next_send_at(["memory"]) == after(seconds=60)
    assert keys(claim(store, after(seconds=60))) == ["i1", "t1", "x1", "n1"]


def test_a_transport_that_refuses_us_waits_until_it_is_cleared(store: SqlStore) -> None:
    """Nothing is lost and nothing tried meanwhile; another transport goes on."""
    elsewhere = Address(transport="terminal", chat="ines")
    put(store, message("m1"), message("e1", elsewhere))
    attempt(store, Locked(why="unauthorised"))
    assert store.next_send_at(["memory"]) is None
    assert claim(store, after(hours=100)) == ()
    assert keys(claim(store, transports=("memory", "terminal"))) == ["e1"]
    store.clear_pause("memory")
    assert keys(claim(store)) == ["m1"]


def test_clearing_does_not_end_a_rate_limit(store: SqlStore) -> None:
    """A restart is no way round what the other side asked for."""
    put(store, message("m1"))
    attempt(store, wait(60, whole_transport=True))
    put(store, message("t1", TOMAS))
    store.clear_pause("memory")
    assert claim(store, after(seconds=59)) == ()


def test_a_refused_message_is_parked_and_the_next_one_goes(store: SqlStore) -> None:
    """What can never be sent does not stop its chat."""
    put(store, message("m1"), message("m2"))
    attempt(store, Rejected(why="text is too long"))
    assert keys(claim(store)) == ["m2"]
    assert store.outbox_counts()["parked"] == 1


def test_an_unknown_fate_is_repeated_once_and_marked(store: SqlStore) -> None:
    """The repeat comes after a short wait and says what it may be; a second unknown ends it."""
    put(store, message("m1"), message("m2"))
    attempt(store, Unknown(why="answer lost"))
    at = store.next_send_at(["memory"])
    assert at is not None
    assert NOON < at <= after(minutes=1)
    assert claim(store) == ()
    row = attempt(store, Unknown(why="answer lost"), at)
    assert (row.outgoing.key, row.outgoing.possible_repeat) == ("m1", True)
    assert keys(claim(store, after(hours=1))) == ["m2"]
    assert store.outbox_counts()["possible_repeat"] == 1


def test_an_edit_of_unknown_fate_is_simply_sent_again(store: SqlStore) -> None:
    """It is the same however often it arrives: no mark, growing waits, an end after many."""
    put(store, edit("e1", "m1"))
    waits = []
    now = NOON
    while rows := claim(store, now):
        assert not rows[0].outgoing.possible_repeat
        store.record(rows[0], Unknown(why="answer lost"), now)
        at = store.next_send_at(["memory"])
        if at is None:
            break
        waits.append(at - now)
        now = at
    assert waits == sorted(waits)
    assert len(waits) == 11
    assert store.outbox_counts()["parked"] == 1


@pytest.mark.parametrize(
    "outcome",
    [wait(1), Unknown(why="?"), Unreachable(why="?"), Locked(why="?"), wait(1, costs_attempt=False)],
    ids=lambda outcome: type(outcome).__name__,
)
def test_the_answer_to_a_tap_is_never_tried_twice(
    store: SqlStore, outcome: TryAgain | Unknown | Unreachable | Locked
) -> None:
    """Whoever pressed the button has stopped waiting: it is dropped."""
    put(store, message("a1", kind=OutgoingKind.TAP_ANSWER, target="tap"))
    attempt(store, outcome)
    assert store.outbox_counts()["dropped"] == 1


def test_a_lost_answer_to_a_tap_is_dropped(store: SqlStore) -> None:
    """So is one whose courier died with it."""
    put(store, message("a1", kind=OutgoingKind.TAP_ANSWER, target="tap"))
    claim(store)
    assert claim(store, NOON + LEASE) == ()
    assert store.outbox_counts()["dropped"] == 1


def test_what_is_no_longer_of_use_is_dropped(store: SqlStore) -> None:
    """At its last useful instant it still goes; after it the next one goes instead."""
    put(store, message("m1", useful_until=after(seconds=10)), message("m2", TOMAS, useful_until=after(seconds=10)))
    put(store, message("m3"))
    assert keys(claim(store, after(seconds=10), limit=1)) == ["m1"]
    assert keys(claim(store, after(seconds=11))) == []
    assert store.outbox_counts()["dropped"] == 1


def test_a_blocked_chat_comes_back_with_what_waited(store: SqlStore) -> None:
    """Held messages are not dropped, parked or reordered, however long it takes."""
    put(store, message("m1"), message("m2"))
    attempt(store, Unreachable(why="blocked"))
    assert claim(store, after(hours=500)) == ()
    store.apply(Apply(now=NOON, rooms=(RoomWrite(address=INES),)))
    assert keys(attempt(store, Sent(), after(hours=501)) for _ in range(2)) == ["m1", "m2"]


# --- when to come again ---------------------------------------------------------------------------------------------


def test_the_next_instant_follows_leases_and_back_offs(store: SqlStore) -> None:
    """Nothing waiting: None. Waiting: at once. Under way: when its lease ends."""
    assert store.next_send_at(["memory"]) is None
    put(store, message("m1"), message("m2"))
    at = store.next_send_at(["memory"])
    assert at is not None
    assert at <= NOON
    (row,) = claim(store)
    assert store.next_send_at(["memory"]) == NOON + LEASE
    put(store, message("t1", TOMAS))
    assert store.next_send_at(["memory"]) == NOON
    store.record(row, Sent(), NOON)
