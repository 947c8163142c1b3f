"""What became of cooked food after it was put away: it cools, lies in the fridge, is reheated, is gone. Pure.

It tells what happened and judges nothing; the rules stand in `cooling`, `reheating` and `leftovers`. Facts are taken in
order of time, so that it does not matter in which order they arrived.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Edition, Slot
from scheduler.safety.limits import COOL_COLD, COOL_FROM, COOL_TIME, REHEAT
from scheduler.state import CookState, ReadingAt

SAME_LOOK = dt.timedelta(minutes=10)
"""Readings this near to one another are spots of one look: of what cools the hottest counts, of what is reheated the
coldest."""

REHEATED_FROM_C = 37.8
"""Food that was cold and is read hotter than this was warmed on purpose [°C]: 100 F, no kitchen is so hot; common
practice, no source."""

_HOT_C = COOL_FROM.under(Edition.FOOD_CODE).c
_COLD_C = COOL_COLD.under(Edition.FOOD_CODE).c
_COOLED = dt.timedelta(minutes=COOL_TIME.under(Edition.FOOD_CODE).value)
_REHEATED_C = REHEAT.under(Edition.FOOD_CODE).c

_AWAY = ("away", None)
"""Outcomes of `two_hour` and `reheat_away` by which food goes into the fridge."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Glance:
    """One look with a thermometer: the coldest and the hottest that its spots may be [°C]."""

    at: dt.datetime
    low_c: float
    high_c: float

    def over(self, limit_c: float) -> bool:
        """Return whether any spot may be above a limit [°C]; rounded to 0.1, as limits are compared."""
        return round(self.high_c, 1) > limit_c

    def reaches(self, limit_c: float) -> bool:
        """Return whether every spot is at a limit or above [°C]; rounded to 0.1, as limits are compared."""
        return round(self.low_c, 1) >= limit_c


@dataclasses.dataclass(frozen=True, kw_only=True)
class Cooling:
    """Food that was put away at `away_at`. It is counted as cooling from `began_at`, when it was last known hot."""

    began_at: dt.datetime
    away_at: dt.datetime
    looks: tuple[Glance, ...] = ()

    @property
    def cold(self) -> bool:
        """Return whether it was read cold."""
        return any(not look.over(_COLD_C) for look in self.looks)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Reheat:
    """Food that is reheated from `began_at` on; `told` is False when only a reading shows it."""

    began_at: dt.datetime
    told: bool
    looks: tuple[Glance, ...] = ()

    @property
    def done_at(self) -> dt.datetime | None:
        """Return when it was first read hot enough, None while it was not."""
        return next((look.at for look in self.looks if look.reaches(_REHEATED_C)), None)


@dataclasses.dataclass(frozen=True, kw_only=True)
class PutAway:
    """All that became of one cook's food. `chilling` and `reheating` are what it is doing now, None: nothing of it."""

    coolings: tuple[Cooling, ...] = ()
    reheats: tuple[Reheat, ...] = ()
    chilling: Cooling | None = None
    reheating: Reheat | None = None


def chilling_since(state: CookState) -> dt.datetime | None:
    """Return when food was put away to cool, the first time after it came off the fire; None while nobody said so.

    Of several pieces only what was put away after this one was served counts: the others may still rest.
    """
    pulled, served = state.at("pull"), state.at("serve")
    from_at = served if len(state.pieces) > 1 else pulled
    return None if from_at is None else min((at for at in _away_times(state) if at >= from_at), default=None)


def gone_at(state: CookState) -> dt.datetime | None:
    """Return when the last of the food was eaten, frozen or thrown away, as somebody said; None while nobody did."""
    last = state.did("leftover_expire")
    times = [] if last is None else [last.at]
    times += [d.at for step in ("two_hour", "reheat_away") for d in state.done.get(step, ()) if d.outcome == "thrown"]
    return max([*times, *(done.at for done in state.discarded)], default=None)


def put_away(state: CookState) -> PutAway:
    """Return what became of the food, empty while none was put away."""
    since = chilling_since(state)
    return PutAway() if since is None else _History(state, since).told()


def outs(state: CookState) -> tuple[dt.datetime, ...]:
    """Return every instant from which on food is out on the table: served, and each time it was reheated later (a time
    of its own, which ends no earlier one), whether somebody said that it was served or not.
    """
    served = state.did("serve")
    hot = sorted(reheat.done_at for reheat in put_away(state).reheats if reheat.done_at is not None)
    return tuple(sorted(hot if served is None else (served.at, *hot)))


