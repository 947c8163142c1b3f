"""Readings on the picture: each a dot in the shape of whoever made it, with their letters in it where there is room.

It places dots and words nothing. The newest dots come first to room; a crowd of older ones is drawn small.
"""

from __future__ import annotations

import math

from bot.papers.chart_colours import Theme
from bot.papers.chart_drawing import Box, Label, Point, Shape, Sheet
from bot.papers.chart_marks import LETTER_DROP, person_mark
from bot.papers.chart_scale import BODY, Across, Upward
from bot.papers.chart_type import RISE, width
from bot.papers.chart_values import ChartPerson, ChartPiece, Dot

BIG, SMALL_DOT = 46.0, 22.0
_LETTER = {1: 30, 2: 22}
"""Sizes of letters inside a dot: its shape tells the person, too."""

_LETTERED_FROM = 34.0
"""Smaller dots have no letters: their shape says who it was [px]."""


def dots(
    piece: ChartPiece, people: tuple[ChartPerson, ...], across: Across, up: Upward, theme: Theme, on: Sheet
) -> None:
    """Place the readings of a piece, joined by a thin line, and the newest in words beside it."""
    sure = [dot for dot in piece.readings if not dot.doubtful]
    path = tuple((across.x(dot.at), up.y(dot.value_c)) for dot in sure)
    if len(path) > 1:
        on.add(Shape(name="readings", points=path, edge=theme.ink, width=3, closed=False))
    places = [(across.x(dot.at), up.y(dot.value_c)) for dot in piece.readings]
    sizes = _sizes(places)
    for dot, at, size in zip(piece.readings, places, sizes, strict=True):
        _dot(dot, people, at, theme, on, size)
    if path and piece.newest_words:
        _newest(piece.newest_words, path[-1], theme, on, up)


def _sizes(places: list[Point]) -> list[float]:
    """Return how large each dot is: as large as its neighbours allow; the newest is always large."""
    found = []
    for n, at in enumerate(places):
        nearest = min((math.dist(at, other) for m, other in enumerate(places) if m != n), default=BIG)
        found.append(min(BIG, max(SMALL_DOT, nearest)))
    return [*found[:-1], BIG] if found else []


def _dot(dot: Dot, people: tuple[ChartPerson, ...], at: Point, theme: Theme, on: Sheet, size: float) -> None:
    x, y = at
    person = None if dot.person is None else people[dot.person]
    number = None if person is None else person.number
    colour = theme.quiet if number is None else theme.people[number % len(theme.people)]
    name = "doubtful" if dot.doubtful else "dot"
    shape = person_mark(name, number, x, y, size, colour, theme.panel)
    if dot.doubtful:
        shape = Shape(name=name, points=shape.points, fill=theme.panel, edge=colour, width=4, dash=(8, 6))
    on.add(shape)
    half = size / 2
    on.keep_free(Box(left=x - half, top=y - half, right=x + half, bottom=y + half))
    if size >= _LETTERED_FROM:
        _letters(person, x, y, colour if dot.doubtful else None, theme, on, size, questioned=dot.doubtful)


def _letters(
    person: ChartPerson | None,
    x: float,
    y: float,
    colour: str | None,
    theme: Theme,
    on: Sheet,
    large: float = 46.0,
    *,
    questioned: bool,
) -> None:
    sign = "?" if questioned else "" if person is None else person.sign
    size = round(_LETTER.get(len(sign), 0) * large / BIG)
    if not sign:
        return
    number = 0 if person is None else person.number
    hollow = person is not None and number >= len(LETTER_DROP)
    ink = colour or (theme.people[number % len(theme.people)] if hollow else theme.on_people)
    drop = LETTER_DROP[number % len(LETTER_DROP)] * large
    on.write(
        Label(name="sign", text=sign, x=x, y=y + drop + (RISE - 0.02) * size / 2, size=size, colour=ink, bold=True,
              anchor="m", inside=True)
    )  # fmt: skip


def _newest(words: str, at: Point, theme: Theme, on: Sheet, up: Upward) -> None:
    """Write the newest reading beside its dot, wherever there is room."""
    x, y = at
    wide = width(words, BODY, bold=True)
    left, right, over = x - wide - 34, x + 34, x - wide / 2
    places = (
        (left, y - 20),
        (over, y - 40),
        (left, y + 14),
        (right, y + 34),
        (over, y + 66),
        (right, y + 14),
        (right, y - 24),
        (left, y - 62),
        (right, y - 62),
        (left - 60, y - 62),
        (right + 30, y + 66),
    )
    on.write_if_free(
        Label(name="value", text=words, x=at_x, y=low, size=BODY, colour=theme.ink, bold=True, halo=theme.panel)
        for at_x, low in places
        if low - RISE * BODY >= up.top - 12 and low <= up.bottom + 8
    )


def person_sample(person: ChartPerson, x: float, y: float, theme: Theme, on: Sheet) -> None:
    """Place a dot of a person as it stands in the legend."""
    colour = theme.people[person.number % len(theme.people)]
    on.add(person_mark("person", person.number, x, y, BIG, colour, theme.paper))
    _letters(person, x, y, None, theme, on, questioned=False)


def crowd(
    readings: tuple[Dot, ...], people: tuple[ChartPerson, ...], places: list[Point], theme: Theme, on: Sheet
) -> None:
    """Place readings as small dots without letters, such as those of the pit."""
    for dot, at in zip(readings, places, strict=True):
        _dot(dot, people, at, theme, on, SMALL_DOT)
