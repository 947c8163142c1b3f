"""Cooks as text: two tables, one of cooks with their truth, one of what was typed. The same cooks give the same text.

It decides nothing.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from tests.virtual_kitchen.cook import TRUTHS_F, Cook
from tests.virtual_kitchen.warming import Rise

COOK_COLUMNS = (
    "id",
    "family",
    "cut",
    "said",
    "told_kg",
    "told_mm",
    "told_pit_f",
    "told_wrap",
    "target_f",
    "unit",
    *(f"f{target}_min" for target in TRUTHS_F),
    "tender_min",
    "evaporated_pct",
    "stall_begin_min",
    "stall_end_min",
    "wrap",
    "wrap_min",
    "true_kg",
    "true_mm",
)
LOG_COLUMNS = ("id", "minute", "core_f", "core_c", "pit_f", "event", "slip")
RISE_COLUMNS = ("id", "kind", "set_f", "mark_f", "crossing_min", "readings")


def _number(value: float | None, places: int = 0) -> str:
    return "" if value is None else f"{value:.{places}f}"


def cook_fields(cook: Cook) -> list[str]:
    """Return the row of one cook."""
    truth = cook.truth
    return [
        cook.id,
        cook.family,
        cook.cut,
        cook.said,
        cook.told_kg,
        cook.told_mm,
        str(cook.told_pit_f),
        cook.told_wrap,
        str(cook.target_f),
        "F" if cook.fahrenheit else "C",
        *(_number(truth.crossings[target]) for target in TRUTHS_F),
        _number(truth.tender_min),
        _number(100 * truth.evaporated, 1),
        _number(truth.stall_begin_min),
        _number(truth.stall_end_min),
        truth.wrap,
        "" if truth.wrap_min is None else str(truth.wrap_min),
        _number(truth.true_kg, 2),
        _number(truth.true_mm),
    ]


def log_fields(cook: Cook) -> list[list[str]]:
    """Return the rows of what was typed in one cook."""
    return [[cook.id, str(row.minute), row.core_f, row.core_c, row.pit_f, row.event, row.slip] for row in cook.rows]


def rise_fields(one: Rise) -> list[str]:
    """Return the row of one pit on its way up."""
    read = " ".join(f"{minute:.1f}:{value:.0f}" for minute, value in one.readings)
    return [one.id, one.kind, str(one.set_f), str(one.mark_f), f"{one.crossing_min:.1f}", read]


def table(notes: Iterable[str], columns: Iterable[str], rows: Iterable[list[str]]) -> str:
    """Return a table with its notes on top."""
    out = io.StringIO()
    out.writelines(f"# {note}\n" for note in notes)
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return out.getvalue()
