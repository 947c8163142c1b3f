"""What a chart is made of once it is placed: shapes and labels at their pixels, each with a name.

Values, and the rule that no two labels lie over one another. Nothing is painted here.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable

from bot.papers.chart_colours import Colour
from bot.papers.chart_type import DEPTH, RISE, shortened, width

Point = tuple[float, float]


@dataclasses.dataclass(frozen=True, kw_only=True)
class Box:
    """A rectangle [px], from the top left of the picture."""

    left: float
    top: float
    right: float
    bottom: float

    def over(self, other: Box) -> bool:
        """Return whether two rectangles share more than an edge."""
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )

    def within(self, other: Box) -> bool:
        """Return whether it lies wholly inside another one."""
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.top >= other.top
            and self.bottom <= other.bottom
        )

    @property
    def corners(self) -> tuple[Point, ...]:
        """Return its corners, clockwise from the top left."""
        return (
            (self.left, self.top), (self.right, self.top), (self.right, self.bottom), (self.left, self.bottom)
        )  # fmt: skip


@dataclasses.dataclass(frozen=True, kw_only=True)
class Shape:
    """A polygon (with `fill`, `edge` or both) or, when it is not `closed`, a line. `dash` is on and off [px]."""

    name: str
    points: tuple[Point, ...]
    fill: Colour | None = None
    edge: Colour | None = None
    width: float = 0.0
    dash: tuple[float, float] | None = None
    closed: bool = True


@dataclasses.dataclass(frozen=True, kw_only=True)
class Label:
    """Words at a place: `x` is their left, middle or right by `anchor`, `y` the line they stand on [px]."""

    name: str
    text: str
    x: float
    y: float
    size: int
    colour: Colour
    bold: bool = False
    anchor: str = "l"
    halo: Colour | None = None
    """Drawn around the letters, where they stand on shapes."""
    inside: bool = False
    """True for letters inside a dot: they belong to it and are allowed on top of anything."""

    @property
    def box(self) -> Box:
        """Return the rectangle that the letters may fill."""
        wide = width(self.text, self.size, bold=self.bold)
        left = self.x - {"l": 0.0, "m": 0.5, "r": 1.0}[self.anchor] * wide
        return Box(left=left, top=self.y - RISE * self.size, right=left + wide, bottom=self.y + DEPTH * self.size)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Drawing:
    """A whole picture, placed: shapes from the lowest to the highest, then the labels."""

    width: int
    height: int
    ground: Colour
    shapes: tuple[Shape, ...]
    labels: tuple[Label, ...]

    def shape(self, name: str) -> tuple[Shape, ...]:
        """Return the shapes of a name."""
        return tuple(shape for shape in self.shapes if shape.name == name)

    def label(self, name: str) -> tuple[Label, ...]:
        """Return the labels of a name."""
        return tuple(label for label in self.labels if label.name == name)


class Sheet:
    """A drawing in the making: it knows where words stand already."""

    def __init__(self, wide: int, high: int) -> None:
        """Begin with nothing on it."""
        self.room = Box(left=0, top=0, right=wide, bottom=high)
        self._shapes: list[Shape] = []
        self._labels: list[Label] = []
        self._taken: list[Box] = []

    def add(self, *shapes: Shape) -> None:
        """Draw shapes over what is there."""
        self._shapes.extend(shapes)

    def keep_free(self, box: Box) -> None:
        """Let no optional label stand here."""
        self._taken.append(box)

    def write(self, label: Label, room: float | None = None) -> Label:
        """Write a label, shortened to `room` [px]; return it as it stands."""
        if room is not None:
            text = shortened(label.text, label.size, room, bold=label.bold)
            label = dataclasses.replace(label, text=text)
        if label.text:
            self._labels.append(label)
            if not label.inside:
                self._taken.append(label.box)
        return label

    def write_if_free(self, options: Iterable[Label]) -> Label | None:
        """Write the first of several places for a label that is free; None (and nothing) when there is none."""
        for label in options:
            if label.text and self.free(label.box):
                return self.write(label)
        return None

    def free(self, box: Box) -> bool:
        """Return whether a rectangle lies on the picture and over no label."""
        return box.within(self.room) and not any(box.over(taken) for taken in self._taken)

    def done(self, ground: Colour) -> Drawing:
        """Return the drawing."""
        return Drawing(
            width=round(self.room.right),
            height=round(self.room.bottom),
            ground=ground,
            shapes=tuple(self._shapes),
            labels=tuple(self._labels),
        )
