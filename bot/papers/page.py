"""The plan as one A5 page to tape up beside the cooker: black on white, times large, never a second page.

It must not drop a safety limit: when there is too much, the least important rows of the plan go first.
"""

from __future__ import annotations

import dataclasses
import io

from reportlab.lib.pagesizes import A5
from reportlab.pdfgen.canvas import Canvas

from bot.messages import papers as words
from bot.papers.blocks import Block, Bullets, Columns, Heading, Notes, Pieces, Rule, Title
from bot.papers.letters import BOLD, lacking, printable
from bot.papers.rows import MUST
from bot.papers.sheet import PlanSheet
from bot.papers.times import Times, merged

WIDTH, HEIGHT = A5
"""148 by 210 mm (ISO 216), in points of 1/72 inch."""

MARGIN = 22.0
ROOM = WIDTH - 2 * MARGIN
GAP = 10.0
SIZES = ((12.5, 9.0), (12.0, 8.5), (11.5, 8.5), (11.5, 8.0), (11.0, 8.0), (11.0, 7.5))
"""Letter sizes of the times and of the lower half [pt], tried in turn until every row that must be done has room; the
times are never smaller than the last, so that they can be read from a metre."""


_MOST_LISTED = (12, 6, 3)
"""Most watches and vent marks that are printed, tried in turn."""

_TABLE_UP_TO = 4
"""Pieces that have a table; of more the rows of the plan need its room."""

_FEWEST_ROWS = 10
"""With so many rows of the plan nothing else is cut."""

_LONGEST = 120
"""Letters of a vent mark that are printed."""


def page(sheet: PlanSheet) -> bytes:
    """Return the plan as a PDF of one A5 page, the same bytes for the same sheet."""
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=A5, invariant=1, pageCompression=1)
    canvas.setTitle(printable(f"{sheet.title}, {words.issue_line(sheet.sequence, sheet.issued_at, sheet.voice)}"))
    canvas.setAuthor("Slowbell")
    top = HEIGHT - MARGIN
    for block in laid_out(sheet, top - MARGIN):
        top -= block.draw(canvas, MARGIN, top)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def laid_out(sheet: PlanSheet, height: float) -> list[Block]:
    """Return the blocks of the page from the top; together they are at most `height` high [pt].

    First letters become smaller, then rows of the plan are left out, and only where that is not enough watches and
    vent marks are cut; limits and cautions never are.
    """
    arranged: list[_Arranged] = []
    for most in _MOST_LISTED:
        shorter = _shortened(sheet, most)
        wanted = sum(row.weight <= MUST for row in merged(shorter))
        for large, small in SIZES:
            arranged.append(_arranged(shorter, height, large, small))
            if arranged[-1].times.count >= wanted:
                return _with_notes(arranged[-1], height)
        if arranged[-1].times.count >= _FEWEST_ROWS:
            break
    return _with_notes(arranged[-1], height)


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Arranged:
    """A page as it could be."""

    head: list[Block]
    times: Times
    foot: list[Block]

    @property
    def height(self) -> float:
        """Return how high it is [pt]."""
        return _high(self.head) + self.times.height + _high(self.foot)


def _arranged(sheet: PlanSheet, height: float, large: float, small: float) -> _Arranged:
    head: list[Block] = [Title(sheet=sheet, room=ROOM)]
    if 1 < len(sheet.pieces) <= _TABLE_UP_TO:
        head.append(Pieces(sheet=sheet, room=ROOM))
    foot = _foot(sheet, small)
    return _Arranged(head=head, times=Times.fitting(sheet, ROOM, height - _high(head) - _high(foot), large), foot=foot)


def _with_notes(arranged: _Arranged, height: float) -> list[Block]:
    notes = Notes.fitting(ROOM, height - arranged.height)
    return [*arranged.head, arranged.times, *arranged.foot, *([notes] if notes is not None else [])]


def _shortened(sheet: PlanSheet, most: int) -> PlanSheet:
    """Return the sheet with at most so many watches and vent marks, each vent mark in bounds."""
    vents = tuple(text if len(text) <= _LONGEST else f"{text[:_LONGEST]}…" for text in sheet.vents[:most])
    return dataclasses.replace(sheet, wake=sheet.wake[:most], vents=vents)


def _foot(sheet: PlanSheet, size: float) -> list[Block]:
    """Return the lower half: limits on the left, what to do alone and whom to wake on the right, vents where there is
    room; fire below.
    """
    names = words.headings()
    half = (ROOM - GAP) / 2
    voice = sheet.voice
    watch = tuple(words.wake_line(one.name, one.start, one.end, voice) for one in sheet.wake)
    limits = _block(names["limits"], sheet.limits, size, half)
    silent = _block(names["silent"], sheet.silent, size, half)
    wake = _block(names["wake"], (*watch, *sheet.deaf, sheet.wake_if), size, half)
    vents = _block(names["vents"], sheet.vents, size, half) if sheet.vents else []
    shift = half + GAP
    columns = min(
        Columns(left=[*limits, *vents], right=[*silent, *wake], shift=shift),
        Columns(left=limits, right=[*silent, *wake, *vents], shift=shift),
        key=lambda arranged: arranged.height,
    )
    fire: list[Block] = [
        Heading(text=names["fire"], size=size),
        Bullets(lines=sheet.fire, size=size, room=ROOM, first=BOLD),
    ]
    blocks: list[Block] = [Rule(room=ROOM), columns, *fire]
    if _has_unknown_letters(sheet):
        blocks.append(Bullets(lines=(names["letters"],), size=size, room=ROOM))
    return blocks


def _block(heading: str, lines: tuple[str, ...], size: float, room: float) -> list[Block]:
    return [Heading(text=heading, size=size), Bullets(lines=lines, size=size, room=room)]


def _has_unknown_letters(sheet: PlanSheet) -> bool:
    said = [sheet.title, *sheet.vents, *sheet.silent, *(one.name for one in sheet.wake)]
    said += [text for row in sheet.rows for text in (row.title, row.note, row.who or "")]
    return any(lacking(text) for text in said)


def _high(blocks: list[Block]) -> float:
    return sum(block.height for block in blocks)
