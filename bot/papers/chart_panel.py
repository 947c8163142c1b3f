"""One piece of meat on the picture: its name, its dinner line with the window on it, its core with fan and readings.

It places what a `ChartPiece` says, from the top down, and words nothing.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.papers.chart_colours import Theme
from bot.papers.chart_dots import dots
from bot.papers.chart_drawing import Box, Label, Shape, Sheet
from bot.papers.chart_marks import deed_sign, diamond, disc, hatch, lens
from bot.papers.chart_scale import BODY, HEAD, LEFT, MARGIN, RIGHT, SMALL, Across, Upward
from bot.papers.chart_type import width
from bot.papers.chart_values import ChartPiece, ChartSheet

NAME_ROW, OFF_ROW, LANE, DEEDS = 58, 52, 62, 56
"""Heights of the rows above and below the core."""

ABOVE = NAME_ROW + OFF_ROW + LANE
_HEADROOM = 50.0
"""Room above the highest temperature, for words over the line at which it is done."""

_LENS = 21.0
_PLATE = 34.0
_FAR = 400.0
"""A window whose end is not known runs so far beyond the edge, so that it is cut there [px]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Place:
    """What every panel is placed by."""

    sheet: ChartSheet
    across: Across
    theme: Theme
    on: Sheet


def panel(piece: ChartPiece, place: Place, top: float, core_high: float) -> float:
    """Place a piece from `top` down, its core `core_high` tall; return where it ends. A brief one has no core."""
    _words(piece, place, top)
    lane = top + NAME_ROW + OFF_ROW
    if not piece.whole:
        _lane(piece, place, lane + LANE / 2)
        return lane + LANE
    plot = Box(left=LEFT, top=lane + LANE, right=RIGHT, bottom=lane + LANE + core_high)
    up = Upward(top=plot.top + _HEADROOM, bottom=plot.bottom - DEEDS, low_c=piece.low_c, high_c=piece.high_c)
    ground(place, plot)
    _levels(piece, place, plot, up)
    _fan(piece, place, up)
    uprights(place, plot.top, plot.bottom, own=piece.dinner_at)
    _lane(piece, place, lane + LANE / 2)
    _target(piece, place, up)
    _deeds(piece, place, up, plot.bottom - DEEDS / 2)
    bracket = _bracket(piece, place, up)
    dots(piece, place.sheet.people, place.across, up, place.theme, place.on)
    _target_words(piece, place, up)
    _stall_word(piece, place, bracket)
    return plot.bottom


def ground(place: Place, plot: Box) -> None:
    """Place the ground of a plot, with the faint lines of the axis of time and slanted ones after dinner."""
    theme, x = place.theme, place.across.x
    place.on.add(Shape(name="ground", points=plot.corners, fill=theme.panel))
    for tick in place.sheet.ticks:
        line = ((x(tick.at), plot.top), (x(tick.at), plot.bottom))
        place.on.add(Shape(name="grid", points=line, edge=theme.grid, width=2, closed=False))
    if place.sheet.runs_on:
        after = Box(left=x(place.sheet.dinner_until), top=plot.top, right=plot.right, bottom=plot.bottom)
        place.on.add(*hatch("late", after, theme.late))


def uprights(place: Place, top: float, bottom: float, *, own: dt.datetime | None = None) -> None:
    """Place the lines of dinner and of now between two heights; `own` is the dinner of one of several waves."""
    theme, x, sheet = place.theme, place.across.x, place.sheet
    for at in {sheet.dinner_at, own or sheet.dinner_at}:
        line = ((x(at), top), (x(at), bottom))
        place.on.add(Shape(name="dinner", points=line, edge=theme.ink, width=7, closed=False))
        place.on.keep_free(Box(left=x(at) - 8, top=top, right=x(at) + 8, bottom=bottom))
    if sheet.now_at is not None:
        now = x(sheet.now_at)
        line = ((now, top), (now, bottom))
        place.on.add(Shape(name="now", points=line, edge=theme.ink, width=4, dash=(14, 10), closed=False))
        place.on.keep_free(Box(left=now - 5, top=top, right=now + 5, bottom=bottom))


