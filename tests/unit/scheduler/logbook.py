"""A log that tests write by hand: facts, reports and rings at so many minutes after a fixed morning.

It decides nothing; the engine does.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

from scheduler.cook import Changes, Refusal, Report, Situation, TripDue, assess, decide, ring
from scheduler.cuts import Cut
from scheduler.facts import (
    Body,
    Fact,
    Feel,
    Felt,
    Planned,
    Reading,
    Serving,
    ServingKind,
    Slot,
    StepDone,
    Wrap,
    Wrapped,
)  # fmt: skip
from scheduler.planning.catalogue import Catalogue, read_catalogue
from scheduler.planning.prompts import Prompt
from scheduler.planning.trips import Trip
from scheduler.state import CookState, fold
from tests.catalogue import TEXTS

CATALOGUE: Catalogue = read_catalogue(dict(TEXTS))

START = dt.datetime(2026, 9, 12, 6, 0, tzinfo=dt.UTC)
"""A Saturday, six in the morning; cooks in tests live in UTC unless they say so."""


def at(minutes: float) -> dt.datetime:
    """Return the instant so many minutes after the start."""
    return START + dt.timedelta(minutes=minutes)


def minutes_of(instant: dt.datetime | None) -> float | None:
    """Return an instant in minutes after the start."""
    return None if instant is None else (instant - START) / dt.timedelta(minutes=1)


def cut(name: str = "beef_chuck_ribs") -> Cut:
    """Return a cut of the catalogue."""
    return CATALOGUE.cuts.get(name)


def dinner(minutes: float, *, window: float = 0) -> Serving:
    """Return dinner so many minutes after the start, or a window that begins then."""
    start = at(minutes).replace(tzinfo=None)
    if not window:
        return Serving(kind=ServingKind.AT, zone="Etc/UTC", start=start)
    end = start + dt.timedelta(minutes=window)
    return Serving(kind=ServingKind.WINDOW, zone="Etc/UTC", start=start, end=end)


WHEN_READY = Serving(kind=ServingKind.WHEN_READY, zone="Etc/UTC")


def planned(**more: Any) -> Planned:  # noqa: ANN401 - any field of the plan
    """Return a plan: chuck ribs at 135 C for 19:00; `more` are fields of the plan."""
    fields: dict[str, Any] = {"cut": "beef_chuck_ribs", "serving": dinner(780), "pit_low_c": 135.0, "pit_high_c": 135.0}
    return Planned(**(fields | more))


class Logbook:
    """The log of one cook, planned at the start."""

    def __init__(self, plan: Planned | None = None, *, planned_at: float = 0) -> None:
        self.facts: tuple[Fact, ...] = ()
        self._turns = 0
        self.tell(planned() if plan is None else plan, planned_at)

    def tell(
        self,
        body: Body,
        minutes: float,
        *,
        recorded: float | None = None,
        by: str | None = "Ines",
        answers: tuple[str, ...] = (),
        message: str | None = None,
    ) -> str:
        """Write a fact as it stands, without asking the engine; return its id."""
        fact = Fact(
            id=f"f{len(self.facts)}",
            cook="c1",
            piece="p1",
            happened_at=at(minutes),
            recorded_at=at(minutes if recorded is None else recorded),
            by=by,
            body=body,
            answers=answers,
            message=message,
        )
        self.facts = (*self.facts, fact)
        return fact.id

    def done(self, step: str, minutes: float, outcome: str | None = None, **more: Any) -> str:  # noqa: ANN401 - as in tell
        """Write that a step was done."""
        return self.tell(StepDone(step=step, outcome=outcome), minutes, **more)

    def read(self, value_c: float, minutes: float, *, slot: Slot = Slot.CORE, **more: Any) -> str:  # noqa: ANN401 - fields of the reading
        """Write a reading."""
        return self.tell(Reading(slot=slot, value_c=value_c, **more), minutes)

    def felt(self, feel: Feel, minutes: float, **more: Any) -> str:  # noqa: ANN401 - as in tell
        """Write that somebody felt for tenderness."""
        return self.tell(Felt(feel=feel), minutes, **more)

    def wrapped(self, wrap: Wrap, minutes: float) -> str:
        """Write that the meat was wrapped."""
        return self.tell(Wrapped(wrap=wrap), minutes)

    def say(self, *bodies: Body, minutes: float, ago: float = 0, by: str = "Ines", **more: Any) -> Changes | Refusal:  # noqa: ANN401 - fields of the report
        """Report in one message and keep what the engine makes of it."""
        self._turns += 1
        fields: dict[str, Any] = {"happened_at": at(minutes - ago), "by": by, "message": f"m{self._turns}", **more}
        reports = tuple(Report(body=body, **fields) for body in bodies)
        result = decide(self.facts, reports, now=at(minutes), seed=f"i{self._turns}", catalogue=CATALOGUE)
        if isinstance(result, Changes):
            self.facts = (*self.facts, *result.facts)
        return result

    def taken(self, *bodies: Body, minutes: float, **more: Any) -> Changes:  # noqa: ANN401 - as in say
        """Report something that must be taken."""
        result = self.say(*bodies, minutes=minutes, **more)
        assert isinstance(result, Changes), result
        return result

    def refused(self, *bodies: Body, minutes: float, **more: Any) -> Refusal:  # noqa: ANN401 - as in say
        """Report something that must be refused; nothing of it is kept."""
        before = self.facts
        result = self.say(*bodies, minutes=minutes, **more)
        assert isinstance(result, Refusal), result
        assert self.facts == before
        return result

    def ring(self, minutes: float, *, answering: bool = False) -> Changes:
        """Ring once, by the clock or while somebody is answered, and keep what came of it."""
        self._turns += 1
        changes = ring(self.facts, now=at(minutes), seed=f"r{self._turns}", catalogue=CATALOGUE, answering=answering)
        self.facts = (*self.facts, *changes.facts)
        return changes

    def trip(self, minutes: float) -> Trip | None:
        """Ring once and return the trip that goes out."""
        trips = [event.trip for event in self.ring(minutes).events if isinstance(event, TripDue)]
        return trips[0] if trips else None

    @property
    def state(self) -> CookState:
        """Return the state as of the last fact."""
        return fold(self.facts)

    @property
    def situation(self) -> Situation:
        """Return the situation as of the last fact."""
        return assess(self.facts, CATALOGUE)

    def prompt(self, step: str) -> Prompt | None:
        """Return the open prompt of a step."""
        return self.situation.prompt(step)

    def due(self, step: str) -> float | None:
        """Return when a step is due, in minutes after the start; None when it is not asked."""
        prompt = self.prompt(step)
        return None if prompt is None else minutes_of(prompt.due_at)

    def wakes(self, step: str) -> float | None:
        """Return when a step is asked (again), in minutes after the start."""
        prompt = self.prompt(step)
        return None if prompt is None else minutes_of(prompt.wake_at)


def steps_of(trip: Trip | None) -> tuple[str, ...]:
    """Return the steps of a trip in order."""
    return () if trip is None else tuple(prompt.step.id for prompt in trip.prompts)


def cooking(plan: Planned | None = None) -> Logbook:
    """Return a cook whose fire was lit at the start and whose meat went on an hour later."""
    log = Logbook(plan)
    log.done("light", 0)
    log.done("meat_on", 60)
    return log


def resting(plan: Planned | None = None, *, pulled: float = 480) -> Logbook:
    """Return a cook whose meat was read at 96 C and pulled."""
    log = cooking(plan)
    log.read(96.0, pulled - 5)
    log.done("pull", pulled)
    return log