def on_heat(state: CookState, now: dt.datetime) -> tuple[tuple[dt.datetime, dt.datetime | None], ...]:
    """Return the times in which served food was kept hot again, as somebody said: (from, until), None: until now."""
    back = sorted(d.at for d in state.done.get("two_hour", ()) if d.outcome == "on_heat" and d.at <= now)
    ends = [d.at for step in ("leftovers", "reheat_away", "leftover_expire") for d in state.done.get(step, ())]
    ends += [d.at for d in state.done.get("two_hour", ()) if d.outcome != "on_heat"]
    return tuple((at, min((end for end in ends if at < end <= now), default=None)) for at in back)


def looks_of(readings: tuple[ReadingAt, ...]) -> tuple[Glance, ...]:
    """Return readings in order of time as looks."""
    found: list[list[ReadingAt]] = []
    for reading in sorted(readings, key=lambda r: r.at):
        if found and reading.at - found[-1][0].at <= SAME_LOOK:
            found[-1].append(reading)
        else:
            found.append([reading])
    return tuple(
        Glance(
            at=look[0].at,
            low_c=min(r.value_c - r.spread_c for r in look),
            high_c=max(r.value_c + r.spread_c for r in look),
        )
        for look in found
    )


def _away_times(state: CookState) -> list[dt.datetime]:
    times = [done.at for done in state.done.get("leftovers", ())]
    return times + [
        d.at for step in ("two_hour", "reheat_away") for d in state.done.get(step, ()) if d.outcome in _AWAY
    ]


class _History:
    """Goes through what was told of food that was put away, in order of time."""

    def __init__(self, state: CookState, since: dt.datetime) -> None:
        self._state = state
        self._coolings: list[Cooling] = []
        self._reheats: list[Reheat] = []
        self._hot_at = _last_hot(state, since)
        self._chilling = self._reheating = False
        self._away_for_good: list[tuple[dt.datetime, int, Glance | None]] = [
            (at, 0, None) for at in _away_times(state) if at >= since
        ]

    def told(self) -> PutAway:
        events = [*self._away_for_good, *((done.at, 1, None) for done in self._state.done.get("reheat_on", ()))]
        events += [(look.at, 2, look) for look in self._looks()]
        for at, kind, look in sorted(events, key=lambda event: event[:2]):
            if kind == 0:
                self._away(at)
            elif kind == 1:
                self._reheat(at, told=True)
            elif look is not None:
                self._look(look)
        return PutAway(
            coolings=tuple(self._coolings),
            reheats=tuple(self._reheats),
            chilling=self._coolings[-1] if self._chilling else None,
            reheating=self._reheats[-1] if self._reheating else None,
        )

    def _looks(self) -> tuple[Glance, ...]:
        """Return the looks at food that was put away: cores read since then are of nothing else."""
        since = min(at for at, _kind, _look in self._away_for_good)
        cores = [r for r in self._state.read(Slot.CORE) if r.at > since]
        return looks_of((*self._state.read(Slot.LEFTOVERS), *cores))

    def _away(self, at: dt.datetime) -> None:
        if not self._chilling:
            self._coolings.append(Cooling(began_at=self._hot_at, away_at=at))
        self._chilling, self._reheating = True, False

    def _reheat(self, at: dt.datetime, *, told: bool) -> None:
        if self._chilling and not self._reheating:
            self._reheats.append(Reheat(began_at=at, told=told))
            self._reheating = True

    def _look(self, look: Glance) -> None:
        if not self._chilling:
            self._hot_at = look.at if look.reaches(_HOT_C) else self._hot_at
            return
        cooling = self._coolings[-1]
        over = cooling.cold or look.at > cooling.began_at + _COOLED
        if not self._reheating and (look.reaches(_REHEATED_C) or (over and look.over(REHEATED_FROM_C))):
            self._reheat(look.at, told=False)
        if not self._reheating:
            self._coolings[-1] = dataclasses.replace(cooling, looks=(*cooling.looks, look))
            return
        reheat = dataclasses.replace(self._reheats[-1], looks=(*self._reheats[-1].looks, look))
        self._reheats[-1] = reheat
        if reheat.done_at is None:
            return
        self._hot_at, self._reheating, self._chilling = look.at, False, False
        if not over and not reheat.told:  # heated through once more to cool faster: the clock begins anew
            self._away(look.at)


def _last_hot(state: CookState, since: dt.datetime) -> dt.datetime:
    """Return when food that was put away at `since` was last known to be hot: read so, served, or off the fire."""
    known = [at for at in (state.at("pull"), state.at("serve")) if at is not None and at <= since]
    read = [*state.read(Slot.CORE), *state.read(Slot.LEFTOVERS)]
    first = min(known, default=since)
    known += [r.at for r in read if first <= r.at <= since and round(r.value_c - r.spread_c, 1) >= _HOT_C]
    return max(known, default=since)
