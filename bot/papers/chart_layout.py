"""The picture of a chart, placed: head, tags of dinner and now, a panel for each piece, the pit, the axis, the legend.

Placed for a phone held upright; it words nothing and paints nothing.
"""

from __future__ import annotations

from bot.papers.chart_colours import theme
from bot.papers.chart_drawing import Box, Drawing, Label, Shape, Sheet
from bot.papers.chart_head import head
from bot.papers.chart_legend import legend, legend_high
from bot.papers.chart_panel import ABOVE, Place, panel, uprights
from bot.papers.chart_scale import BODY, LEFT, MARGIN, RIGHT, SMALL, WIDE, across
from bot.papers.chart_strip import HIGH as PIT_HIGH
from bot.papers.chart_strip import strip
from bot.papers.chart_type import width
from bot.papers.chart_values import ChartSheet

LEAST_HIGH = 1600
"""A picture is at least so tall [px]: on a phone upright it fills the screen."""

TAGS, AXIS, GAP = 62, 142, 22
_LEAST_CORE = {1: 400.0, 2: 270.0}
_CORE = 215.0
"""Height of the core of each of several pieces."""

_ROOM_ABOVE = 4000
"""Room in which the head is placed before the height of the picture is known."""


def placed(sheet: ChartSheet) -> Drawing:
    """Return the drawing of a chart: 1080 px wide, as tall as it needs."""
    colours = theme(dark=sheet.dark)
    measured = head(sheet, colours, Sheet(WIDE, _ROOM_ABOVE))
    count, whole = len(sheet.pieces), sum(piece.whole for piece in sheet.pieces)
    core = _CORE if count > whole else _LEAST_CORE.get(whole, _CORE)
    fixed = measured + TAGS + count * (ABOVE + GAP) + PIT_HIGH + AXIS + legend_high(sheet) + MARGIN
    high = max(LEAST_HIGH, round(fixed + whole * core))
    core = (high - fixed) / whole
    on = Sheet(WIDE, high)
    place = Place(sheet=sheet, across=across(sheet), theme=colours, on=on)
    top = head(sheet, colours, on)
    _tags(place, top)
    top += TAGS
    uprights(place, top - 8, top + count * (ABOVE + GAP) + whole * core + PIT_HIGH)
    for piece in sheet.pieces:
        top = panel(piece, place, top, core) + GAP
    top = strip(place, top)
    _axis(place, top)
    legend(place, top + AXIS)
    return on.done(colours.paper)


def _tags(place: Place, top: float) -> None:
    """Place the tags of dinner and of now above their lines."""
    sheet = place.sheet
    tag = _tag("dinner", sheet.dinner, place.across.x(sheet.dinner_at), top, place, filled=True)
    if sheet.now_at is not None:
        _now_tag(place, place.across.x(sheet.now_at), top, tag)


def _tag(name: str, words: str, x: float, top: float, place: Place, *, filled: bool) -> Box:
    """Place a tag over a line, its box within the picture; return the box."""
    half = width(words, BODY, bold=True) / 2 + 18
    middle = min(max(x, MARGIN + half), WIDE - MARGIN - half)
    box = Box(left=middle - half, top=top, right=middle + half, bottom=top + TAGS - 8)
    colours = place.theme
    place.on.add(Shape(name=f"{name}_tag", points=box.corners, fill=colours.ink if filled else colours.paper,
                       edge=colours.ink, width=3))  # fmt: skip
    ink = colours.paper if filled else colours.ink
    place.on.write(Label(name=name, text=words, x=middle, y=top + 41, size=BODY, colour=ink, bold=True, anchor="m"))
    return box


def _now_tag(place: Place, x: float, top: float, dinner: Box) -> None:
    """Place the tag of now over its line, or beside the tag of dinner with a line to its own."""
    half = width(place.sheet.now, BODY, bold=True) / 2 + 18
    middle = min(max(x, MARGIN + half), WIDE - MARGIN - half)
    if middle + half > dinner.left - 12 and middle - half < dinner.right + 12:
        left, right = dinner.left - 12 - half, dinner.right + 12 + half
        after = x > (dinner.left + dinner.right) / 2
        fits_left, fits_right = left - half >= 0, right + half <= WIDE
        middle = right if fits_right and (after or not fits_left) else left
        y = top + TAGS - 8
        place.on.add(Shape(name="now", points=((middle, y), (x, y)), edge=place.theme.ink, width=4, closed=False))
    _tag("now", place.sheet.now, middle, top, place, filled=False)


def _axis(place: Place, top: float) -> None:
    """Place the axis of time: hours before dinner, the time of day below them, and what is counted."""
    colours, on = place.theme, place.on
    on.add(Shape(name="axis", points=((LEFT, top), (RIGHT, top)), edge=colours.quiet, width=3, closed=False))
    for tick in place.sheet.ticks:
        x = place.across.x(tick.at)
        half = max(width(tick.hours, BODY, bold=True), width(tick.clock, SMALL)) / 2
        middle = min(max(x, half + 4), WIDE - half - 4)
        on.add(Shape(name="tick", points=((x, top), (x, top + 12)), edge=colours.quiet, width=3, closed=False))
        label = Label(
            name="hours", text=tick.hours, x=middle, y=top + 48, size=BODY, colour=colours.ink, bold=True, anchor="m"
        )
        if on.write_if_free([label]) is not None:
            on.write(
                Label(name="clock", text=tick.clock, x=middle, y=top + 86, size=SMALL, colour=colours.quiet, anchor="m")
            )
    words = Label(
        name="axis", text=place.sheet.axis, x=RIGHT, y=top + 126, size=SMALL, colour=colours.quiet, anchor="r"
    )
    on.write(words)
