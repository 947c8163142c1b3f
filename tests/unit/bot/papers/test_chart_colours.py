"""Colours of the chart, computed: contrast in sunlight, and what colour-blind people can tell apart.

Contrast: W3C, Web Content Accessibility Guidelines 2.2, definitions of relative luminance and contrast ratio (from
memory). Colour vision: Machado, Oliveira and Fernandes, "A physiologically-based model for simulation of color vision
deficiency", IEEE TVCG 15(6), 2009, the matrices at severity 1.0, applied to linear RGB (from memory).
"""

from __future__ import annotations

import itertools

import pytest

from bot.papers.chart_colours import DARK, LIGHT, Theme
from bot.papers.chart_marks import PEOPLE, deed_sign, disc, lens
from bot.papers.chart_values import Deed

THEMES = {"light": LIGHT, "dark": DARK}
TEXT, MARK = 4.5, 3.0
SUN = 7.0
VISIONS = {
    "usual": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    "protan": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deutan": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritan": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
    "none": ((0.2126, 0.7152, 0.0722),) * 3,
}


def linear(colour: str) -> tuple[float, float, float]:
    """Return a colour as light: linear RGB, 0 to 1."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return r, g, b


def seen(colour: str, vision: str) -> tuple[float, float, float]:
    """Return a colour as somebody with this vision sees it, as light."""
    light = linear(colour)
    r, g, b = (min(1.0, max(0.0, sum(m * c for m, c in zip(row, light, strict=True)))) for row in VISIONS[vision])
    return r, g, b


def luminance(colour: str, vision: str = "usual") -> float:
    """Return the relative luminance, 0 to 1."""
    r, g, b = seen(colour, vision)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str, vision: str = "usual") -> float:
    """Return the contrast ratio, 1 to 21."""
    low, high = sorted((luminance(one, vision), luminance(other, vision)))
    return (high + 0.05) / (low + 0.05)


def test_the_measure_knows_black_on_white() -> None:
    """Black on white is 21 : 1, and a grey that is known to fail does."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") < TEXT < contrast("#757575", "#ffffff")


def test_the_simulation_knows_red_and_green() -> None:
    """Without red or green cones, a red and a green that are far apart come close; blue stays blue."""

    def apart(vision: str) -> float:
        return sum(abs(a - b) for a, b in zip(seen("#c00000", vision), seen("#6a7a00", vision), strict=True))

    assert apart("deutan") < 0.5 * apart("usual")
    assert seen("#0000ff", "deutan")[2] > 0.9


@pytest.mark.parametrize("vision", VISIONS)
@pytest.mark.parametrize("name", THEMES)
def test_words_are_readable_in_sunlight(name: str, vision: str) -> None:
    """Every colour of words has 7 : 1 on whatever it stands on; 4.5 : 1 is asked, and kept for every vision."""
    theme = THEMES[name]
    words = [theme.ink, theme.quiet, theme.window, theme.stall, theme.pit]
    grounds = [theme.paper, theme.panel]
    found = {(w, g): contrast(w, g, vision) for w in words for g in grounds}
    assert min(found.values()) >= (SUN if vision == "usual" else TEXT), found


@pytest.mark.parametrize("vision", VISIONS)
@pytest.mark.parametrize("name", THEMES)
def test_letters_inside_dots_are_readable(name: str, vision: str) -> None:
    """The letters of each person stand out from their dot, and so does the tag of dinner from its ground."""
    theme = THEMES[name]
    assert min(contrast(theme.on_people, colour, vision) for colour in theme.people) >= TEXT
    assert contrast(theme.paper, theme.ink, vision) >= SUN


