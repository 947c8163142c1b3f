"""A finding: one thing about safety that has to be known, with its numbers. A value; words are made by the program."""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum

from scheduler.facts import Edition


class FindingLevel(StrEnum):
    """How grave a finding is."""

    NOTE = "note"
    """To be known, nothing to be done at once."""
    CAUTION = "caution"
    """Act soon."""
    STOP = "stop"
    """Do not serve or keep serving."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Finding:
    """One thing that is not safe, or not known to be: the rule, what was found and its limit, and since when.

    Temperatures [°C], durations [min]; None where the rule has none, or nothing was measured.
    """

    rule: str
    """Id of a rule in `scheduler.safety.register`."""
    level: FindingLevel
    found_c: float | None = None
    limit_c: float | None = None
    floor_c: float | None = None
    """The published floor that a house rule's limit stands above [°C]."""
    found_min: float | None = None
    limit_min: float | None = None
    spot: str | None = None
    since: dt.datetime | None = None
    """When it began: a finding that begins again is told again."""
    known_at: dt.datetime | None = None
    """When the food, or what kept it, was last known to be as it should, where that is earlier than what was found."""
    until: dt.datetime | None = None
    """By when it must be mended, where there is such a time."""
    whole: bool = False
    """True for what is about the food or the fridge of the whole cook: told once, not once for each piece."""
    unread: bool = False
    """True where nobody read it: unknown is not safe, and a reading of that time may show that it was."""
    edition: Edition | None = None
    """Whose figure the limit is, where editions differ."""
    publisher: str | None = None
    """Who published a limit of which there are no editions."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Look:
    """An instant at which time alone brings a finding about: the finding as it will be known, and when."""

    rule: str
    since: dt.datetime
    at: dt.datetime


GRAVITY = (FindingLevel.STOP, FindingLevel.CAUTION, FindingLevel.NOTE)
"""Gravest first."""
