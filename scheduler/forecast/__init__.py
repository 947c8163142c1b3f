"""Forecast of a piece on the fire: when each core temperature is reached, and how sure that is."""

from scheduler.forecast.interface import Crossing, Forecast, Observation, Question, WrapEvent, PitEvent

__all__ = ["Crossing", "Forecast", "Observation", "PitEvent", "Question", "WrapEvent"]
