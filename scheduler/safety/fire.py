"""Rules of the fire while meat is on: a pit that is too cold, or dead, or out and not read.

What counts is what was read. A core that nobody has read since the meat went on counts as cold.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import math
from bisect import bisect_left, bisect_right

from scheduler.facts import Slot
from scheduler.safety.case import Case
from scheduler.safety.contested import low_edge_c
from scheduler.safety.finding import Finding, FindingLevel, Look
from scheduler.safety.lethality import steepest_c_per_min
from scheduler.safety.limits import DANGER_HIGH, PIT_COLD
from scheduler.safety.put_away import SAME_LOOK
from scheduler.state import ReadingAt, Stage

PIT_COLD_C = PIT_COLD.figures[0].c
"""Pit air below this with a core below the danger edge is a caution [°C]: 225 F."""

DANGER_C = DANGER_HIGH.figures[0].c
"""Upper edge of the danger zone [°C]: 140 F."""
OUT = "fire_out"
"""The problem of the catalogue that says that there is no fire."""

_RISES_C = 3.0
"""A pit that is read so much hotter than before [°C] burns again, though nobody said so: house rule."""


# --- a cold pit -------------------------------------------------------------------------------------------------------


def cold_pit(case: Case) -> list[Finding]:
    """The pit is cold while the core is still in the danger zone (unknown core counts as cold)."""
    pits = _pits(case)
    if case.state.stage is not Stage.COOKING or not pits or pits[-1].at < (case.oven_at or pits[-1].at):
        return []
    pit, core = pits[-1], case.lowest(case.cold_cores(case.limit_c(DANGER_HIGH)))
    warm = core is not None and not case.under(core, case.limit_c(DANGER_HIGH))
    if warm or not case.under(pit, case.limit_c(PIT_COLD)):
        return []
    return [
        Finding(
            rule="pit_cold", level=FindingLevel.CAUTION, found_c=low_edge_c(pit), limit_c=case.limit_c(PIT_COLD),
            since=pit.at,
        )
    ]  # fmt: skip


def _pits(case: Case) -> list[ReadingAt]:
    """Return the pit readings while the meat was on, in order of time."""
    on_at, pulled_at = case.state.at("meat_on"), case.state.at("pull")
    end = case.now if pulled_at is None else min(case.now, pulled_at)
    return [] if on_at is None else [r for r in case.state.read(Slot.PIT) if on_at <= r.at <= end]


# --- a dead pit -------------------------------------------------------------------------------------------------------


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Dead:
    """A time without heat: from a pit read under 60 C, or a fire told to be out, with a cold core, to what ended it
    (None: it goes on).
    """

    found_c: float | None
    """None while nobody has read the pit."""
    since: dt.datetime
    end: dt.datetime | None
    unread: bool = False
    """True while only time and no reading says that the core is cold."""


class _Pit:
    """Goes through what was told of heat, in order of time: when the pit was dead and the core may have been cold."""

    def __init__(self, case: Case) -> None:
        self._danger_c = case.limit_c(DANGER_HIGH)
        self._slope_c_per_min = steepest_c_per_min(case.state.planned.thickness_m or case.cut.thickness_m.low)
        self.times: list[_Dead] = []
        self.going: _Dead | None = None
        self.dead: tuple[dt.datetime, float | None] | None = None
        """Since when the pit is dead or the fire out, and the lowest that was read of it [°C]; None while it is not."""
        self.out, self._least_c = False, math.inf
        """True from when the fire was told to be out until it was told to burn again."""
        self.warm: tuple[dt.datetime, float] | None = None
        """The newest core read at 60 C or hotter [°C]; None when it was never read so, or colder since."""

    @property
    def maybe_cold_at(self) -> dt.datetime | None:
        """Return when a core last read warm may have come under 60 C in the dead pit, None where there is no such."""
        if self.dead is None or self.warm is None:
            return None
        minutes = (self.warm[1] - self._danger_c) / self._slope_c_per_min
        return max(self.dead[0], self.warm[0] + dt.timedelta(minutes=minutes))

    def go_on(self, at: dt.datetime) -> None:
        """Begin a dead time that nobody read: the core was warm and may be so no longer."""
        cold_at = self.maybe_cold_at
        if self.going is None and cold_at is not None and self.dead is not None and cold_at < at:
            self.going = _Dead(found_c=self.dead[1], since=cold_at, end=None, unread=True)

    def pit(self, at: dt.datetime, value_c: float) -> None:
        """Take a pit or an oven: a hot one ends the dead time."""
        self.out = self.out and value_c <= self._least_c + _RISES_C
        self._least_c = min(value_c, self._least_c)
        if value_c >= self._danger_c:
            self.dead = None
            self._close(at)
            self.fire(at, out=self.out)
            return
        known_c = None if self.dead is None else self.dead[1]
        lowest_c = value_c if known_c is None else min(value_c, known_c)
        self.dead = (at if self.dead is None else self.dead[0], lowest_c)
        if self.warm is None:
            self._begin(at)

    def fire(self, at: dt.datetime, *, out: bool) -> None:
        """Take that the fire is out: its time begins, or anew where the pit was read hot; or that it burns again, which
        ends nothing before the pit is read hot.
        """
        if out and not self.out:
            self._least_c = math.inf
        self.out = out
        if out and self.dead is None:
            self.dead = (at, None)
            if self.warm is None:
                self._begin(at)

    def core(self, at: dt.datetime, value_c: float) -> None:
        """Take the lowest spot of a look at the core."""
        if value_c < self._danger_c:
            self.warm = None
            if self.dead is not None:
                self._begin(at)
            return
        self._close(at)
        if self.warm is not None and value_c <= self.warm[1] and self.times:
            last = self.times[-1]  # still warm, and no hotter than before: it was warm all the time
            if last.unread and last.end is not None and at - last.end <= SAME_LOOK:
                self.times.pop()
        self.warm = (at, value_c)

    def _begin(self, at: dt.datetime) -> None:
        if self.dead is not None:
            since = at if self.going is None else self.going.since
            self.going = _Dead(found_c=self.dead[1], since=since, end=None)

    def _close(self, at: dt.datetime) -> None:
        if self.going is not None:
            self.times.append(dataclasses.replace(self.going, end=at))
        self.going = None


def _pit_history(case: Case) -> _Pit:
    """Return the times in which the pit was read under 60 C with no hotter reading since, and the core may be cold.

    The core is cold as long as nobody has read it at 60 C since the meat went on, and again once it was read under it.
    One that was read warm may be cold as soon as the steepest core can have fallen to 60 C, until it is read still warm
    and no hotter than before. A hot oven ends such a time as a hotter pit does; so does the pull, from where other
    rules go on.
    """
    pit, pulled_at = _Pit(case), case.state.at("pull")
    for at, pit_c, core_c, out in _heats(case):
        pit.go_on(at)
        if out is not None:
            pit.fire(at, out=out)
        if pit_c is not None:
            pit.pit(at, pit_c)
        if core_c is not None:
            pit.core(at, core_c)
    pit.go_on(case.now if pulled_at is None else min(case.now, pulled_at))
    return pit


def _dead_times(case: Case) -> list[_Dead]:
    """Return the dead times so far; the last one goes on (no end) while the meat is on."""
    pit = _pit_history(case)
    going = [] if pit.going is None else [dataclasses.replace(pit.going, end=case.state.at("pull"))]
    return [*pit.times, *going]


_Heat = tuple[dt.datetime, float | None, float | None, bool | None]


def _heats(case: Case) -> list[_Heat]:
    """Return what was told of heat, in order of time: (instant, low edge of the pit or oven [°C], of the core, whether
    the fire is out).
    """
    cores = case.cold_cores(case.limit_c(DANGER_HIGH))
    told: list[_Heat] = [(r.at, round(low_edge_c(r), 1), None, None) for r in _pits(case)]
    told += [(at, oven.oven_c, None, False) for at, oven in case.state.ovens]
    told += _fires(case)
    danger_c = case.limit_c(DANGER_HIGH)
    if all((heat_c is None or heat_c >= danger_c) and not out for _at, heat_c, _core, out in told):
        return []  # no pit was ever dead
    instants = [core.at for core in cores]
    for core in cores:
        newest = cores[bisect_left(instants, core.at - SAME_LOOK) : bisect_right(instants, core.at)]
        lowest = case.lowest(newest)
        told.append((core.at, None, round(low_edge_c(lowest or core), 1), None))
    return sorted(told, key=lambda one: one[0])


def _fires(case: Case) -> list[_Heat]:
    """Return when the fire was told to be out, and to burn again, while the meat was on it; out before that counts from
    meat on.
    """
    on_at, off_at = case.state.at("meat_on"), case.state.at("pull")
    oven_at = case.state.ovens[0][0] if case.state.ovens else None
    end = min(at for at in (case.now, off_at, oven_at) if at is not None)
    if on_at is None:
        return []
    told = [(at, not one.over) for at, one in case.state.trouble_log if one.problem == OUT and at <= end]
    before = [(on_at, out) for at, out in told if at < on_at][-1:]
    return [(at, None, None, out) for at, out in (*before, *(one for one in told if one[0] >= on_at))]


def dead_pit(case: Case) -> list[Finding]:
    """The meat lay without heat, in the danger zone, for longer than food may: no later reading makes it good."""
    for dead, lasted, limit in _too_long(case):
        if dead.found_c is None:
            continue
        return [
            Finding(
                rule="pit_dead",
                level=FindingLevel.STOP,
                found_c=dead.found_c,
                limit_c=case.limit_c(DANGER_HIGH),
                found_min=lasted / dt.timedelta(minutes=1),
                limit_min=limit / dt.timedelta(minutes=1),
                since=dead.since,
                unread=dead.unread and dead.end is None,
            )
        ]
    return []


def unread_pit(case: Case) -> list[Finding]:
    """The fire was out, and nobody read the pit for longer than food may be without heat: nobody can say what it was,
    and no later reading can.
    """
    for dead, lasted, limit in _too_long(case):
        if dead.found_c is not None:
            continue
        return [
            Finding(
                rule="pit_unread",
                level=FindingLevel.CAUTION,
                limit_c=case.limit_c(DANGER_HIGH),
                found_min=lasted / dt.timedelta(minutes=1),
                limit_min=limit / dt.timedelta(minutes=1),
                since=dead.since,
            )
        ]
    return []


def _too_long(case: Case) -> list[tuple[_Dead, dt.timedelta, dt.timedelta]]:
    """Return the dead times that were longer than food may be without heat, with how long they were and may be."""
    found = []
    for dead in _dead_times(case):
        lasted, limit = (dead.end or case.now) - dead.since, case.out_for(dead.since, dead.end)
        if lasted >= limit:
            found.append((dead, lasted, limit))
    return found


def dead_unread(case: Case) -> list[Finding]:
    """The pit is dead and the core, last read warm, may be under 60 C by now: nobody has read it since it may be."""
    pit = _pit_history(case)
    cold_at = pit.maybe_cold_at
    if case.state.stage is not Stage.COOKING or cold_at is None or pit.dead is None or case.now < cold_at:
        return []
    return [
        Finding(
            rule="pit_dead_unread",
            level=FindingLevel.CAUTION,
            found_c=pit.dead[1],
            limit_c=case.limit_c(DANGER_HIGH),
            since=cold_at,
            until=cold_at + case.out_for(cold_at),
        )
    ]


def dead_looks(case: Case) -> list[Look]:
    """Return when a pit that is dead now will have been so for too long, and when a warm core may be cold in it."""
    pit = _pit_history(case)
    cold_at = None if case.state.stage is not Stage.COOKING else pit.maybe_cold_at
    since = cold_at if pit.going is None else pit.going.since
    found = [] if cold_at is None else [Look(rule="pit_dead_unread", since=cold_at, at=cold_at)]
    if since is None or case.state.at("pull") is not None:
        return found
    rule = "pit_unread" if pit.dead is not None and pit.dead[1] is None else "pit_dead"
    return [*found, Look(rule=rule, since=since, at=since + case.out_for(since))]


RULES = (dead_pit, dead_unread, unread_pit, cold_pit)
"""Rules of meat on the fire, in the order in which they are told."""

LOOKS = (dead_looks,)
"""Those of them that time alone brings about."""
