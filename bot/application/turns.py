"""A report of somebody and what was due right after it, taken together. Decides nothing and words nothing."""

from __future__ import annotations

import dataclasses

from bot.application.visit import Visit
from scheduler.cook import Changes, Lapsed, Situation, TripDue, ring
from scheduler.facts import Fact


@dataclasses.dataclass(frozen=True, kw_only=True)
class Turn:
    """A report and what was due right after it: both go into one write and one message."""

    reported: Changes
    rung: Changes
    facts: tuple[Fact, ...]

    @property
    def after(self) -> Situation:
        """Return the situation at the end."""
        return self.rung.after


def alone(reported: Changes) -> Turn:
    """Return a report by itself: what is due comes as a message of its own."""
    quiet = dataclasses.replace(reported, facts=(), events=())
    return Turn(reported=reported, rung=quiet, facts=reported.facts)


def turn(log: tuple[Fact, ...], reported: Changes, *, visit: Visit) -> Turn:
    """Return a report together with what is due at once because of it."""
    facts = (*log, *reported.facts)
    rung = ring(facts, now=visit.now, seed=f"{visit.seed}r", catalogue=visit.house.catalogue, answering=True)
    return Turn(reported=reported, rung=rung, facts=(*reported.facts, *rung.facts))


def trip_of(changes: Changes) -> TripDue | None:
    """Return the trip that goes out, None when none does."""
    return next((event for event in changes.events if isinstance(event, TripDue)), None)


def lapsed_of(changes: Changes) -> tuple[str, ...]:
    """Return the steps that were given up because their time has gone."""
    return tuple(step for event in changes.events if isinstance(event, Lapsed) for step in event.steps)


def has(changes: Changes, kind: type[object]) -> bool:
    """Return whether something of this kind happened."""
    return any(isinstance(event, kind) for event in changes.events)
