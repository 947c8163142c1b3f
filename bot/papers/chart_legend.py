"""What the shapes mean, at the foot of the picture: people first, then shapes, in rows.

It places words and words nothing.
"""

from __future__ import annotations

from bot.papers.chart_dots import BIG, person_sample
from bot.papers.chart_drawing import Box, Label, Shape
from bot.papers.chart_marks import deed_sign, disc, hatch, lens
from bot.papers.chart_panel import Place
from bot.papers.chart_scale import MARGIN, SMALL, WIDE
from bot.papers.chart_type import shortened, width
from bot.papers.chart_values import ChartSheet, Deed

ROW = 58
_ICON, _SPACE, _BETWEEN = 62.0, 12.0, 34.0
_LONGEST_NAME = 300.0
MOST_PEOPLE = 8
_DEEDS = {"meat_on": Deed.MEAT_ON, "pull": Deed.PULL, "wrap": Deed.WRAP, "lid": Deed.LID}


def _rows(sheet: ChartSheet) -> list[list[tuple[str, str]]]:
    """Return what stands in each row: (kind, words); people begin a row, and shapes begin one."""
    people = [(f"person:{p.number}", shortened(p.name, SMALL, _LONGEST_NAME)) for p in sheet.people[:MOST_PEOPLE]]
    rows: list[list[tuple[str, str]]] = []
    for group in (people, list(sheet.legend)):
        used = float(WIDE)
        for kind, words in group:
            wide = _ICON + _SPACE + width(words, SMALL) + _BETWEEN
            if used + wide - _BETWEEN > WIDE - 2 * MARGIN:
                rows.append([])
                used = 0.0
            rows[-1].append((kind, words))
            used += wide
    return rows


def legend_high(sheet: ChartSheet) -> float:
    """Return how tall the legend is [px]."""
    return float(ROW * len(_rows(sheet)))


def legend(place: Place, top: float) -> None:
    """Place the legend from `top` down."""
    for n, row in enumerate(_rows(place.sheet)):
        x, y = float(MARGIN), top + ROW * (n + 0.5)
        for kind, words in row:
            _icon(kind, x, y, place)
            label = Label(
                name="legend", text=words, x=x + _ICON + _SPACE, y=y + 13, size=SMALL, colour=place.theme.quiet
            )
            place.on.write(label)
            x = label.box.right + _BETWEEN


def _icon(kind: str, x: float, y: float, place: Place) -> None:
    theme, on = place.theme, place.on
    middle, right = x + _ICON / 2, x + _ICON
    if kind.startswith("person:"):
        person = next(p for p in place.sheet.people if p.number == int(kind.removeprefix("person:")))
        person_sample(person, middle, y, theme, on)
    elif kind in _DEEDS:
        on.add(*deed_sign("key", _DEEDS[kind], middle, y, 38, theme.ink, theme.paper))
    elif kind in {"fan", "foretold"}:
        low, high = ((x, y + 4), (right, y + 16)), ((x, y - 4), (right, y - 16))
        on.add(
            Shape(name="key", points=(*high, *reversed(low)), fill=theme.fan_fill),
            Shape(name="key", points=low, edge=theme.fan, width=3, closed=False),
            Shape(name="key", points=high, edge=theme.fan, width=3, closed=False),
            Shape(name="key", points=((x, y), (right, y)), edge=theme.fan, width=5, dash=(14, 8), closed=False),
        )
    elif kind == "window":
        fill = theme.paper if place.sheet.over else theme.window
        on.add(
            Shape(name="key", points=lens(x, middle, right, y, 18, (x, right)), fill=fill, edge=theme.window, width=4)
        )
    elif kind in {"rest", "rested"}:
        rest = Box(left=x, top=y - 10, right=right - 16, bottom=y + 10)
        on.add(Shape(name="key", points=rest.corners, fill=theme.paper, edge=theme.ink, width=4))
        for size, fill in ((34, theme.ink), (24, theme.paper), (14, theme.ink)):
            on.add(Shape(name="key", points=disc(right - 17, y, size), fill=fill))
    elif kind == "pit":
        on.add(
            Shape(name="key", points=Box(left=x, top=y - 11, right=right, bottom=y + 11).corners, fill=theme.pit_fill),
            Shape(name="key", points=((x, y - 11), (right, y - 11)), edge=theme.pit, width=3, closed=False),
            Shape(name="key", points=((x, y + 11), (right, y + 11)), edge=theme.pit, width=3, closed=False),
        )
    elif kind == "late":
        on.add(*hatch("key", Box(left=x, top=y - 17, right=right, bottom=y + 17), theme.late, 18.0))
    else:
        ring = disc(middle, y, BIG * 0.8)
        on.add(Shape(name="key", points=ring, fill=theme.paper, edge=theme.quiet, width=4, dash=(8, 6)))
        on.write(
            Label(
                name="key",
                text="?",
                x=middle,
                y=y + 10,
                size=28,
                colour=theme.quiet,
                bold=True,
                anchor="m",
                inside=True,
            )
        )
