"""Findings over time: when each was first known, and what ended it. The log is read again as it grew.

It mutes nothing: what stood when the cook was closed is told as standing.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterator

from scheduler.cuts import Cuts
from scheduler.errors import BrokenLog
from scheduler.facts import (
    BOT_BODIES,
    Closed,
    Corrected,
    Discarded,
    Fact,
    Noted,
    PieceAdded,
    PieceDropped,
    Reading,
    StepDone,
    Undone,
    Warned,
)
from scheduler.safety.case import THROWN
from scheduler.safety.entries import Ended, Raised
from scheduler.safety.finding import Finding
from scheduler.safety.findings import findings
from scheduler.state import FIRST, CookState, effective, fold

_QUIET = dt.timedelta(minutes=5)
"""A gap in the log longer than this is looked into at its end, too: time alone may have made something unsafe."""

_LOOKS_ON = dt.timedelta(days=5)
"""How long after the last word a log is looked at, whenever it is printed: every time of a rule has run out by then."""

Standing = dict[tuple[str, str], Finding]
"""(piece, rule) -> finding; of what is about the food of the whole cook the piece is empty."""


def raised_in(facts: tuple[Fact, ...], cuts: Cuts, now: dt.datetime) -> tuple[Raised, ...]:
    """Return every finding of a cook in order of when it was first known, as of `now` (aware, UTC).

    The log is folded once for each instant at which something was written, with what was known then: so a stop that a
    mistyped reading raised is seen, and ends with the correction.
    """
    open_now: dict[tuple[str, str], Raised] = {}
    over: list[Raised] = []
    told = {(f.piece, f.body.rule) for f in facts if isinstance(f.body, Warned)}
    seen = _Seen()
    for log, at, fresh in _instants(facts, now):
        seen = seen if seen.log == log else _seen(log)
        closed = seen.closed
        stands = {} if closed else _standing(seen, cuts, at)
        for key in [key for key in open_now if key not in stands]:
            one = open_now.pop(key)
            over.append(one if closed else _ended(one, fresh, at))
        if closed:
            break
        for key, finding in stands.items():
            piece, rule = key
            if key in open_now:
                open_now[key] = _graver(open_now[key], finding)
            else:
                was_told = any(of == rule and whose in {piece or whose, None} for whose, of in told)
                open_now[key] = Raised(piece=piece, finding=finding, seen_at=at, told=was_told, ended=Ended.NOT)
    return tuple(sorted((*over, *open_now.values()), key=lambda one: one.seen_at))


def _instants(
    facts: tuple[Fact, ...], now: dt.datetime
) -> Iterator[tuple[tuple[Fact, ...], dt.datetime, tuple[Fact, ...]]]:
    """Yield (log, instant, what was written then) of each telling and of the ends of long silences, and now."""
    last: dt.datetime | None = None
    start = 0
    while start < len(facts):
        end = start + 1
        while end < len(facts) and facts[end].recorded_at == facts[start].recorded_at:
            end += 1
        at = facts[start].recorded_at
        fresh = facts[start:end]
        if last is not None and at - last > _QUIET:
            yield facts[:start], at, ()
        if last is None or at - last > _QUIET or any(not isinstance(f.body, BOT_BODIES) for f in fresh):
            yield facts[:end], at, fresh
            last = at
        start = end
    if last is not None and now > last:
        yield facts, min(now, last + _LOOKS_ON), ()


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Seen:
    """A log as it was folded: looked at again after a silence it is the same but for the instant."""

    log: tuple[Fact, ...] = ()
    closed: bool = False
    states: tuple[CookState, ...] = ()
    """One for each piece that is still cooked, as of the newest fact."""


def _seen(log: tuple[Fact, ...]) -> _Seen:
    try:
        first = fold(log)
    except BrokenLog:  # the plan was taken back: nothing is cooked by this log yet, or any more
        return _Seen(log=log, closed=any(isinstance(f.body, Closed) for f in effective(log)))
    if first.over:
        return _Seen(log=log, closed=True)
    states = (first if piece.id == first.piece else fold(log, piece=piece.id) for piece in first.pieces)
    return _Seen(log=log, states=tuple(states))


def _standing(seen: _Seen, cuts: Cuts, at: dt.datetime) -> Standing:
    """Return what stands for each piece that is still cooked."""
    found: Standing = {}
    for folded in seen.states:
        state = folded if at <= folded.as_of else dataclasses.replace(folded, as_of=at)
        for finding in findings(state, cuts.get(state.planned.cut), cuts, at):
            found.setdefault(("" if finding.whole else state.piece, finding.rule), finding)
    return found


def _graver(one: Raised, finding: Finding) -> Raised:
    """Return a finding that went on, at the gravest that it became."""
    order = ("note", "caution", "stop")
    if order.index(finding.level) > order.index(one.finding.level):
        return dataclasses.replace(one, finding=dataclasses.replace(finding, since=one.finding.since))
    return one


def _ended(one: Raised, fresh: tuple[Fact, ...], at: dt.datetime) -> Raised:
    """Return a finding that stands no more, with the fact that ended it: the weightiest of what was written then."""
    thrown = [f for f in fresh if isinstance(f.body, StepDone) and (f.body.step, f.body.outcome) in THROWN]
    if thrown:
        when = thrown[0].happened_at
        return dataclasses.replace(one, ended=Ended.DISCARDED, ended_at=when, ended_by=thrown[0].by)
    mine = [f for f in fresh if not isinstance(f.body, BOT_BODIES) and f.piece in {None, one.piece or f.piece, FIRST}]
    ways = (
        (Discarded, Ended.DISCARDED),
        (Corrected | Undone, Ended.CORRECTED),
        (PieceDropped | PieceAdded, Ended.DROPPED),
        (Reading, Ended.MEASURED),
    )
    for kind, how in ways:
        for fact in mine:
            if isinstance(fact.body, kind):
                value_c = fact.body.value_c if isinstance(fact.body, Reading) else None
                when = fact.happened_at if how in {Ended.MEASURED, Ended.DISCARDED} else at
                return dataclasses.replace(one, ended=how, ended_at=when, ended_by=fact.by, value_c=value_c)
    if mine:
        last = next((f for f in reversed(mine) if not isinstance(f.body, Noted)), mine[-1])
        return dataclasses.replace(
            one,
            ended=Ended.TOLD,
            ended_at=at,
            ended_by=last.by,
            ended_body=last.body,
            ended_body_at=last.happened_at,
        )
    return dataclasses.replace(one, ended=Ended.TIME, ended_at=at)
