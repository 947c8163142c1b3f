"""The pit on the picture: a strip below the meat with its wanted band, its readings and every open lid.

It places what a `ChartPit` says and words nothing.
"""

from __future__ import annotations

from bot.papers.chart_dots import crowd
from bot.papers.chart_drawing import Box, Label, Shape
from bot.papers.chart_marks import deed_sign
from bot.papers.chart_panel import Place, clear, ground, uprights
from bot.papers.chart_scale import BODY, HEAD, LEFT, MARGIN, RIGHT, SMALL, Upward
from bot.papers.chart_values import Deed

WORDS_ROW, LIDS, PLOT = 58, 46, 150
HIGH = WORDS_ROW + LIDS + PLOT


def strip(place: Place, top: float) -> float:
    """Place the pit from `top` down; return where it ends."""
    pit, theme, on, x = place.sheet.pit, place.theme, place.on, place.across.x
    newest = Label(name="pit_newest", text=pit.newest, x=RIGHT, y=top + 44, size=BODY, colour=theme.quiet, anchor="r")
    clear(newest, place)
    words = Label(name="pit", text=pit.words, x=MARGIN, y=top + 44, size=HEAD, colour=theme.pit, bold=True)
    clear(words, place, newest.box.left - MARGIN - 24)
    plot = Box(left=LEFT, top=top + WORDS_ROW, right=RIGHT, bottom=top + HIGH)
    ground(place, plot)
    up = Upward(top=plot.top + LIDS, bottom=plot.bottom - 8, low_c=pit.low_c, high_c=pit.high_c)
    for level in pit.levels:
        y = up.y(level.temp_c)
        label = Label(name="level", text=level.words, x=LEFT - 14, y=y + 13, size=SMALL, colour=theme.quiet, anchor="r")
        on.add(Shape(name="grid", points=((LEFT, y), (RIGHT, y)), edge=theme.grid, width=2, closed=False))
        on.write_if_free([label])
    for band in pit.bands:
        high, low = up.y(band.high_c), up.y(band.low_c)
        middle = (high + low) / 2
        high, low = min(high, middle - 5), max(low, middle + 5)
        box = Box(left=x(band.start), top=high, right=max(x(band.end), x(band.start) + 2), bottom=low)
        on.add(
            Shape(name="pit", points=box.corners, fill=theme.pit_fill),
            Shape(name="pit_edge", points=(box.corners[0], box.corners[1]), edge=theme.pit, width=3, closed=False),
            Shape(name="pit_edge", points=(box.corners[3], box.corners[2]), edge=theme.pit, width=3, closed=False),
        )
    uprights(place, plot.top, plot.bottom)
    places = [(x(dot.at), up.y(dot.value_c)) for dot in pit.readings]
    if len(places) > 1:
        on.add(Shape(name="pit_readings", points=tuple(places), edge=theme.pit, width=3, closed=False))
    crowd(pit.readings, place.sheet.people, places, theme, on)
    for at in pit.openings:
        on.add(*deed_sign("lid", Deed.LID, x(at), plot.top + LIDS / 2, 32, theme.ink, theme.panel))
    return plot.bottom
