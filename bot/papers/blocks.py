"""The blocks of the page: each knows its height before it is drawn, so that everything is measured to one page.

Black lines and letters only; what a block says was decided before.
"""

from __future__ import annotations

import dataclasses
import math
from typing import Any, Protocol

from bot.messages import papers as words
from bot.messages.figures import to_five
from bot.papers.letters import BOLD, PLAIN, broken, printable, shortened
from bot.papers.sheet import PlanSheet

_LEADING = 1.22
_INDENT = 8.0
_TABLE = 9.0
"""Letters of the table of pieces [pt]."""
_PITCH, _HEAD = 17.0, 14.0
"""From one line to write on to the next, and above the first [pt]."""


class Block(Protocol):
    """A part of the page, as high as it says [pt]."""

    @property
    def height(self) -> float:
        """Return how high it is [pt]."""

    def draw(self, canvas: Any, left: float, top: float) -> float:  # noqa: ANN401 - the library ships no types
        """Draw it down from `top`; return its height [pt]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Title:
    """What is cooked, when people eat, which issue this is, whose clock it follows."""

    sheet: PlanSheet
    room: float

    @property
    def _small(self) -> list[str]:
        sheet = self.sheet
        issue = words.issue_line(sheet.sequence, sheet.issued_at, sheet.voice)
        texts = [issue, words.zone_line(sheet.voice.zone), *([sheet.clock_change] if sheet.clock_change else [])]
        return [line for text in texts for line in broken(printable(text), PLAIN, 8.0, self.room)]

    @property
    def height(self) -> float:
        """Return two large lines and the small ones."""
        return 17.0 + 15.0 + len(self._small) * 10.0 + 6.0

    def draw(self, canvas: Any, left: float, top: float) -> float:  # noqa: ANN401 - the library ships no types
        """Draw it."""
        canvas.setFont(BOLD, 15.0)
        canvas.drawString(left, top - 13.0, shortened(printable(self.sheet.dinner), BOLD, 15.0, self.room))
        canvas.setFont(BOLD, 11.5)
        canvas.drawString(left, top - 28.0, shortened(printable(self.sheet.title), BOLD, 11.5, self.room))
        canvas.setFont(PLAIN, 8.0)
        for number, line in enumerate(self._small):
            canvas.drawString(left, top - 40.0 - number * 10.0, line)
        return self.height


@dataclasses.dataclass(frozen=True, kw_only=True)
class Pieces:
    """A small table of the pieces, when there are several."""

    sheet: PlanSheet
    room: float

    @property
    def _columns(self) -> tuple[float, ...]:
        return tuple(share * self.room for share in (0.0, 0.30, 0.45, 0.68, 0.87))

    @property
    def height(self) -> float:
        """Return the heading and a line for each piece."""
        return 12.0 * (1 + len(self.sheet.pieces)) + 5.0

    def draw(self, canvas: Any, left: float, top: float) -> float:  # noqa: ANN401 - the library ships no types
        """Draw it."""
        voice = self.sheet.voice
        table = [(BOLD, words.headings()["piece_columns"].split("|"))]
        for piece in self.sheet.pieces:
            off = words.short_window(piece.pull, voice)
            if piece.is_pulled and piece.pull.likely is not None:
                off = words.day_clock(to_five(piece.pull.likely), voice)
            table.append(
                (PLAIN, [piece.name, words.day_clock(to_five(piece.on_at), voice), off, piece.target, piece.wrap])
            )
        ends = (*self._columns[1:], self.room)
        for number, (font, cells) in enumerate(table):
            canvas.setFont(font, _TABLE)
            for at, end, cell in zip(self._columns, ends, cells, strict=True):
                text = shortened(printable(cell), font, _TABLE, end - at - 4.0)
                canvas.drawString(left + at, top - 9.5 - number * 12.0, text)
        return self.height


@dataclasses.dataclass(frozen=True, kw_only=True)
class Rule:
    """A line across."""

    room: float
    height: float = 7.0

    def draw(self, canvas: Any, left: float, top: float) -> float:  # noqa: ANN401 - the library ships no types
        """Draw it."""
        canvas.setLineWidth(0.8)
        canvas.line(left, top - 2.0, left + self.room, top - 2.0)
        return self.height


@dataclasses.dataclass(frozen=True, kw_only=True)
class Heading:
    """The heading of a block."""

    text: str
    size: float

    @property
    def height(self) -> float:
        """Return one line and a little air."""
        return self.size * _LEADING + 3.0

    def draw(self, canvas: Any, left: float, top: float) -> float:  # noqa: ANN401 - the library ships no types
        """Draw it."""
        canvas.setFont(BOLD, self.size)
        canvas.drawString(left, top - self.size, printable(self.text))
        return self.height


@dataclasses.dataclass(frozen=True, kw_only=True)
class Bullets:
    """Short sentences, one below the other, the first one in another face if wanted."""

    lines: tuple[str, ...]
    size: float
    room: float
    first: str = PLAIN

    @property
    def _broken(self) -> list[tuple[str, list[str]]]:
        faces = (self.first, *([PLAIN] * len(self.lines)))
        return [
            (face, broken(printable(text), face, self.size, self.room - _INDENT))
            for face, text in zip(faces, self.lines, strict=False)
        ]

    @property
    def height(self) -> float:
        """Return all lines and the air between the sentences."""
        return sum(len(lines) * self.size * _LEADING + 1.0 for _face, lines in self._broken) + 3.0

    def draw(self, canvas: Any, left: float, top: float) -> float:  # noqa: ANN401 - the library ships no types
        """Draw it."""
        y = top
        for face, lines in self._broken:
            canvas.setFont(face, self.size)
            canvas.drawString(left, y - self.size, "-")
            for line in lines:
                canvas.drawString(left + _INDENT, y - self.size, line)
                y -= self.size * _LEADING
            y -= 1.0
        return self.height


@dataclasses.dataclass(frozen=True, kw_only=True)
class Columns:
    """Two columns of blocks beside one another."""

    left: list[Block]
    right: list[Block]
    shift: float

    @property
    def height(self) -> float:
        """Return the higher of the two."""
        return max(sum(block.height for block in side) for side in (self.left, self.right))

    def draw(self, canvas: Any, left: float, top: float) -> float:  # noqa: ANN401 - the library ships no types
        """Draw it."""
        for blocks, shift in ((self.left, 0.0), (self.right, self.shift)):
            y = top
            for block in blocks:
                y -= block.draw(canvas, left + shift, y)
        return self.height


@dataclasses.dataclass(frozen=True, kw_only=True)
class Notes:
    """Empty lines to write readings on, where there is room."""

    room: float
    count: int

    @classmethod
    def fitting(cls, room: float, height: float) -> Notes | None:
        """Return as many lines as fit, None when there is not room for two."""
        count = math.floor((height - _HEAD) / _PITCH)
        return cls(room=room, count=min(count, 8)) if count >= 2 else None  # noqa: PLR2004 - one line is no table

    @property
    def height(self) -> float:
        """Return the heads of the columns and the lines."""
        return _HEAD + self.count * _PITCH

    def draw(self, canvas: Any, left: float, top: float) -> float:  # noqa: ANN401 - the library ships no types
        """Draw it."""
        columns = (0.0, 0.16, 0.30, 0.44)
        canvas.setFont(BOLD, 8.0)
        canvas.setLineWidth(0.4)
        for share, name in zip(columns, words.headings()["columns"].split("|"), strict=True):
            canvas.drawString(left + share * self.room, top - 10.0, printable(name))
        for number in range(1, self.count + 1):
            y = top - _HEAD - number * _PITCH
            canvas.line(left, y, left + self.room, y)
        for share in columns[1:]:
            x = left + share * self.room - 4.0
            canvas.line(x, top - 3.0, x, top - _HEAD - self.count * _PITCH)
        return self.height
