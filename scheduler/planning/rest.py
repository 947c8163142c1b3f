"""The meat after the pull: until when it likely stays hot in the box, and how far it still climbs.

Pure. A look may come earlier than `scheduler.safety` asks, never later; that it is hot enough is always a reading.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import RestPlace, Slot
from scheduler.forecast.after import Held, Peak, Place, hold
from scheduler.planning.backward import OVEN_C, warm_oven
from scheduler.planning.surroundings import wrap_of
from scheduler.planning.waiting import keeps_min
from scheduler.safety import ACT_C, act_by
from scheduler.safety.holding import held_reading
from scheduler.state import CookState, Stage

FRESH = dt.timedelta(minutes=45)
"""A core of the fire this old at most says how hot the meat came off; common practice, no source."""

_CLIMBS_C = 1.0
"""A smaller carry-over is not worth a word [°C]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Rest:
    """What is expected of meat that rests.

    It likely stays above `ACT_C` until `likely`; one piece in ten has fallen by `early` (None: beyond the horizon).
    `read_by` is when it is read at the latest; `peak` is the carry-over of a cut that is done by its temperature.
    """

    boxed: bool
    """True when it lies where it rests, and is vented no more."""
    oven: bool
    """True when that is a warm oven."""
    likely: dt.datetime | None
    early: dt.datetime | None
    read_by: dt.datetime | None
    peak: Peak | None


def rest_of(state: CookState, cut: Cut) -> Rest | None:
    """Return what is expected of the held meat, None when none is held or nobody read it near the pull."""
    held = _held(state, cut)
    if held is None or held.core_c - held.spread_c <= ACT_C:
        return None
    course = hold(held, ACT_C)
    peak = course.peak() if cut.doneness == "temperature" and not state.did("box_meat") else None
    return Rest(
        boxed=state.did("box_meat") is not None,
        oven=warm_oven(state),
        likely=course.quantile(0.5),
        early=course.quantile(0.1),
        read_by=_earlier(course.quantile(0.1), act_by(state, cut)),
        peak=peak if peak is not None and peak.middle_c - held.core_c >= _CLIMBS_C else None,
    )


def read_by(state: CookState, cut: Cut) -> dt.datetime | None:
    """Return when held meat is to be looked at: as safety says, or earlier by what is known of this piece."""
    rest = rest_of(state, cut)
    return act_by(state, cut) if rest is None else rest.read_by


def held_core_c(state: CookState, cut: Cut, at: dt.datetime) -> float | None:
    """Return what held meat likely reads at an instant [°C], None when none is held or nobody read it near the pull."""
    held = _held(state, cut)
    return None if held is None else hold(held, ACT_C).core_c(at)


def keeps_until(state: CookState, cut: Cut) -> dt.datetime | None:
    """Return until when pulled meat may lie where it rests: the longest rest there, in a cold box the time by which
    one piece in ten has fallen to `ACT_C` where that is known and earlier; None while nothing was pulled.
    """
    pulled_at = state.at("pull")
    if pulled_at is None:
        return None
    boxed_at = state.at("box_meat") or pulled_at + dt.timedelta(minutes=cut.vent_min)
    longest = boxed_at + dt.timedelta(minutes=_longest_min(state, cut))
    held = _held(state, cut)
    if held is not None and held.core_c - held.spread_c <= ACT_C:
        return min(longest, held.at)
    if _warm(state):
        return longest
    rest = rest_of(state, cut)
    return longest if rest is None else _earlier(longest, rest.early)


def _longest_min(state: CookState, cut: Cut) -> float:
    return keeps_min(state, cut) if _warm(state) else cut.rest_max_unheated_min


def _warm(state: CookState) -> bool:
    """Return whether it rests in a place with some heat of its own: a warm oven, or the shut-down cooker."""
    return warm_oven(state) or (state.rest is not None and state.rest.place is RestPlace.COOKER)


def _earlier(one: dt.datetime | None, other: dt.datetime | None) -> dt.datetime | None:
    return min((at for at in (one, other) if at is not None), default=None)


def _held(state: CookState, cut: Cut) -> Held | None:
    """Return the question about the rest: from a reading since the pull, or from the last one on the fire.

    The air that was told is that of the cooker; where the meat rests nobody said.
    """
    pulled_at = state.at("pull")
    if pulled_at is None or state.stage is not Stage.RESTING:
        return None
    since = held_reading(state)
    last = since or next(
        (r for r in reversed(state.read(Slot.CORE)) if pulled_at - FRESH <= r.at <= pulled_at), None
    )  # fmt: skip
    if last is None:
        return None
    boxed_at = state.at("box_meat") or pulled_at + dt.timedelta(minutes=cut.vent_min)
    return Held(
        cut=cut,
        mass_kg=_together_kg(state, cut),
        thickness_m=state.planned.thickness_m,
        core_c=last.value_c,
        spread_c=last.spread_c,
        at=last.at if since else pulled_at,
        wrap=wrap_of(state),
        place=Place.OVEN if warm_oven(state) else Place.BOX,
        oven_c=_oven_c(state),
        pit_c=state.pit_c,
        off_at=pulled_at if since else None,
        on_at=state.at("meat_on"),
        vented=max(dt.timedelta(), boxed_at - pulled_at),
    )


def _oven_c(state: CookState) -> float:
    """Return the set point of a warm oven [°C]: as told, else the middle of what is usual."""
    told = None if state.rest is None else state.rest.oven_c
    return sum(OVEN_C) / 2 if told is None else told


def _together_kg(state: CookState, cut: Cut) -> float | None:
    """Return the mass that shares one box: pieces lie side by side and keep one another warm."""
    planned = state.planned
    return planned.mass_kg if planned.count == 1 else planned.count * (planned.mass_kg or cut.mass_kg.typical)
