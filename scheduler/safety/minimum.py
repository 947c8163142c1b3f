"""The safety gate: has the published minimum been measured at the lowest spot, or as much by time where that counts?

A missing reading never counts as safe, and no forecast opens the gate.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import math

from scheduler.cuts import Cut, Cuts
from scheduler.facts import Edition, SafeBy, Slot
from scheduler.safety.contested import low_edge_c, stands_as
from scheduler.safety.least import Minimum, NotByTime, counting, least_of, not_by_time, table_under
from scheduler.safety.lethality import Exposure, Point, checked_c, dwell_at_s, exposure, steepest_c_per_min
from scheduler.safety.tables import Table
from scheduler.state import CookState, OffHeat, ReadingAt

HOTTEST_CORE_C = 105.0
"""Wet meat boils at 100 C: a core read above this is a number in the wrong unit, or another place, and counts for
nothing [°C]. Common practice, no source."""

HEATED = dt.timedelta(minutes=30)
"""Meat on the heat for longer than this since a reading without a name is no longer what was read: house rule."""

RUNS_ON = dt.timedelta(minutes=30)
"""So long after a reading at a lower temperature its time is still taken to run: house rule."""

FALLS_C_PER_MIN = 0.5
"""Meat off the heat cools by this at most [°C/min]: the steepest of the measured joints in air
(`docs/explanation/food-safety.md`)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Spot:
    """What was read of one spot: (reading, the one that stands for it), and low ones that are only doubted."""

    stood: list[tuple[ReadingAt, ReadingAt]]
    doubted: list[ReadingAt]

    @property
    def standing(self) -> list[ReadingAt]:
        return [stood for _, stood in self.stood]

    def hottest(self) -> ReadingAt:
        return max(self.standing or self.doubted, key=_coldest_first)


@dataclasses.dataclass(frozen=True, kw_only=True)
class SafeGate:
    """Whether serving is open, and by which reading.

    `lowest` is the hottest reading of the coldest spot so far (None: nothing measured). `open_at` is when the minimum
    was measured at every spot read, plus the rest that belongs to it, or when every spot had its time.
    """

    minimum: Minimum
    edition: Edition
    """The edition that counts, the stricter one always where guests are at risk."""
    lowest: ReadingAt | None
    open_at: dt.datetime | None
    opened_by: ReadingAt | None = None
    """The lowest of the readings by which every spot passed the minimum; None while one has not, and where time opened
    it.
    """
    by: SafeBy = SafeBy.MINIMUM
    """By which rule it is open, or may open."""
    not_by_time: NotByTime | None = None
    """Why time does not count although somebody chose it; None where nobody did, or it does."""
    table: Table | None = None
    """The table by which time counts, None when it does not."""
    share: float | None = None
    """How much of the time is reached at the spot that has least of it, 0 to 1; None when time does not count."""
    slowest: ReadingAt | None = None
    """The newest reading of that spot."""

    @property
    def minimum_c(self) -> float:
        """Return the least temperature, converted and rounded to 0.1 [°C]."""
        return self.minimum.temp_c

    @property
    def rest_min(self) -> float:
        """Return the time that belongs to it [min]."""
        return self.minimum.rest_min

    @property
    def time_runs_until(self) -> dt.datetime | None:
        """Return until when time is known to run: half an hour after the newest reading of the slowest spot; None when
        it does not count, is over, or that reading was too cold for it.
        """
        if self.table is None or self.slowest is None or self.open_at is not None:
            return None
        runs = math.isfinite(dwell_at_s(self.table, low_edge_c(self.slowest)))
        return self.slowest.at + RUNS_ON if runs else None

    def is_open(self, now: dt.datetime) -> bool:
        """Return whether the piece may be called ready to serve at `now`."""
        return self.open_at is not None and now >= self.open_at


