"""Forecast of a piece on the fire: when each core temperature is reached, and how sure that is.

Importing this room loads no numerics; the first call of `forecast` does.
"""

from __future__ import annotations

import datetime as dt

from scheduler.facts import CookerKind
from scheduler.forecast.interface import (
    Air,
    AirWord,
    Crossing,
    FanPoint,
    Forecast,
    Observation,
    Opening,
    OpeningEvent,
    PitEvent,
    Question,
    StallOutlook,
    StallPhase,
    Wind,
    Worth,
    WrapChoice,
    WrapEvent,
)

__all__ = [
    "Air",
    "AirWord",
    "Crossing",
    "FanPoint",
    "Forecast",
    "Observation",
    "Opening",
    "OpeningEvent",
    "PitEvent",
    "Question",
    "StallOutlook",
    "StallPhase",
    "Wind",
    "Worth",
    "WrapChoice",
    "WrapEvent",
    "forecast",
    "reaches",
]


def forecast(question: Question) -> Forecast:
    """Return the forecast for a piece; the same question gives the same answer bit for bit."""
    from scheduler.forecast import model  # noqa: PLC0415 - numpy is loaded when first needed: the chat starts fast

    return model.forecast(question)


def reaches(
    target_c: float,
    *,
    lit_at: dt.datetime,
    readings: tuple[Observation, ...] = (),
    kind: CookerKind | None = None,
    set_c: float,
) -> Crossing:
    """Return when a rising pit passes `target_c` [°C] (`scheduler.forecast.rising`)."""
    from scheduler.forecast import rising  # noqa: PLC0415 - numpy is loaded when first needed: the chat starts fast

    return rising.reaches(target_c, lit_at=lit_at, readings=readings, kind=kind, set_c=set_c)


def stands_at(
    when: dt.datetime,
    *,
    lit_at: dt.datetime,
    readings: tuple[Observation, ...] = (),
    kind: CookerKind | None = None,
    set_c: float,
) -> float:
    """Return how hot a rising pit likely is at an instant [°C] (`scheduler.forecast.rising`)."""
    from scheduler.forecast import rising  # noqa: PLC0415 - numpy is loaded when first needed: the chat starts fast

    return rising.stands_at(when, lit_at=lit_at, readings=readings, kind=kind, set_c=set_c)
