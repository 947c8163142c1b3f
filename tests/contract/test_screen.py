"""Screens: shown once per message, read from where one left off; and how others are noticed."""

from __future__ import annotations

from collections.abc import Callable

from bot.store import SqlStore
from tests.contract.written import NOON, after, message, put


def show(store: SqlStore, key: str, chat: str = "ines", minutes: float = 0) -> int:
    """Show a message with two choices."""
    return store.show(
        chat=chat,
        outbox_key=key,
        text=f"text of {key}",
        choices=(("done", "t1"), ("skip", "t2")),
        at=after(minutes=minutes),
    )


def test_a_message_is_shown_once(store: SqlStore) -> None:
    """Showing the same outbox key again gives the same row; another window has its own."""
    first = show(store, "m1")
    assert show(store, "m1", minutes=5) == first
    assert show(store, "m1", chat="tomas") != first
    (row,) = store.screen("ines")
    assert (row.id, row.text, row.at, row.shown) == (first, "text of m1", NOON, False)
    assert row.choices == (("done", "t1"), ("skip", "t2"))


def test_a_window_reads_on_from_where_it_was(store: SqlStore) -> None:
    """Rows come oldest first, after the row id given."""
    ids = [show(store, key) for key in ("m1", "m2", "m3")]
    assert [row.id for row in store.screen("ines")] == ids
    assert [row.id for row in store.screen("ines", after=ids[0])] == ids[1:]
    assert store.screen("wren") == ()


def test_what_was_printed_is_remembered(store: SqlStore) -> None:
    """Up to the row named, in this window only."""
    ids = [show(store, key) for key in ("m1", "m2", "m3")]
    show(store, "m1", chat="tomas")
    store.mark_shown("ines", ids[1], NOON)
    assert [row.shown for row in store.screen("ines")] == [True, True, False]
    assert [row.shown for row in store.screen("tomas")] == [False]


def test_the_writing_of_others_is_noticed(store: SqlStore, reopen: Callable[[], SqlStore]) -> None:
    """The counter stands still while nobody writes, through reading too, and moves when somebody did."""
    other = reopen()
    before = store.change_counter()
    other.inbox_waiting()
    assert store.change_counter() == before
    put(other, message("m1"))
    noticed = store.change_counter()
    assert noticed != before
    assert store.change_counter() == noticed
