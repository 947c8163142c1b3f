"""The two or three sensible plans side by side: as asked, slow over the night, hotter on the day, wrapped.

Pure; each is the same backward plan under another pit or wrap. None lies outside the pit limits of the cut.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterable, Iterator
from enum import StrEnum
from zoneinfo import ZoneInfo

from scheduler.cookers import Cookers
from scheduler.cuts import Cut, Spread
from scheduler.facts import Wrap
from scheduler.planning import fuel
from scheduler.planning.backward import Backward, SnagKind, backward
from scheduler.planning.fuel import Setting
from scheduler.planning.surroundings import air_of
from scheduler.state import CookState, PitBand

COLDEST_C = 107.0
"""No slow cook is offered a colder pit: meat would loiter below 60 C; common practice, no source."""

HOTTEST_BARE_C, HOTTEST_WRAPPED_C = 149.0, 163.0
"""Slow cuts scorch above these; common practice, no source [°C]."""

_LADDER_C = tuple((f - 32.0) / 1.8 for f in (225, 250, 275, 300, 325, 350))
"""Pits that people set: steps of 25 °F [°C]."""

_SAME_C = 8.0
"""A pit nearer than this to the asked one is no other plan [°C]: house rule."""

_ROUNDED_C = 0.5
"""Limits of the catalogue are whole degrees [°C]."""

APART = dt.timedelta(minutes=45)
"""Plans whose start and plate both differ by less are one plan: house rule."""

_APART_CHANCE = 0.1
MOST = 3
"""So many plans are shown side by side, the asked one among them."""

_QUIET = (dt.time(22), dt.time(7))
"""Quiet hours where nobody named others; common practice, no source."""

_MORNING_H = 5
"""A fire lit from this hour on, on the day of the dinner, is no night: house rule [h of the clock]."""


Limits = tuple[tuple[float, float], ...]


class Kind(StrEnum):
    """What an alternative is."""

    AS_ASKED = "as_asked"
    SLOW = "slow"
    """A milder pit, often over the night."""
    HOT = "hot"
    """A hotter pit, on the day of the dinner where that is possible."""
    WRAPPED = "wrapped"
    """Wrapped, which shortens the stall, in a hotter pit where that saves the night."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Alternative:
    """One plan beside others: pit [°C], wrap (None: decided at the bark), the plan, and what it asks of people."""

    kind: Kind
    pit_low_c: float
    pit_high_c: float
    wrap: Wrap | None
    plan: Backward
    awake: dt.timedelta
    """Somebody must be awake: from the fire until the meat is boxed, likely."""
    awake_quiet: dt.timedelta
    """What of it lies in the quiet hours."""
    fuel_kg: Spread | None = None
    """Charcoal for it [kg]; None when nobody told of the cooker."""


def alternatives(
    state: CookState, cut: Cut, cookers: Cookers | None = None, also: Limits = ()
) -> tuple[Alternative, ...]:
    """Return the sensible plans of a piece that is not on yet, the asked one first; only that one when no other is
    worth a word. With `cookers` each says its charcoal; `also` are the pit limits of whatever shares the fire [°C].
    """
    asked = _as_asked(state, cut)
    hot = _hot(state, cut, asked, also)
    others = (_slow(state, cut, asked, also), hot, _wrapped(state, cut, asked, hot, also))
    found = [asked]
    for other in _wanted(asked, [one for one in others if one is not None], state):
        if all(_differ(other, one) for one in found) and _no_worse(other, asked):
            found.append(other)
    return tuple(_fuelled(one, state, cut, cookers) for one in found[:MOST])


def _fuelled(one: Alternative, state: CookState, cut: Cut, cookers: Cookers | None) -> Alternative:
    """Return a plan with its charcoal, where the cooker is known."""
    if cookers is None or state.cooker is None:
        return one
    planned = state.planned
    setting = Setting(
        pit_c=(one.pit_low_c + one.pit_high_c) / 2,
        air=air_of(state),
        meat_kg=planned.count * (planned.mass_kg or cut.mass_kg.typical),
        cooked_share=cut.cooked_share.typical,
        hours=(one.plan.pull.likely - one.plan.on_at) / dt.timedelta(hours=1) if one.plan.pull.likely else 30.0,
    )
    need = fuel.need(state.cooker, setting, one.plan.pull, one.plan.on_at, cookers)
    return dataclasses.replace(one, fuel_kg=need.kg)


