"""Rules of leftovers in the fridge: how long they keep. Nothing is claimed of food that nobody put away."""

from __future__ import annotations

import datetime as dt

from scheduler.safety.case import Case, discarded_at
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.limits import LEFTOVER_LIFE, LEFTOVER_SOON
from scheduler.safety.put_away import chilling_since, gone_at
from scheduler.state import CookState


def eat_by(state: CookState) -> dt.datetime | None:
    """Return when leftovers have been in the fridge for four days, None when none are known there."""
    since = chilling_since(state)
    return None if since is None else since + _days(LEFTOVER_LIFE.under(state.edition).value)


def eat_soon(state: CookState) -> dt.datetime | None:
    """Return when they have been there for three days, None when none are known there."""
    since = chilling_since(state)
    return None if since is None else since + _days(LEFTOVER_SOON.under(state.edition).value)


def _days(value: float) -> dt.timedelta:
    return dt.timedelta(days=value)


def settled(state: CookState) -> bool:
    """Return whether nobody can eat them too old: thrown away, or eaten or frozen before the fourth day was over.

    What was done then counts, not when it was told. Freezing what is too old makes it no younger.
    """
    gone, by = gone_at(state), eat_by(state)
    last = state.did("leftover_expire")
    kept_late = last is not None and by is not None and last.outcome != "binned" and last.at >= by
    thrown_at = discarded_at(state)
    return gone is not None and (not kept_late or (thrown_at is not None and last is not None and thrown_at >= last.at))


def old(case: Case) -> list[Finding]:
    """Leftovers have been in the fridge for three days (caution), for four (stop), and did not go in time."""
    soon, by = eat_soon(case.state), eat_by(case.state)
    if soon is None or by is None or settled(case.state) or case.now < soon:
        return []
    return [
        Finding(
            rule="leftovers_old",
            level=FindingLevel.STOP if case.now >= by else FindingLevel.CAUTION,
            found_min=(case.now - (chilling_since(case.state) or case.now)) / dt.timedelta(minutes=1),
            limit_min=LEFTOVER_LIFE.under(case.state.edition).value * 1440.0,
            since=by if case.now >= by else soon,
            until=by,
            publisher=LEFTOVER_LIFE.under(case.state.edition).publisher,
            whole=True,
        )
    ]


def looks_ahead(state: CookState) -> list[tuple[str, dt.datetime | None, dt.datetime]]:
    """Return (rule, since, instant) of what time alone brings about: the fourth day; the third has a prompt of its
    own.
    """
    by = eat_by(state)
    return [] if by is None or settled(state) else [("leftovers_old", by, by)]


RULES = (old,)
"""Rules in the order in which they are told."""
