"""How long finished meat would wait for dinner, and whether that is longer than it keeps.

Pure; what to do about it is advice from elsewhere.
"""

from __future__ import annotations

import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import RestPlace, ServingKind
from scheduler.planning.backward import holds, warm_oven
from scheduler.state import CookState

NOT_HELD_MIN = 30.0
"""A cut that does not keep may be ready so long before the end of its best rest, and no longer: house rule [min]."""

TOO_LONG_MIN = 30.0
"""A smaller excess is not called early: no forecast is that sharp, and the box may be a good one; house rule [min]."""

IN_COOKER_MIN = 120.0
"""Longest rest in a shut-down cooker, watched [min]; common practice, no source."""

_MINUTE = dt.timedelta(minutes=1)


def waits_min(state: CookState, cut: Cut, pull_at: dt.datetime | None) -> float | None:
    """Return how long meat pulled then waits between venting and the knife [min], None when dinner follows it."""
    serve_at = state.serving.starts_at()
    if serve_at is None or pull_at is None or state.serving.kind is ServingKind.WHEN_READY:
        return None
    boxed_at = state.at("box_meat") or pull_at + cut.vent_min * _MINUTE
    return (serve_at - cut.slice_min * _MINUTE - boxed_at) / _MINUTE


def keeps_min(state: CookState, cut: Cut) -> float:
    """Return how long it keeps where it is to rest [min]: a cold box unless a warm place was told."""
    place = None if state.rest is None else state.rest.place
    if not holds(cut):
        return max(cut.rest_ideal_min[1], cut.rest_min_min) + NOT_HELD_MIN
    if warm_oven(state):
        return cut.rest_max_heated_min
    if place is RestPlace.COOKER:
        return max(cut.rest_max_unheated_min, IN_COOKER_MIN)
    return cut.rest_max_unheated_min


def excess_min(state: CookState, cut: Cut, pull_at: dt.datetime | None) -> float:
    """Return by how much it waits longer than it keeps [min], 0 when it does not."""
    waits = waits_min(state, cut, pull_at)
    return 0.0 if waits is None else max(0.0, waits - keeps_min(state, cut))
