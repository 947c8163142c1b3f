"""Paints a placed chart: a `Drawing` to the bytes of a PNG file, the same bytes for the same drawing on one machine.

It places nothing: every point comes from `bot.papers.chart_layout`.
"""

from __future__ import annotations

import io
import itertools
import math

from PIL import Image, ImageDraw

from bot.papers.chart_drawing import Drawing, Label, Point, Shape
from bot.papers.chart_type import font, from_the_right

FINER = 3
"""Shapes are painted so many times larger and made smaller afterwards, so that their edges are smooth."""

_ANCHORS = {"l": "ls", "m": "ms", "r": "rs"}
_HALO = 5
_TINY = 1e-6


def painted(drawing: Drawing) -> bytes:
    """Return the picture as a PNG file."""
    large = Image.new("RGB", (drawing.width * FINER, drawing.height * FINER), drawing.ground)
    brush = ImageDraw.Draw(large)
    for shape in drawing.shapes:
        _shape(brush, shape)
    image = large.reduce(FINER)
    pen = ImageDraw.Draw(image)
    for label in drawing.labels:
        _label(pen, label)
    buffer = io.BytesIO()
    image.quantize(128, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE).save(
        buffer, format="PNG", optimize=True
    )
    return buffer.getvalue()


def _shape(brush: ImageDraw.ImageDraw, shape: Shape) -> None:
    points = [(x * FINER, y * FINER) for x, y in shape.points]
    if shape.closed and shape.fill is not None:
        brush.polygon(points, fill=shape.fill)
    if shape.edge is None or shape.width <= 0:
        return
    if shape.closed:
        points = [*points, points[0]]
    thick = shape.width * FINER
    parts = [points] if shape.dash is None else _dashes(points, shape.dash)
    for part in parts:
        brush.line(part, fill=shape.edge, width=round(thick))
        for x, y in part[1:-1] if shape.dash is not None or not shape.closed else part:
            brush.ellipse((x - thick / 2, y - thick / 2, x + thick / 2, y + thick / 2), fill=shape.edge)


def _dashes(points: list[Point], dash: tuple[float, float]) -> list[list[Point]]:
    """Return the parts of a line that are drawn, each as points of its own."""
    on, off = dash[0] * FINER, dash[1] * FINER
    parts: list[list[Point]] = []
    gone, current = 0.0, [points[0]]
    for start, end in itertools.pairwise(points):
        length, walked = math.dist(start, end), 0.0
        while length - walked > _TINY:
            phase = gone % (on + off)
            drawn = phase < on
            step = min((on if drawn else on + off) - phase, length - walked)
            walked += step
            gone += step
            at = (start[0] + (end[0] - start[0]) * walked / length, start[1] + (end[1] - start[1]) * walked / length)
            if drawn:
                current.append(at)
                if gone % (on + off) >= on - _TINY or gone % (on + off) < _TINY:
                    parts.append(current)
                    current = [at]
            else:
                current = [at]
    return [part for part in (*parts, current) if len(part) > 1]


def _label(pen: ImageDraw.ImageDraw, label: Label) -> None:
    letters = font(label.size, bold=label.bold, shaped=from_the_right(label.text))
    at, anchor = (round(label.x), round(label.y)), _ANCHORS[label.anchor]
    if label.halo is not None:
        pen.text(
            at, label.text, fill=label.halo, font=letters, anchor=anchor, stroke_width=_HALO, stroke_fill=label.halo
        )
    pen.text(at, label.text, fill=label.colour, font=letters, anchor=anchor)
