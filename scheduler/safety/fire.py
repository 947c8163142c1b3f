"""Rules of meat on the fire: a pit that is too cold, a core that comes up too slowly.

What counts is what was read. A core that nobody has read since the meat went on counts as cold.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from bisect import bisect_left, bisect_right

from scheduler.facts import Slot
from scheduler.safety.case import SAME_LOOK, Case
from scheduler.safety.contested import low_edge_c
from scheduler.safety.finding import Finding, FindingLevel, Look
from scheduler.safety.lethality import steepest_c_per_min
from scheduler.safety.limits import COME_UP_HIGH, COME_UP_TIME, DANGER_HIGH, PIT_COLD
from scheduler.state import ReadingAt, Stage

PIT_COLD_C = PIT_COLD.figures[0].c
"""Pit air below this with a core below the danger edge is a caution [°C]: 225 F."""

DANGER_C = DANGER_HIGH.figures[0].c
"""Upper edge of the danger zone [°C]: 140 F."""

COME_UP = dt.timedelta(minutes=210)
"""From this long on the fire a big cut is judged by its come-up: the four-hour check, half an hour early at most."""

COME_UP_C = 50.0
"""Core a big cut should have passed by then [°C]: house rule, stricter than the 6 h between 10 and 54.4 C that FSIS
Appendix A (2021) gives for intact cuts."""


# --- a cold pit -------------------------------------------------------------------------------------------------------


def cold_pit(case: Case) -> list[Finding]:
    """The pit is cold while the core is still in the danger zone (unknown core counts as cold)."""
    pits = _pits(case)
    if case.state.stage is not Stage.COOKING or not pits or pits[-1].at < (case.oven_at or pits[-1].at):
        return []
    pit, core = pits[-1], case.lowest(case.cores_on_fire)
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
    """A time without heat: from a pit read under 60 C with a cold core, to what ended it (None: it goes on)."""

    found_c: float
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
        self.dead: tuple[dt.datetime, float] | None = None
        """Since when the pit is dead, and the lowest that was read of it [°C]; None while it is not."""
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
        if value_c >= self._danger_c:
            self.dead = None
            self._close(at)
            return
        self.dead = (at, value_c) if self.dead is None else (self.dead[0], min(value_c, self.dead[1]))
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
    for at, pit_c, core_c in _heats(case):
        pit.go_on(at)
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


def _heats(case: Case) -> list[tuple[dt.datetime, float | None, float | None]]:
    """Return what was told of heat, in order of time: (instant, low edge of the pit or oven [°C], of the core)."""
    cores = case.cores_on_fire
    told: list[tuple[dt.datetime, float | None, float | None]] = [
        (r.at, round(low_edge_c(r), 1), None) for r in _pits(case)
    ]
    told += [(at, oven.oven_c, None) for at, oven in case.state.ovens]
    danger_c = case.limit_c(DANGER_HIGH)
    if all(heat_c is None or heat_c >= danger_c for _at, heat_c, _core in told):
        return []  # no pit was ever dead
    instants = [core.at for core in cores]
    for core in cores:
        newest = cores[bisect_left(instants, core.at - SAME_LOOK) : bisect_right(instants, core.at)]
        lowest = case.lowest(newest)
        told.append((core.at, None, round(low_edge_c(lowest or core), 1)))
    return sorted(told, key=lambda one: one[0])


def dead_pit(case: Case) -> list[Finding]:
    """The meat lay without heat, in the danger zone, for longer than food may: no later reading makes it good."""
    for dead in _dead_times(case):
        lasted = (dead.end or case.now) - dead.since
        limit = case.out_for(dead.since, dead.end)
        if lasted < limit:
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
    return [*found, Look(rule="pit_dead", since=since, at=since + case.out_for(since))]


# --- a slow come-up ---------------------------------------------------------------------------------------------------


def slow_come_up(case: Case) -> list[Finding]:
    """A big cut, or any that may have bacteria inside, is still cold after four hours on the fire.

    Meat that is not intact is judged by the published 54.4 C already then.
    """
    core, on_at = case.lowest(case.cores_on_fire), case.state.at("meat_on")
    judged = case.cut.come_up_check or case.treated
    if case.state.stage is not Stage.COOKING or not judged or core is None or on_at is None:
        return []
    limit_c = case.limit_c(COME_UP_HIGH) if case.treated else COME_UP_C
    if core.at - on_at < COME_UP or core.at - on_at >= case.limit_span(COME_UP_TIME) or not case.under(core, limit_c):
        return []
    return [
        Finding(
            rule="come_up_slow", level=FindingLevel.CAUTION, found_c=low_edge_c(core), limit_c=limit_c, since=core.at
        )
    ]


def over_come_up(case: Case) -> list[Finding]:
    """The core was read under 54.4 C six hours or more after the meat went on.

    Of an intact cut the surface may stand for it, which a hot pit heats at once: a caution, gone with a hotter reading.
    Meat with bacteria inside took too long, and no later reading makes it good. The six hours begin with meat on, the
    earliest that 10 C can have been passed.
    """
    on_at, limit_c = case.state.at("meat_on"), case.limit_c(COME_UP_HIGH)
    limit = case.limit_span(COME_UP_TIME)
    cores = case.cores_on_fire
    late = [] if on_at is None else [r for r in cores if r.at - on_at >= limit and case.under(r, limit_c)]
    if not late or on_at is None:
        return []
    core = late[0] if case.treated else case.lowest(cores)
    if core is None or (not case.treated and (case.state.stage is not Stage.COOKING or core not in late)):
        return []
    return [
        Finding(
            rule="come_up_over",
            level=FindingLevel.STOP if case.treated else FindingLevel.CAUTION,
            found_c=low_edge_c(core),
            limit_c=limit_c,
            found_min=(core.at - on_at) / dt.timedelta(minutes=1),
            limit_min=limit / dt.timedelta(minutes=1),
            spot=core.spot,
            since=core.at,
        )
    ]


def _unknown_since(case: Case) -> dt.datetime | None:
    """Return when six hours are over for meat that is not intact, None when a reading tells where it stood by then."""
    on_at, limit_c = case.state.at("meat_on"), case.limit_c(COME_UP_HIGH)
    if case.state.stage is not Stage.COOKING or not case.treated or on_at is None:
        return None
    over_at = on_at + case.limit_span(COME_UP_TIME)
    told = any(r.at >= over_at or not case.under(r, limit_c) for r in case.cores_on_fire)
    return None if told else over_at


def come_up_unknown(case: Case) -> list[Finding]:
    """Nobody has read whether meat that is not intact passed 54.4 C within six hours: unknown is not safe."""
    over_at, cores = _unknown_since(case), case.cores_on_fire
    if over_at is None or case.now < over_at:
        return []
    return [
        Finding(
            rule="come_up_unknown",
            level=FindingLevel.CAUTION,
            found_c=low_edge_c(cores[-1]) if cores else None,
            limit_c=case.limit_c(COME_UP_HIGH),
            limit_min=case.limit_span(COME_UP_TIME) / dt.timedelta(minutes=1),
            since=over_at,
        )
    ]


def unknown_looks(case: Case) -> list[Look]:
    """Return when six hours will be over for meat that is not intact and was not read warm."""
    over_at = _unknown_since(case)
    return [] if over_at is None else [Look(rule="come_up_unknown", since=over_at, at=over_at)]


RULES = (dead_pit, dead_unread, over_come_up, cold_pit, slow_come_up, come_up_unknown)
"""Rules of meat on the fire, in the order in which they are told."""

LOOKS = (dead_looks, unknown_looks)
"""Those of them that time alone brings about."""
