"""Reads the rows of a log: their time, temperatures and events.

Rows may come in any order; minute 0 is meat on. Of a malformed row only the events are kept.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import math
import re
from collections.abc import Mapping, Sequence

from bot.backtest.events import Event, MeatOn, read_events
from bot.backtest.figures import MEAT_HIGHEST_C, PIT_HIGHEST_C, temp_c, temp_read
from bot.backtest.log import Notice, Row, Trouble
from scheduler.units import c_from_f

LONGEST_MIN = 14 * 24 * 60.0
"""No cook lasts longer: such a minute is a slip [min]."""
_MINUTE = re.compile(r"[+-]?[0-9]{1,12}(?:[.,][0-9]+)?")
_CLOCK = re.compile(r"T?[0-9]{1,2}[:.][0-9]{2}(?:[:.][0-9]{2})?(?: ?[ap]\.?m\.?)?", re.IGNORECASE)
_DATE_ALONE = 10
"""So many characters are a date without a time."""
_SHOWN = 40


class RowReader:
    """Takes the rows of one log, and gives them back in time order with what could not be used."""

    def __init__(self, *, columns: Mapping[str, int], width: int, unit: str) -> None:
        self._columns = columns
        self._width = width
        self._unit = unit
        self._rows: list[Row] = []
        self._first_at: dt.datetime | None = None
        self._notices: list[Notice] = []

    def take(self, line: int, cells: Sequence[str]) -> None:
        """Read one row that is not blank; its minute is as counted in the log, or since the first time in it."""
        minute = self._minute(line, cells)
        if minute is None:
            return
        core_c, core_bad = self._temp(cells, "core", MEAT_HIGHEST_C)
        pit_c, pit_bad = self._temp(cells, "pit", PIT_HIGHEST_C)
        if bad := core_bad or pit_bad:
            self._note(bad[0], line, bad[1])
            core_c = pit_c = None
        cells, more = self._spilled(cells)
        events, unknown = read_events(self._cell(cells, "event"), self._unit)
        events += more
        for words in unknown:
            self._note(Trouble.EVENT, line, words)
        if extra := [cell for cell in cells[self._width :] if cell]:
            self._note(Trouble.EXTRA_CELLS, line, ", ".join(extra))
        self._rows.append(Row(line=line, minute=minute, core_c=core_c, pit_c=pit_c, events=events))

    def finish(self) -> tuple[tuple[Row, ...], dt.datetime | None, list[Notice]]:
        """Return the rows in time order, the wall time of meat on (None: only minutes are known), and the notices."""
        rows = sorted(self._rows, key=lambda row: row.minute)
        ons = [row for row in rows if MeatOn() in row.events]
        for row in ons[1:]:
            self._note(Trouble.SECOND_ON, row.line, "on")
        begun = ons or (rows if self._first_at is not None else [])
        on_min = begun[0].minute if begun else 0.0
        rows = [dataclasses.replace(row, minute=round(row.minute - on_min, 6)) for row in rows]
        if early := [row.line for row in rows if row.minute < 0 and row.core_c is not None]:
            self._note(Trouble.BEFORE_ON, min(early), str(len(early)))
        on_at = None if self._first_at is None else self._first_at + dt.timedelta(minutes=on_min)
        return tuple(rows), on_at, self._notices

    def _minute(self, line: int, cells: Sequence[str]) -> float | None:
        """Return the minute of a row; None when it has no readable time, which is noted."""
        if "minute" in self._columns:
            text = self._cell(cells, "minute")
            minute = float(text.replace(",", ".")) if _MINUTE.fullmatch(text) else None
        else:
            text = self._cell(cells, "at")
            at = _instant(text)
            if at is not None and self._first_at is not None and (at.tzinfo is None) != (self._first_at.tzinfo is None):
                self._note(Trouble.ZONE, line, text)
                return None
            if at is None and _CLOCK.fullmatch(text):
                self._note(Trouble.NO_DATE, line, text)
                return None
            self._first_at = self._first_at or at
            minute = None if at is None or self._first_at is None else (at - self._first_at) / dt.timedelta(minutes=1)
        if minute is None:
            self._note(Trouble.TIME, line, text)
        elif abs(minute) > LONGEST_MIN:
            self._note(Trouble.TOO_LONG, line, text)
            return None
        return minute

    def _temp(
        self, cells: Sequence[str], slot: str, highest_c: float
    ) -> tuple[float | None, tuple[Trouble, str] | None]:
        """Return a temperature [°C], None for no value, and what is no temperature and why.

        Of two filled columns the one in the unit of the log counts.
        """
        value_c = None
        for unit in ("C", "F") if self._unit == "F" else ("F", "C"):
            text = self._cell(cells, f"{slot}_{unit.casefold()}")
            if text:
                value_c = temp_c(text, unit, highest_c)
                if value_c is None:
                    return None, _no_temp(text, unit, slot, highest_c)
        return value_c, None

    def _spilled(self, cells: Sequence[str]) -> tuple[Sequence[str], tuple[Event, ...]]:
        """Return the cells without those beyond the last column that hold events, and these events.

        Somebody parted events with a comma and did not quote the cell.
        """
        more: list[Event] = []
        left = list(cells[: self._width])
        for cell in cells[self._width :]:
            events, unknown = read_events(cell, self._unit)
            ours = self._columns.get("event") == self._width - 1 and not unknown
            more.extend(events if ours else ())
            left.append("" if ours else cell)
        return left, tuple(more)

    def _cell(self, cells: Sequence[str], column: str) -> str:
        place = self._columns.get(column)
        return cells[place] if place is not None and place < len(cells) else ""

    def _note(self, trouble: Trouble, line: int, words: str) -> None:
        self._notices.append(Notice(trouble=trouble, line=line, words=words[:_SHOWN]))


def _no_temp(text: str, unit: str, slot: str, highest_c: float) -> tuple[Trouble, str]:
    """Return why a text is no temperature of the meat or the pit, and the words to say it with."""
    read = temp_read(text, unit)
    if read is None:
        return Trouble.TEMPERATURE, text
    value, meant = read
    said = f"{value:g} {meant}"
    if temp_c(f"{value:.6f}", meant, math.inf) is None:
        return Trouble.TOO_COLD, said
    if slot == "pit":
        return Trouble.PIT_TOO_HOT, said
    return (Trouble.CORE_PERHAPS_F if meant == "C" and c_from_f(value) <= highest_c else Trouble.CORE_TOO_HOT), said


def _instant(text: str) -> dt.datetime | None:
    """Return a time of ISO 8601, None when it is none or names a day alone."""
    try:
        return dt.datetime.fromisoformat(text) if len(text) > _DATE_ALONE else None
    except ValueError:
        return None
