"""Forecast of a piece on the fire: when each core temperature is reached, and how sure that is.

Importing this room loads no numerics; the first call of `forecast` does.
"""

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
]


def forecast(question: Question) -> Forecast:
    """Return the forecast for a piece; the same question gives the same answer bit for bit."""
    from scheduler.forecast import model  # noqa: PLC0415 - numpy is loaded when first needed: the chat starts fast

    return model.forecast(question)
