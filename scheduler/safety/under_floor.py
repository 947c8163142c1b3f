"""Held meat that was read under the floor, and since when nobody knows that it was hot. It judges nothing."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Slot
from scheduler.safety.case import Case
from scheduler.safety.contested import low_edge_c, same_spot
from scheduler.safety.limits import REHEAT
from scheduler.safety.minimum import safe_gate
from scheduler.safety.put_away import chilling_since, on_heat
from scheduler.state import ReadingAt


@dataclasses.dataclass(frozen=True, kw_only=True)
class Cold:
    """A reading of held meat under the floor that nothing has mended.

    `hot_at` is when its spot was last known hot: the last reading at the floor or above since it left the fire, else
    the pull. From then on food counts as without temperature control.
    """

    reading: ReadingAt
    hot_at: dt.datetime


def low_held(case: Case) -> tuple[Cold, ...]:
    """Return the readings of held meat under the floor that stand, in order of time; what was served and put back on
    heat is held again.

    One is mended by a reading of that spot at 74 C (165 F) or hotter within the time that food may be out, counted from
    when it was last known hot. A reading between the floor and that mends nothing and starts no new time.
    Meat that was safe as it came off was held food, also where it went back on the heat later.
    """
    times = [(one.pulled_at, one.back_at) for one in case.state.off_spells if _was_safe(case, one.pulled_at)]
    pulled_at = case.state.at("pull")
    last = () if pulled_at is None else _low_in(case, pulled_at, None)
    return (*(cold for off_at, back_at in times for cold in _low_in(case, off_at, back_at)), *last)


def cold_off_heat(case: Case) -> tuple[tuple[dt.datetime, dt.datetime], ...]:
    """Return (last known hot, back on) of every time off the heat that ended there and in which the food was under the
    floor: read so, or read so last before it or first after it.
    """
    cores = case.cores(case.state.at("meat_on"))
    found = []
    for off in case.state.off_spells:
        during = [r for r in case.held(off.pulled_at, put_away=True) if r.at <= off.back_at]
        low = [r for r in during if case.under(r, case.floor_c)]
        before = case.lowest(tuple(r for r in cores if r.at <= off.pulled_at))
        after = next((r for r in cores if r.at > off.back_at), None)
        if low or any(r is not None and case.under(r, case.floor_c) for r in (before, after)):
            until = low[0].at if low else off.back_at
            hot = [r.at for r in during if r.at < until and not case.under(r, case.floor_c)]
            found.append((max(hot, default=off.pulled_at), off.back_at))
    return tuple(found)


def _was_safe(case: Case, off_at: dt.datetime) -> bool:
    """Return whether the gate was open by what had been read as a piece came off the heat."""
    readings = tuple(r for r in case.state.readings if r.at <= off_at)
    return safe_gate(dataclasses.replace(case.state, readings=readings), case.cut, case.cuts).open_at is not None


def _low_in(case: Case, pulled_at: dt.datetime, back_at: dt.datetime | None) -> tuple[Cold, ...]:
    ends = [at for at in (case.state.at("serve"), chilling_since(case.state), back_at) if at is not None]
    again = on_heat(case.state, case.now) if back_at is None else ()
    held = {
        r.fact
        for r in case.held(pulled_at)
        if all(r.at <= end for end in ends) or any(at < r.at and (end is None or r.at <= end) for at, end in again)
    }
    cold: list[Cold] = []
    hot: list[ReadingAt] = []
    for reading in case.held(pulled_at, put_away=True):
        if case.under(reading, case.floor_c):
            if reading.fact in held:
                cold.append(Cold(reading=reading, hot_at=_known_hot_at(reading, cold, hot, pulled_at)))
            continue
        if not case.under(reading, case.limit_c(REHEAT)):
            cold = [one for one in cold if not _mends(reading, one, case)]
        if not any(same_spot(reading, one.reading) for one in cold):
            hot.append(reading)
    return tuple(cold)


def coldest(cold: tuple[Cold, ...]) -> ReadingAt:
    """Return the lowest of such readings, by its low edge."""
    return min((one.reading for one in cold), key=low_edge_c)


def since_hot(cold: tuple[Cold, ...]) -> dt.datetime:
    """Return from when on such food counts as without temperature control: the earliest that nobody knows it hot."""
    return min(one.hot_at for one in cold)


def _known_hot_at(reading: ReadingAt, cold: list[Cold], hot: list[ReadingAt], pulled_at: dt.datetime) -> dt.datetime:
    """Return when the spot of a cold reading was last known hot; one that stands already goes on."""
    standing = [one.hot_at for one in cold if same_spot(one.reading, reading)]
    if standing:
        return min(standing)
    return max((one.at for one in hot if _covers(one, reading)), default=pulled_at)


def _mends(reading: ReadingAt, cold: Cold, case: Case) -> bool:
    within = case.out_for(cold.hot_at, reading.at)
    return _covers(reading, cold.reading) and reading.at <= cold.hot_at + within


def _covers(hot: ReadingAt, low: ReadingAt) -> bool:
    """Return whether a hot reading tells of the spot of a low one: one without a name may be of a colder spot than a
    named one; food in a pot or a dish has no spots.
    """
    return same_spot(hot, low) and (low.spot is not None or hot.spot is None or hot.slot is Slot.LEFTOVERS)
