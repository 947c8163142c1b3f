"""Held meat: the floor, the temperature at which to act, and a careful estimate of when to look.

An estimate decides only when to look; that the meat is hot enough is always a reading.
"""

from __future__ import annotations

import datetime as dt
import math

from scheduler.cuts import Cut
from scheduler.facts import Edition, Slot, Wrap
from scheduler.forecast.after import Held, Place, hold
from scheduler.safety.limits import HOT_HOLD
from scheduler.safety.put_away import SAME_LOOK, chilling_since
from scheduler.state import CookState, ReadingAt

FLOOR_C = HOT_HOLD.under(Edition.STRICTER).c
"""Hot holding floor [°C]: 140 F, US Army TM 10-412 (2003) card 32 and NY Sanitary Code 14-1.83 (FDA Food Code: 57
C)."""

ACT_C = 63.0
"""Held meat is acted on at this core [°C]: house rule above the floor."""

_VENTED_C = 85.0
"""Core at which a vented piece goes into the box [°C]; common practice, no source."""

_AIR_C = 20.0
"""Air around the box that the trade's longest unheated rest assumes [°C]; common practice, no source."""

_VENTED_SPREAD_C = 3.0
"""... give or take."""

_CAREFUL = 0.75
"""Share of the usual cooling time that the careful estimate allows: house rule."""

_CAUTIOUS = 0.1
"""The quantile of the physics that is believed: one piece in ten is at `ACT_C` by then."""

_READ_C, _APART_MIN = 1.0, 20.0
"""A hand reader is off by this at most [°C], and looks nearer to one another than this show no fall [min]; common
practice, no source."""

_LEAST_REST_MIN = 30.0
"""Meat off the fire for no longer than this is at rest, not held, however short the rest of its cut is: house rule."""


def rest_span(cut: Cut) -> dt.timedelta:
    """Return how long a cut is off the fire when it only rests: vent, shortest rest and slicing; after that it is held.

    Of no cut longer than the two hours that food may be out (a test compares).
    """
    return dt.timedelta(minutes=max(_LEAST_REST_MIN, cut.vent_min + cut.rest_min_min + cut.slice_min))


def held_reading(state: CookState) -> ReadingAt | None:
    """Return the lowest reading of the newest look at held meat, None when it was not read since it left the fire.

    What was put away to cool is held no more.
    """
    pulled_at, away_at = state.at("pull"), chilling_since(state)
    since = [] if pulled_at is None else [r for r in state.read(Slot.CORE) if r.at > pulled_at]
    since = [r for r in since if away_at is None or r.at <= away_at]
    if not since:
        return None
    return min((r for r in since if since[-1].at - r.at <= SAME_LOOK), key=lambda r: r.value_c - r.spread_c)


def _measured_tau_min(state: CookState, boxed_at: dt.datetime) -> float:
    """Return the time constant of cooling that the last two looks into the box show, carefully [min]; 0 with fewer.

    Each reading is taken a degree on the side that makes the fall faster.
    """
    if state.at("box_meat") is None:
        return 0.0
    looks: list[list[ReadingAt]] = []
    for reading in state.read(Slot.CORE):
        if reading.at <= boxed_at:
            continue
        if looks and reading.at - looks[-1][0].at <= SAME_LOOK:
            looks[-1].append(reading)
        else:
            looks.append([reading])
    if len(looks) < 2:  # noqa: PLR2004 - one look shows no fall
        return 0.0
    first, last = (min(look, key=lambda r: r.value_c - r.spread_c) for look in looks[-2:])
    high_c, low_c = first.value_c + first.spread_c + _READ_C, last.value_c - last.spread_c - _READ_C
    minutes = (last.at - first.at) / dt.timedelta(minutes=1)
    if minutes < _APART_MIN or not _AIR_C < low_c < high_c:
        return 0.0
    return minutes / math.log((high_c - _AIR_C) / (low_c - _AIR_C))


def act_by(state: CookState, cut: Cut) -> dt.datetime | None:
    """Return when the held core may have come down to `ACT_C`, carefully; None when nothing is held.

    The earlier of two answers, so that neither can put a look off for longer than the other allows: the 10 % time of
    the physics of rest (`scheduler.forecast.after`: piece, wrap, vent, towels and box), and a house rule, Newton
    cooling from the last core reading (or from the vented temperature when none is recent) with the time constant
    that makes the cut's longest unheated rest end at the floor, shortened to three quarters. Two looks into one closed
    box measure that time constant: where it is longer it counts instead, shortened as well, and the physics stay.
    """
    pulled_at = state.at("pull")
    if pulled_at is None or state.did("serve") or chilling_since(state) is not None:
        return None
    usual_vent = dt.timedelta(minutes=cut.vent_min)
    boxed_at = state.at("box_meat") or pulled_at + usual_vent
    start_at, start_c, spread_c = boxed_at, _VENTED_C, _VENTED_SPREAD_C
    last = held_reading(state)
    if last is not None:
        start_at, start_c, spread_c = last.at, last.value_c - last.spread_c, 0.0
    if start_c <= ACT_C:
        return start_at
    usual_tau_min = cut.rest_max_unheated_min / math.log((_VENTED_C - _AIR_C) / (FLOOR_C - _AIR_C))
    tau_min = max(usual_tau_min, _measured_tau_min(state, boxed_at))
    minutes = _CAREFUL * tau_min * math.log((start_c - _AIR_C) / (ACT_C - _AIR_C))
    by_rule = start_at + dt.timedelta(minutes=minutes)
    resting = Held(
        cut=cut,
        mass_kg=state.planned.mass_kg,
        thickness_m=state.planned.thickness_m,
        core_c=start_c,
        spread_c=spread_c,
        at=start_at,
        wrap=state.wraps[-1][1].wrap if state.wraps else Wrap.NONE,
        place=Place.BOX,
        pit_c=state.pit_c,
        on_at=state.at("meat_on") if last else None,
        off_at=pulled_at if last else boxed_at - usual_vent,
        vented=max(dt.timedelta(), boxed_at - pulled_at) if last else usual_vent,
    )
    by_physics = hold(resting, ACT_C).quantile(_CAUTIOUS)
    return by_rule if by_physics is None else min(by_rule, by_physics)
