"""Whether a lever is open, from when and until when: stage, core, wrap, time to the pull, pit limits, safety.

A lever that is not safe now is closed, however much it would gain.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import ServingKind, Slot, Wrap
from scheduler.planning.advice.moment import FRESH, Moment
from scheduler.planning.backward import after_pull, holds, planned_after_pull
from scheduler.planning.outlook import Verdict, decided_bare, felt_tender
from scheduler.planning.remedies import Lever
from scheduler.safety.limits import DANGER_HIGH, PIT_COLD
from scheduler.state import Stage

PIT_CAP_C = 149.0
"""Hottest pit of a slow cut that lies bare [°C]: 300 F; common practice, no source."""

PIT_CAP_WRAPPED_C = 163.0
"""... and of a wrapped one [°C]: 325 F; common practice, no source."""

PIT_FLOOR_C = PIT_COLD.figures[0].c
"""No pit is advised below this [°C]: 225 F, as `scheduler.safety` judges a core below 60 C."""

DANGER_C = DANGER_HIGH.figures[0].c
"""Core below which the pit is never lowered [°C]: 140 F, USDA FSIS Smoking Meat and Poultry."""

PIT_OFF_C = 14.0
"""A pit so far under its band is to be brought back first [°C]: 25 F; common practice, no source."""

FEEL_NEAR_C = 3.0
"""A piece is near its first feel from so little below it on [°C]: house rule."""

SETTLES = dt.timedelta(minutes=30)
"""A pit that was moved is left alone so long; common practice, no source."""

DONE_FRESH = dt.timedelta(hours=1)
"""A check that was made within this is not advised again; common practice, no source."""

_ROUNDING_C = 0.6
_MINUTE = dt.timedelta(minutes=1)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Open:
    """A lever that is open: from when it can be done (None: now) and until when (None: no end that matters)."""

    from_at: dt.datetime | None
    until: dt.datetime | None


def is_open(lever: Lever, at: Moment) -> Open | None:
    """Return from when and until when a lever is open, None when it is closed."""
    if not (_fits(lever, at) and _allowed(lever, at)):
        return None
    from_at = _passes(_from_c(lever, at), at)
    until = _until(lever, at)
    if until is not None and until <= max(at.now, from_at or at.now):
        return None
    if at.state.stage is Stage.COOKING and lever.core_from_c is not None and from_at is None:
        return None
    return Open(from_at=from_at if from_at is not None and from_at > at.now else None, until=until)


def _from_c(lever: Lever, at: Moment) -> float | None:
    """Return the core from which a lever can be used: a wrap waits for the bark, which each cut sets at its own."""
    return max(lever.core_from_c or 0.0, at.cut.bark_look_c) if lever.change == "wrap" else lever.core_from_c


def pit_cap_c(at: Moment) -> float:
    """Return the hottest pit that may be advised [°C]: a roast is cooked hotter than a slow cut."""
    slow_c = PIT_CAP_WRAPPED_C if at.wrapped else PIT_CAP_C
    return slow_c if at.cut.doneness == "feel" else max(slow_c, at.cut.pit_c.high)


def pit_short_c(at: Moment) -> float | None:
    """Return how far the newest pit reading lies under its band [°C], None when it is fresh and near, or not fresh."""
    last = at.state.last(Slot.PIT)
    if last is None or at.now - last.at > FRESH or last.at < at.outlook.on_at or last.at < at.state.pit[-1].at:
        return None
    short_c = at.state.pit[-1].low_c - last.value_c
    return short_c if short_c >= PIT_OFF_C - _ROUNDING_C else None


def _fits(lever: Lever, at: Moment) -> bool:
    """Return whether a lever is about this cut, this stage and what lies around the meat."""
    cut = at.cut
    return (
        lever.change != "never"
        and at.state.stage.value in lever.stages
        and (not lever.shapes or cut.shape in lever.shapes)
        and (not lever.cuts or cut.id in lever.cuts)
        and (not lever.tough_only or cut.doneness == "feel")
        and (not lever.holds_only or holds(cut))
        and (lever.wrapped is None or lever.wrapped is at.wrapped)
    )


def _allowed(lever: Lever, at: Moment) -> bool:
    state, last = at.state, at.state.levers
    if lever.change in _ONCE and any(what == lever.id for _when, what in last):
        return False
    in_oven = state.oven is not None
    match lever.change:
        case "verify":
            return not any(when >= at.now - DONE_FRESH and what == lever.id for when, what in last)
        case "fix_pit":
            return pit_short_c(at) is not None and not in_oven
        case "pit":
            return not in_oven and not felt_tender(state) and _pit_allowed(lever.by, at)
        case "wrap":
            return lever.wrap in at.cut.wraps and not felt_tender(state) and not _counted_on(lever.wrap, at)
        case "bare":
            return not state.wraps and not decided_bare(state) and Wrap.NONE in at.cut.wraps
        case "oven" | "divide":
            return not in_oven and not felt_tender(state) and not (lever.change == "divide" and state.divided)
        case "openings" | "spritz" | "hot_side":
            return not in_oven and not felt_tender(state)
        case "water":
            return state.cooker is not None and state.cooker.water_pan and not in_oven
        case "rest":
            return _rest_to_give(at) > dt.timedelta()
        case "dinner" | "starter":
            return state.serving.kind is not ServingKind.WHEN_READY and not (
                lever.change == "dinner" and state.serving != state.planned.serving
            )
        case "pull_sooner" | "carve":
            return at.core_c is None or at.core_c >= at.cut.start_testing_c - FEEL_NEAR_C
        case "plan_b":
            return at.outlook.verdict is Verdict.LATE
        case "hold" | "chill" | "nothing":
            return at.waits_min is not None and at.waits_min > 0
        case "delay_on":
            return state.did("meat_on") is None and at.excess_min > 0
        case _:
            return True


def _rest_to_give(at: Moment) -> dt.timedelta:
    """Return how much of the planned rest stands between the meat and being on time."""
    pull_at, end = at.outlook.pull.late or at.outlook.pull.likely, at.outlook.serve_end
    if pull_at is None or end is None:
        return dt.timedelta()
    told = at.state.rest
    spare = planned_after_pull(at.cut) - after_pull(at.cut)
    shortest = dt.timedelta(minutes=at.cut.vent_min + at.cut.rest_min_min)
    if told is not None and told.minutes is not None and dt.timedelta(minutes=told.minutes) <= shortest:
        return dt.timedelta()
    return min(spare, pull_at + planned_after_pull(at.cut) - end)


def _counted_on(wrap: Wrap | None, at: Moment) -> bool:
    """Return whether this wrap, or a closer one, is in the forecast already."""
    choices = [choice.wrap for choice in at.outlook.forecast.choices if choice.weight > 0.5]  # noqa: PLR2004 - more than half
    return bool(at.wrapped) or (not at.state.wraps and at.state.planned.wrap is wrap and wrap in choices)


def _pit_allowed(by_c: float, at: Moment) -> bool:
    """Return whether the pit may be moved so far: within its caps, not on the heels of another move."""
    band, on_at = at.state.pit[-1], at.outlook.on_at
    if band.at > on_at and at.now - band.at < SETTLES:
        return False
    if by_c > 0:
        return band.high_c + by_c <= pit_cap_c(at) + _ROUNDING_C and pit_short_c(at) is None
    cold = at.core_low_c is None or at.core_low_c < DANGER_C
    return not cold and band.low_c + by_c >= PIT_FLOOR_C - _ROUNDING_C


def _passes(core_c: float | None, at: Moment) -> dt.datetime | None:
    """Return when the core likely passes a temperature; now when it has, None without one or beyond the horizon."""
    if core_c is None or at.core_c is None:
        return None
    if at.core_c >= core_c:
        return at.now
    found = at.outlook.crossing(core_c).quantile(0.5)
    return None if found is None else max(found, at.now)


def _until(lever: Lever, at: Moment) -> dt.datetime | None:
    ends: list[dt.datetime] = []
    pull_at, serve_at = at.outlook.pull.likely, at.outlook.serve_at
    limit_c = lever.core_until_c
    if limit_c is not None and lever.change in {"wrap", "bare"}:
        limit_c = min(limit_c, at.cut.wrap_until_c)
    if limit_c is not None and at.core_c is not None:
        if at.core_c >= limit_c:
            return at.now
        ends += [t for t in (at.outlook.crossing(limit_c).quantile(0.5),) if t is not None]
    if at.state.stage is Stage.COOKING and pull_at is not None and lever.change in _AT_THE_FIRE:
        ends.append(pull_at - lever.minutes_to_pull * _MINUTE)
    if serve_at is not None and lever.minutes_to_dinner:
        told_by = serve_at - lever.minutes_to_dinner * _MINUTE
        # Later than it should be told it is still better than a dinner that is late without a word.
        ends.append(told_by if at.now < told_by or lever.when == "early" else serve_at)
    if lever.change == "rest" and serve_at is not None:
        ends.append(serve_at)
    return min(ends, default=None)


_ONCE = frozenset({"openings", "water", "pull_sooner", "carve", "starter", "plan_b", "hot_side", "hold", "chill"})
"""What is done, or decided, only once."""

_AT_THE_FIRE = frozenset(
    {"pit", "fix_pit", "openings", "water", "wrap", "oven", "divide", "hot_side", "bare", "unwrap", "spritz", "verify"}
)
