"""Telling what is not safe: a stop at once and again while it stands, its end once; anything less rides along.

Pure: a log and what is found in, facts and events out. Nothing that people wish about messages is looked at here.
"""

from __future__ import annotations

from typing import Literal

from scheduler.cook.changes import Event, Found, StopOver
from scheduler.cook.situation import Situation
from scheduler.cook.writing import Pen
from scheduler.facts import (
    BOT_BODIES,
    Corrected,
    Discarded,
    Fact,
    PutBack,
    Reading,
    Slot,
    StepDone,
    TreatedTold,
    Undone,
    Warned,
)  # fmt: skip
from scheduler.planning.views import PieceView
from scheduler.safety import Finding, FindingLevel
from scheduler.safety.stops import again_at, standing_rules, tellings
from scheduler.state import FIRST, own

_BY_TIME = frozenset({"minimum_not_measured"})
"""Stops that time alone ends: the rest after the minimum, when the meat was served within it."""


def alarms(pen: Pen, before: Situation) -> tuple[Event, ...]:
    """Write down and return the stops that are told now, and those that are over; each stop has its own message.

    Of a cook that was closed nothing is told, least of all that a stop is over: closing ends none.
    """
    events: list[Event] = []
    if before.state.over:
        return ()
    for view in before.views:
        found = before.seen_from(view.piece).findings(pen.now)
        stops = [one for one in found if one.level is FindingLevel.STOP]
        named = view.piece if before.several else None
        new = {one.rule for one in stops if not tellings(view.state, one)}
        for one in stops:
            due_at = again_at(view.state, one)
            if one.rule in new or (due_at is not None and due_at <= pen.now):
                pen.write(Warned(rule=one.rule, since=one.since, stop=True), piece=view.piece)
                told = Found(finding=one, again=one.rule not in new, piece=None if one.whole else named)
                events += [] if told in events else [told]
        events += _over(pen, view, stops, named, quietly=bool(new))
    return tuple(events)


def _over(pen: Pen, view: PieceView, stops: list[Finding], named: str | None, *, quietly: bool) -> list[Event]:
    """Write down the stops that people were told and that stand no more; say so unless another takes their place."""
    standing = {one.rule for one in stops}
    ended = [rule for rule in standing_rules(view.state) if rule not in standing]
    for rule in ended:
        pen.write(Warned(rule=rule, stop=True, over=True), piece=view.piece)
    if not ended or quietly:
        return []
    return [_ending(pen, view, rule, others=bool(stops), named=named) for rule in ended]


def _ending(pen: Pen, view: PieceView, rule: str, *, others: bool, named: str | None) -> StopOver:
    """Return how a stop ended: by the newest thing that anybody told since it was told last, or by time where time may
    end it.
    """
    since = [fact for fact in reversed(_since_told(pen, view, rule)) if _about(fact, view.piece)]
    last = next((fact for fact in since if _may_end(fact)), None)
    if last is None and rule not in _BY_TIME:
        last = next(iter(since), None)
    if last is None:
        return StopOver(rule=rule, how="time", at=pen.now, others=others, piece=named)
    reading = last.body if isinstance(last.body, Reading) else None
    return StopOver(
        rule=rule,
        how=_how(last),
        at=last.happened_at if isinstance(last.body, Reading | Discarded) else last.recorded_at,
        by=last.by,
        found_c=None if reading is None else reading.value_c,
        others=others,
        piece=named,
    )


def _how(fact: Fact) -> Literal["discarded", "corrected", "reading", "intact", "done"]:
    """Return in which way a fact ends a stop."""
    match fact.body:
        case Discarded():
            return "discarded"
        case Corrected() | Undone():
            return "corrected"
        case Reading():
            return "reading"
        case TreatedTold(treatments=()):
            return "intact"
        case _:
            return "done"


def _since_told(pen: Pen, view: PieceView, rule: str) -> tuple[Fact, ...]:
    """Return what was written after a stop was told last."""
    told = [
        number
        for number, fact in enumerate(pen.log)
        if isinstance(fact.body, Warned) and fact.body.rule == rule and (fact.piece or FIRST) == view.piece
    ]
    return pen.log[told[-1] + 1 :] if told else ()


def _about(fact: Fact, piece: str) -> bool:
    """Return whether somebody told a fact, and not of another piece."""
    return not isinstance(fact.body, BOT_BODIES) and not (own(fact.body) and (fact.piece or piece) != piece)


def _may_end(fact: Fact) -> bool:
    """Return whether a fact is of a kind that ends stops."""
    food = isinstance(fact.body, Reading) and fact.body.slot is not Slot.PIT
    return food or isinstance(fact.body, Discarded | Corrected | Undone | StepDone | PutBack | TreatedTold)


def riding(pen: Pen, before: Situation, *, notes: bool = True) -> tuple[Event, ...]:
    """Write down and return the cautions and notes that ride in the message that goes out now.

    Without `notes` a note waits for the next message: another caution has its place in this one.
    """
    events: list[Event] = []
    for view in before.views:
        for one in before.seen_from(view.piece).findings(pen.now):
            waits = one.level is FindingLevel.STOP or (one.level is FindingLevel.NOTE and not notes)
            if not waits and (one.rule, one.since) not in view.state.warned:
                pen.write(Warned(rule=one.rule, since=one.since), piece=view.piece)
                told = Found(finding=one, piece=view.piece if before.several and not one.whole else None)
                events += [] if told in events else [told]
    return tuple(events)
