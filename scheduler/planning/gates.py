"""The gate before the meat goes on: what it waits for, and what waiting costs.

Pure. A gate is a set of conditions, not a pit number; what is safe is judged elsewhere.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
from enum import StrEnum

from scheduler.cuts import Cut
from scheduler.facts import CookerKind, Slot
from scheduler.forecast import Observation, reaches, stands_at
from scheduler.planning.backward import after_pull, holds, planned_after_pull, wanted_confidence
from scheduler.planning.outlook import Outlook
from scheduler.planning.prompts import step_of
from scheduler.state import CookState, ReadingAt

IN_BAND_C = 8.0
"""A pit this far from its band is there [°C]: 15 F, common practice, no source."""

UNDER_WAY_C = 30.0
"""A pit that rises with its vents set may take the meat from this far below its band on [°C]; common practice, no
source."""

CLOSING_C = (14.0, 11.0)
"""Vents begin to close this far below the set point, from the first to the second [°C]: 25 to 20 F, common practice, no
source."""

FEW_READINGS = 2
"""Readings of a rising pit from which on the clock of its vents is told: house rule."""

_SAME = dt.timedelta(minutes=2)


class Pit(StrEnum):
    """How the pit stands before the meat goes on."""

    UNKNOWN = "unknown"
    LOW = "low"
    RISING = "rising"
    """On its way up with the vents set: the meat may go on."""
    THERE = "there"
    HIGH = "high"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Slack:
    """What waiting with the meat costs, as of the newest fact.

    Until `free_until` the meat still rests as long as it should; until `rest_until` waiting only eats rest; from then
    on dinner moves, each minute by a minute. Both hold with the confidence `p` of the plan.
    """

    free_until: dt.datetime
    rest_until: dt.datetime
    p: float


def slack(state: CookState, outlook: Outlook, cut: Cut) -> Slack | None:
    """Return what waiting with the meat costs, None once it is on or when dinner follows the meat.

    `rest_until` is dinner minus slicing, the shortest rest, venting, and the cooking time at the wanted confidence (the
    typical one for a cut that does not hold); it may lie in the past: then dinner moves already.
    """
    if outlook.serve_end is None or state.did("meat_on"):
        return None
    p = wanted_confidence(state) if holds(cut) else 0.5
    ready_at = outlook.forecast.ready().quantile(p)
    if ready_at is None:
        return None
    cook = ready_at - outlook.on_at
    return Slack(
        free_until=outlook.serve_end - planned_after_pull(cut, state.rest) - cook,
        rest_until=outlook.serve_end - after_pull(cut) - cook,
        p=p,
    )


def pit_of(state: CookState) -> Pit:
    """Return how the pit stands by its newest reading since lighting."""
    readings = rising_readings(state)
    if not readings:
        return Pit.UNKNOWN
    band, value_c = state.pit[-1], readings[-1].value_c
    if value_c > band.high_c + IN_BAND_C:
        return Pit.HIGH
    if value_c >= band.low_c - IN_BAND_C:
        return Pit.THERE
    return Pit.RISING if state.did("vents_early") and value_c >= band.low_c - UNDER_WAY_C else Pit.LOW


def pit_ready_at(state: CookState) -> dt.datetime | None:
    """Return when the pit was found ready for the meat, None as long as it was not.

    Said to be steady, read in its band, or read on its way up with the vents set. A question that was skipped or given
    up holds nobody up either.
    """
    told_at, lit_at = state.at("pit_stable"), state.at("light")
    if lit_at is None:
        return told_at
    if told_at is not None and told_at >= lit_at:
        return told_at
    low_c, high_c = state.pit[-1].low_c - IN_BAND_C, state.pit[-1].high_c + IN_BAND_C
    readings = rising_readings(state)
    there = next((r.at for r in readings if low_c <= r.value_c <= high_c), None)
    if there is not None:
        return there
    if pit_of(state) is Pit.RISING:
        return max(readings[-1].at, state.at("vents_early") or readings[-1].at)
    unanswered = [
        at
        for key, at in state.closed.items()
        if step_of(key) == "pit_stable" and not any(abs(r.at - at) <= _SAME for r in readings)
    ]
    return max(unanswered, default=None)


def rising_readings(state: CookState) -> tuple[ReadingAt, ...]:
    """Return the readings of the pit since it was lit, as long as no meat is on."""
    lit_at = state.at("light")
    if lit_at is None or state.did("meat_on"):
        return ()
    return tuple(r for r in state.read(Slot.PIT) if r.at >= lit_at)


def passes_at(state: CookState, pit_c: float) -> dt.datetime | None:
    """Return when a rising pit passes a temperature [°C]: as it was read, else by the clock of its readings.

    None before there is a reading, once meat is on, and when it is not expected to get there.
    """
    lit_at, readings = state.at("light"), rising_readings(state)
    passed = next((r.at for r in readings if r.value_c >= pit_c), None)
    if passed is not None or lit_at is None or not readings:
        return passed
    kind = None if state.cooker is None else state.cooker.cooker
    seen = tuple(Observation(at=r.at, value_c=r.value_c, spread_c=r.spread_c) for r in readings)
    at = _clock(seen, lit_at, kind, pit_c, state.pit_c)
    return None if at is None else max(at, readings[-1].at)


def rising_c(state: CookState, now: dt.datetime) -> float | None:
    """Return how hot the pit likely is on its way up [°C], from its readings and the time since lighting; None before
    it is lit, once it was found steady, and once meat is on.
    """
    lit_at = state.at("light")
    if lit_at is None or now < lit_at or state.did("pit_stable") or state.did("meat_on"):
        return None
    kind = None if state.cooker is None else state.cooker.cooker
    seen = tuple(Observation(at=r.at, value_c=r.value_c, spread_c=r.spread_c) for r in rising_readings(state))
    return _stands(now, seen, lit_at, kind, state.pit_c)


@functools.lru_cache(maxsize=64)
def _stands(
    now: dt.datetime, seen: tuple[Observation, ...], lit_at: dt.datetime, kind: CookerKind | None, set_c: float
) -> float:
    return stands_at(now, lit_at=lit_at, readings=seen, kind=kind, set_c=set_c)


@functools.lru_cache(maxsize=64)
def _clock(
    seen: tuple[Observation, ...], lit_at: dt.datetime, kind: CookerKind | None, target_c: float, set_c: float
) -> dt.datetime | None:
    """Return the likely instant at which the pit passes a temperature; one decision asks the same several times."""
    return reaches(target_c, lit_at=lit_at, readings=seen, kind=kind, set_c=set_c).quantile(0.5)
