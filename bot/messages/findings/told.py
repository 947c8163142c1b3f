"""What the words of a finding are made of: its numbers as people read them, and the three things each one says.

Numbers only; no rule is worded here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.messages.figures import Voice, limit_f, span
from bot.messages.language import number
from bot.messages.words import _
from scheduler.facts import Edition
from scheduler.safety import Finding

_FROM_DAYS_MIN = 36 * 60.0
"""Durations from this on are told in days [min]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Words:
    """A finding in words, each a sentence without its full stop: what was found, what to do now, what ends it."""

    found: str
    do: str
    ends: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Told:
    """The numbers of a finding as they are read: what is not known is said as not known."""

    finding: Finding
    voice: Voice

    @property
    def read(self) -> bool:
        """Return whether a temperature was found."""
        return self.finding.found_c is not None

    @property
    def found(self) -> str:
        """Return the temperature found, in the unit of the room, with tenths where it is not whole."""
        found_c = self.finding.found_c
        return _("not measured") if found_c is None else self.voice.temp(found_c, fine=True)

    @property
    def at(self) -> str:
        """Return "at" the temperature found, or that nothing was measured."""
        return _("at {temp}").format(temp=self.found) if self.read else self.found

    @property
    def limit(self) -> str:
        """Return the limit, the published Fahrenheit first, and whose it is where editions differ."""
        return limit_text(self.finding.limit_c, self.finding.edition)

    @property
    def floor_limit(self) -> str:
        """Return the limit of hot holding with those who were read to publish it: 140 F is not read at the USDA."""
        whose = _("US Army, New York") if self.finding.edition is Edition.CONSUMER else _publisher(self.finding.edition)
        return self.plain_limit if not whose or self.finding.limit_c is None else _whose(self.finding.limit_c, whose)

    @property
    def plain_limit(self) -> str:
        """Return the limit without its publisher."""
        return limit_text(self.finding.limit_c)

    @property
    def floor(self) -> str:
        """Return the floor that the limit stands above."""
        return _("hot holding") if self.finding.floor_c is None else limit_text(self.finding.floor_c)

    @property
    def lasted(self) -> str:
        """Return how long it has lasted."""
        found = self.finding.found_min
        return _("a time nobody knows") if found is None else long_span(found)

    @property
    def most(self) -> str:
        """Return how long it may last, and who says so where editions differ."""
        limit = self.finding.limit_min
        if limit is None:
            return _("its limit")
        whose = "" if self.finding.limit_c is not None else _publisher(self.finding.edition)
        whose = whose or self.finding.publisher or ""
        return _("{span} ({whose})").format(span=long_span(limit), whose=whose) if whose else long_span(limit)

    @property
    def since(self) -> str:
        """Return when it began."""
        return _("a time nobody knows") if self.finding.since is None else self.voice.clock(self.finding.since)

    @property
    def by(self) -> str:
        """Return by when it must be mended: a limit of time, rounded down; nothing where there is none."""
        return "" if self.finding.until is None else _(" by {time}").format(time=self.voice.by(self.finding.until))

    @property
    def spot(self) -> str:
        """Return where it was found: the spot, or the coldest one."""
        spot = self.finding.spot
        return _("at the coldest spot") if not spot else _("at the {spot}").format(spot=spot)


def limit_text(limit_c: float | None, edition: Edition | None = None) -> str:
    """Return a limit such as "145 F (62.8 C)", and whose it is where editions differ."""
    if limit_c is None:
        return _("the limit")
    whose = _publisher(edition)
    if whose:
        return _whose(limit_c, whose)
    return _("{fahrenheit} F ({celsius} C)").format(fahrenheit=number(limit_f(limit_c)), celsius=_celsius(limit_c))


def _whose(limit_c: float, whose: str) -> str:
    return _("{fahrenheit} F ({celsius} C, {whose})").format(
        fahrenheit=number(limit_f(limit_c)), celsius=_celsius(limit_c), whose=whose
    )


def _celsius(limit_c: float) -> str:
    return number(round(limit_c, 1))


def _publisher(edition: Edition | None) -> str:
    """Return who published a figure, nothing where no edition is named."""
    names = {
        Edition.CONSUMER: _("USDA"),
        Edition.FOOD_CODE: _("Food Code"),
        Edition.STRICTER: _("the stricter rule"),
    }
    return "" if edition is None else names[edition]


def long_span(minutes: float) -> str:
    """Return a length of time: in days where it is days."""
    if minutes >= _FROM_DAYS_MIN:
        return _("{days:g} days").format(days=round(minutes / (24 * 60), 1))
    return span(dt.timedelta(minutes=minutes))
