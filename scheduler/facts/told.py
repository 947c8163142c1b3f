"""What the program itself wrote down: asked, told, withdrawn, warned, paper given out, closed. Values only."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import ClassVar, Literal


@dataclasses.dataclass(frozen=True, kw_only=True)
class Asked:
    """A message with these prompts went out (one trip)."""

    kind: ClassVar[str] = "asked"
    version: ClassVar[int] = 1
    prompts: tuple[str, ...]
    """Keys of the prompts, in the order of an open lid."""
    revision: int = 1
    """Counts the times the first of them was asked."""
    cautions: tuple[str, ...] = ()
    """Ids of the cautions that rode along (each once per cook)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Told:
    """What people were last told: when the next message comes, and the milestones of the forecast."""

    kind: ClassVar[str] = "told"
    version: ClassVar[int] = 1
    next_at: dt.datetime | None = None
    next_step: str | None = None
    verdict: str | None = None
    milestones: tuple[tuple[str, dt.datetime], ...] = ()
    """(name, instant) of pull, plate and the steps that wait for the meat; empty when not told in this message."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Withdrawn:
    """A prompt was given up, with the reason."""

    kind: ClassVar[str] = "withdrawn"
    version: ClassVar[int] = 1
    prompt: str
    reason: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Warned:
    """People were told that something is not safe, or that a stop is over.

    A caution or note once for each time it began; a stop again while it stands.
    """

    kind: ClassVar[str] = "warned"
    version: ClassVar[int] = 1
    rule: str
    since: dt.datetime | None = None
    stop: bool = False
    """True for a stop."""
    over: bool = False
    """True when people were told that the stop is over."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Closed:
    """The cook is over, or was called off."""

    kind: ClassVar[str] = "closed"
    version: ClassVar[int] = 1
    reason: str = "done"


@dataclasses.dataclass(frozen=True, kw_only=True)
class PaperIssued:
    """The plan was given out on paper or as a calendar file, or the record; `sequence` counts each kind, from 0."""

    kind: ClassVar[str] = "paper_issued"
    version: ClassVar[int] = 1
    paper: Literal["page", "calendar", "record"]
    sequence: int
    milestones: tuple[tuple[str, dt.datetime], ...]
    """(name, instant) as printed: when one has moved by thirty minutes, a new one is offered."""
