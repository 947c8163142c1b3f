"""What stands on a chart, as plain values: instants, temperatures, people, and words ready to be drawn.

Nothing is computed and nothing is placed here: `bot.papers.chart_sheet` makes them, `bot.papers.chart_layout` places.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum

from scheduler.forecast import FanPoint
from scheduler.planning.outlook import Window


class Tone(StrEnum):
    """How dinner stands; each has a sign of its own, so that none is told by colour alone."""

    GOOD = "good"
    """On time: a tick in a disc."""
    UNSURE = "unsure"
    """It may be late, or it comes too early: a wave in a square."""
    BAD = "bad"
    """Late, or not safe: an exclamation mark in a triangle."""
    PLAIN = "plain"
    """No time was fixed, or it is over: no sign."""


class Deed(StrEnum):
    """What was done to the meat or the cooker, each with a sign of its own."""

    MEAT_ON = "meat_on"
    LID = "lid"
    WRAP = "wrap"
    PULL = "pull"


@dataclasses.dataclass(frozen=True, kw_only=True)
class ChartPerson:
    """Somebody who read a thermometer: the letters in their dots, and which shape and colour these have."""

    name: str
    sign: str
    number: int


@dataclasses.dataclass(frozen=True, kw_only=True)
class Dot:
    """A reading [°C]; `person` is a place in the list of people, None when nobody is known."""

    at: dt.datetime
    value_c: float
    person: int | None
    doubtful: bool = False


@dataclasses.dataclass(frozen=True, kw_only=True)
class Event:
    """Something that was done, with a word where its sign alone does not tell it."""

    at: dt.datetime
    deed: Deed
    word: str = ""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Stretch:
    """A stretch of time at about one core temperature [°C]."""

    start: dt.datetime
    end: dt.datetime
    core_c: float
    word: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Level:
    """A temperature [°C] on an axis, and its words."""

    temp_c: float
    words: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Tick:
    """An instant on the axis of time: hours before dinner, and the time of day."""

    at: dt.datetime
    hours: str
    clock: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class ChartPiece:
    """One piece of meat: a panel of its own."""

    name: str
    newest: str
    """The newest reading in words."""
    off: str
    """When it comes off the fire, or did, in words."""
    dinner_at: dt.datetime
    """When it is wanted (or can be had, where no time was fixed)."""
    dinner_until: dt.datetime
    """The end of the meal, where a window was told; else when it is wanted."""
    fan: tuple[FanPoint, ...]
    window: Window | None
    """When it will be ready to come off; on a chart of the end, when it was forecast to be at meat on."""
    off_by: dt.datetime | None
    """When it has to be off for dinner: what it needs after that, at the least, ends at dinner."""
    pulled_at: dt.datetime | None
    readings: tuple[Dot, ...]
    newest_words: str
    """What stands at the newest dot, nothing where there is none."""
    stall: Stretch | None
    events: tuple[Event, ...]
    target: Level
    levels: tuple[Level, ...]
    low_c: float
    high_c: float
    whole: bool = True
    """False for one of many, of which the dinner line alone is drawn."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Band:
    """What the pit should hold over a stretch of time [°C]."""

    start: dt.datetime
    end: dt.datetime
    low_c: float
    high_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class ChartPit:
    """The pit: shared by all pieces."""

    words: str
    newest: str
    bands: tuple[Band, ...]
    readings: tuple[Dot, ...]
    openings: tuple[dt.datetime, ...]
    levels: tuple[Level, ...]
    low_c: float
    high_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class ChartSheet:
    """One cook as it is drawn. Instants are aware, UTC; words are ready to be drawn, in the language of the room."""

    title: str
    tone: Tone
    notes: tuple[str, ...]
    """What stands under the title: the next action; at the end what had been forecast."""
    begin_at: dt.datetime
    end_at: dt.datetime
    """The right edge: dinner, unless something of it comes later."""
    dinner_at: dt.datetime
    dinner_until: dt.datetime
    """The end of the meal, where a window was told; else when it is wanted."""
    dinner: str
    now_at: dt.datetime | None
    """The present, None where it does not lie on the chart."""
    now: str
    ticks: tuple[Tick, ...]
    axis: str
    people: tuple[ChartPerson, ...]
    pieces: tuple[ChartPiece, ...]
    pit: ChartPit
    legend: tuple[tuple[str, str], ...]
    """(shape, what it means), of the shapes that are drawn."""
    over: bool
    """True at the end of a cook: the forecast is the one made at meat on, and what happened lies over it."""
    dark: bool

    @property
    def runs_on(self) -> bool:
        """Return whether something lies after dinner, so that dinner is not at the very edge."""
        return self.end_at - self.dinner_until > 0.02 * (self.end_at - self.begin_at)
