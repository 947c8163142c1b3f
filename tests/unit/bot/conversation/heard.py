"""Rows of a table of replies as people type them, and what is wrong with how one was understood.

It holds no expectations; those stand in tests/data.
"""

from __future__ import annotations

import argparse
import csv
import datetime as dt
import re
from pathlib import Path

from bot.catalogue import open_catalogue
from bot.read.command import moment_of
from bot.read.meaning import Understood, understand
from tests.unit.bot.conversation.spoken import DAY, ROOT, ZONE

NOW = dt.datetime.combine(DAY, dt.time(12), dt.UTC)
SOME_MIN = 0.6
"""Less long ago than this is now [min]."""
EXACT_C = 0.07
CATALOGUE = open_catalogue(Path(ROOT / "no such folder")).catalogue

Row = dict[str, str]


def rows(name: str) -> list[Row]:
    """Return the rows of a table in tests/data, lines of comment apart."""
    lines = (ROOT / "tests" / "data" / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def name_of(row: Row) -> str:
    """Return how a test of a row is called."""
    return f"{row['slot']} {row['unit'] or '-'} {row['text']}"


def heard(row: Row) -> Understood:
    """Return how a reply is understood, as the command `read` would be asked."""
    given = argparse.Namespace(
        text=[row["text"]],
        slot=row["slot"],
        unit=row["unit"] or None,
        stage=row["stage"],
        now=row["now"],
        last=[f"core={row['last']}"] if row["last"] else None,
        pit_target=row["pit_target"] or None,
        json=True,
    )
    return understand(row["text"], moment_of(given, zone=ZONE, now=NOW), CATALOGUE)


def wrong(row: Row, found: Understood) -> list[str]:
    """Return what differs from the table, nothing when it is understood as the row says."""
    differs = [] if found.intent in row["intent"].split("|") else [f"intent {found.intent}"]
    for slot, values in (("core", found.core_c), ("pit", found.pit_c)):
        if not _values(row[slot], list(values)):
            differs.append(f"{slot} {values}")
    for name, minutes in (("minutes_ago", found.minutes_ago), ("duration_min", found.duration_min)):
        if not _minutes(row[name], minutes):
            differs.append(f"{name} {minutes}")
    if row["question"] != "*" and (row["question"] == "yes") != (found.question is not None):
        differs.append(f"question {found.question}")
    return differs


def _values(wanted: str, found: list[float]) -> bool:
    if wanted == "*":
        return True
    known = sorted(_within(one) for one in wanted.split())
    pairs = zip(known, sorted(found), strict=False)
    return len(known) == len(found) and all(abs(value - middle) <= half for (middle, half), value in pairs)


def _within(typed: str) -> tuple[float, float]:
    """Return middle and half width [°C] of "171F" or "179F±2"."""
    said = re.fullmatch(r"([0-9.]+)([FC])(?:±([0-9.]+))?", typed)
    assert said is not None, typed
    value, step = float(said[1]), float(said[3] or 0.0)
    return ((value - 32.0) / 1.8, step / 1.8 + EXACT_C) if said[2] == "F" else (value, step + EXACT_C)


def _minutes(wanted: str, found: float | None) -> bool:
    if wanted == "*":
        return True
    if not wanted:
        return found is None or found <= SOME_MIN
    middle, _, half = wanted.partition("±")
    return found is not None and abs(found - float(middle)) <= float(half or 0.0) + 0.1
