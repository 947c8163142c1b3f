"""What every forecast answers, whatever the model behind it.

Values and protocols only: no model, no numerics.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
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
    """The wrap from this instant on."""

    at: dt.datetime
    wrap: Wrap


@dataclasses.dataclass(frozen=True, kw_only=True)
class PitEvent:
    """The set point or band of the pit from this instant on [°C]."""

    at: dt.datetime
    low_c: float
    high_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Question:
    """Everything a forecast may know of one piece.

    `on_at` may lie in the future (a plan). `wraps` have happened; `wrap_plan` is what is intended (None: undecided).
    `readings` and `pit_readings` are in time order and hold no doubtful ones.
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


class Crossing(Protocol):
    """The time at which a core temperature (or readiness) is reached, as a distribution."""

    def quantile(self, p: float) -> dt.datetime | None:
        """Return the instant (UTC) before which it happens with probability `p`, None beyond the horizon (30 h or
        more).
        """

    def probability_by(self, when: dt.datetime) -> float:
        """Return the probability that it has happened by `when` (UTC), 0 to 1."""


class Forecast(Protocol):
    """Answers about one piece from the readings so far. Names its cook and piece."""

    cook: str
    piece: str

    def crossing(self, core_temp_c: float) -> Crossing:
        """Return when the core passes `core_temp_c` [°C]; one already passed gives the time it was passed."""

    def ready(self) -> Crossing:
        """Return when the piece is tender enough to pull: the core passing a target that is itself uncertain."""

    def core_c(self, when: dt.datetime, p: float = 0.5) -> float:
        """Return the `p` quantile of the core temperature [°C] at `when` (UTC)."""

    def surprise(self, reading: Observation) -> float:
        """Return how unlikely a new reading is, in standard deviations of the prediction made without it (signed)."""
