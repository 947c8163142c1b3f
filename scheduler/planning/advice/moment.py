"""One look at a piece for advice: where core, pull, wrap and dinner stand, and whether it runs late or early.

Reads state and outlook; computes no alternative.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum

from scheduler.cuts import Cut
from scheduler.facts import Slot, Wrap
from scheduler.planning.outlook import Outlook, Verdict, felt_tender
from scheduler.planning.waiting import excess_min, waits_min
from scheduler.state import CookState, Stage

FRESH = dt.timedelta(minutes=45)
"""A reading this old at most is what the meat or the pit reads now; common practice, no source."""

_MINUTE = dt.timedelta(minutes=1)


class Lean(StrEnum):
    """To which side a piece runs."""

    LATE = "late"
    CLOSE = "close"
    """It may be late."""
    EARLY = "early"
    """It would be ready longer before dinner than it keeps."""
    FINE = "fine"
    OPEN = "open"
    """No time is fixed, or it is served."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Moment:
    """A piece at an instant. Temperatures [°C], spans [min]; `core_low_c` is below the core nine times in ten."""

    state: CookState
    cut: Cut
    outlook: Outlook
    now: dt.datetime
    core_c: float | None
    """Core now, None while nothing is on the fire and once it is off."""
    core_low_c: float | None
    wrap: Wrap | None
    """What lies around it or was decided for good; None while it is open."""
    left_min: float | None
    """To the likely pull."""
    waits_min: float | None
    """How long it would wait hot between venting and the knife, None when that is not known."""
    excess_min: float
    """By how much that is longer than it keeps without heat (or, for a cut that does not keep, than is good)."""

    @property
    def wrapped(self) -> bool:
        """Return whether anything lies around the meat."""
        return self.wrap not in {None, Wrap.NONE}

    @property
    def lean(self) -> Lean:
        """Return to which side it runs."""
        return lean_of(self.state, self.outlook)


def moment(state: CookState, cut: Cut, outlook: Outlook, now: dt.datetime) -> Moment:
    """Return one look at a piece at `now` (aware, UTC)."""
    now = max(now, state.as_of)
    core_c, core_low_c = _core(state, outlook, now)
    pull_at = outlook.pull.likely
    return Moment(
        state=state,
        cut=cut,
        outlook=outlook,
        now=now,
        core_c=core_c,
        core_low_c=core_low_c,
        wrap=state.wraps[-1][1].wrap if state.wraps else None,
        left_min=None if pull_at is None or state.did("pull") else max(0.0, (pull_at - now) / _MINUTE),
        waits_min=waits_min(state, cut, pull_at),
        excess_min=excess_min(state, cut, pull_at),
    )


def lean_of(state: CookState, outlook: Outlook) -> Lean:
    """Return to which side a piece runs, from what is known of it."""
    if outlook.serve_at is None or state.did("serve") or state.over:
        return Lean.OPEN
    return _LEANS[outlook.verdict]


_LEANS = {
    Verdict.ON_TIME: Lean.FINE,
    Verdict.USUAL: Lean.FINE,
    Verdict.CLOSE: Lean.CLOSE,
    Verdict.LATE: Lean.LATE,
    Verdict.EARLY: Lean.EARLY,
    Verdict.OPEN: Lean.OPEN,
}


def _core(state: CookState, outlook: Outlook, now: dt.datetime) -> tuple[float | None, float | None]:
    """Return the core as it likely is now, and a careful one: a fresh reading, else the forecast."""
    if state.stage is not Stage.COOKING or felt_tender(state):
        last = state.last(Slot.CORE)
        return (None, None) if last is None or state.stage is not Stage.COOKING else (last.value_c, last.value_c)
    last = state.last(Slot.CORE)
    if last is not None and abs(now - last.at) <= FRESH and last.at >= outlook.on_at:
        return max(last.value_c, outlook.forecast.core_c(now)), last.value_c - last.spread_c
    return outlook.forecast.core_c(now), outlook.forecast.core_c(now, 0.1)
