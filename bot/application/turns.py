"""A report of somebody and what was due right after it, taken together. Decides nothing and words nothing."""

from __future__ import annotations

import dataclasses

from bot.application.visit import Visit
from bot.commands import DANGERS
from scheduler.cook import Changes, Lapsed, Situation, TripDue, ring
from scheduler.facts import Corrected, Fact, Troubled, Undone
from scheduler.safety import Finding, FindingLevel


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


def calms(done: Turn) -> bool:
    """Return whether something ended that every room was told: a danger, or a caution of which what raised it was
    taken back.
    """
    bodies = [fact.body for fact in done.reported.facts]
    over = any(isinstance(body, Troubled) and body.over and body.problem in DANGERS for body in bodies)
    return over or bool(lifted(done))


def lifted(done: Turn) -> tuple[tuple[str, Finding], ...]:
    """Return the cautions that were told and stand no more because what raised them was taken back or corrected, each
    with its piece; stops say their own end.
    """
    before = done.reported.before
    if before is None or not any(isinstance(fact.body, Undone | Corrected) for fact in done.reported.facts):
        return ()
    at = done.after.state.as_of
    stand = {(v.piece, one.rule) for v in done.after.views for one in done.after.seen_from(v.piece).findings(at)}
    return tuple(
        (view.piece, one)
        for view in before.views
        for one in before.seen_from(view.piece).findings(at)
        if one.level is FindingLevel.CAUTION
        and (view.piece, one.rule) not in stand
        and any(rule == one.rule for rule, _since in view.state.warned)
    )
