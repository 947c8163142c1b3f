"""Near relatives of the hundred replies: what other people would have typed in their place."""

from __future__ import annotations

import csv

import pytest

from tests.unit.bot.conversation.spoken import ROOT
from tests.unit.bot.read.moments import celsius, heard

TABLE = ROOT / "tests" / "data" / "replies_near.csv"


def _rows() -> list[dict[str, str]]:
    lines = [line for line in TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


@pytest.mark.parametrize("row", _rows(), ids=lambda row: f"{row['text']} {row['options']}")
def test_a_near_relative_is_understood_as_well(row: dict[str, str]) -> None:
    """Intent, readings and times are those of the table, and something is asked only where it says so."""
    found = heard(row["text"], row["options"]).as_values()
    asks = found.pop("question") is not None
    assert found == {
        "intent": row["intent"],
        "core_c": [celsius(one) for one in row["core"].split()],
        "pit_c": [celsius(one) for one in row["pit"].split()],
        "minutes_ago": int(row["minutes_ago"]) if row["minutes_ago"] else None,
        "duration_min": int(row["duration_min"]) if row["duration_min"] else None,
    }
    assert asks == bool(row["asks"])


def test_the_relatives_are_many() -> None:
    """There are hundreds of them, each once."""
    keys = [(row["text"], row["options"]) for row in _rows()]
    assert len(keys) == len(set(keys)) > 300
