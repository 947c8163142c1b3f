"""Whether a piece may be eaten now: safe, not safe, or unknown. Only what was measured makes it safe, no estimate.

What is missing is unknown; unknown is never served as safe.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum
from typing import Literal

from scheduler.cuts import Cut, Cuts
from scheduler.safety import each
from scheduler.safety.case import OPENING, Case
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.findings import standing
from scheduler.safety.holding import rest_span
from scheduler.safety.limits import REHEAT
from scheduler.safety.off import held_long
from scheduler.safety.put_away import chilling_since, on_heat, put_away
from scheduler.safety.reported import REPORTED
from scheduler.safety.under_floor import low_held
from scheduler.state import CookState, ReadingAt

_JUST = dt.timedelta(microseconds=1)
"""Before an instant: what was read at it counts."""

_UNREAD = frozenset({"minimum_not_measured", "pulled_under_minimum"})
"""Stops that also stand where nothing was read: then it is not known to be unsafe, it is unknown."""


_CANNOT_SAY = frozenset({"come_up_unknown", "pit_unread"})
"""Cautions of a time that nobody measured: no reading that comes later shows that the food is safe."""


class Eating(StrEnum):
    """Whether a piece may be eaten."""

    SAFE = "safe"
    """Measured at its minimum, rested, and read hot as it was opened where it was held."""
    NOT_SAFE = "not_safe"
    """Something was measured, or lasted, that forbids it; or its minimum or its rest is not reached yet."""
    UNKNOWN = "unknown"
    """Nobody has measured what would tell."""


Why = Literal[
    "discarded", "stop", "unmeasured", "under_minimum", "resting", "not_read_at_opening", "under_floor", "put_away",
    "few_read", "reported", "cannot_say", "measured",
]  # fmt: skip
"""The first reason found: thrown away, a stop stands, nothing read, read too low, its rest is not over, held without a
reading as it was opened, read under the floor then, put away and not reheated, only some of several like pieces
read, doubtful by what was reported, a time of which nobody can say what it did to the food, measured."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Serving:
    """The verdict on eating a piece at an instant, the reason, and the stops that stand."""

    eating: Eating
    why: Why
    stops: tuple[Finding, ...] = ()
    reading: ReadingAt | None = None
    """The reading that decided, where one did."""
    until: dt.datetime | None = None
    """When its rest is over, where that is what is missing."""
    read: int = 0
    """How many of several like pieces were read at the minimum, of `of`."""
    of: int = 1


def serving(state: CookState, cut: Cut, cuts: Cuts, now: dt.datetime) -> Serving:
    """Return whether a piece may be eaten at `now` (aware, UTC).

    Safe only when its gate is open, no stop stands, and, where it was off the fire for longer than its rest, its lowest
    spot was read at the floor or above in the half hour before it was served (before `now`, when it was not yet).
    """
    case = Case(state=state, cut=cut, cuts=cuts, now=now)
    if case.discarded_at is not None:
        return Serving(eating=Eating.NOT_SAFE, why="discarded")
    found = standing(case)
    stops = tuple(f for f in found if f.level is FindingLevel.STOP)
    if any(f.found_c is not None or f.rule not in _UNREAD for f in stops):
        return Serving(eating=Eating.NOT_SAFE, why="stop", stops=stops)
    said = _by_gate(case) or _since_the_fire(case)
    if said.eating is Eating.SAFE and chilling_since(state) is None and each.passed(case) < each.needed(state, cut):
        said = Serving(eating=Eating.UNKNOWN, why="few_read", read=each.passed(case), of=each.needed(state, cut))
    if (said.eating is Eating.SAFE or said.why == "resting") and any(f.rule in REPORTED for f in found):
        said = Serving(eating=Eating.UNKNOWN, why="reported", reading=said.reading)
    if said.eating is Eating.SAFE and any(_cannot_say(finding) for finding in found):
        said = Serving(eating=Eating.UNKNOWN, why="cannot_say")
    return dataclasses.replace(said, stops=stops)


def _cannot_say(finding: Finding) -> bool:
    """Return whether a caution tells of a time that nobody measured."""
    return finding.rule in _CANNOT_SAY or (finding.rule == "fridge_warm" and finding.unread)


def _by_gate(case: Case) -> Serving | None:
    """Return why the gate forbids eating, None when it is open."""
    gate = case.gate
    if gate.lowest is None:
        return Serving(eating=Eating.UNKNOWN, why="unmeasured")
    if gate.open_at is None:
        return Serving(eating=Eating.NOT_SAFE, why="under_minimum", reading=gate.lowest)
    if case.now < gate.open_at:
        return Serving(eating=Eating.NOT_SAFE, why="resting", reading=gate.lowest, until=gate.open_at)
    return None


def _since_the_fire(case: Case) -> Serving:
    """Return what is known of a piece whose gate is open, since it left the fire."""
    state = case.state
    if chilling_since(state) is not None:
        history = put_away(state)
        hot = history.chilling is None and history.reheats and history.reheats[-1].done_at is not None
        return Serving(eating=Eating.SAFE if hot else Eating.UNKNOWN, why="measured" if hot else "put_away")
    if _unread_on_heat(case):
        return Serving(eating=Eating.UNKNOWN, why="not_read_at_opening")
    served_at = state.at("serve")
    opened_at = case.now if served_at is None else min(served_at, case.now)
    if not held_long(case, opened_at):
        return Serving(eating=Eating.SAFE, why="measured")
    pulled_at = state.at("pull")
    since = opened_at - OPENING if pulled_at is None else max(pulled_at, opened_at - OPENING)
    read = case.held(since - _JUST)
    before = case.lowest(tuple(r for r in read if r.at <= opened_at))
    after = case.lowest(tuple(r for r in read if r.at >= opened_at))
    reheated = [r for r in case.held(opened_at - _JUST, put_away=True) if not case.under(r, case.limit_c(REHEAT))]
    if before is not None and case.under(before, case.floor_c) and reheated and not low_held(case):
        return Serving(eating=Eating.SAFE, why="measured", reading=reheated[-1])
    if before is not None and case.under(before, case.floor_c):
        return Serving(eating=Eating.NOT_SAFE, why="under_floor", reading=before)
    if before is None and (after is None or case.under(after, case.floor_c)):
        return Serving(eating=Eating.UNKNOWN, why="not_read_at_opening")
    return Serving(eating=Eating.SAFE, why="measured", reading=before or after)


def _unread_on_heat(case: Case) -> bool:
    """Return whether food is back on heat for longer than it rests anyway, and nobody has read it hot just now."""
    back = [at for at, end in on_heat(case.state, case.now) if end is None]
    if not back or case.now - back[-1] <= rest_span(case.cut):
        return False
    newest = case.lowest(case.held(max(back[-1], case.now - OPENING) - _JUST))
    return newest is None or case.under(newest, case.floor_c)
