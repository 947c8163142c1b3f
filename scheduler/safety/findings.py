"""The engine of the rules: every rule is asked about a piece at an instant, and what it finds is told gravest first.

Nothing here can be skipped or muted; what a rule looks at stands in the module of the rule.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Callable

from scheduler.cuts import Cut, Cuts
from scheduler.safety import come_up, cooling, fire, fridge, gate, leftovers, off, raw, reheating, reported
from scheduler.safety.case import Case
from scheduler.safety.finding import GRAVITY, Finding, FindingLevel
from scheduler.state import CookState, Stage

RULES: tuple[Callable[[Case], list[Finding]], ...] = (
    *off.RULES,
    *gate.RULES,
    *fire.RULES,
    *come_up.RULES,
    *raw.RULES,
    *fridge.RULES,
    *cooling.RULES,
    *reheating.RULES,
    *leftovers.RULES,
    *reported.RULES,
)
"""Every rule, in the order in which findings of one level are told."""


def findings(state: CookState, cut: Cut, cuts: Cuts, now: dt.datetime) -> tuple[Finding, ...]:
    """Return what is not safe at `now` (aware, UTC), gravest first; of a cook that is over, nothing."""
    return () if state.stage is Stage.CLOSED else standing(Case(state=state, cut=cut, cuts=cuts, now=now))


def standing(case: Case) -> tuple[Finding, ...]:
    """Return what stands about a piece, over or not, gravest first.

    Of a cook that is over, that is what stood at the stage which it had reached. This is the one place where discarding
    ends what began before it: nobody eats that food. What begins after it (a piece thrown away and served all the same)
    is found like everything else.
    """
    if case.state.over:
        case = dataclasses.replace(case, state=dataclasses.replace(case.state, over=False))
    found = [finding for rule in RULES for finding in rule(case)]
    gone_at = case.discarded_at
    if gone_at is not None:
        found = [f for f in found if f.since is not None and f.since > gone_at]
    return tuple(sorted(found, key=lambda finding: GRAVITY.index(finding.level)))


def standing_stops(state: CookState, cut: Cut, cuts: Cuts, now: dt.datetime) -> tuple[Finding, ...]:
    """Return the stops that stand at `now`, also of a cook that is over: closing a cook makes no food safe."""
    case = Case(state=state, cut=cut, cuts=cuts, now=now)
    return tuple(f for f in standing(case) if f.level is FindingLevel.STOP)


FOR_THE_BIN = frozenset({
    "raw_left_out", "fridge_warm", "pit_dead", "come_up_over", "two_hours_out", "cool_slow", "cool_too_long",
    "reheat_slow", "leftovers_old", "food_spoiled",
})  # fmt: skip
"""Rules whose stop no reading of now ends: the food is thrown away."""


def orders_bin(stop: Finding) -> bool:
    """Return whether a stop orders the food into the bin: no reading of now ends it, or the time to mend it is over."""
    if stop.unread:
        return False
    lasted, most = stop.found_min, stop.limit_min
    return stop.rule in FOR_THE_BIN or (lasted is not None and most is not None and lasted > most)


def for_the_bin(state: CookState, cut: Cut, cuts: Cuts, now: dt.datetime) -> bool:
    """Return whether a stop stands at `now` that only throwing the food away ends, or correcting what it rests on."""
    return any(orders_bin(stop) for stop in standing_stops(state, cut, cuts, now))


def pulled_too_cold(state: CookState, cut: Cut, cuts: Cuts) -> list[Finding]:
    """Return that meat was pulled, is not served, and its coldest spot was never read at the minimum."""
    case = Case(state=state, cut=cut, cuts=cuts, now=state.as_of)
    return [f for f in standing(case) if f.rule == "pulled_under_minimum"]
