"""Cooks: one log each, versions that fence, rooms, and caches that may vanish."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

import pytest

from bot.chat import Address
from bot.ports import Apply, CookWrite, DueRow
from bot.store import SqlStore, errors
from scheduler.facts import BODIES, Corrected, Reading, Slot
from tests.contract.written import INES, NOON, SHED, TOMAS, after, fact, message, new_cook, next_write
from tests.unit.bot.store.bodies import ONE_OF_EACH


def test_an_unknown_cook_is_none(store: SqlStore) -> None:
    """A cook that was never written is not there."""
    assert store.cook("supper") is None


def test_a_new_cook_has_version_one_its_room_and_its_log(store: SqlStore) -> None:
    """What was written comes back as the same values."""
    first = fact(answers=("light@1",), message="memory:ines:4")
    assert store.apply(new_cook(facts=(first,)))
    cook = store.cook("supper")
    assert cook is not None
    assert (cook.version, cook.open, cook.rooms, cook.facts) == (1, True, (INES,), (first,))


def test_every_body_comes_back_equal(store: SqlStore, reopen: Callable[[], SqlStore]) -> None:
    """One fact of every kind and version survives being stored, also inside a correction."""
    corrections = tuple(
        Corrected(of="f0", body=body, happened_at=after(minutes=3)) for body in ONE_OF_EACH if body.kind != "corrected"
    )
    facts = tuple(fact(f"f{at}", body) for at, body in enumerate((*ONE_OF_EACH, *corrections)))
    assert store.apply(new_cook(facts=facts))
    cook = reopen().cook("supper")
    assert cook is not None
    assert cook.facts == facts
    assert {(one.body.kind, one.body.version) for one in cook.facts} == set(BODIES)


def test_instants_come_back_in_utc_to_the_microsecond(store: SqlStore) -> None:
    """A fact dated in another zone is the same instant in UTC."""
    there = dt.datetime(2026, 9, 12, 14, 0, 0, 123_456, tzinfo=dt.timezone(dt.timedelta(hours=2)))
    store.apply(new_cook(facts=(fact(happened_at=there),)))
    cook = store.cook("supper")
    assert cook is not None
    assert cook.facts[0].happened_at == there
    assert cook.facts[0].happened_at.tzinfo is dt.UTC


def test_a_naive_instant_is_refused(store: SqlStore) -> None:
    """An instant without a zone is never stored."""
    with pytest.raises(Exception, match="naive instant"):
        store.apply(new_cook(facts=(fact(happened_at=dt.datetime(2026, 9, 12)),)))  # noqa: DTZ001 -- naive on purpose
    assert store.cook("supper") is None


def test_the_log_keeps_the_order_of_writing(store: SqlStore) -> None:
    """Facts come in the order in which they were written down, not in the order of their instants."""
    store.apply(new_cook(facts=(fact("b", happened_at=after(hours=2)), fact("a"))))
    store.apply(next_write(1, facts=(fact("c", happened_at=after(hours=-1)),)))
    cook = store.cook("supper")
    assert cook is not None
    assert [one.id for one in cook.facts] == ["b", "a", "c"]
    assert cook.version == 2


@pytest.mark.parametrize("expected", [0, 1, 3])
def test_a_write_on_another_version_is_a_conflict(store: SqlStore, expected: int) -> None:
    """It returns False and nothing of it is written, messages included."""
    store.apply(new_cook())
    store.apply(next_write(1))
    stale = CookWrite(cook="supper", expected_version=expected, facts=(fact(),))
    assert not store.apply(Apply(now=NOON, cooks=(stale,), outbox=(message("m1"),)))
    cook = store.cook("supper")
    assert cook is not None
    assert (cook.version, cook.facts) == (2, ())
    assert store.outbox_counts()["waiting"] == 0


def test_two_cooks_are_written_together_or_not_at_all(store: SqlStore) -> None:
    """A conflict on the second cook undoes the first."""
    store.apply(new_cook("supper"))
    store.apply(new_cook("lunch"))
    writes = (CookWrite(cook="supper", expected_version=1), CookWrite(cook="lunch", expected_version=9))
    assert not store.apply(Apply(now=NOON, cooks=writes))
    cook = store.cook("supper")
    assert cook is not None
    assert cook.version == 1


def test_the_same_fact_twice_is_an_error(store: SqlStore) -> None:
    """Ids of facts are unique for ever; writing one again raises, and writes nothing."""
    store.apply(new_cook(facts=(fact("f1"),)))
    with pytest.raises(errors.BrokenWrite):
        store.apply(next_write(1, facts=(fact("f2"), fact("f1"))))
    cook = store.cook("supper")
    assert cook is not None
    assert (cook.version, len(cook.facts)) == (1, 1)


def test_recent_cooks_are_listed_newest_first_over_or_not(store: SqlStore) -> None:
    """What a room cooked last is found also when it is over; other rooms see nothing of it."""
    store.apply(new_cook())
    store.apply(next_write(1, open=False))
    store.apply(new_cook("lunch", add_rooms=(INES, SHED)))
    assert store.recent_cooks(INES, 5) == ("lunch", "supper")
    assert store.recent_cooks(INES, 1) == ("lunch",)
    assert store.recent_cooks(SHED, 5) == ("lunch",)


def test_open_cooks_are_listed_newest_first_and_by_room(store: SqlStore) -> None:
    """A closed cook is left out; a room sees the cooks it follows, a topic being a room of its own."""
    store.apply(new_cook("supper"))
    store.apply(new_cook("lunch", add_rooms=(INES, SHED)))
    store.apply(new_cook("burnt", open=False))
    assert store.open_cooks() == ("lunch", "supper")
    assert store.open_cooks(INES) == ("lunch", "supper")
    assert store.open_cooks(SHED) == ("lunch",)
    assert store.open_cooks(Address(transport="memory", chat="shed")) == ()


def test_a_room_follows_once_and_keeps_its_place(store: SqlStore) -> None:
    """The room in which a cook was started stays the first."""
    store.apply(new_cook())
    store.apply(next_write(1, add_rooms=(TOMAS, INES)))
    cook = store.cook("supper")
    assert cook is not None
    assert cook.rooms == (INES, TOMAS)


# --- caches ---------------------------------------------------------------------------------------------------------


def due(prompt: str, minutes: float) -> DueRow:
    """Return a due row some minutes after noon."""
    return DueRow(prompt=prompt, due_at=after(minutes=minutes))


def test_due_cooks_are_open_and_come_longest_due_first(store: SqlStore) -> None:
    """Only open cooks with something due count, at the very instant too."""
    store.apply(new_cook("supper", due=(due("spritz", 10), due("wrap", 50))))
    store.apply(new_cook("lunch", due=(due("pull", 5),)))
    store.apply(new_cook("burnt", due=(due("pull", 1),), open=False))
    assert store.next_due_at() == after(minutes=5)
    assert store.due_cooks(after(minutes=4)) == ()
    assert store.due_cooks(after(minutes=10)) == ("lunch", "supper")


def test_a_schedule_is_replaced_left_or_emptied(store: SqlStore) -> None:
    """None leaves the cached schedule, rows replace it, an empty tuple empties it."""
    store.apply(new_cook(due=(due("spritz", 10),)))
    store.apply(next_write(1))
    assert store.next_due_at() == after(minutes=10)
    store.apply(next_write(2, due=(due("spritz", 30), due("spritz", 45), due("spritz", 30))))
    assert store.next_due_at() == after(minutes=30)
    store.apply(next_write(3, due=()))
    assert store.next_due_at() is None


def test_caches_are_stale_after_a_fact_or_another_engine(store: SqlStore) -> None:
    """A cook is uncached until its caches match its log and the engine that asks."""
    reading = fact("f2", Reading(slot=Slot.CORE, value_c=71.0))
    store.apply(new_cook(facts=(fact("f1"),)))
    assert store.uncached_cooks("1") == ("supper",)
    store.apply(next_write(1, due=(due("wrap", 50),), outlook={"wrap": [1.5, 2.0]}, engine="1"))
    assert store.uncached_cooks("1") == ()
    assert store.uncached_cooks("2") == ("supper",)
    store.apply(next_write(2, facts=(reading,)))
    assert store.uncached_cooks("1") == ("supper",)
    store.apply(next_write(3, facts=(fact("f3"),), due=(), engine="1"))
    assert store.uncached_cooks("1") == ()
    assert store.outlook("supper") == {"wrap": [1.5, 2.0]}


def test_dropped_caches_are_gone_and_the_log_is_not(store: SqlStore) -> None:
    """What can be computed again is deleted, nothing else."""
    store.apply(new_cook(facts=(fact("f1"),), due=(due("wrap", 50),), outlook={"wrap": []}, engine="1"))
    before = store.cook("supper")
    store.drop_caches()
    assert (store.next_due_at(), store.outlook("supper")) == (None, None)
    assert store.uncached_cooks("1") == ("supper",)
    assert store.cook("supper") == before
