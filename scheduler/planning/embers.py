"""What is left in the fire: from what was put in, the pit, and what people saw of it.

Pure. The rate comes from the energy balance (`scheduler.planning.fuel`); nobody is asked from here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools
import math
from collections.abc import Sequence
from statistics import NormalDist

from scheduler.cookers import Cookers
from scheduler.cuts import Cut, Spread
from scheduler.facts import CookerTold, Slot
from scheduler.planning.asking import Window
from scheduler.planning.fuel import MEASURED_SPREAD, Setting, burning, holds, light_lead
from scheduler.planning.surroundings import air_of
from scheduler.state import CookState

SEEN = {"plenty": (0.75, 0.16), "half": (0.5, 0.12), "low": (0.2, 0.09)}
"""Share of a filling that people mean, and its doubt (one standard deviation): own choice, no source."""

SINKS_AT = 0.12
"""With this share of a filling left the pit begins to sink: own choice, no source."""

ADDED_UNTOLD = 0.4
"""Charcoal added of which nobody told how much, as a share of a filling: own choice, no source."""

_LOAD_SPREAD = 0.12
"""Doubt of a mass that was told, as a share: most people weigh a bag, not a heap; own choice."""
_FILLING_SPREAD = 0.35
"""Doubt of a filling that nobody told of, as a share: own choice."""
_BURNS_WITHIN_C = 20.0
"""A pit at most so far below its set point has a fire [°C]: house rule."""
_HARDLY = 0.03
"""Weight of a fire that should be out while the pit is hot: somebody's number or the clock may be wrong."""
_RATES, _LOADS = 25, 7
_AHEAD_H = 36.0
_HOUR = dt.timedelta(hours=1)
_NORMAL = NormalDist()


@dataclasses.dataclass(frozen=True, kw_only=True)
class FuelLeft:
    """The fire as of an instant: charcoal left [kg, low, typical, high] and until when it carries the pit.

    An end of `until` that lies in the past says that the fire may be low already.
    """

    as_of: dt.datetime
    left_kg: Spread
    filling_kg: float
    until: Window
    kg_per_h: float

    @property
    def share(self) -> float:
        """Return the likely share of a filling that is left, 0 to 1."""
        return min(1.0, self.left_kg.typical / self.filling_kg)


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Member:
    """One way it may be: how fast it burns against the balance, how much was put in against what was told."""

    rate: float
    load: float
    weight: float


class _Fire:
    """The balance along one cook: kilograms burnt since lighting by the typical rate, and what was put in when."""

    def __init__(
        self, state: CookState, cut: Cut, told: CookerTold, cookers: Cookers, lit_at: dt.datetime, meat_kg: float
    ) -> None:
        self.lit_at = lit_at
        self._came_up = not state.planned.from_middle
        self._lead = light_lead(told)
        setting = Setting(
            pit_c=state.pit_c,
            air=air_of(state),
            rain="rain" in state.troubles,
            meat_kg=meat_kg,
            cooked_share=cut.cooked_share.typical,
            hours=cut.duration_h.typical,
        )
        fires = [
            (band.at, burning(told, dataclasses.replace(setting, pit_c=(band.low_c + band.high_c) / 2), cookers))
            for band in state.pit
        ]
        self.rates = [(at, fire.kg_per_h.typical) for at, fire in fires]
        middle = fires[-1][1]
        self.start_kg = middle.start_kg.typical if self._came_up else 0.0
        self.spread = math.log(middle.kg_per_h.high / middle.kg_per_h.low) / 2.56
        if told.fuel_kg_per_h is not None:
            self.spread = MEASURED_SPREAD
        filling = holds(told, cookers)
        first = [fuel for fuel in state.fuel if not fuel.added]
        self.told = bool(first)
        self.load_kg = first[-1].kg if first else filling.typical
        self.filling_kg = self.load_kg
        self.added = _added(state, self.filling_kg)

    def burnt_kg(self, at: dt.datetime) -> float:
        """Return what a typical fire has burnt by an instant [kg]."""
        if at <= self.lit_at:
            return 0.0
        up_at = self.lit_at + (self._lead if self._came_up else dt.timedelta())
        if at < up_at:
            return self.start_kg * ((at - self.lit_at) / self._lead)
        burnt = self.start_kg
        for n, (begins, rate) in enumerate(self.rates):
            since = up_at if n == 0 else max(begins, up_at)
            ends = self.rates[n + 1][0] if n + 1 < len(self.rates) else at
            burnt += rate * max(0.0, (min(ends, at) - since) / _HOUR)
        return burnt

    def left_kg(self, member: _Member, at: dt.datetime) -> float:
        """Return what is left in one way it may be [kg], below zero when it should be out."""
        added = sum(kg for when, kg in self.added if when <= at)
        return member.load * (self.load_kg + added) - member.rate * self.burnt_kg(at)

    def sinks_at(self, member: _Member, since: dt.datetime) -> dt.datetime:
        """Return when the pit begins to sink in one way it may be, with nothing more put in than by `since`."""
        spare = self.left_kg(member, since) - SINKS_AT * self.filling_kg
        rate = member.rate * self.rates[-1][1]
        return since + min(spare / rate, _AHEAD_H) * _HOUR