@pytest.mark.parametrize("vision", VISIONS)
@pytest.mark.parametrize("name", THEMES)
def test_marks_stand_out_from_what_lies_below_them(name: str, vision: str) -> None:
    """Each mark that carries a meaning has 3 : 1 against the ground; dots also against the fan and the pit's band."""
    theme = THEMES[name]
    marks = [theme.fan, theme.window, theme.stall, theme.pit, theme.late, theme.good, theme.unsure, theme.ink]
    below = [(mark, ground) for mark in marks for ground in (theme.paper, theme.panel)]
    below += [(colour, ground) for colour in theme.people for ground in (theme.panel, theme.fan_fill, theme.pit_fill)]
    below += [(theme.fan, theme.fan_fill), (theme.pit, theme.pit_fill), (theme.ink, theme.fan_fill)]
    found = {pair: contrast(*pair, vision) for pair in below}
    assert min(found.values()) >= MARK, min(found.items(), key=lambda item: item[1])


def outline(points: tuple[tuple[float, float], ...]) -> frozenset[tuple[float, float]]:
    """Return a shape by its corners, whatever its place."""
    return frozenset((round(x, 1), round(y, 1)) for x, y in points)


def test_people_are_told_apart_without_any_colour() -> None:
    """No two shapes are equal: seen in one grey, each person's dots are their own."""
    shapes = [outline(shape(0.0, 0.0, 40.0)) for shape in PEOPLE]
    assert len(set(shapes)) == len(PEOPLE)
    for one, other in itertools.combinations(PEOPLE, 2):
        assert covered(one(0, 0, 40.0), other(0, 0, 40.0)) < 0.9


def covered(one: tuple[tuple[float, float], ...], other: tuple[tuple[float, float], ...]) -> float:
    """Return how much of two shapes together both have, 0 to 1: counted on a grid."""
    grid = [(x / 2, y / 2) for x in range(-64, 65) for y in range(-64, 65)]
    a, b = ({p for p in grid if within(p, shape)} for shape in (one, other))
    return len(a & b) / len(a | b)


def within(point: tuple[float, float], shape: tuple[tuple[float, float], ...]) -> bool:
    """Return whether a point lies in a polygon (even-odd rule)."""
    x, y = point
    inside = False
    for (x0, y0), (x1, y1) in zip(shape, (*shape[1:], shape[0]), strict=True):
        if (y0 > y) != (y1 > y) and x < (x1 - x0) * (y - y0) / (y1 - y0) + x0:
            inside = not inside
    return inside


def test_what_was_done_is_told_apart_without_any_colour() -> None:
    """Meat on, lid, wrap and off are all drawn in ink: their shapes differ."""
    signs = {deed: deed_sign("x", deed, 0, 0, 38, LIGHT.ink, LIGHT.paper) for deed in Deed}
    shapes = {deed: tuple(sorted(outline(shape.points), key=str) for shape in sign) for deed, sign in signs.items()}
    assert len({str(shape) for shape in shapes.values()}) == len(Deed)


def test_window_and_plate_differ_in_shape() -> None:
    """The window is a lens, dinner a disc: seen in one grey they are not taken for one another."""
    assert covered(lens(-20, 0, 30, 0, 10, (-99, 99)), disc(0, 0, 20)) < 0.9


PAIRS = (("fan", "stall"), ("fan", "window"), ("window", "ink"), ("pit", "fan"))
"""Lines that lie on one plot or lane."""

DRAWN = {
    "fan": "a dashed line between two thin edges",
    "stall": "a bracket with ends turned up",
    "window": "a filled lens on the dinner line, a dotted level line",
    "ink": "thick upright lines and signs",
    "pit": "level lines in the strip of the pit",
}
"""How each is drawn: no two alike, so that colour is only a help."""


@pytest.mark.parametrize("vision", VISIONS)
@pytest.mark.parametrize("name", THEMES)
def test_neighbours_differ_in_shape_or_lightness(name: str, vision: str) -> None:
    """Two things that lie side by side are drawn in different ways; where they are not, they differ in lightness."""
    theme = THEMES[name]
    for one, other in PAIRS:
        lightness = contrast(getattr(theme, one), getattr(theme, other), vision)
        assert DRAWN[one] != DRAWN[other] or lightness >= MARK
    assert fill_steps(theme, vision)


def fill_steps(theme: Theme, vision: str) -> bool:
    """Return whether dots keep a ring of the ground that parts them from the fan and from one another."""
    return min(contrast(colour, theme.panel, vision) for colour in theme.people) >= MARK
