"""What every forecast answers, whatever the model behind it.

Values and protocols only: no model, no numerics.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum
from typing import Protocol

from scheduler.cuts import Cut
from scheduler.facts import Wrap


@dataclasses.dataclass(frozen=True, kw_only=True)
class Observation:
    """A core or pit temperature as the model sees it: instant (UTC), value [°C] and half width of doubt [°C]."""

    at: dt.datetime
    value_c: float
    spread_c: float = 0.0


@dataclasses.dataclass(frozen=True, kw_only=True)
class WrapEvent:
    """The wrap from this instant on; one that lies in the future is a decision."""

    at: dt.datetime
    wrap: Wrap


@dataclasses.dataclass(frozen=True, kw_only=True)
class PitEvent:
    """The set point or band of the pit from this instant on [°C]; one that lies in the future is a decision."""

    at: dt.datetime
    low_c: float
    high_c: float


class Opening(StrEnum):
    """Why the cooker was opened: each lets heat out, a spritz also wets the meat, fuel burns up slowly."""

    LID = "lid"
    SPRITZ = "spritz"
    REFUEL = "refuel"


@dataclasses.dataclass(frozen=True, kw_only=True)
class OpeningEvent:
    """The cooker was opened at this instant (UTC)."""

    at: dt.datetime
    kind: Opening


class AirWord(StrEnum):
    """The air around the cooker, for people without a number."""

    COLD = "cold"
    COOL = "cool"
    WARM = "warm"
    HOT = "hot"


class Wind(StrEnum):
    """The wind at the cooker."""

    CALM = "calm"
    WINDY = "windy"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Air:
    """The air around the cooker: a temperature [°C] or a word, and the wind. None is unknown."""

    temp: float | AirWord | None = None
    wind: Wind | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Question:
    """Everything a forecast may know of one piece.

    `on_at` may lie in the future (a plan). `wraps` have happened or are decided with their time; `wrap_plan` is what is
    intended without one (None: undecided). `readings` and `pit_readings` are in time order and hold no doubtful ones.
    """

    cook: str
    piece: str
    cut: Cut
    mass_kg: float | None
    thickness_m: float | None
    on_at: dt.datetime
    pit: tuple[PitEvent, ...]
    readings: tuple[Observation, ...] = ()
    pit_readings: tuple[Observation, ...] = ()
    wraps: tuple[WrapEvent, ...] = ()
    wrap_plan: Wrap | None = None
    openings: tuple[OpeningEvent, ...] = ()
    air: Air = Air()
    start_c: float | None = None
    """Core when the meat went on [°C]; None is unknown, then a fridge is assumed, with its doubt."""


class Crossing(Protocol):
    """The time at which a core temperature (or readiness) is reached, as a distribution."""

    def quantile(self, p: float) -> dt.datetime | None:
        """Return the instant (UTC) before which it happens with probability `p`, None beyond the horizon (30 h or
        more).
        """

    def probability_by(self, when: dt.datetime) -> float:
        """Return the probability that it has happened by `when` (UTC), 0 to 1."""


class StallPhase(StrEnum):
    """Where the piece stands with its stall (the evaporative plateau)."""

    AHEAD = "ahead"
    WITHIN = "within"
    BEHIND = "behind"
    UNLIKELY = "unlikely"
    """No plateau is expected: small, tender or wrapped pieces."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class StallOutlook:
    """The stall as of the newest reading: `share` is the probability of the phase given, 0 to 1.

    `begins` and `ends` are distributions over the members that stall (None when too few do).
    """

    phase: StallPhase
    share: float
    begins: Crossing | None
    ends: Crossing | None


@dataclasses.dataclass(frozen=True, kw_only=True)
class FanPoint:
    """Core temperature [°C] at an instant (UTC): one in ten lies below `low_c`, one in ten above `high_c`."""

    at: dt.datetime
    low_c: float
    middle_c: float
    high_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Worth:
    """What a core reading would bring: `narrows` is how much the 80 % window of readiness is expected to shrink,
    `turns` the probability that it changes the verdict asked about (0 when none was).
    """

    narrows: dt.timedelta
    turns: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class WrapChoice:
    """A wrap that may still come, with its weight in a mixture (weights sum to one)."""

    wrap: Wrap
    weight: float


class Forecast(Protocol):
    """Answers about one piece from the readings so far. Names its cook and piece."""

    cook: str
    piece: str

    def crossing(self, core_temp_c: float) -> Crossing:
        """Return when the core passes `core_temp_c` [°C]; one already passed gives the time it was passed."""

    def ready(self) -> Crossing:
        """Return when the piece is worth pulling: tough cuts by a time-temperature dose (a heuristic, never a claim),
        others by core temperature.
        """

    def core_c(self, when: dt.datetime, p: float = 0.5) -> float:
        """Return the `p` quantile of the core temperature [°C] at `when` (UTC), on the fire."""

    def fan(self, until: dt.datetime, *, every: dt.timedelta = dt.timedelta(minutes=15)) -> tuple[FanPoint, ...]:
        """Return core temperatures from meat on to the plate: on the fire until ready, then vented and at rest."""

    def stall(self) -> StallOutlook:
        """Return where the piece stands with its stall."""

    @property
    def choices(self) -> tuple[WrapChoice, ...]:
        """Return the wraps that may still come: one when it is known or decided, several when it is not."""

    def given(self, wrap: Wrap) -> Forecast:
        """Return the forecast on the condition of one of `choices`; raise ValueError for another wrap."""

    def worth_reading(self, at: dt.datetime, *, by: dt.datetime | None = None) -> Worth:
        """Return what a core reading at `at` would bring; `by` is the instant whose probability decides something."""

    def surprise(self, reading: Observation) -> float:
        """Return how unlikely a new reading is, in standard deviations of the prediction made without it (signed)."""

    def outlier_probability(self, reading: Observation) -> float:
        """Return the probability (0 to 1) that a new reading is wrong (slip, bone, fat), from a forecast without it."""
