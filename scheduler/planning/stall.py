"""The stall as the readings show it: in the band and hardly rising.

Pure, from readings alone.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Slot
from scheduler.state import CookState

RISE_C_PER_H = 3.0
"""Rise below which a core in the stall band counts as stalled: about 1 C in 25 minutes is common practice, no source;
a little more is allowed here because readings are whole degrees."""

_TWO = 2
"""A rise needs two readings."""

_SPAN = dt.timedelta(minutes=25)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Stall:
    """A stall that has begun: since when, and at which core [°C]."""

    since: dt.datetime
    core_c: float


def stall_of(state: CookState, cut: Cut) -> Stall | None:
    """Return the stall the newest reading lies in, None when it lies in none."""
    low_c, high_c = cut.stall_c
    readings = [r for r in state.read(Slot.CORE) if r.at >= (state.at("meat_on") or r.at)]
    if len(readings) < _TWO or not low_c - 5 <= readings[-1].value_c <= high_c:
        return None
    since = None
    newest = readings[-1]
    for earlier in reversed(readings[:-1]):
        hours = (newest.at - earlier.at) / dt.timedelta(hours=1)
        if newest.at - earlier.at < _SPAN:
            continue
        if (newest.value_c - earlier.value_c) / hours >= RISE_C_PER_H or earlier.value_c < low_c - 5:
            break
        since = earlier
    return None if since is None else Stall(since=since.at, core_c=newest.value_c)
