"""The blocks of the record's pages: headings, lines, lines to write on, rows of a table. Each knows its height.

Black lines and letters only; what a block says was decided before.
"""

from __future__ import annotations

import dataclasses
from typing import Any, Protocol

from bot.papers.letters import BOLD, PLAIN, broken, printable, width

_LEADING = 1.2
_PAD = 2.5
"""Air on each side of a cell [pt]."""
_MOST_LINES = 24
"""Lines of a cell that are printed: no row is higher than a page; the file has the rest."""


class Block(Protocol):
    """A part of a page, as high as it says [pt]."""

    @property
    def height(self) -> float:
        """Return how high it is [pt]."""

    def draw(self, canvas: Any, left: float, top: float) -> None:  # noqa: ANN401 - the library ships no types
        """Draw it down from `top`."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Gap:
    """Air."""

    height: float

    def draw(self, canvas: Any, left: float, top: float) -> None:  # noqa: ANN401 - the library ships no types
        """Draw nothing."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Head:
    """A heading."""

    text: str
    size: float

    @property
    def height(self) -> float:
        """Return one line and a little air."""
        return self.size * _LEADING + 3.0

    def draw(self, canvas: Any, left: float, top: float) -> None:  # noqa: ANN401 - the library ships no types
        """Draw it."""
        canvas.setFont(BOLD, self.size)
        canvas.drawString(left, top - self.size, printable(self.text))


@dataclasses.dataclass(frozen=True, kw_only=True)
class Lines:
    """Sentences one below the other, broken where they are longer than a line."""

    lines: tuple[str, ...]
    room: float
    size: float
    dash: bool = False

    @property
    def _indent(self) -> float:
        return 8.0 if self.dash else 0.0

    @property
    def _broken(self) -> list[str]:
        room = self.room - self._indent
        return [line for text in self.lines for line in broken(printable(text), PLAIN, self.size, room)]

    @property
    def height(self) -> float:
        """Return all lines."""
        return len(self._broken) * self.size * _LEADING + 2.0

    def draw(self, canvas: Any, left: float, top: float) -> None:  # noqa: ANN401 - the library ships no types
        """Draw them."""
        canvas.setFont(PLAIN, self.size)
        if self.dash:
            canvas.drawString(left, top - self.size, "-")
        for number, line in enumerate(self._broken):
            canvas.drawString(left + self._indent, top - self.size - number * self.size * _LEADING, line)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Write:
    """One or two labels beside one another, each with a line to write on."""

    labels: tuple[str, ...]
    room: float
    height: float = 18.0

    def draw(self, canvas: Any, left: float, top: float) -> None:  # noqa: ANN401 - the library ships no types
        """Draw them."""
        share = self.room / len(self.labels)
        canvas.setLineWidth(0.5)
        canvas.setFont(BOLD, 9.0)
        for number, label in enumerate(self.labels):
            text, start = printable(label), left + number * share
            canvas.drawString(start, top - 14.0, text)
            end = start + share - (8.0 if number < len(self.labels) - 1 else 0.0)
            canvas.line(start + width(text, BOLD, 9.0) + 6.0, top - 15.5, end, top - 15.5)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Sign:
    """Two lines to sign and date on."""

    left: str
    right: str
    room: float
    height: float = 42.0

    def draw(self, canvas: Any, left: float, top: float) -> None:  # noqa: ANN401 - the library ships no types
        """Draw them."""
        canvas.setLineWidth(0.6)
        for start, end, label in ((0.0, 0.64, self.left), (0.70, 1.0, self.right)):
            canvas.line(left + start * self.room, top - 28.0, left + end * self.room, top - 28.0)
            canvas.setFont(PLAIN, 8.0)
            canvas.drawString(left + start * self.room, top - 38.0, printable(label))


@dataclasses.dataclass(frozen=True, kw_only=True)
class TableRow:
    """A row of a table, as high as its highest cell, with a thin line below."""

    cells: tuple[str, ...]
    shares: tuple[float, ...]
    room: float
    size: float
    bold: bool = False
    bold_cells: frozenset[int] = frozenset()
    struck: bool = False
    """Struck through: it was withdrawn, and is still to be read."""
    leads: bool = False
    """True for a row that never stands last on a page."""

    def _face(self, number: int) -> str:
        return BOLD if self.bold or number in self.bold_cells else PLAIN

    @property
    def _broken(self) -> list[list[str]]:
        return [
            broken(printable(cell), self._face(number), self.size, share * self.room - 2 * _PAD)[:_MOST_LINES]
            for number, (cell, share) in enumerate(zip(self.cells, self.shares, strict=True))
        ]

    @property
    def height(self) -> float:
        """Return the highest cell and a little air."""
        return max(1, *(len(lines) for lines in self._broken), 1) * self.size * _LEADING + 3.5

    def draw(self, canvas: Any, left: float, top: float) -> None:  # noqa: ANN401 - the library ships no types
        """Draw it."""
        x = left
        canvas.setLineWidth(0.4)
        last = len(self.cells) - 1
        for number, (lines, share) in enumerate(zip(self._broken, self.shares, strict=True)):
            canvas.setFont(self._face(number), self.size)
            for line_number, line in enumerate(lines):
                y = top - self.size - 1.0 - line_number * self.size * _LEADING
                canvas.drawString(x + _PAD, y, line)
                if self.struck and number != last:
                    end = x + _PAD + width(line, self._face(number), self.size)
                    canvas.line(x + _PAD, y + self.size * 0.3, end, y + self.size * 0.3)
            x += share * self.room
        canvas.setLineWidth(0.9 if self.bold else 0.3)
        canvas.line(left, top - self.height, left + self.room, top - self.height)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Table:
    """Rows under a title, and under a head that is repeated on every page."""

    title: Head | None = None
    head: TableRow
    rows: tuple[Block, ...]
