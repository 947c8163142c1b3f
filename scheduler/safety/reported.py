"""What people report about food or thermometer that makes it unknown or unsafe whatever was measured before.

A word alone ends none of it: thrown away, reheated through, another thermometer and its number, or taken back as wrong.
"""

from __future__ import annotations

import datetime as dt

from scheduler.safety.case import Case
from scheduler.safety.contested import low_edge_c
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.limits import REHEAT
from scheduler.state import ReadingAt

DROPPED, DROPPED_DONE, RAW_TOUCHED = "dropped", "dropped_done", "cross_contamination"
READER_WRONG, READER_OTHER = "reader_wrong", "reader_other"

HELD = frozenset({DROPPED, DROPPED_DONE, RAW_TOUCHED, READER_WRONG})
"""Problems that no word like "it is fine" ends."""

REPORTED = frozenset({"food_spoiled", "raw_touched", "reader_doubted"})
"""Rules of this module: while one stands, no food is called safe."""


def food_spoiled(case: Case) -> list[Finding]:
    """It fell down: cooked, it is for the bin; on the fire, unknown until somebody says that it was raw."""
    fell_at = _since(case, DROPPED_DONE, DROPPED)
    if fell_at is None or case.state.at("meat_on") is None:
        return []
    pulled_at = case.state.at("pull")
    done = DROPPED_DONE in case.state.troubles or (pulled_at is not None and fell_at >= pulled_at)
    level = FindingLevel.STOP if done else FindingLevel.CAUTION
    return [Finding(rule="food_spoiled", level=level, since=fell_at)]


def raw_touched(case: Case) -> list[Finding]:
    """Raw meat, its juices or what they were on touched cooked food, not read at 165 F (74 C) or above since."""
    touched_at = _since(case, RAW_TOUCHED)
    if touched_at is None or case.state.at("meat_on") is None:
        return []
    lowest = _lowest_after(case, touched_at)
    limit_c = case.limit_c(REHEAT)
    if lowest is not None and not case.under(lowest, limit_c):
        return []
    cooking = case.state.at("pull") is None
    return [
        Finding(
            rule="raw_touched",
            level=FindingLevel.CAUTION if cooking else FindingLevel.STOP,
            found_c=None if lowest is None else low_edge_c(lowest),
            limit_c=limit_c,
            since=touched_at,
        )
    ]


def reader_doubted(case: Case) -> list[Finding]:
    """The thermometer is said to be wrong, and no other one read the minimum since."""
    doubted_at, on_at = _since(case, READER_WRONG), case.state.at("meat_on")
    if doubted_at is None or not case.cores(on_at):
        return []
    other_at = case.state.troubles.get(READER_OTHER)
    if other_at is not None and other_at >= doubted_at:
        lowest = _lowest_after(case, other_at)
        if lowest is not None and not case.under(lowest, case.gate.minimum_c):
            return []
    return [
        Finding(
            rule="reader_doubted",
            level=FindingLevel.CAUTION,
            limit_c=case.gate.minimum_c,
            since=doubted_at,
            edition=case.gate.edition,
        )
    ]


def _lowest_after(case: Case, at: dt.datetime) -> ReadingAt | None:
    """Return the lowest reading of the newest look after an instant; what was read at it was read before."""
    return case.lowest(tuple(r for r in case.cores(at) if r.at > at))


def _since(case: Case, *problems: str) -> dt.datetime | None:
    """Return since when the first of these problems stands, None when none does."""
    times = [case.state.troubles[one] for one in problems if one in case.state.troubles]
    return next((at for at in times if at <= case.now), None)


RULES = (food_spoiled, raw_touched, reader_doubted)
"""Rules about what was reported, in the order in which they are told."""
