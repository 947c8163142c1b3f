"""Reads the CSV text of a past cook into a log.

It opens no file. What cannot be used is named by its line and left out; only a log without a usable row is refused.
"""

from __future__ import annotations

import csv
import dataclasses
import re
from collections.abc import Mapping

from bot.backtest.figures import mass_kg, pit_band_c, thickness_m, wrap_of
from bot.backtest.log import Head, Log, Notice, Trouble
from bot.backtest.rows import RowReader

_COLUMNS = ("minute", "at", "core_f", "core_c", "pit_f", "pit_c", "event")
_ALSO = {"minutes": "minute", "events": "event"}
_HEAD = frozenset({"cut", "mass", "thickness", "pit", "wrap"})
_KEYS = {"weight": "mass"}
_HEADER_LINE = re.compile(r"#+\s*(?P<key>[A-Za-z][A-Za-z _-]{0,30}?)\s*[:=]\s*(?P<value>.*)")
_DELIMITERS = (",", ";", "\t")
_UNDECIDED = frozenset({"?", "undecided", "unknown", "open"})
_SHOWN = 80
"""Longer lines are named by their beginning [characters]."""


def read_log(text: str) -> Log | Notice:
    """Read the text of a log; return it, or why nothing in it can be used."""
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    above: list[tuple[int, str]] = []
    for number, line in enumerate(lines, start=1):
        bare = line.strip(" ,;\t")
        if bare.strip('"').startswith("#"):
            above.append((number, bare.strip('" ,;\t')))
        elif bare:
            return _read(above, lines, number)
    return Notice(trouble=Trouble.NO_COLUMNS)


def _read(above: list[tuple[int, str]], lines: list[str], top: int) -> Log | Notice:
    """Read the log whose column names stand in line `top`."""
    titles = lines[top - 1]
    delimiter = max(_DELIMITERS, key=lambda one: len(_columns(titles, one)))
    columns = _columns(titles, delimiter)
    if not columns.keys() & {"minute", "at"} or not columns.keys() & {"core_f", "core_c"}:
        return Notice(trouble=Trouble.NO_COLUMNS, line=top, words=titles.strip()[:_SHOWN])
    unit = "F" if "core_f" in columns else "C"
    head, notices = _head(above, unit)
    reader = RowReader(columns=columns, width=len(_cells(titles, delimiter)), unit=unit)
    for number, line in enumerate(lines[top:], start=top + 1):
        cells = _cells(line, delimiter)
        if any(cells) and not cells[0].startswith("#"):
            reader.take(number, cells)
    rows, on_at, troubles = reader.finish()
    notices = sorted((*notices, *troubles), key=lambda notice: notice.line or 0)
    if not any(row.core_c is not None and row.minute >= 0 for row in rows):
        return Notice(trouble=Trouble.NO_ROW, because=tuple(notices))
    return Log(head=head, rows=rows, unit=unit, on_at=on_at, notices=tuple(notices))


def _cells(line: str, delimiter: str) -> list[str]:
    """Return the cells of one line; each line is read by itself, so that a lost quote spoils one row and no more."""
    try:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=delimiter), [])]
    except csv.Error:  # longer than any cell may be
        return [line[:_SHOWN]]


def _columns(line: str, delimiter: str) -> Mapping[str, int]:
    """Return the place of each known column, the first where a name stands twice."""
    names = ["_".join(cell.casefold().split()) for cell in _cells(line, delimiter)]
    found = [(_ALSO.get(name, name), place) for place, name in enumerate(names)]
    return {name: place for name, place in reversed(found) if name in _COLUMNS}


def _head(above: list[tuple[int, str]], unit: str) -> tuple[Head, list[Notice]]:
    """Return what the lines above the column names tell, and those that tell nothing known."""
    head, notices = Head(), []
    for number, line in above:
        found = _HEADER_LINE.fullmatch(line)
        if found is None:  # prose
            continue
        key, value = found["key"].casefold(), found["value"].strip()
        key = _KEYS.get(key, key)
        told = _told(head, key, value, unit) if value else head
        if told is None:
            notices.append(Notice(trouble=Trouble.HEADER_UNREADABLE, line=number, words=line.lstrip("# ")[:_SHOWN]))
        elif key not in _HEAD:
            notices.append(Notice(trouble=Trouble.HEADER_UNKNOWN, line=number, words=found["key"]))
        head = told or head
    return head, notices


def _told(head: Head, key: str, value: str, unit: str) -> Head | None:
    """Return the head with what one line tells, the same for a key that is not known, None when it cannot be read."""
    match key:
        case "cut":
            return dataclasses.replace(head, cut=value)
        case "mass":
            mass = mass_kg(value)
            return None if mass is None else dataclasses.replace(head, mass_kg=mass)
        case "thickness":
            thickness = thickness_m(value)
            return None if thickness is None else dataclasses.replace(head, thickness_m=thickness)
        case "pit":
            band = pit_band_c(value, unit)
            return None if band is None else dataclasses.replace(head, pit_c=band)
        case "wrap" if value.casefold() not in _UNDECIDED:
            wrap = wrap_of(value)
            return None if wrap is None else dataclasses.replace(head, wrap=wrap)
        case _:
            return head
