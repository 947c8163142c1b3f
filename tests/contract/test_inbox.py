"""The inbox: accepted once, kept in order, worked on once."""

from __future__ import annotations

from collections.abc import Callable

from bot.ports import Apply
from bot.store import SqlStore
from tests.contract.written import NOON, after, message, new_cook


def accept(store: SqlStore, key: str, source: str = "telegram", minutes: float = 0) -> bool:
    """Accept an update whose content names its key."""
    return store.accept(source=source, key=key, raw={"text": f"on {key}"}, received_at=after(minutes=minutes))


def test_an_update_is_accepted_once_per_source_and_key(store: SqlStore) -> None:
    """The second delivery of an update is refused; the same key of another source is another update."""
    assert accept(store, "1")
    assert not accept(store, "1")
    assert accept(store, "1", source="terminal")
    assert [row.source for row in store.inbox_waiting()] == ["telegram", "terminal"]


def test_a_repeat_does_not_change_what_was_stored(store: SqlStore) -> None:
    """The first content of an update stays."""
    accept(store, "1")
    store.accept(source="telegram", key="1", raw={"text": "other"}, received_at=after(hours=1))
    (row,) = store.inbox_waiting()
    assert (row.raw, row.received_at) == ({"text": "on 1"}, NOON)


def test_an_accepted_update_survives_everything_but_the_disk(store: SqlStore, reopen: Callable[[], SqlStore]) -> None:
    """After `accept` has returned, another process reads the row."""
    accept(store, "1")
    assert [row.key for row in reopen().inbox_waiting()] == ["1"]


def test_updates_wait_in_order_of_acceptance(store: SqlStore) -> None:
    """Rows come back oldest first, as many as asked for."""
    for key in ("30", "4", "100"):
        accept(store, key)
    assert [row.key for row in store.inbox_waiting(limit=2)] == ["30", "4"]


def test_done_is_done_once(store: SqlStore) -> None:
    """A decision on a row that was worked on already is a conflict, and nothing of it is written."""
    accept(store, "1")
    (row,) = store.inbox_waiting()
    assert store.apply(Apply(now=NOON, inbox_done=row.id, inbox_result="done"))
    assert store.inbox_waiting() == ()
    assert not store.apply(Apply(now=NOON, inbox_done=row.id, outbox=(message("late"),)))
    assert store.outbox_counts()["waiting"] == 0


def test_a_conflict_leaves_the_update_waiting(store: SqlStore) -> None:
    """When the cook has moved on, the update is still to be worked on."""
    accept(store, "1")
    store.apply(new_cook())
    (row,) = store.inbox_waiting()
    again = new_cook()
    assert not store.apply(Apply(now=NOON, inbox_done=row.id, cooks=again.cooks))
    assert store.inbox_waiting() == (row,)


def test_the_newest_acceptance_of_each_source_is_known(store: SqlStore) -> None:
    """It is asked for per source, and is None for a source never heard."""
    accept(store, "1", minutes=1)
    accept(store, "2", minutes=5)
    accept(store, "3", source="terminal", minutes=9)
    assert store.last_received_at("telegram") == after(minutes=5)
    assert store.last_received_at("radio") is None


def test_half_a_character_can_be_stored(store: SqlStore) -> None:
    """A lone surrogate, which no text encoding can hold, comes back as it was sent."""
    store.accept(source="telegram", key="1", raw={"text": "\ud83d"}, received_at=NOON)
    assert store.inbox_waiting()[0].raw == {"text": "\ud83d"}
