"""Rules of food that is reheated: hot enough, and fast enough. Only a reading shows either."""

from __future__ import annotations

import datetime as dt

from scheduler.facts import Edition
from scheduler.safety.case import Case
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.limits import REHEAT, REHEAT_TIME
from scheduler.safety.put_away import Reheat, gone_at, put_away
from scheduler.state import CookState

WITHIN = dt.timedelta(minutes=REHEAT_TIME.under(Edition.FOOD_CODE).value)
"""From the fridge to 165 F (74 C): FDA Food Code 3-403.11(D)."""


def reheated(case: Case) -> list[Finding]:
    """Reheated food was read under 165 F (74 C), took longer than two hours, or was not read in them."""
    if case.state.discarded:
        return []
    reheats = put_away(case.state).reheats
    return [found for n, reheat in enumerate(reheats) for found in _of(reheat, reheats[n:], case)]


def _of(reheat: Reheat, on: tuple[Reheat, ...], case: Case) -> list[Finding]:
    """Return what is wrong with a reheating; hot enough is that or a later one (`on`), counted from its beginning."""
    limit_at = reheat.began_at + WITHIN
    done_at = min((one.done_at for one in on if one.done_at is not None), default=None)
    if done_at is not None and done_at <= limit_at:
        return []
    last = reheat.looks[-1] if reheat.looks else None
    limit_c = case.limit_c(REHEAT)
    found = []
    if done_at is None and last is not None:
        under = Finding(
            rule="reheat_under",
            level=FindingLevel.STOP,
            found_c=last.low_c,
            limit_c=limit_c,
            since=reheat.looks[0].at,
            until=limit_at,
            whole=True,
        )
        found.append(under)
    if (done_at or case.now) <= limit_at or (last is None and _settled(reheat, case.state)):
        return found
    slow = Finding(
        rule="reheat_slow",
        level=FindingLevel.CAUTION if last is None else FindingLevel.STOP,
        found_c=None if last is None else last.low_c,
        limit_c=limit_c,
        found_min=((done_at or case.now) - reheat.began_at) / dt.timedelta(minutes=1),
        limit_min=WITHIN / dt.timedelta(minutes=1),
        since=limit_at,
        edition=Edition.FOOD_CODE,
        whole=True,
    )
    return [*found, slow]


def _settled(reheat: Reheat, state: CookState) -> bool:
    """Return whether somebody said what became of food that was never read."""
    told = state.did("reheat_away")
    gone = gone_at(state)
    return any(at is not None and at >= reheat.began_at for at in (None if told is None else told.at, gone))


def hot_by(state: CookState) -> dt.datetime | None:
    """Return by when food that is being reheated has to be hot, None while none is."""
    reheat = put_away(state).reheating
    return None if reheat is None else reheat.began_at + WITHIN


def looks_ahead(state: CookState) -> list[tuple[str, dt.datetime | None, dt.datetime]]:
    """Return (rule, since, instant) of what time alone brings about: two hours of reheating are over."""
    reheat = put_away(state).reheating
    if reheat is None or _settled(reheat, state):
        return []
    limit_at = reheat.began_at + WITHIN
    return [("reheat_slow", limit_at, limit_at + dt.timedelta(minutes=1))]


RULES = (reheated,)
"""Rules in the order in which they are told."""
