"""From which piece a report is seen, what is taken back together with a fact, and how it is named then. Pure."""

from __future__ import annotations

import dataclasses

from scheduler.cook.changes import Report
from scheduler.cook.situation import Situation
from scheduler.facts import Corrected, Fact, ServingMoved


def seen_by(situation: Situation, report: Report) -> Situation:
    """Return the cook as seen from the piece that a report is about; a dinner that no piece names is the next one."""
    if isinstance(report.body, ServingMoved) and report.piece is None:
        return situation.next_dinner
    return situation.seen_from(report.piece)


def told_together(fact: Fact, other: Fact) -> bool:
    """Return whether two facts come from one message, taken in at once (an edit of it comes later)."""
    same = (fact.message, fact.by, fact.recorded_at) == (other.message, other.by, other.recorded_at)
    return same and fact.message is not None


def as_told(fact: Fact, log: tuple[Fact, ...]) -> Fact:
    """Return a fact as it is named when taken back: a correction by the value and time it brought."""
    if not isinstance(fact.body, Corrected):
        return fact
    of = fact.body.of
    happened_at = fact.body.happened_at or next((f.happened_at for f in log if f.id == of), fact.happened_at)
    return dataclasses.replace(fact, body=fact.body.body, happened_at=happened_at)