def safe_gate(state: CookState, cut: Cut, cuts: Cuts) -> SafeGate:
    """Return the safety gate of a piece from its readings.

    Only readings since the meat went on count; of a reading given as a range the low edge is compared, with the
    published Fahrenheit limit converted and rounded to 0.1 C. Each named spot must have reached the minimum, also one
    of which only a doubted reading under it is known. A reading without a name under the minimum may be of a spot that
    has no name yet: it stands as a spot of its own until one without a name passes, or every named spot passes after
    half an hour more on the heat. Of two readings that differ the lower stands until a third
    (`scheduler.safety.contested`).

    Raises
    ------
    ImpossibleTemperature
        For a reading that is no number, infinite, or below absolute zero.
    """
    edition = counting(state.edition, at_risk=state.care.at_risk)
    minimum = least_of(cut, cuts, state.treated, edition)
    read = _Read(spots=_spots(state, minimum), pulled_at=state.at("pull"), off=state.off_spells, minimum=minimum)
    spots = read.spots if read.nameless_stands else read.named or read.spots
    gate = SafeGate(
        minimum=minimum,
        edition=edition,
        lowest=min((spot.hottest() for spot in spots.values()), key=_coldest_first, default=None),
        open_at=read.measured_at(),
        opened_by=None if read.measured_at() is None else read.lowest_passing(),
    )
    if state.safe_by is not SafeBy.EQUIVALENCE:
        return gate
    why_not = not_by_time(cut, state.treated, at_risk=state.care.at_risk)
    if why_not is not None:
        return dataclasses.replace(gate, not_by_time=why_not)
    thickness_m = state.planned.thickness_m or cut.thickness_m.low
    return _by_time(gate, read, _Clock(table=table_under(edition), thickness_m=thickness_m, since=_chosen_late(state)))


def _chosen_late(state: CookState) -> dt.datetime | None:
    """Return from when readings count for time where it was chosen only after the meat came off: the choice is no
    measurement, and ends nothing that began before it. None: all of them count.
    """
    off_at, chosen_at = state.off_at or state.at("serve"), state.by_time_since
    return chosen_at if off_at is not None and chosen_at is not None and chosen_at > off_at else None


def _spots(state: CookState, minimum: Minimum) -> dict[str, _Spot]:
    """Return what was read of each spot since the meat went on, with what stands for each reading."""
    on_at = state.at("meat_on")
    since = [
        reading
        for reading in state.read(Slot.CORE, doubtful=True)
        if on_at is not None and reading.at >= on_at and checked_c(low_edge_c(reading)) <= HOTTEST_CORE_C
    ]
    spots: dict[str, _Spot] = {}
    stood = stands_as(since)
    for reading, stands in stood:
        _of(spots, reading).stood.append((reading, stands))
    counted = {reading.fact for reading, _ in stood}
    for reading in since:
        if reading.fact not in counted and not _passes(reading, minimum):
            _of(spots, reading).doubted.append(reading)
    return spots


def _of(spots: dict[str, _Spot], reading: ReadingAt) -> _Spot:
    return spots.setdefault((reading.spot or "").casefold(), _Spot(stood=[], doubted=[]))


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Read:
    """What was read of a piece, by the name of the spot; the empty name is of any spot, also of one without a name."""

    spots: dict[str, _Spot]
    pulled_at: dt.datetime | None
    off: tuple[OffHeat, ...]
    minimum: Minimum

    @property
    def named(self) -> dict[str, _Spot]:
        return {name: spot for name, spot in self.spots.items() if name}

    @property
    def nameless_stands(self) -> bool:
        """Return whether readings without a name keep the gate shut."""
        return bool(self.named) and bool(self._low()) and self._cleared_at() is None

    def measured_at(self) -> dt.datetime | None:
        """Return when every spot had been read at the minimum, plus the rest; None while one has not."""
        found = [self._first(spot) for spot in (self.named or self.spots).values()]
        if self.named and self._low():
            found.append(self._cleared_at())
        known = [at for at in found if at is not None]
        if not known or len(known) < len(found):
            return None
        return max(known) + dt.timedelta(minutes=self.minimum.rest_min)

    def lowest_passing(self) -> ReadingAt | None:
        """Return the lowest, by its low edge, of the readings by which each spot passed first."""
        found = [_passing(spot, self.minimum) for spot in (self.named or self.spots).values()]
        return min((one for one in found if one is not None), key=_coldest_first, default=None)

    def since_nameless(self) -> dict[str, _Spot]:
        """Return the named spots with what was read of them when the meat had been heated on."""
        low = self._low()
        return {
            name: dataclasses.replace(
                spot, stood=[pair for pair in spot.stood if all(self._heated(one, pair[0].at) for one in low)]
            )
            for name, spot in self.named.items()
        }

    def _first(self, spot: _Spot) -> dt.datetime | None:
        return min(_passed(spot, self.minimum), default=None)

    def _low(self) -> list[ReadingAt]:
        """Return the readings without a name that are under the minimum, doubted ones too; not of meat
        that has only cooled.
        """
        spot = self.spots.get("")
        if spot is None:
            return []
        read = [reading for reading, stands in spot.stood if not _passes(stands, self.minimum)] + spot.doubted
        return [one for one in read if not self._cooled(one)]

    def _cooled(self, one: ReadingAt) -> bool:
        """Return whether meat that was at the minimum as it came off may have cooled to a reading since."""
        if self.pulled_at is None or one.at <= self.pulled_at:
            return False
        minutes = (one.at - self.pulled_at) / dt.timedelta(minutes=1)
        return low_edge_c(one) >= self.minimum.temp_c - FALLS_C_PER_MIN * minutes

    def _cleared_at(self) -> dt.datetime | None:
        """Return when they counted no more: one without a name passed, or all named spots after more heat."""
        ways = [self._first(self.spots[""]), self._heated_at()]
        return min((at for at in ways if at is not None), default=None)

    def _heated_at(self) -> dt.datetime | None:
        low = self._low()
        found = [
            min((at for at in _passed(spot, self.minimum) if all(self._heated(one, at) for one in low)), default=None)
            for spot in self.named.values()
        ]
        known = [at for at in found if at is not None]
        return max(known) if known and len(known) == len(found) else None

    def _heated(self, low: ReadingAt, at: dt.datetime) -> bool:
        """Return whether the meat was on the heat for long enough between a reading and a later instant."""
        until = at if self.pulled_at is None else min(at, self.pulled_at)
        off = (min(one.back_at, until) - max(one.pulled_at, low.at) for one in self.off)
        return until - low.at - sum((max(one, dt.timedelta()) for one in off), dt.timedelta()) > HEATED