def fuel_left(
    state: CookState, cut: Cut, cookers: Cookers, now: dt.datetime | None = None, *, meat_kg: float | None = None
) -> FuelLeft | None:
    """Return what is left in the fire as of `now` (None: the newest fact), None when nothing is known of it.

    `meat_kg` is all the meat on the fire, None: that of this piece. It needs a cooker, a fire that burns, and charcoal
    told or seen: without either there is nothing to say.

    Notes
    -----
    A grid over the rate (log-normal about the balance, as wide as its figures are) and the load; each "low, half,
    plenty" weights it by Bayes' rule, as does a pit that is hot although the fire should be out.
    """
    told, now = state.cooker, now or state.as_of
    lit_at = _burning_since(state)
    checks = [(d.at, d.outcome) for d in state.done.get("fuel_check", ()) if d.outcome in SEEN]
    if told is None or lit_at is None or not (checks or state.fuel):
        return None
    meat_kg = meat_of(state, cut) if meat_kg is None else meat_kg
    fire = _Fire(state, cut, told, cookers, lit_at, meat_kg)
    members = _weighed(fire, state, [(at, word) for at, word in checks if at >= lit_at and word is not None])
    left = [(fire.left_kg(member, now), member.weight) for member in members]
    ends = [(fire.sinks_at(member, now).timestamp(), member.weight) for member in members]
    early, likely, late = (dt.datetime.fromtimestamp(_quantile(ends, p), dt.UTC) for p in (0.1, 0.5, 0.9))
    low, typical, high = (max(0.0, _quantile(left, p)) for p in (0.1, 0.5, 0.9))
    return FuelLeft(
        as_of=now,
        left_kg=Spread(low=low, typical=typical, high=high),
        filling_kg=fire.filling_kg,
        until=Window(early=early, likely=likely, late=late),
        kg_per_h=fire.rates[-1][1] * _quantile([(m.rate, m.weight) for m in members], 0.5),
    )


def meat_of(state: CookState, cut: Cut) -> float:
    """Return the meat of one entry of a cook, all its pieces together [kg]; the usual mass where nobody said."""
    return (state.planned.mass_kg or cut.mass_kg.typical) * state.planned.count


def _burning_since(state: CookState) -> dt.datetime | None:
    """Return when the fire was lit, None when it does not burn; for a cook begun in the middle, when fuel was told."""
    moved_out = state.oven is not None and len(state.pieces) == 1
    if state.stage in {"before", "after", "closed"} or _shut(state) or moved_out or "fire_out" in state.troubles:
        return None
    lit_at = state.at("light")
    if lit_at is not None or not state.fuel:
        return lit_at or state.at("meat_on")
    return max(state.fuel[0].at, state.at("meat_on") or state.fuel[0].at)


def _shut(state: CookState) -> bool:
    done = state.did("shutdown")
    return done is not None and done.outcome != "keep"


def _added(state: CookState, filling_kg: float) -> list[tuple[dt.datetime, float]]:
    """Return what was added to the fire and when; a refuel without a number is a share of a filling."""
    told = [(fuel.at, fuel.kg) for fuel in state.fuel if fuel.added]
    untold = [
        (done.at, ADDED_UNTOLD * filling_kg)
        for done in state.done.get("refuel", ())
        if not any(abs(at - done.at) <= dt.timedelta(minutes=30) for at, _ in told)
    ]
    return sorted(told + untold)


def _weighed(fire: _Fire, state: CookState, checks: Sequence[tuple[dt.datetime, str]]) -> list[_Member]:
    load_spread = _LOAD_SPREAD if fire.told else _FILLING_SPREAD
    members = []
    for rate, load in itertools.product(_steps(fire.spread, _RATES), _steps(load_spread, _LOADS)):
        member = _Member(rate=rate, load=load, weight=1.0)
        fits = 0.0
        for at, word in checks:
            share, doubt = SEEN[word]
            filling_kg = fire.filling_kg * load
            fits -= 0.5 * ((max(0.0, fire.left_kg(member, at)) / filling_kg - share) / doubt) ** 2
        weight = math.exp(fits)
        if any(fire.left_kg(member, at) <= 0.0 for at in _hot(state)):
            weight *= _HARDLY
        members.append(dataclasses.replace(member, weight=weight))
    return members


def _hot(state: CookState) -> list[dt.datetime]:
    """Return when the pit was read hot since the meat went on, the newest time only: a fire was there."""
    on_at, read = state.at("meat_on"), state.last(Slot.PIT)
    if on_at is None or read is None or read.at < on_at or read.value_c < state.pit[-1].low_c - _BURNS_WITHIN_C:
        return []
    return [read.at]


def _steps(spread: float, count: int) -> list[float]:
    return [math.exp(spread * _NORMAL.inv_cdf((n + 0.5) / count)) for n in range(count)]


def _quantile(weighted: Sequence[tuple[float, float]], p: float) -> float:
    ordered = sorted(weighted)
    target, passed = p * sum(weight for _, weight in ordered), 0.0
    for value, weight in ordered:
        passed += weight
        if passed >= target:
            return value
    return ordered[-1][0]
