"""Replies that are in no table of the trade: near relatives of each, and what is no reply at all."""

from __future__ import annotations

import pytest

from tests.unit.bot.conversation.heard import Row, heard, name_of, rows, wrong

TABLE = rows("replies_heard.csv")


@pytest.mark.parametrize("row", TABLE, ids=name_of)
def test_a_reply_is_understood_as_a_thoughtful_pitmaster_would(row: Row) -> None:
    """Every reply means what the table says: its kind, its readings, its times, and whether anything is asked."""
    assert wrong(row, heard(row)) == []


def test_the_table_is_large_and_covers_every_question() -> None:
    """Hundreds of replies to each kind of question are in it, in several languages, and none stands in it twice."""
    slots = {row["slot"] for row in TABLE}
    assert slots == {"core", "pit", "spritz", "wood", "fuel", "bark", "feel", "rest", "none"}
    keys = [(row["slot"], row["unit"], row["now"], row["text"]) for row in TABLE]
    assert len(set(keys)) == len(keys) >= 700


def test_talk_never_becomes_a_reading() -> None:
    """No reply that the table calls a note leaves a value behind."""
    talk = [heard(row) for row in TABLE if row["intent"] == "note"]
    assert len(talk) > 10
    assert all(not found.core_c and not found.pit_c for found in talk)
