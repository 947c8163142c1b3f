"""Buttons side by side fit a phone held upright; their order, and so their letters in a terminal, stays."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from bot.commands import Note
from bot.messages.message import ROW_LETTERS, narrowed


@given(st.lists(st.lists(st.text("abc ", min_size=1, max_size=50), max_size=6), max_size=4))
def test_rows_are_broken_where_they_would_not_fit(labels: list[list[str]]) -> None:
    """No row of two or more is wider than a phone, none is empty, nothing is lost or moved."""
    rows = tuple(tuple((label, Note(text=label)) for label in row) for row in labels)
    fitting = narrowed(rows)
    assert [option for row in fitting for option in row] == [option for row in rows for option in row]
    assert all(fitting)
    assert all(len(row) == 1 or sum(len(label) for label, _meaning in row) <= ROW_LETTERS for row in fitting)
