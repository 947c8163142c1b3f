"""The rows of the plan on the page: times large, by day, in one column or two; the least important ones left out.

What is never left out stands in the weight of a row; nothing is decided here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Any

from bot.messages import papers as words
from bot.papers.letters import BOLD, PLAIN, printable, shortened, width
from bot.papers.rows import Row
from bot.papers.sheet import PlanSheet

_DAY, _MORE = 12.0, 11.0
"""Height of the heading of a day, and of the line about what was left out [pt]."""
_BETWEEN = 10.0
_LAST_RESORT = {"bark_check": 4, "tender_test": 3, "second_spot": 3, "light": 2, "pull": 1}
"""What goes first of the rows that should never go, where a page is far too full."""
_NOTE, _SMALLEST = 9.0, 8.0
"""Letters of a note, and the smallest of what is done [pt]."""
_LONGEST_TOGETHER = 26
"""Letters of a row that names several pieces; where it is longer each has a row of its own."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Line:
    """One printed row."""

    day: str
    """Heading of its day."""
    time: str
    what: str
    behind: str
    must: bool
    """True for what decides the cook: printed bold."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Times:
    """The rows of the plan, by day, times large enough to be read from a metre."""

    columns: tuple[tuple[Line, ...], ...]
    room: float
    size: float
    count: int
    left_out: int

    @classmethod
    def fitting(cls, sheet: PlanSheet, room: float, height: float, size: float) -> Times:
        """Return the rows that fit into `height` [pt] in letters of `size`, the least important ones left out.

        There is one column where all fit, else two, with the notes short; of several pieces always two, without what
        stands in the table of the pieces.
        """
        several = len(sheet.pieces) > 1
        wide = None if several else cls._within(sheet, room, height, size, halves=False)
        if wide is not None and not wide.left_out:
            return wide
        return cls._within(sheet, room, height, size, halves=True)

    @classmethod
    def _within(cls, sheet: PlanSheet, room: float, height: float, size: float, *, halves: bool) -> Times:
        rows = merged(sheet)
        all_of_them, several = len(rows), len(sheet.pieces) > 1
        while True:
            lines = tuple(_line(row, sheet, brief=several, narrow=halves) for row in rows)
            times = cls(
                columns=_halves(lines) if halves else (lines,),
                room=room,
                size=size,
                count=len(rows),
                left_out=all_of_them - len(rows),
            )
            if times.height <= height or not rows:
                return times
            rows.remove(max(rows, key=lambda row: (row.weight, _LAST_RESORT.get(row.step, 0), row.at)))

    @property
    def height(self) -> float:
        """Return the higher column, and the line about what was left out."""
        high = max((self._high(column) for column in self.columns), default=0.0)
        return high + (_MORE if self.left_out else 0.0) + 4.0

    @property
    def _pitch(self) -> float:
        return self.size * 1.3

    def _high(self, column: tuple[Line, ...]) -> float:
        days = len(dict.fromkeys(line.day for line in column))
        return len(column) * self._pitch + days * _DAY

    def draw(self, canvas: Any, left: float, top: float) -> float:  # noqa: ANN401 - the library ships no types
        """Draw it."""
        room = (self.room - _BETWEEN * (len(self.columns) - 1)) / len(self.columns)
        for number, column in enumerate(self.columns):
            self._column(canvas, column, left + number * (room + _BETWEEN), top, room)
        if self.left_out:
            canvas.setFont(PLAIN, 8.0)
            text = words.headings()["more"].format(count=self.left_out)
            canvas.drawString(left, top - self.height + 6.0, printable(text))
        return self.height

    def _column(self, canvas: Any, column: tuple[Line, ...], left: float, top: float, room: float) -> None:  # noqa: ANN401 - the library ships no types
        y, day = top, ""
        clock = width("00:00", BOLD, self.size) + 7.0
        for line in column:
            if line.day != day:
                day = line.day
                y -= _DAY
                canvas.setFont(BOLD, 8.5)
                canvas.drawString(left, y + 1.5, day)
            y -= self._pitch
            canvas.setFont(BOLD, self.size)
            canvas.drawString(left, y + 3.0, line.time)
            self._words(canvas, line, left + clock, y + 3.0, room - clock)

    def _words(self, canvas: Any, line: Line, left: float, y: float, room: float) -> None:  # noqa: ANN401 - the library ships no types
        face, size = BOLD if line.must else PLAIN, self.size - 2.0
        note = shortened(line.behind, PLAIN, _NOTE, room * 0.55)
        aside = width(note, PLAIN, _NOTE) + (6.0 if note else 0.0)
        while size > _SMALLEST and width(line.what, face, size) > room - aside:
            size -= 0.5
        canvas.setFont(face, size)
        canvas.drawString(left, y, shortened(line.what, face, size, room - aside))
        if note:
            canvas.setFont(PLAIN, _NOTE)
            canvas.drawRightString(left + room, y, note)


def merged(sheet: PlanSheet) -> list[Row]:
    """Return the rows as they are printed: what is done to several pieces at once is one line, named by its pieces."""
    together: dict[tuple[str, dt.datetime], list[Row]] = {}
    for row in sheet.rows:
        together.setdefault((row.step, row.at), []).append(row)
    found = []
    for rows in together.values():
        names = tuple(row.piece for row in rows if row.piece is not None)
        everything = len(names) >= len(sheet.pieces)
        title = words.row_title(rows[0].step, rows[0].title, () if everything else names)
        notes = {row.note for row in rows}
        note = rows[0].note if len(notes) == 1 else ""
        if everything or len(names) <= 1 or len(title) <= _LONGEST_TOGETHER:
            found.append(dataclasses.replace(rows[0], title=title, note=note))
        else:
            for row, name in zip(rows, names, strict=True):
                found.append(dataclasses.replace(row, title=words.row_title(row.step, row.title, (name,))))
    return found


def _line(row: Row, sheet: PlanSheet, *, brief: bool, narrow: bool) -> Line:
    local = row.at.astimezone(sheet.zone)
    note = row.short if narrow else row.note
    notes = (row.who or "",) if brief else (note, row.who or "")
    return Line(
        day=printable(words.day_heading(local)),
        time=f"{local:%H:%M}",
        what=printable(row.title),
        behind=printable(" · ".join(part for part in notes if part)),
        must=row.weight == 0,
    )


def _halves(lines: tuple[Line, ...]) -> tuple[tuple[Line, ...], ...]:
    half = (len(lines) + 1) // 2
    return (lines[:half], lines[half:])
