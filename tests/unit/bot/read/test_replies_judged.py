"""Replies that were written and judged before the reader was tried on them: variants of the table of a hundred."""

from __future__ import annotations

import csv

import pytest

from tests.unit.bot.conversation.spoken import ROOT
from tests.unit.bot.read.moments import celsius, heard

TABLE = ROOT / "tests" / "data" / "replies_judged.csv"
FREE = "*"
"""A field that may reasonably be either."""
VARIANTS = 3


def _rows() -> list[dict[str, str]]:
    lines = [line for line in TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def _minutes(typed: str) -> int | None:
    return int(typed) if typed not in ("", FREE) else None


def _wrong(row: dict[str, str]) -> list[str]:
    """Return what differs from the row, field by field."""
    found = heard(row["text"], row["options"]).as_values()
    wanted: dict[str, object] = {
        "core_c": [celsius(one) for one in row["core"].split() if one != FREE],
        "pit_c": [celsius(one) for one in row["pit"].split() if one != FREE],
        "minutes_ago": _minutes(row["minutes_ago"]),
        "duration_min": _minutes(row["duration_min"]),
    }
    columns = {"core_c": "core", "pit_c": "pit"}
    differs = [
        f"{name} {found[name]}"
        for name, value in wanted.items()
        if row[columns.get(name, name)] != FREE and found[name] != value
    ]
    if found["intent"] not in row["intent"].split():
        differs.append(f"intent {found['intent']}")
    if row["asks"] != FREE and (found["question"] is not None) != (row["asks"] == "y"):
        differs.append(f"question {found['question']}")
    return differs


@pytest.mark.parametrize("row", _rows(), ids=lambda row: f"{row['n']} {row['text']}")
def test_a_reply_is_read_as_it_was_judged(row: dict[str, str]) -> None:
    """Intent, readings, times and whether anything is asked are those of the row."""
    assert _wrong(row) == []


def test_every_row_of_the_hundred_has_its_variants() -> None:
    """No kind of reply is left out."""
    of_rows = [int(row["of_row"]) for row in _rows()]
    assert {n: of_rows.count(n) >= VARIANTS for n in range(1, 101)} == dict.fromkeys(range(1, 101), True)