def remedies(state: CookState, cut: Cut, chance: float | None = None) -> tuple[Alternative, ...]:
    """Return what would meet a dinner that the asked plan does not: the mildest change of each kind, or nothing.

    A hotter pit, a wrap, or both; each meets dinner with at least this chance (None: as it is wanted).
    """
    hot = (_tried(state, cut, Kind.HOT, pit_c, state.planned.wrap) for pit_c in _pits(state, cut, hotter=True))
    hotter = _first(hot, chance)
    wraps = [wrap for wrap in _closed_wraps(cut) if wrap is not state.planned.wrap]
    closed = (_tried(state, cut, Kind.WRAPPED, pit_c, wrap) for pit_c in _all_from(state, cut) for wrap in wraps)
    wrapped = _first(closed, chance)
    return tuple(one for one in (hotter, wrapped) if one is not None)


def pit_limits_c(cut: Cut, wrap: Wrap | None) -> tuple[float, float]:
    """Return the mildest and the hottest pit that may be offered for a cut [°C]."""
    if cut.doneness == "temperature":
        return cut.pit_c.low, cut.pit_c.high
    hottest = HOTTEST_WRAPPED_C if wrap in {Wrap.FOIL, Wrap.PAPER} else HOTTEST_BARE_C
    return max(COLDEST_C, cut.pit_c.low), min(hottest, cut.pit_c.high)


def under(state: CookState, low_c: float, high_c: float, wrap: Wrap | None) -> CookState:
    """Return the state of a piece that is not on yet as if it had been planned with another pit and wrap."""
    planned = dataclasses.replace(state.planned, pit_low_c=low_c, pit_high_c=high_c, wrap=wrap)
    pit = (PitBand(at=state.pit[-1].at, low_c=low_c, high_c=high_c),)
    return dataclasses.replace(state, planned=planned, pit=pit, pit_ahead=())


def quiet_span(start: dt.datetime, end: dt.datetime, quiet: tuple[dt.time, dt.time], zone: str) -> dt.timedelta:
    """Return how much of a span of time lies in the quiet hours of a zone's clock."""
    here = ZoneInfo(zone)
    day, last = start.astimezone(here).date() - dt.timedelta(days=1), end.astimezone(here).date()
    total = dt.timedelta()
    while day <= last:
        ends_on = day if quiet[1] > quiet[0] else day + dt.timedelta(days=1)
        begins = dt.datetime.combine(day, quiet[0], here).astimezone(dt.UTC)
        ends = dt.datetime.combine(ends_on, quiet[1], here).astimezone(dt.UTC)
        total += max(dt.timedelta(), min(end, ends) - max(start, begins))
        day += dt.timedelta(days=1)
    return total


def _as_asked(state: CookState, cut: Cut) -> Alternative:
    band = state.pit[-1]
    return _weighed(Kind.AS_ASKED, state, cut, backward(state, cut), (band.low_c, band.high_c))


def _tried(state: CookState, cut: Cut, kind: Kind, pit_c: float, wrap: Wrap | None) -> Alternative:
    changed = under(state, pit_c, pit_c, wrap)
    return _weighed(kind, changed, cut, backward(changed, cut), (pit_c, pit_c))


def _weighed(kind: Kind, state: CookState, cut: Cut, plan: Backward, band: tuple[float, float]) -> Alternative:
    told = None if state.watches is None else state.watches.quiet
    off_at = (plan.pull.likely or plan.on_at + dt.timedelta(hours=30)) + dt.timedelta(minutes=cut.vent_min)
    return Alternative(
        kind=kind,
        pit_low_c=band[0],
        pit_high_c=band[1],
        wrap=state.planned.wrap,
        plan=plan,
        awake=off_at - plan.light_at,
        awake_quiet=quiet_span(plan.light_at, off_at, told or _QUIET, state.serving.zone),
    )


def _slow(state: CookState, cut: Cut, asked: Alternative, also: Limits) -> Alternative | None:
    """Return the mildest pit, where there is time for it."""
    milder = _pits(state, cut, also, hotter=False)
    return _tried(state, cut, Kind.SLOW, milder[0], asked.wrap) if milder else None


def _hot(state: CookState, cut: Cut, asked: Alternative, also: Limits) -> Alternative | None:
    """Return the mildest hotter pit with which the fire is lit on the day of the dinner, else the hottest."""
    return _mildest(
        state, (_tried(state, cut, Kind.HOT, pit, asked.wrap) for pit in _pits(state, cut, also, hotter=True))
    )


def _wrapped(
    state: CookState, cut: Cut, asked: Alternative, hot: Alternative | None, also: Limits
) -> Alternative | None:
    """Return it wrapped as closely as the cut allows: in the asked pit or the mildest that saves the night; where no
    pit saves all of it, in the hottest that saves some.
    """
    wraps = _closed_wraps(cut)
    if not wraps or asked.wrap in wraps:
        return None
    tried = [_tried(state, cut, Kind.WRAPPED, pit, wraps[-1]) for pit in _all_from(state, cut, also)]
    found = _mildest(state, iter(tried))
    if found is None or not asked.plan.met or _on_the_day(found, state):
        return found
    return found if _saves_some(found, tried[0], hot) else tried[0]


