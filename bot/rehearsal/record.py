"""What happened in a rehearsal: who saw and typed what and when, the outage, the forecasts. Values only."""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.ports import ScreenRow
from scheduler.facts import Fact


@dataclasses.dataclass(frozen=True, kw_only=True)
class Seen:
    """A message on somebody's screen. `caused_by` typed the line that brought it; None: the program came by itself."""

    at: dt.datetime
    who: str
    row: ScreenRow
    caused_by: str | None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Typed:
    """A line that somebody typed; `heard` is False when the program was dead at that moment."""

    at: dt.datetime
    who: str
    line: str
    heard: bool


@dataclasses.dataclass(frozen=True, kw_only=True)
class Outage:
    """The time in which the program was dead, and a print of each fact in the log as it was then."""

    killed_at: dt.datetime
    restarted_at: dt.datetime
    exit_code: int
    facts_before: tuple[str, ...]


@dataclasses.dataclass(frozen=True, kw_only=True)
class Forecast:
    """When the meat was expected to be pulled, as of an instant."""

    made_at: dt.datetime
    pull_at: dt.datetime


@dataclasses.dataclass
class Record:
    """Everything that is kept of one performance."""

    cook: str = ""
    seen: list[Seen] = dataclasses.field(default_factory=list)
    typed: list[Typed] = dataclasses.field(default_factory=list)
    forecasts: list[Forecast] = dataclasses.field(default_factory=list)
    outage: Outage | None = None
    facts: tuple[Fact, ...] = ()
    outbox: dict[str, int] = dataclasses.field(default_factory=dict)
    """Number of outgoing messages by state at the end, and of possible repeats under `possible_repeat`."""
