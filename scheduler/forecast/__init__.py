"""Forecast of a piece on the fire: when each core temperature is reached, and how sure that is.

Importing this room loads no numerics; the first call of `forecast` does.
"""

from scheduler.forecast.interface import Crossing, Forecast, Observation, PitEvent, Question, WrapEvent

__all__ = ["Crossing", "Forecast", "Observation", "PitEvent", "Question", "WrapEvent", "forecast"]


def forecast(question: Question) -> Forecast:
    """Return the forecast for a piece from everything known of it; the same question gives the same answer bit for bit."""
    from scheduler.forecast import model  # numpy is loaded when first needed, so that the chat starts fast

    return model.forecast(question)
