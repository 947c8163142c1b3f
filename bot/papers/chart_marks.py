"""The shapes of a chart as polygons: dots of people, signs of what was done, signs of how dinner stands.

Geometry only: each returns points around a middle [px].
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable

from bot.papers.chart_colours import Colour
from bot.papers.chart_drawing import Box, Point, Shape
from bot.papers.chart_values import Deed

_ROUND = 40


def disc(x: float, y: float, size: float) -> tuple[Point, ...]:
    """Return a disc so wide."""
    turn = 2 * math.pi / _ROUND
    return tuple((x + size / 2 * math.cos(n * turn), y + size / 2 * math.sin(n * turn)) for n in range(_ROUND))


def square(x: float, y: float, size: float) -> tuple[Point, ...]:
    """Return a square of about the area of a disc so wide."""
    half = 0.46 * size
    return Box(left=x - half, top=y - half, right=x + half, bottom=y + half).corners


def diamond(x: float, y: float, size: float) -> tuple[Point, ...]:
    """Return a square that stands on a corner."""
    half = 0.64 * size
    return ((x, y - half), (x + half, y), (x, y + half), (x - half, y))


def triangle(x: float, y: float, size: float) -> tuple[Point, ...]:
    """Return a triangle that stands on its base."""
    return ((x, y - 0.72 * size), (x + 0.68 * size, y + 0.48 * size), (x - 0.68 * size, y + 0.48 * size))


def wedge(x: float, y: float, size: float) -> tuple[Point, ...]:
    """Return a triangle that stands on its tip."""
    return ((x, y + 0.72 * size), (x - 0.68 * size, y - 0.48 * size), (x + 0.68 * size, y - 0.48 * size))


def cross(x: float, y: float, size: float) -> tuple[Point, ...]:
    """Return a thick upright cross."""
    a, b = 0.3 * size, 0.56 * size
    quarter = (
        (-a, -b),
        (a, -b),
        (a, -a),
        (b, -a),
        (b, a),
        (a, a),
        (a, b),
        (-a, b),
        (-a, a),
        (-b, a),
        (-b, -a),
        (-a, -a),
    )
    return tuple((x + dx, y + dy) for dx, dy in quarter)


PEOPLE: tuple[Callable[[float, float, float], tuple[Point, ...]], ...] = (
    disc, square, diamond, triangle, wedge, cross
)  # fmt: skip
"""The shape of each person's dots, in the order in which they first read; from the seventh on again, hollow."""

LETTER_DROP = (0.0, 0.0, 0.0, 0.12, -0.12, 0.0)
"""How far below the middle the letters stand, in sizes of the shape: where each shape is widest."""


def person_mark(name: str, number: int | None, x: float, y: float, size: float, fill: Colour, ring: Colour) -> Shape:
    """Return a dot of a person (None: nobody is known), with a ring that parts it from what lies below."""
    place = 0 if number is None else number % len(PEOPLE)
    hollow = number is not None and number >= len(PEOPLE)
    points = PEOPLE[place](x, y, size)
    return Shape(name=name, points=points, fill=ring if hollow else fill, edge=fill if hollow else ring, width=4.0)


def lens(
    early: float, likely: float, late: float, y: float, half: float, edges: tuple[float, float]
) -> tuple[Point, ...]:
    """Return the window: a lens from its early to its late end, thickest where it is likely, cut off at the `edges`."""
    early, late = min(early, likely - 6), max(late, likely + 6)
    steps = [n / 24 for n in range(25)]
    rise = [(early + (likely - early) * s, half * math.sin(s * math.pi / 2)) for s in steps]
    fall = [(likely + (late - likely) * s, half * math.cos(s * math.pi / 2)) for s in steps[1:]]
    upper = _cut([*rise, *fall], edges)
    return (*((x, y - h) for x, h in upper), *((x, y + h) for x, h in reversed(upper)))


def _cut(outline: list[Point], edges: tuple[float, float]) -> list[Point]:
    """Return the part of an outline (left to right) between two edges; one that lies beyond stands on the nearer."""
    left, right = edges
    inside: list[Point] = []
    for (x0, h0), (x1, h1) in itertools.pairwise(outline):
        start, end = max(x0, left), min(x1, right)
        if start < end:
            inside += [(x, h0 + (h1 - h0) * (x - x0) / (x1 - x0)) for x in (start, end)]
    if inside:
        return inside
    edge = right if outline[0][0] >= right else left
    step = -8.0 if edge == right else 8.0
    return sorted([(edge, max(h for _x, h in outline)), (edge + step, max(h for _x, h in outline))])


def deed_sign(
    name: str, deed: Deed, x: float, y: float, size: float, colour: Colour, ground: Colour
) -> tuple[Shape, ...]:
    """Return the sign of what was done: an arrow onto the fire, a parcel, an open lid, an arrow off the fire."""
    half = size / 2
    if deed is Deed.WRAP:
        box = Box(left=x - half, top=y - 0.8 * half, right=x + half, bottom=y + 0.8 * half)
        flap = ((box.left, box.top), (x, y + 0.1 * half), (box.right, box.top))
        return (
            Shape(name=name, points=box.corners, fill=ground, edge=colour, width=5),
            Shape(name=name, points=flap, edge=colour, width=4, closed=False),
        )
    if deed is Deed.LID:
        lid = ((x - half, y + 0.1 * half), (x + 0.8 * half, y - 0.9 * half))
        pot = (
            (x - half, y + 0.35 * half),
            (x - 0.8 * half, y + half),
            (x + 0.8 * half, y + half),
            (x + half, y + 0.35 * half),
        )
        return (
            Shape(name=name, points=lid, edge=colour, width=6, closed=False),
            Shape(name=name, points=pot, edge=colour, width=5, closed=False),
        )
    down = 1.0 if deed is Deed.MEAT_ON else -1.0
    tip, tail = y + down * 0.5 * half, y - down * half
    head = (
        (x - 0.62 * half, tip - down * 0.45 * half),
        (x + 0.62 * half, tip - down * 0.45 * half),
        (x, tip + down * 0.25 * half),
    )
    fire = ((x - half, y + half), (x + half, y + half))
    return (
        Shape(name=name, points=fire, edge=colour, width=5, closed=False),
        Shape(name=name, points=((x, tail), (x, tip)), edge=colour, width=6, closed=False),
        Shape(name=name, points=head, fill=colour),
    )


def hatch(name: str, box: Box, colour: Colour, step: float = 34.0) -> tuple[Shape, ...]:
    """Return slanted lines that fill a rectangle."""
    high = box.bottom - box.top
    found = []
    start = box.left - high
    while start < box.right:
        low = max(start, box.left)
        high_x = min(start + high, box.right)
        if high_x - low > 1:
            found.append(
                Shape(name=name, points=((low, box.bottom - (low - start)), (high_x, box.bottom - (high_x - start))),
                      edge=colour, width=2, closed=False)
            )  # fmt: skip
        start += step
    return tuple(found)
