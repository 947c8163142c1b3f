"""What people wish of the plan and of the program: watches, quiet hours, prompts, certainty, rest, and "what if".

Values only; what a wish changes is decided elsewhere.
"""

from __future__ import annotations

import datetime as dt
from typing import Literal

from bot.commands.intent import Said
from scheduler.facts import RestPlace, Serving


class WatchSpan(Said):
    """Who watches from one time of the clock to another; None was not said: from the one before, to the one after.

    `name` "i" is whoever typed it.
    """

    name: str
    start: dt.time | None = None
    end: dt.time | None = None


class WatchesSaid(Said):
    """Who is awake when, and when nobody is to be woken; None: not said, an empty row of watches takes them back.

    Equal quiet times are no quiet hours.
    """

    kind: Literal["watches"] = "watches"
    watches: tuple[WatchSpan, ...] | None = None
    quiet: tuple[dt.time, dt.time] | None = None


class KindSaid(Said):
    """Prompts of a step are wanted, or no more."""

    kind: Literal["kind_of_step"] = "kind_of_step"
    step: str
    wanted: bool


class SureSaid(Said):
    """How sure dinner is to be, 0 to 1 as it was said (out of limits, too); None: a step safer than now, or bolder."""

    kind: Literal["sure"] = "sure"
    confidence: float | None = None
    safer: bool = True


class RestSaid(Said):
    """How the meat is to rest: minutes from pull to knife, the place, the set point of an oven [°C]. None: not said.

    `there` is True when it lies there already.
    """

    kind: Literal["rest_wish"] = "rest_wish"
    minutes: float | None = None
    place: RestPlace | None = None
    oven_c: float | None = None
    there: bool = False
    piece: str | None = None


class Suppose(Said):
    """What if: the fire lit or the meat on at an instant, another dinner, another pit. Nothing of it is kept."""

    kind: Literal["suppose"] = "suppose"
    light_at: dt.datetime | None = None
    later_min: float | None = None
    """So many minutes later than planned, earlier when negative."""
    on_at: dt.datetime | None = None
    serving: Serving | None = None
    pit_low_c: float | None = None
    pit_high_c: float | None = None
