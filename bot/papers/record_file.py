"""The record as a table in a file: CSV of RFC 4180, for a spreadsheet or a program.

UTF-8 begins with a byte order mark, without which common spreadsheets take it for another code. A cell of people's own
words that a spreadsheet would compute is quoted with an apostrophe.
"""

from __future__ import annotations

import csv
import io
import unicodedata

from bot.messages import record as words
from bot.papers.record import EventRecord, RecordRow
from scheduler.safety.entries import Bound

COLUMNS = (
    "row", "time", "recorded", "piece", "what", "spot", "value_f", "value_c", "plus_minus_f", "plus_minus_c", "by",
    "limit", "side", "limit_f", "limit_c", "rules", "source", "meets", "corrective_action", "remarks",
)  # fmt: skip
"""The header row; `row` says what a row is: record, fill_in, piece, entry, finding, missing, limit or note."""

COMPUTED = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")  # noqa: RUF001 - wide forms are computed, too
"""A cell that begins so is computed by spreadsheets."""

Cells = dict[str, str]


def record_csv(record: EventRecord) -> bytes:
    """Return the record as CSV: a header row, one kind of row after the other, times in ISO 8601 with their offset."""
    buffer = io.StringIO(newline="")
    table = csv.DictWriter(buffer, COLUMNS, restval="", lineterminator="\r\n")
    table.writeheader()
    for cells in _rows(record):
        table.writerow({name: _safe(text) if name not in _FIGURES else text for name, text in cells.items()})
    return buffer.getvalue().encode("utf-8-sig")


_FIGURES = frozenset({"value_f", "value_c", "plus_minus_f", "plus_minus_c", "limit_f", "limit_c"})


def _safe(text: str) -> str:
    """Return a cell that is shown as it is: no control characters, nothing that is computed."""
    tidy = "".join(" " if unicodedata.category(char) == "Cc" else char for char in text)
    return f"'{tidy}" if tidy.lstrip().startswith(COMPUTED) else tidy


def _rows(record: EventRecord) -> list[Cells]:
    zone = record.zone
    rows: list[Cells] = [
        {"row": "record", "what": words.title(), "time": words.iso(record.made_at, zone), "remarks": record.cook},
        *(
            {"row": "fill_in", "what": name, "remarks": words.to_fill_in()}
            for names in words.blanks()
            for name in names
        ),
        *({"row": "record", "what": name, "remarks": told} for name, told in record.told),
    ]
    rows += [
        {
            "row": "piece", "piece": piece.name, "what": piece.what, **_limit(piece.minimum),
            "remarks": f"{piece.treated}; {piece.safety_class}; {piece.rest}; {piece.coldest}",
        }
        for piece in record.pieces
    ]  # fmt: skip
    rows += [_entry(row, zone) for row in record.rows]
    rows += [
        {
            "row": "finding", "time": words.iso(one.at, zone), "piece": one.piece, "what": f"{one.level}: {one.rule}",
            "corrective_action": one.ended, "remarks": "; ".join(text for text in (one.numbers, one.told) if text),
        }
        for one in record.findings
    ]  # fmt: skip
    rows += [{"row": "missing", "what": line} for line in record.missing]
    rows += [{"row": "limit", "what": name, **_limit(bound)} for name, bound in record.limits]
    rows += [{"row": "note", "what": line} for line in words.notes()]
    return rows


def _entry(row: RecordRow, zone: str) -> Cells:
    cells = {
        "row": "entry",
        "time": words.iso(row.at, zone),
        "recorded": words.iso(row.recorded_at, zone),
        "piece": row.piece,
        "what": row.what,
        "spot": row.spot,
        "by": row.by,
        "meets": row.meets,
        "corrective_action": row.action,
        "remarks": "; ".join(row.remarks),
        **(_limit(row.bound) if row.bound is not None else {}),
    }
    if row.value_c is not None:
        cells |= {
            "value_f": _figure(words.fahrenheit(row.value_c)),
            "value_c": _figure(row.value_c),
            "plus_minus_f": _figure(row.spread_c * words.F_PER_C),
            "plus_minus_c": _figure(row.spread_c),
        }
    return cells


def _limit(bound: Bound) -> Cells:
    return {
        "limit": words.limit_name(bound.name),
        "side": words.limit_words(bound),
        "limit_f": _figure(bound.limit_f),
        "limit_c": _figure(bound.limit_c),
        "rules": words.edition_words(bound.edition),
        "source": bound.source,
    }


def _figure(value: float) -> str:
    return f"{round(value, 1) + 0.0:.1f}"
