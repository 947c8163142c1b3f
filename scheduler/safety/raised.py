"""Findings over time: when each was first known, and what ended it. The log is read again as it grew.

It mutes nothing: what stood when the cook was closed is told as standing.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterator

from scheduler.cuts import Cuts
from scheduler.facts import (
    BOT_BODIES,
    Closed,
    Corrected,
    Discarded,
    Fact,
    PieceAdded,
    PieceDropped,
    Planned,
    Reading,
    StepDone,
    Undone,
    Warned,
)
from scheduler.safety.case import THROWN
from scheduler.safety.entries import Ended, Raised
from scheduler.safety.finding import Finding
from scheduler.safety.findings import findings
from scheduler.state import FIRST, effective, fold, pieces_of

_QUIET = dt.timedelta(minutes=5)
"""A gap in the log longer than this is looked into at its end, too: time alone may have made something unsafe."""

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
    for log, at, fresh in _instants(facts, now):
        counts = effective(log)
        closed = any(isinstance(f.body, Closed) for f in counts)
        stands = {} if closed else _standing(log, counts, cuts, at)
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
        yield facts, now, ()


def _standing(log: tuple[Fact, ...], counts: tuple[Fact, ...], cuts: Cuts, at: dt.datetime) -> Standing:
    """Return what stands for each piece that is still cooked; `counts` are the facts of the log that stand."""
    found: Standing = {}
    if not any(isinstance(f.body, Planned) for f in counts):
        return found
    for piece in pieces_of(counts):
        state = fold(log, at, piece.id)
        for finding in findings(state, cuts.get(state.planned.cut), cuts, at):
            found.setdefault(("" if finding.whole else piece.id, finding.rule), finding)
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
        return dataclasses.replace(one, ended=Ended.DISCARDED, ended_at=at, ended_by=thrown[0].by)
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
                return dataclasses.replace(one, ended=how, ended_at=at, ended_by=fact.by, value_c=value_c)
    if mine:
        return dataclasses.replace(one, ended=Ended.TOLD, ended_at=at, ended_by=mine[-1].by)
    return dataclasses.replace(one, ended=Ended.TIME, ended_at=at)
