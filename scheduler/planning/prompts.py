"""Prompts: one thing to be done or asked, with a stable key, the reason for its time, and its limits.

Values only.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum
from typing import Literal

from scheduler.planning.steps import Level, Step
from scheduler.state import Claim


@dataclasses.dataclass(frozen=True, kw_only=True)
class Why:
    """Why a prompt is due when it is.

    `kind`: before_serving, after (an event), repeat, core (a temperature), gate (several conditions), held (a careful
    estimate), put_off (somebody asked to wait), cut (an offset of this cut's own), rising (the pit on its way up),
    watch (the watch changes), food (it cools, or was reheated).
    """

    kind: Literal[
        "before_serving", "after", "repeat", "core", "gate", "held", "put_off", "cut", "rising", "watch", "food"
    ]
    minutes: float | None = None
    event: str | None = None
    core_c: float | None = None
    pit_c: float | None = None
    """The pit that is expected at that time, of a rising one [°C]."""
    open_conditions: tuple[str, ...] = ()


class EscalationLevel(StrEnum):
    """How far a call has gone that nobody answered."""

    OWNER = "owner"
    NEXT = "next"
    """The next name."""
    GROUP = "group"
    """Everybody."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Escalation:
    """Whom a prompt calls this time, and after how many minutes the next stage is called."""

    level: EscalationLevel
    names: tuple[str, ...]
    """Who is called at this stage, the first one first."""
    before: tuple[str, ...] = ()
    """Who was called at earlier stages and has not answered."""
    minutes: float | None = None
    """Minutes until the next stage, None: there is none."""
    skipped: tuple[str, ...] = ()
    """Who was passed over, because they cannot be woken."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Prompt:
    """One planned prompt. Instants are aware, UTC.

    The key `piece/step/n` is stable: the n-th prompt of a step keeps its key however often it moves.
    """

    key: str
    cook: str
    piece: str
    step: Step
    due_at: dt.datetime
    why: Why
    order: int = 0
    """Place of the step in the order of doing."""
    asked: int = 0
    """How often it has been asked."""
    asked_at: dt.datetime | None = None
    wake_at: dt.datetime | None = None
    """When it is to be asked (again); None when it only waits for an answer."""
    lapses_at: dt.datetime | None = None
    """When it is given up; None when it stays open."""
    follows_at: dt.datetime | None = None
    """When the next of its series comes if this one is given up."""
    late_from: dt.datetime | None = None
    """What lateness is counted from, where the due time was moved out of the night."""
    wakes: tuple[str, ...] = ()
    """In the quiet hours: names of those it is to wake, the first one first; empty by day and when nobody is woken."""
    escalation: Escalation | None = None
    """Whom it calls at which stage; None by day for what nobody else is called for, and while nobody is known."""
    claim: Claim | None = None
    """Who said "mine": it is asked again only once that lapses; a lapsed one until it was asked again."""
    silent: bool = False
    """True in the quiet hours when it is to wake nobody: it makes no sound, and starts no message by itself."""

    @property
    def late_until(self) -> dt.datetime:
        """Return the last instant at which it may still be asked for the first time."""
        return (self.late_from or self.due_at) + dt.timedelta(minutes=self.step.late_min)

    @property
    def early_from(self) -> dt.datetime:
        """Return the first instant at which it may join a trip."""
        return self.due_at - dt.timedelta(minutes=self.step.early_min)

    @property
    def must_arrive(self) -> bool:
        """Return whether it is told however late (must and safety steps)."""
        return self.step.safety or self.step.level is Level.MUST

    @property
    def is_question(self) -> bool:
        """Return whether it wants a number: a message holds at most one such question."""
        return bool(self.step.slots)


SAFETY_PUT_OFF = dt.timedelta(minutes=20)
"""A question of safety is put off by no more than this, whatever was said: house rule."""

_NUMBERS_OF_SAFETY = frozenset(
    {"come_up_check", "second_spot", "hold_check", "serve_reading", "cool_check", "two_hour"}
)
"""Questions of safety that run against a clock while the meat is hot, or cools."""


def put_off_until(step_id: str, until: dt.datetime, now: dt.datetime) -> dt.datetime:
    """Return until when a step is put off that somebody wants to put off at `now`."""
    return min(until, now + SAFETY_PUT_OFF) if step_id in _NUMBERS_OF_SAFETY else until


def key_of(piece: str, step_id: str, number: int) -> str:
    """Return the stable key of the n-th prompt of a step."""
    return f"{piece}/{step_id}/{number}"


def step_of(key: str) -> str:
    """Return the step id in a key."""
    return key.split("/")[1]


def number_of(key: str) -> int:
    """Return which prompt of its step a key stands for, counted from 1."""
    return int(key.split("/")[2])
