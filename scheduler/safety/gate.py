"""Rules about the gate itself: spots that differ, meat that is not intact, time as it counts.

That the minimum was not measured is said by `scheduler.safety.off`; what opens the gate stands in
`scheduler.safety.minimum`.
"""

from __future__ import annotations

import math

from scheduler.facts import SafeBy, Slot
from scheduler.safety.case import Case
from scheduler.safety.contested import Contest, contests, low_edge_c, refuted
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.least import least_of
from scheduler.safety.lethality import dwell_at_s
from scheduler.safety.limits import HOT_HOLD
from scheduler.safety.minimum import HOTTEST_CORE_C
from scheduler.state import Stage


def spots_differ(case: Case) -> list[Finding]:
    """Two readings of one spot lie on either side of a limit that counts now: the lower one stands, and no third agrees
    with it yet.
    """
    state = case.state
    gate = case.gate
    on_at, pulled_at = state.at("meat_on"), state.at("pull")
    if on_at is None or state.stage is Stage.CLOSED:
        return []
    held_c = case.limit_c(HOT_HOLD)
    reads = [r for r in state.read(Slot.CORE, doubtful=True) if r.at >= on_at and low_edge_c(r) <= HOTTEST_CORE_C]
    found = [
        (contest, limit_c)
        for contest in contests(reads)
        if not refuted(contest, reads)
        for limit_c, counts in (
            (gate.minimum_c, gate.open_at is None),
            (held_c, pulled_at is not None and min(contest.higher.at, contest.lower.at) > pulled_at),
        )
        if counts and _straddles(contest, limit_c)
    ]
    if not found:
        return []
    contest, limit_c = max(found, key=lambda one: (max(one[0].higher.at, one[0].lower.at), one[0].lower.fact))
    return [
        Finding(
            rule="spots_differ",
            level=FindingLevel.CAUTION,
            found_c=low_edge_c(contest.lower),
            limit_c=limit_c,
            spot=contest.lower.spot or contest.higher.spot,
            since=max(contest.higher.at, contest.lower.at),
            edition=gate.edition,
        )
    ]


def not_intact(case: Case) -> list[Finding]:
    """Something was done to the meat that asks for a stricter minimum than its class."""
    state = case.state
    if not state.treated or state.stage in {Stage.AFTER, Stage.CLOSED}:
        return []
    gate = case.gate
    plain = least_of(case.cut, case.cuts, None, gate.edition)
    if (gate.minimum.temp_f, gate.minimum.rest_min) == (plain.temp_f, plain.rest_min):
        return []
    return [
        Finding(rule="not_intact", level=FindingLevel.NOTE, limit_c=gate.minimum_c, edition=gate.minimum.edition),
    ]


def time_counts(case: Case) -> list[Finding]:
    """Time at a lower temperature counts by somebody's choice, and is not over yet: so much of so much.

    What is over is told in the minutes that the spot with least of it needs at its newest reading.
    """
    state = case.state
    gate = case.gate
    counting = gate.by is SafeBy.EQUIVALENCE and gate.share is not None and gate.open_at is None
    if not counting or state.stage not in {Stage.COOKING, Stage.RESTING}:
        return []
    found_c = None if gate.slowest is None else low_edge_c(gate.slowest)
    needs_s = math.inf if found_c is None or gate.table is None else dwell_at_s(gate.table, found_c)
    known = gate.share is not None and math.isfinite(needs_s)
    return [
        Finding(
            rule="time_counts",
            level=FindingLevel.NOTE,
            found_c=found_c,
            limit_c=gate.minimum_c,
            found_min=(gate.share or 0.0) * needs_s / 60.0 if known else None,
            limit_min=needs_s / 60.0 if known else None,
            spot=None if gate.slowest is None else gate.slowest.spot,
            edition=gate.edition,
        )
    ]


def _straddles(contest: Contest, limit_c: float) -> bool:
    return round(low_edge_c(contest.lower), 1) < limit_c <= round(low_edge_c(contest.higher), 1)


RULES = (spots_differ, not_intact, time_counts)
"""Rules about the gate, in the order in which they are told."""