def _saves_some(hottest: Alternative, mild: Alternative, hot: Alternative | None) -> bool:
    """Return whether hotter and wrapped costs clearly less of the night than wrapped alone, and than hotter alone."""
    if not _no_worse(hottest, mild):
        return False
    return all(other is None or other.awake_quiet - hottest.awake_quiet >= APART for other in (mild, hot))


def _closed_wraps(cut: Cut) -> list[Wrap]:
    """Return the wraps that shorten the stall, the closest last."""
    return [wrap for wrap in (Wrap.PAPER, Wrap.FOIL) if wrap in cut.wraps]


def _pits(state: CookState, cut: Cut, also: Limits = (), *, hotter: bool) -> list[float]:
    """Return the pits of the ladder on one side of the asked one, within the limits of the cut, mildest first."""
    limits = (pit_limits_c(cut, state.planned.wrap), *also)
    low_c, high_c = max(low for low, _ in limits), min(high for _, high in limits)
    within = [pit_c for pit_c in _LADDER_C if low_c - _ROUNDED_C <= pit_c <= high_c + _ROUNDED_C]
    if hotter:
        return [pit_c for pit_c in within if pit_c >= state.pit_c + _SAME_C]
    return [pit_c for pit_c in within if pit_c <= state.pit_c - _SAME_C]


def _all_from(state: CookState, cut: Cut, also: Limits = ()) -> list[float]:
    """Return the asked pit where the cut allows it, and the hotter ones of the ladder."""
    low_c, high_c = pit_limits_c(cut, state.planned.wrap)
    asked = [state.pit_c] if low_c - _ROUNDED_C <= state.pit_c <= high_c + _ROUNDED_C else []
    return [*asked, *_pits(state, cut, also, hotter=True)]


def _mildest(state: CookState, tried: Iterator[Alternative]) -> Alternative | None:
    """Return the first that meets dinner from a fire lit on its day, else the last of all; None when there is none."""
    last = None
    for last in tried:
        if last.plan.met and _on_the_day(last, state):
            return last
    return last


def _first(tried: Iterable[Alternative], chance: float | None) -> Alternative | None:
    return next((one for one in tried if _meets(one.plan, chance)), None)


def _meets(plan: Backward, chance: float | None) -> bool:
    late = plan.late_probability
    return plan.met if chance is None else late is not None and late <= 1.0 - chance


def _on_the_day(one: Alternative, state: CookState) -> bool:
    """Return whether the fire is lit on the day of the dinner and not in its night."""
    serve_at = state.serving.starts_at() or one.plan.plate.likely
    if serve_at is None:
        return False
    zone = ZoneInfo(state.serving.zone)
    lit, eaten = one.plan.light_at.astimezone(zone), serve_at.astimezone(zone)
    return lit.date() == eaten.date() and lit.hour >= _MORNING_H


def _wanted(asked: Alternative, others: list[Alternative], state: CookState) -> list[Alternative]:
    """Return the others in the order in which they are wanted: beside a night those that save it, beside a day the
    slow one first.
    """
    order = (Kind.SLOW, Kind.HOT, Kind.WRAPPED) if _on_the_day(asked, state) else (Kind.HOT, Kind.WRAPPED, Kind.SLOW)
    return sorted(others, key=lambda one: order.index(one.kind))


def _differ(one: Alternative, other: Alternative) -> bool:
    """Return whether two plans differ enough to be told apart: in the start, the plate or, where dinner is not met as
    wanted, the chance.
    """
    lit = abs(one.plan.light_at - other.plan.light_at)
    plates = one.plan.plate.likely, other.plan.plate.likely
    eaten = abs(plates[0] - plates[1]) if plates[0] is not None and plates[1] is not None else dt.timedelta()
    chance = abs((one.plan.late_probability or 0.0) - (other.plan.late_probability or 0.0))
    missed = not (one.plan.met and other.plan.met)
    return lit >= APART or eaten >= APART or (missed and chance >= _APART_CHANCE)


def _outlasts(one: Alternative) -> bool:
    return any(snag.kind is SnagKind.OUTLASTS_HOLD for snag in one.plan.snags)


def _no_worse(one: Alternative, asked: Alternative) -> bool:
    """Return whether an alternative is met, or at least likelier met than the asked plan; none is offered whose fast
    end outlasts any hold where that of the asked one does not.
    """
    if _outlasts(one) and not _outlasts(asked):
        return False
    if one.plan.met or one.plan.late_probability is None or asked.plan.late_probability is None:
        return True
    return not asked.plan.met and one.plan.late_probability <= asked.plan.late_probability - _APART_CHANCE