def _words(piece: ChartPiece, place: Place, top: float) -> None:
    theme = place.theme
    newest = Label(name="newest", text=piece.newest, x=RIGHT, y=top + 44, size=BODY, colour=theme.quiet, anchor="r")
    clear(newest, place)
    room = newest.box.left - MARGIN - 24
    name = Label(name="piece", text=piece.name, x=MARGIN, y=top + 44, size=HEAD, colour=theme.ink, bold=True)
    clear(name, place, room)
    off = Label(name="off", text=piece.off, x=MARGIN, y=top + NAME_ROW + 38, size=BODY, colour=theme.window, bold=True)
    clear(off, place, RIGHT - MARGIN)


def clear(label: Label, place: Place, room: float = RIGHT - MARGIN) -> None:
    """Write a label between the plots; the lines of dinner and of now make way for it."""
    label = place.on.write(label, room)
    box = label.box
    ground = Box(left=box.left - 10, top=box.top, right=box.right + 10, bottom=box.bottom)
    place.on.add(Shape(name="clear", points=ground.corners, fill=place.theme.paper))


def _levels(piece: ChartPiece, place: Place, plot: Box, up: Upward) -> None:
    for level in piece.levels:
        y = up.y(level.temp_c)
        line = ((plot.left, y), (plot.right, y))
        place.on.add(Shape(name="grid", points=line, edge=place.theme.grid, width=2, closed=False))
        label = Label(name="level", text=level.words, x=plot.left - 14, y=y + 13, size=SMALL, colour=place.theme.quiet,
                      anchor="r")  # fmt: skip
        place.on.write_if_free([label])


def _fan(piece: ChartPiece, place: Place, up: Upward) -> None:
    """Place the forecast: eight in ten run between its two edges, half of them above its middle."""
    if len(piece.fan) < 2:  # noqa: PLR2004 - a line needs two points
        return
    theme, x = place.theme, place.across.x
    low = tuple((x(point.at), up.y(point.low_c)) for point in piece.fan)
    high = tuple((x(point.at), up.y(point.high_c)) for point in piece.fan)
    middle = tuple((x(point.at), up.y(point.middle_c)) for point in piece.fan)
    place.on.add(
        Shape(name="fan", points=(*high, *reversed(low)), fill=theme.fan_fill),
        Shape(name="fan_edge", points=low, edge=theme.fan, width=3, closed=False),
        Shape(name="fan_edge", points=high, edge=theme.fan, width=3, closed=False),
        Shape(name="fan_middle", points=middle, edge=theme.fan, width=5, dash=(18, 12), closed=False),
    )
    for (left, _y), (right, _), top, bottom in zip(high, high[1:], high, low[1:], strict=False):
        place.on.keep_free(Box(left=left, top=min(top[1], bottom[1]), right=right, bottom=max(top[1], bottom[1])))


def _lane(piece: ChartPiece, place: Place, y: float) -> None:
    """Place the dinner line with the window on it: a lens where the meat will be ready, then its way to the plate."""
    theme, on, x = place.theme, place.on, place.across.x
    dinner, until = x(piece.dinner_at), x(piece.dinner_until)
    line = ((LEFT, y), (RIGHT if place.sheet.runs_on else max(until, LEFT + 1), y))
    on.add(Shape(name="dinner_line", points=line, edge=theme.ink, width=4, closed=False))
    window, off = piece.window, piece.pulled_at
    if window is not None and window.likely is not None:
        free = place.across.beyond
        early = free(window.early or place.sheet.begin_at)
        late = RIGHT + _FAR if window.late is None else free(window.late)
        points = lens(early, free(window.likely), late, y, _LENS, (LEFT, RIGHT))
        fill = theme.paper if off is not None else theme.window
        on.add(Shape(name="window", points=points, fill=fill, edge=theme.window, width=4))
    rest_at = off or piece.off_by
    if rest_at is not None and x(rest_at) < dinner:
        rest = Box(left=x(rest_at), top=y - 9, right=dinner, bottom=y + 9)
        on.add(Shape(name="rest", points=rest.corners, fill=theme.paper, edge=theme.ink, width=4))
    if until > dinner:
        meal = Box(left=dinner, top=y - 9, right=until, bottom=y + 9)
        on.add(Shape(name="meal", points=meal.corners, fill=theme.ink))
    for size, fill in ((_PLATE, theme.ink), (_PLATE - 10, theme.paper), (_PLATE - 20, theme.ink)):
        on.add(Shape(name="plate", points=disc(dinner, y, size), fill=fill))
    if off is not None:
        on.add(Shape(name="came_off", points=diamond(x(off), y, 30), fill=theme.window, edge=theme.paper, width=4))


