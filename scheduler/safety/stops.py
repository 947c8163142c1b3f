"""How often a stop was told, and when it is told again: from what was written down about it. Pure.

Whether a stop stands is judged by the rules alone; nothing here ends one.
"""

from __future__ import annotations

import datetime as dt

from scheduler.safety.finding import Finding
from scheduler.state import CookState

AGAIN = dt.timedelta(minutes=30)
"""A stop that stands is told again after so long; house rule."""

TIMES = 4
"""... so often in all; from then on every message and the board say it while it stands. House rule."""


def tellings(state: CookState, finding: Finding) -> tuple[dt.datetime, ...]:
    """Return when a stop was told since it began or, having ended, began anew."""
    times: list[dt.datetime] = []
    for at, told in state.warnings:
        if told.rule != finding.rule or not told.stop:
            continue
        if told.over:
            times.clear()
        elif told.since == finding.since:
            times.append(at)
    return tuple(times)


def again_at(state: CookState, finding: Finding) -> dt.datetime | None:
    """Return when a stop that was told is told again, None when it was told so often, or never."""
    times = tellings(state, finding)
    return times[-1] + AGAIN if times and len(times) < TIMES else None


def standing_rules(state: CookState) -> tuple[str, ...]:
    """Return the rules of which a stop was told and its end was not."""
    last = {told.rule: told.over for _at, told in state.warnings if told.stop}
    return tuple(rule for rule, over in last.items() if not over)