def _passing(spot: _Spot, minimum: Minimum) -> ReadingAt | None:
    """Return the reading that stands for the first one by which a spot passed."""
    pairs = [(max(reading.at, stood.at), stood) for reading, stood in spot.stood if _passes(stood, minimum)]
    return min(pairs, key=lambda pair: (pair[0], pair[1].fact), default=(None, None))[1]


def _passed(spot: _Spot, minimum: Minimum) -> list[dt.datetime]:
    """Return when a spot was read at the minimum."""
    return [max(reading.at, stood.at) for reading, stood in spot.stood if _passes(stood, minimum)]


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Clock:
    """How time at a lower temperature is counted: the table, the thickness of the piece [m], and from when on."""

    table: Table
    thickness_m: float
    since: dt.datetime | None

    def reached(self, spot: _Spot, start_at: dt.datetime) -> Exposure:
        points = [
            Point(minutes=(reading.at - start_at) / dt.timedelta(minutes=1), low_c=low_edge_c(stood))
            for reading, stood in spot.stood
            if self.since is None or reading.at >= self.since
        ]
        return exposure(self.table, points, steepest_c_per_min(self.thickness_m))


def _by_time(gate: SafeGate, read: _Read, clock: _Clock) -> SafeGate:
    """Return the gate where time at temperature counts as well: whichever opens it first."""
    alone = not read.named or "" not in read.spots
    if alone or not read.nameless_stands:
        return _timed(gate, list((read.named or read.spots).values()), clock)
    with_it = _timed(gate, list(read.spots.values()), clock)
    since = list(read.since_nameless().values())
    if not all(spot.stood for spot in since):
        return with_it
    after = _timed(gate, since, clock)
    return max((with_it, after), key=lambda one: (one.open_at is not None, one.share or 0.0))


def _timed(gate: SafeGate, spots: list[_Spot], clock: _Clock) -> SafeGate:
    if not spots:
        return dataclasses.replace(gate, by=SafeBy.EQUIVALENCE, table=clock.table, share=0.0)
    start_at = min(stood.at for spot in spots for stood in (*spot.standing, *spot.doubted))
    found = [(clock.reached(spot, start_at), spot) for spot in spots]
    least, slowest = min(found, key=lambda one: one[0].share)
    minutes = [one.reached_min for one, _ in found]
    opens = None if None in minutes else max(at for at in minutes if at is not None)
    timed_at = None if opens is None else start_at + dt.timedelta(minutes=opens)
    sooner = timed_at is not None and (gate.open_at is None or timed_at < gate.open_at)
    return dataclasses.replace(
        gate,
        open_at=timed_at if sooner else gate.open_at,
        opened_by=None if sooner else gate.opened_by,
        by=SafeBy.EQUIVALENCE if sooner or gate.open_at is None else SafeBy.MINIMUM,
        table=clock.table,
        share=min(1.0, least.share),
        slowest=max(slowest.standing or slowest.doubted, key=lambda reading: (reading.at, reading.fact)),
    )


def _coldest_first(reading: ReadingAt) -> tuple[float, dt.datetime, str]:
    return (low_edge_c(reading), reading.at, reading.fact)


def _passes(reading: ReadingAt, minimum: Minimum) -> bool:
    return round(low_edge_c(reading), 1) >= minimum.temp_c