def _target(piece: ChartPiece, place: Place, up: Upward) -> None:
    y = up.y(piece.target.temp_c)
    line = ((LEFT, y), (RIGHT, y))
    place.on.add(Shape(name="target", points=line, edge=place.theme.window, width=3, dash=(4, 9), closed=False))


def _target_words(piece: ChartPiece, place: Place, up: Upward) -> None:
    """Write at which core it is done, over its line, as far left as there is room."""
    y, theme = up.y(piece.target.temp_c), place.theme
    wide = width(piece.target.words, SMALL)
    steps = range(LEFT + 14, round(RIGHT - wide) - 8, 40)
    place.on.write_if_free(
        Label(name="target", text=piece.target.words, x=left, y=low, size=SMALL, colour=theme.window, halo=theme.panel)
        for low in (y - 12, y + 42)
        for left in steps
    )


def _bracket(piece: ChartPiece, place: Place, up: Upward) -> Box | None:
    """Place the stall: a bracket below the stretch of the core that hardly rises; return where it lies."""
    stall, theme = piece.stall, place.theme
    if stall is None:
        return None
    left, right = place.across.x(stall.start), place.across.x(stall.end)
    y = min(up.y(stall.core_c) + 46, up.bottom - 4)
    points = ((left, y - 16), (left, y), (right, y), (right, y - 16))
    place.on.add(Shape(name="stall", points=points, edge=theme.stall, width=6, closed=False))
    box = Box(left=left, top=y - 16, right=right, bottom=y + 4)
    place.on.keep_free(box)
    return box


def _stall_word(piece: ChartPiece, place: Place, bracket: Box | None) -> None:
    """Write the word of the stall below its bracket, or beside it."""
    if piece.stall is None or bracket is None:
        return
    theme, word, y = place.theme, piece.stall.word, bracket.bottom - 4
    wide = width(word, SMALL, bold=True)
    middle = (bracket.left + bracket.right) / 2 - wide / 2
    places = [(middle, y + 38), (bracket.right - wide, y + 38), (bracket.right + 12, y + 12), (bracket.left, y + 38)]
    place.on.write_if_free(
        Label(name="stall", text=word, x=x, y=low, size=SMALL, colour=theme.stall, bold=True, halo=theme.panel)
        for x, low in places
        if x + wide <= RIGHT
    )


def _deeds(piece: ChartPiece, place: Place, up: Upward, y: float) -> None:
    """Place what was done below the core, each on a thin line up to it; a wrap says which."""
    theme = place.theme
    for event in piece.events:
        x = place.across.x(event.at)
        line = ((x, up.top), (x, y - 24))
        place.on.add(Shape(name="deed_line", points=line, edge=theme.quiet, width=2, dash=(3, 8), closed=False))
    for event in piece.events:
        x = place.across.x(event.at)
        place.on.add(*deed_sign(event.deed.value, event.deed, x, y, 38, theme.ink, theme.panel))
        place.on.keep_free(Box(left=x - 22, top=y - 22, right=x + 22, bottom=y + 22))
    for event in piece.events:
        x, wide = place.across.x(event.at), width(event.word, SMALL)
        place.on.write_if_free(
            Label(name="deed", text=event.word, x=left, y=y + 13, size=SMALL, colour=theme.ink, halo=theme.panel)
            for left in (x + 28, x - 28 - wide)
            if event.word and left >= LEFT and left + wide <= RIGHT
        )
