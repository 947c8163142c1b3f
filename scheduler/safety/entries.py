"""Entries of the record of a cook: what was read or done, what it is compared with, what was done next. Values only."""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum

from scheduler.facts import Body, Edition, Slot
from scheduler.safety.finding import Finding


class Phase(StrEnum):
    """Where food was when it was read: this says which limit its temperature is compared with."""

    RAW = "raw"
    """Before it went on."""
    COOKING = "cooking"
    HOLDING = "holding"
    """Off the fire, boxed, on the table."""
    COOLING = "cooling"
    """Put away."""
    REHEATING = "reheating"
    DISCARDED = "discarded"
    FRIDGE = "fridge"
    """No food: the air of its fridge."""


class Meets(StrEnum):
    """Whether a reading meets its limit."""

    YES = "yes"
    NO = "no"
    NOT_YET = "not_yet"
    """Under way: what counts is a later reading, or the time is not up."""
    BY_TIME = "by_time"
    """Under the minimum, and safe by its time at a lower temperature: intact cuts only, and by somebody's choice."""
    UNKNOWN = "unknown"
    """A doubtful reading proves nothing."""
    NOTHING = "nothing"
    """There is no limit for it then."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Bound:
    """What a reading is compared with [°C]; `at_most` says which side is the safe one."""

    name: str
    """Id of a limit, or "minimum"."""
    limit_c: float
    limit_f: float
    at_most: bool = False
    source: str
    edition: Edition | None = None
    within_min: float | None = None
    """Minutes in which it has to be reached, where there is such a time [min]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Change:
    """What was told of a fact later: another value (`was` is the one before), or that it never happened (`was` None).

    `stands` is False when the change itself was taken back.
    """

    at: dt.datetime
    by: str | None
    was: Body | None
    was_at: dt.datetime | None = None
    """When it had been said to be, where the time was corrected."""
    stands: bool = True


@dataclasses.dataclass(frozen=True, kw_only=True)
class Action:
    """What was done next about a reading that does not meet its limit.

    `what`: back_on, oven, reheating, reheated, read_again, discarded, put_away, pit.
    """

    what: str
    at: dt.datetime
    by: str | None
    value_c: float | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class ReadingEntry:
    """One reading as it stands, with everything that was told of it."""

    at: dt.datetime
    recorded_at: dt.datetime
    by: str | None
    piece: str | None
    """None: the air of the pit, or whatever all pieces share."""
    slot: Slot
    value_c: float
    spread_c: float
    spot: str | None
    doubtful: bool
    phase: Phase | None
    """None for the air of the pit."""
    bound: Bound | None
    meets: Meets
    actions: tuple[Action, ...] = ()
    changes: tuple[Change, ...] = ()
    taken_back: bool = False
    fact: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class StepEntry:
    """A step or another event of the food: on, off, boxed, served, put away, wrapped, thrown away."""

    at: dt.datetime
    recorded_at: dt.datetime
    by: str | None
    piece: str | None
    body: Body
    changes: tuple[Change, ...] = ()
    taken_back: bool = False
    fact: str


Entry = ReadingEntry | StepEntry


class Ended(StrEnum):
    """What ended a finding."""

    MEASURED = "measured"
    DISCARDED = "discarded"
    CORRECTED = "corrected"
    """What it rested on was wrong: a typing slip, or something that never happened."""
    TOLD = "told"
    """Another fact: back on the heat, put away, what was done to the meat."""
    TIME = "time"
    """Nothing was told: its time had gone by."""
    DROPPED = "dropped"
    """The piece is not part of the cook any more."""
    NOT = "not"
    """It stood when the cook was closed, or stands still."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Raised:
    """A finding from when it was first known to when it was known no more, with its numbers as they were first found.

    `seen_at` and `ended_at` are the instants at which the log knew it; `finding.since` is when it began.
    """

    piece: str
    """Empty: the food or the fridge of the whole cook."""
    finding: Finding
    seen_at: dt.datetime
    told: bool
    """True when people were told of it."""
    ended: Ended
    ended_at: dt.datetime | None = None
    ended_by: str | None = None
    value_c: float | None = None
    """The reading that ended it [°C]."""
    ended_body: Body | None = None
    """What was told that ended it, and for which instant; `ended_at` is when it was told."""
    ended_body_at: dt.datetime | None = None
