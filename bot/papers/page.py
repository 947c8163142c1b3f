"""The plan as one A5 page to tape up beside the cooker: black on white, times large, never a second page.

It must not drop a safety limit: when there is too much, the least important rows of the plan go first.
"""

from __future__ import annotations

import io

from reportlab.lib.pagesizes import A5
from reportlab.pdfgen.canvas import Canvas

from bot.messages import papers as words
from bot.papers.blocks import Block, Bullets, Columns, Heading, Notes, Pieces, Rule, Title
from bot.papers.letters import BOLD, lacking, printable
from bot.papers.sheet import PlanSheet
from bot.papers.times import Times, merged

WIDTH, HEIGHT = A5
"""148 by 210 mm (ISO 216), in points of 1/72 inch."""

MARGIN = 22.0
ROOM = WIDTH - 2 * MARGIN
GAP = 10.0
_SIZES = ((12.5, 9.0), (12.0, 8.5), (11.5, 8.5), (11.5, 8.0), (11.0, 8.0), (11.0, 7.5), (11.0, 7.0))
"""Letter sizes of the times and of the lower half [pt], tried in turn until enough rows have room; the times are never
smaller than the last, so that they can be read from a metre."""

_ROWS_WANTED = 16
"""Rows for which letters may become smaller; more are left out, the least important first."""


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
    """Return the blocks of the page from the top; together they are at most `height` high [pt]."""
    head: list[Block] = [Title(sheet=sheet, room=ROOM)]
    if len(sheet.pieces) > 1:
        head.append(Pieces(sheet=sheet, room=ROOM))
    wanted = min(_ROWS_WANTED, len(merged(sheet)))
    tried = []
    for large, small in _SIZES:
        foot = _foot(sheet, small)
        times = Times.fitting(sheet, ROOM, height - _high(head) - _high(foot), large)
        tried.append((times, foot))
        if times.count >= wanted:
            break
    times, foot = tried[-1]
    used = _high(head) + _high(foot) + times.height
    notes = Notes.fitting(ROOM, height - used)
    return [*head, times, *foot, *([notes] if notes is not None else [])]


def _foot(sheet: PlanSheet, size: float) -> list[Block]:
    """Return the lower half: limits and vents on the left, what to do alone and whom to wake on the right."""
    names = words.headings()
    half = (ROOM - GAP) / 2
    voice = sheet.voice
    left: list[Block] = [Heading(text=names["limits"], size=size), Bullets(lines=sheet.limits, size=size, room=half)]
    if sheet.vents:
        left += [Heading(text=names["vents"], size=size), Bullets(lines=sheet.vents, size=size, room=half)]
    right: list[Block] = [Heading(text=names["silent"], size=size), Bullets(lines=sheet.silent, size=size, room=half)]
    watch = tuple(words.wake_line(one.name, one.start, one.end, voice) for one in sheet.wake)
    right += [
        Heading(text=names["wake"], size=size),
        Bullets(lines=(*watch, sheet.wake_if), size=size, room=half),
    ]
    fire: list[Block] = [
        Heading(text=names["fire"], size=size),
        Bullets(lines=sheet.fire, size=size, room=ROOM, first=BOLD),
    ]
    blocks: list[Block] = [Rule(room=ROOM), Columns(left=left, right=right, shift=half + GAP), *fire]
    if _has_unknown_letters(sheet):
        blocks.append(Bullets(lines=(names["letters"],), size=size, room=ROOM))
    return blocks


def _has_unknown_letters(sheet: PlanSheet) -> bool:
    said = [sheet.title, *sheet.vents, *sheet.silent, *(one.name for one in sheet.wake)]
    said += [text for row in sheet.rows for text in (row.title, row.note, row.who or "")]
    return any(lacking(text) for text in said)


def _high(blocks: list[Block]) -> float:
    return sum(block.height for block in blocks)
