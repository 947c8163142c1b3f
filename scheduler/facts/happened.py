"""What happened: readings, steps done and skipped, wraps, feels, dinner and pit moved, notes, problems. Values only."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import ClassVar

from scheduler.facts.choices import Feel, Slot, Wrap
from scheduler.facts.serving import Serving


@dataclasses.dataclass(frozen=True, kw_only=True)
class ServingMoved:
    """Dinner was moved."""

    kind: ClassVar[str] = "serving_moved"
    version: ClassVar[int] = 1
    serving: Serving


@dataclasses.dataclass(frozen=True, kw_only=True)
class PitMoved:
    """The pit is now to run in another band."""

    kind: ClassVar[str] = "pit_moved"
    version: ClassVar[int] = 1
    pit_low_c: float
    pit_high_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Reading:
    """A temperature that a person reported."""

    kind: ClassVar[str] = "reading"
    version: ClassVar[int] = 1
    slot: Slot
    value_c: float
    spread_c: float = 0.0
    """Half width of what the person said ("about 160", "160-165"), 0 for a plain number."""
    spot: str | None = None
    doubtful: bool = False
    """True while a second spot has been asked for: kept, shown, not used by the forecast."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class StepDone:
    """A step of the catalogue was done: fire lit ("light"), meat on ("meat_on"), pulled ("pull"), served
    ("serve"), ...
    """

    kind: ClassVar[str] = "step_done"
    version: ClassVar[int] = 1
    step: str
    outcome: str | None = None
    """The choice made, where the step offers choices ("thin" for smoke, "half" for fuel, "set" for bark)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class StepSkipped:
    """A step was skipped this once. Skipping a safety step closes nothing (`scheduler.state`)."""

    kind: ClassVar[str] = "step_skipped"
    version: ClassVar[int] = 1
    step: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class PutOff:
    """A prompt was put off until an instant."""

    kind: ClassVar[str] = "put_off"
    version: ClassVar[int] = 1
    step: str
    until: dt.datetime


@dataclasses.dataclass(frozen=True, kw_only=True)
class Wrapped:
    """The meat was wrapped; `NONE` means: decided to stay bare to the end, or unwrapped."""

    kind: ClassVar[str] = "wrapped"
    version: ClassVar[int] = 1
    wrap: Wrap


@dataclasses.dataclass(frozen=True, kw_only=True)
class Felt:
    """Someone felt for tenderness."""

    kind: ClassVar[str] = "felt"
    version: ClassVar[int] = 1
    feel: Feel
    spot: str | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class PutBack:
    """Meat that was pulled went back on the heat: it cooks on, and the time off the heat stays in the log."""

    kind: ClassVar[str] = "put_back"
    version: ClassVar[int] = 1


@dataclasses.dataclass(frozen=True, kw_only=True)
class Noted:
    """Free words kept with the cook: notes, problems, and what was not understood."""

    kind: ClassVar[str] = "noted"
    version: ClassVar[int] = 1
    text: str
    understood: bool = True


@dataclasses.dataclass(frozen=True, kw_only=True)
class Troubled:
    """A problem of the catalogue was reported ("fire_out"); it stands until somebody says that it is over."""

    kind: ClassVar[str] = "troubled"
    version: ClassVar[int] = 1
    problem: str
    over: bool = False


@dataclasses.dataclass(frozen=True, kw_only=True)
class LeverTaken:
    """One of the offered ways to be on time was chosen; what it changes stands in facts of its own beside it."""

    kind: ClassVar[str] = "lever_taken"
    version: ClassVar[int] = 1
    lever: str
