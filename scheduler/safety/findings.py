"""The engine of the rules: every rule is asked about a piece at an instant, and what it finds is told gravest first.

Nothing here can be skipped or muted; what a rule looks at stands in the module of the rule.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from scheduler.cuts import Cut, Cuts
from scheduler.safety import cooling, fire, gate, leftovers, off, raw, reheating
from scheduler.safety.case import Case
from scheduler.safety.finding import GRAVITY, Finding
from scheduler.state import CookState, Stage

RULES: tuple[Callable[[Case], list[Finding]], ...] = (
    *off.RULES,
    *gate.RULES,
    *fire.RULES,
    *raw.RULES,
    *cooling.RULES,
    *reheating.RULES,
    *leftovers.RULES,
)
"""Every rule, in the order in which findings of one level are told."""


def findings(state: CookState, cut: Cut, cuts: Cuts, now: dt.datetime) -> tuple[Finding, ...]:
    """Return what is not safe at `now` (aware, UTC), gravest first."""
    if state.stage is Stage.CLOSED:
        return ()
    case = Case(state=state, cut=cut, cuts=cuts, now=now)
    found = [finding for rule in RULES for finding in rule(case)]
    return tuple(sorted(found, key=lambda finding: GRAVITY.index(finding.level)))


def pulled_too_cold(state: CookState, cut: Cut, cuts: Cuts) -> list[Finding]:
    """Return that meat was pulled, is not served, and its coldest spot was never read at the minimum."""
    return off.pulled_under_minimum(Case(state=state, cut=cut, cuts=cuts, now=state.as_of))
