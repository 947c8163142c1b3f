"""Held meat: the floor, the temperature at which to act, and a careful estimate of when to look.

An estimate decides only when to look; that the meat is hot enough is always a reading.
"""

from __future__ import annotations

import datetime as dt
import math

from scheduler.cuts import Cut
from scheduler.facts import Slot
from scheduler.state import CookState, ReadingAt

FLOOR_C = 60.0
"""Hot holding floor [°C]: 140 F, US Army TM 10-412 (2003) card 32 and NY Sanitary Code 14-1.83 (FDA Food Code: 57
C)."""

ACT_C = 63.0
"""Held meat is acted on at this core [°C]: house rule above the floor."""

_VENTED_C = 85.0
"""Core at which a vented piece goes into the box [°C]; common practice, no source."""

_AIR_C = 20.0
"""Air around the box that the trade's longest unheated rest assumes [°C]; common practice, no source."""

_CAREFUL = 0.75
"""Share of the usual cooling time that the careful estimate allows: house rule."""


SAME_LOOK = dt.timedelta(minutes=10)
"""Readings this near to one another are spots of one look: the lowest counts."""


def held_reading(state: CookState) -> ReadingAt | None:
    """Return the lowest reading of the newest look at held meat, None when it was not read since it left the fire."""
    pulled_at = state.at("pull")
    since = [] if pulled_at is None else [r for r in state.read(Slot.CORE) if r.at > pulled_at]
    if not since:
        return None
    return min((r for r in since if since[-1].at - r.at <= SAME_LOOK), key=lambda r: r.value_c - r.spread_c)


def act_by(state: CookState, cut: Cut) -> dt.datetime | None:
    """Return when a careful estimate of the held core comes down to `ACT_C`; None when nothing is held.

    Newton cooling from the last core reading (or from the vented temperature when none is recent), with the time
    constant
    that makes the cut's longest unheated rest end at the floor, shortened to three quarters.
    """
    pulled_at = state.at("pull")
    if pulled_at is None or state.did("serve"):
        return None
    start_at, start_c = state.at("box_meat") or pulled_at + dt.timedelta(minutes=cut.vent_min), _VENTED_C
    last = held_reading(state)
    if last is not None:
        start_at, start_c = last.at, last.value_c - last.spread_c
    if start_c <= ACT_C:
        return start_at
    usual_tau_min = cut.rest_max_unheated_min / math.log((_VENTED_C - _AIR_C) / (FLOOR_C - _AIR_C))
    minutes = _CAREFUL * usual_tau_min * math.log((start_c - _AIR_C) / (ACT_C - _AIR_C))
    return start_at + dt.timedelta(minutes=minutes)
