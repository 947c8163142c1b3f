"""Errors of the engine: broken assumptions, never something a person can cause by typing.

What a person can cause is a return value (`Refusal`, `Clarification` in `scheduler.cook`).

    SlowbellError
    ├── CatalogueError          a data file breaks its own rules
    ├── UnknownCut              code asked for a cut that the catalogue does not hold
    ├── BrokenLog               the log of facts contradicts itself
    └── ImpossibleTemperature   a rule was asked about what is no temperature
"""

from __future__ import annotations


class SlowbellError(Exception):
    """Something inside Slowbell is not as it must be."""

    def __init__(self, message: str = "", **details: object) -> None:
        self.details = details
        super().__init__(message or (self.__doc__ or "").strip())


class CatalogueError(SlowbellError):
    """A catalogue file breaks its own rules."""


class UnknownCut(SlowbellError):
    """The catalogue holds no cut of that name."""


class BrokenLog(SlowbellError):
    """The log of facts contradicts itself."""


class ImpossibleTemperature(SlowbellError):
    """What was given as a temperature is no number, infinite, or below absolute zero."""
