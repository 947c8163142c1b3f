"""Readings that differ: two of one spot within ten minutes and more than 3 C apart; the lower stands until a third.

It decides nothing about what may be eaten. `standing_readings(state, slot, since=...)` is what every rule should look
at that compares a temperature with a limit: a contested reading is replaced there by the lower one that stands against
it, also by one that is doubted. A mistyped reading is out of it as soon as it is corrected, as everywhere.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence

from scheduler.facts import Slot
from scheduler.state import CookState, ReadingAt

APART_C = 3.0
"""Two readings further apart than this differ [°C]: house rule."""

TOGETHER = dt.timedelta(minutes=10)
"""Readings this near to one another are of the same moment; common practice, no source."""

SETTLED_BY = dt.timedelta(minutes=30)
"""A third reading settles two that differ when all three lie this near to one another: house rule."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Contest:
    """Two readings of one spot that differ, and which no third has settled for the higher one."""

    higher: ReadingAt
    lower: ReadingAt


def low_edge_c(reading: ReadingAt) -> float:
    """Return the lowest that a reading may mean [°C]: of a range its low edge."""
    return reading.value_c - reading.spread_c


def same_spot(one: ReadingAt, other: ReadingAt) -> bool:
    """Return whether two readings may be of one spot: a reading without a name may be of any."""
    return one.spot is None or other.spot is None or one.spot.casefold() == other.spot.casefold()


def standing_readings(
    state: CookState, slot: Slot = Slot.CORE, *, since: dt.datetime | None = None
) -> tuple[ReadingAt, ...]:
    """Return the readings of a slot that count for safety, from an instant on, in order of time.

    Of two that differ only the lower is among them. Doubted ones are, where they are the lower of two; a doubted one
    that is higher than another, or alone, counts for nothing.
    """
    stands = {standing.fact: standing for _, standing in stands_as(_read(state, slot, since))}
    return tuple(reading for reading in _read(state, slot, since) if reading.fact in stands)


def stands_as(readings: Iterable[ReadingAt]) -> list[tuple[ReadingAt, ReadingAt]]:
    """Return each reading that counts with the one that stands for it: itself, or the lower one that contests it."""
    every = tuple(readings)
    beaten = {contest.higher.fact: contest.lower for contest in contests(every)}
    lower = {reading.fact for reading in beaten.values()}
    found = []
    for reading in every:
        if reading.fact in beaten:
            found.append((reading, beaten[reading.fact]))
        elif not reading.doubtful or reading.fact in lower:
            found.append((reading, reading))
    return found


def contests(readings: Iterable[ReadingAt]) -> tuple[Contest, ...]:
    """Return every reading that does not stand, with the lowest one that stands against it.

    The order of the readings does not matter. Two doubted readings contest nothing between themselves.
    """
    return _contests(tuple(readings))


@functools.lru_cache(maxsize=64)
def _contests(every: tuple[ReadingAt, ...]) -> tuple[Contest, ...]:
    """Return the contests of the same readings: every rule asks for them at every look."""
    in_time = sorted(every, key=lambda reading: reading.at)
    instants = [reading.at for reading in in_time]

    def near(reading: ReadingAt, span: dt.timedelta) -> Sequence[ReadingAt]:
        return in_time[bisect_left(instants, reading.at - span) : bisect_right(instants, reading.at + span)]

    found = []
    for higher in every:
        against = [
            lower
            for lower in near(higher, TOGETHER)
            if _against(lower, higher) and not _settled(higher, lower, near(lower, SETTLED_BY))
        ]
        if against:
            found.append(Contest(higher=higher, lower=min(against, key=_lowest_first)))
    return tuple(found)


def doubted(readings: Iterable[ReadingAt]) -> tuple[ReadingAt, ...]:
    """Return the doubted readings that no two others of the same moment have settled: kept aside, not shown wrong."""
    every = tuple(readings)
    return tuple(
        low
        for low in every
        if low.doubtful
        and not any(
            _settled(high, low, every)
            for high in every
            if high.value_c > low.value_c and abs(high.at - low.at) <= TOGETHER and not high.doubtful
        )
    )


def refuted(contest: Contest, readings: Iterable[ReadingAt]) -> bool:
    """Return whether a third reading agrees with the lower of two and not with the higher: nothing is open any more.

    The higher one goes on counting for nothing. It must not be the one that came last: a high reading after two low
    ones is a question again.
    """
    higher, lower = contest.higher, contest.lower
    return any(
        other.fact not in (higher.fact, lower.fact)
        and higher.at <= max(lower.at, other.at)
        and abs(other.at - lower.at) <= SETTLED_BY
        and abs(other.at - higher.at) <= SETTLED_BY
        and same_spot(other, higher)
        and same_spot(other, lower)
        and other.value_c < higher.value_c
        and round(_apart_c(other, lower), 6) <= APART_C
        and round(_apart_c(other, higher), 6) > APART_C
        for other in readings
    )


def _read(state: CookState, slot: Slot, since: dt.datetime | None) -> tuple[ReadingAt, ...]:
    return tuple(r for r in state.read(slot, doubtful=True) if since is None or r.at >= since)


def _lowest_first(reading: ReadingAt) -> tuple[float, dt.datetime, str]:
    return (low_edge_c(reading), reading.at, reading.fact)


def _apart_c(one: ReadingAt, other: ReadingAt) -> float:
    """Return how far apart two readings are at least [°C]: the edges of ranges count in their favour."""
    return abs(one.value_c - other.value_c) - one.spread_c - other.spread_c


def _against(lower: ReadingAt, higher: ReadingAt) -> bool:
    """Return whether one reading contests another that is higher."""
    return (
        lower.value_c < higher.value_c
        and not (lower.doubtful and higher.doubtful)
        and same_spot(lower, higher)
        and abs(lower.at - higher.at) <= TOGETHER
        and round(_apart_c(lower, higher), 6) > APART_C
    )


def _settled(higher: ReadingAt, lower: ReadingAt, every: Iterable[ReadingAt]) -> bool:
    """Return whether a third reading agrees with the higher of two and not with the lower.

    The third is whichever of the three came last: a low reading that comes after two high ones contests both.
    """
    return any(
        other.fact not in (higher.fact, lower.fact)
        and not other.doubtful
        and lower.at <= max(higher.at, other.at)
        and abs(other.at - lower.at) <= SETTLED_BY
        and abs(other.at - higher.at) <= SETTLED_BY
        and same_spot(other, higher)
        and round(_apart_c(other, higher), 6) <= APART_C
        and other.value_c > lower.value_c
        and round(_apart_c(other, lower), 6) > APART_C
        for other in every
    )
