"""Questions about pieces of the catalogue, for tests of the forecast."""

from __future__ import annotations

import datetime as dt
from typing import Any

from scheduler.cuts import Cut
from scheduler.forecast import Crossing, Observation, PitEvent, Question
from tests.catalogue import CUTS

ON_AT = dt.datetime(2024, 6, 1, 4, tzinfo=dt.UTC)

STALLED = ((1.0, 12.0), (2.0, 30.0), (3.0, 46.0), (4.0, 56.0), (5.0, 62.0), (6.0, 66.0), (7.0, 68.0))
"""Readings of a brisket in its stall: (hours after meat on, °C)."""


def cut(name: str) -> Cut:
    """Return a cut of the catalogue."""
    return CUTS.get(name)


def after(hours_after_on: float) -> dt.datetime:
    """Return the instant so many hours after meat on."""
    return ON_AT + dt.timedelta(hours=hours_after_on)


def read(*points: tuple[float, float]) -> tuple[Observation, ...]:
    """Return readings from (hours after meat on, °C)."""
    return tuple(Observation(at=after(hour), value_c=value_c) for hour, value_c in points)


def question(of: Cut, *, pit_c: float | tuple[float, float] | None = None, **more: Any) -> Question:  # noqa: ANN401 - any field of the question
    """Return a question about a usual piece at its usual pit; `more` are fields of the question."""
    low_c, high_c = pit_c if isinstance(pit_c, tuple) else (pit_c or of.duration_pit_c,) * 2
    fields: dict[str, Any] = {
        "cook": "harvest supper",
        "piece": "first",
        "mass_kg": None,
        "thickness_m": None,
        "on_at": ON_AT,
        "pit": (PitEvent(at=ON_AT, low_c=low_c, high_c=high_c),),
        **more,
    }
    return Question(cut=of, **fields)


def hours(crossing: Crossing, p: float = 0.5) -> float:
    """Return a quantile in hours after meat on; infinity beyond the horizon."""
    at = crossing.quantile(p)
    return float("inf") if at is None else (at - ON_AT).total_seconds() / 3600
