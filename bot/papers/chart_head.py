"""The head of the picture: the sentence about dinner with its sign, and what stands under it.

It places words and words nothing.
"""

from __future__ import annotations

import itertools

from bot.papers.chart_colours import Colour, Theme
from bot.papers.chart_drawing import Label, Shape, Sheet
from bot.papers.chart_marks import disc, square, triangle
from bot.papers.chart_scale import BODY, MARGIN, TITLE, WIDE
from bot.papers.chart_type import broken
from bot.papers.chart_values import ChartSheet, Tone

_SIGN = 84.0
_MOST_LINES, _MOST_NOTE_LINES = 3, 2
_SIZES = (TITLE, 52, 46)


def head(sheet: ChartSheet, colours: Theme, on: Sheet) -> float:
    """Place the head; return where it ends."""
    top = MARGIN
    left = MARGIN if sheet.tone is Tone.PLAIN else MARGIN + _SIGN + 26
    room = WIDE - MARGIN - left
    size = next(
        (s for s in _SIZES if len(broken(sheet.title, s, room, _MOST_LINES + 1, bold=True)) <= _MOST_LINES), _SIZES[-1]
    )
    lines = broken(sheet.title, size, room, _MOST_LINES, bold=True)
    step = round(size * 1.2)
    for n, line in enumerate(lines):
        on.write(
            Label(
                name="title", text=line, x=left, y=top + step * n + 0.8 * size, size=size, colour=colours.ink, bold=True
            )
        )
    if sheet.tone is not Tone.PLAIN:
        _sign(sheet.tone, MARGIN + _SIGN / 2, top + _SIGN / 2, colours, on)
    high = step * len(lines)
    bottom = top + (high if sheet.tone is Tone.PLAIN else max(high, _SIGN)) + 12
    for note in sheet.notes:
        for line in broken(note, BODY, WIDE - 2 * MARGIN, _MOST_NOTE_LINES):
            on.write(Label(name="note", text=line, x=MARGIN, y=bottom + 34, size=BODY, colour=colours.quiet))
            bottom += 50
    return bottom + 16


def _sign(tone: Tone, x: float, y: float, colours: Theme, on: Sheet) -> None:
    """Place the sign of how dinner stands: each has a shape of its own and a mark inside it."""
    name = f"tone_{tone.value}"
    ground = colours.paper
    if tone is Tone.GOOD:
        on.add(Shape(name=name, points=disc(x, y, _SIGN), fill=colours.good))
        tick = ((x - 20, y + 1), (x - 5, y + 17), (x + 22, y - 16))
        on.add(Shape(name=name, points=tick, edge=ground, width=11, closed=False))
    elif tone is Tone.UNSURE:
        on.add(Shape(name=name, points=square(x, y, _SIGN), fill=colours.unsure))
        _bar(name, ((x - 22, y + 6), (x - 8, y - 8), (x + 8, y + 8), (x + 22, y - 6)), ground, on)
    else:
        on.add(Shape(name=name, points=triangle(x, y + 8, _SIGN * 0.72), fill=colours.late))
        on.add(Shape(name=name, points=((x, y - 18), (x, y + 12)), edge=ground, width=10, closed=False))
        on.add(Shape(name=name, points=disc(x, y + 26, 12), fill=ground))


def _bar(name: str, points: tuple[tuple[float, float], ...], colour: Colour, on: Sheet) -> None:
    for start, end in itertools.pairwise(points):
        on.add(Shape(name=name, points=(start, end), edge=colour, width=11, closed=False))
