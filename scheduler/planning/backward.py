"""The plan backward from dinner: the latest meat-on that still meets it with the wanted confidence.

Pure: the distribution comes from the forecast, the limits of the rest from the cut; what is done about a plan that does
not fit is decided elsewhere.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import statistics
from enum import StrEnum

from scheduler.cuts import Cut
from scheduler.facts import RestPlace, RestTold, Serving, ServingKind
from scheduler.forecast import Crossing
from scheduler.planning.asking import HORIZON, Window, known, question_of
from scheduler.planning.fuel import light_lead
from scheduler.state import CookState

CONFIDENCE = 0.85
"""Wanted probability of eating on time when nobody said another: house rule."""

LEAST_CONFIDENCE, MOST_CONFIDENCE = 0.5, 0.99
"""Less is no plan, and beyond one in a hundred the distribution of the forecast says nothing: house rule."""

WIDER = 1.18
"""How much wider the doubt of a plan is than that of the forecast without readings, in standard deviations.

On 800 fresh cooks of the virtual kitchen (cuts that hold) its 80 % interval covered 72 %; a normal spread that covers
72 % is this much narrower than one that covers 80 %. COMPUTED, the same for every cut that holds; roasts and birds,
covered at 86 %, are planned on the middle and left as they are.
"""

OVEN_C = (65.0, 77.0)
"""Set points of an oven that keeps meat hot without cooking it on [°C]: 150 to 170 F, common practice, no source; below
the first it is no warm oven."""

_NORMAL = statistics.NormalDist()
_MINUTE = dt.timedelta(minutes=1)
_STEP = dt.timedelta(minutes=5)
_ROUNDS = 8
"""A pit that is to change by the clock makes the cooking time depend on the start: it is found in a few rounds."""


class SnagKind(StrEnum):
    """What is said of a plan when it is made."""

    NEEDS_OVEN = "needs_oven"
    """The fast end outlasts a cold box: a warm oven has to be ready."""
    OUTLASTS_HOLD = "outlasts_hold"
    """The fast end outlasts any hold."""
    REST_EATEN = "rest_eaten"
    """The slow end leaves less rest than is good, and dinner is still met."""
    SLIPS = "slips"
    """The slow end eats the rest down to its shortest, and dinner slips."""
    DOES_NOT_HOLD = "does_not_hold"
    """The cut does not keep: it is planned on its typical time, and early is as bad as late."""
    TOO_LATE = "too_late"
    """The start that the wanted confidence asks for has passed, or there is no time to light a fire for it."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Snag:
    """Something about a plan that people should know beforehand.

    `minutes` is by how much: how long the fast end waits hot (NEEDS_OVEN, OUTLASTS_HOLD), the rest that is left
    (REST_EATEN), how far dinner slips (SLIPS), how much earlier the start should have been (TOO_LATE).
    """

    kind: SnagKind
    minutes: float = 0.0


@dataclasses.dataclass(frozen=True, kw_only=True)
class Backward:
    """A plan: when to light and put the meat on, and what comes of it. Instants are aware, UTC.

    `plate` is when people eat: not before the serving time, later when the meat is. `late_probability` is None when
    dinner follows the meat. `rest` is the likely one, from the end of venting to the knife.
    """

    light_at: dt.datetime
    on_at: dt.datetime
    pull: Window
    plate: Window
    late_probability: float | None
    confidence: float
    """What was wanted."""
    met: bool
    """Whether it is planned as wanted; False when there is no time for that."""
    rest: dt.timedelta
    snags: tuple[Snag, ...]
    sure_at: dt.datetime | None = None
    """When it is on the table with the wanted confidence, not before the serving time; None beyond the horizon."""


def after_pull(cut: Cut) -> dt.timedelta:
    """Return the shortest span from pull to plate: vent, shortest rest, slice."""
    return dt.timedelta(minutes=cut.vent_min + cut.rest_min_min + cut.slice_min)


def planned_after_pull(cut: Cut, told: RestTold | None = None) -> dt.timedelta:
    """Return the span from pull to plate that a plan allows: as above with a rest in the lower part of the ideal, or as
    long as somebody told.
    """
    if told is not None and told.minutes is not None:
        return max(after_pull(cut), dt.timedelta(minutes=told.minutes + cut.slice_min))
    low, high = cut.rest_ideal_min
    return dt.timedelta(minutes=cut.vent_min + low + 0.25 * (high - low) + cut.slice_min)


def holds(cut: Cut) -> bool:
    """Return whether finished meat of this cut may wait for dinner, so that it is planned on the slow side."""
    return cut.holds != "not"


def warm_oven(state: CookState) -> bool:
    """Return whether the meat is to rest in a warm oven: one whose set point was told keeps it hot, or was not told."""
    told = state.rest
    if told is None or told.place is not RestPlace.OVEN:
        return False
    return told.oven_c is None or told.oven_c >= OVEN_C[0]


def wanted_confidence(state: CookState) -> float:
    """Return the wanted probability of eating on time."""
    told = state.planned.confidence
    return CONFIDENCE if told is None else min(max(told, LEAST_CONFIDENCE), MOST_CONFIDENCE)


def quantile_of(cut: Cut, p: float) -> float:
    """Return which quantile of the forecast without readings is believed to be the `p` quantile (`WIDER`)."""
    return _NORMAL.cdf(WIDER * _NORMAL.inv_cdf(p)) if holds(cut) and 0.0 < p < 1.0 else p


def chance_of(ready: Crossing, cut: Cut, by: dt.datetime) -> float:
    """Return the believed probability of being ready by an instant, from the forecast without readings."""
    p = ready.probability_by(by)
    return _NORMAL.cdf(_NORMAL.inv_cdf(p) / WIDER) if holds(cut) and 0.0 < p < 1.0 else p


def pull_window(ready: Crossing, cut: Cut) -> Window:
    """Return the believed window of the pull, from the forecast without readings."""
    early, late = ready.quantile(quantile_of(cut, 0.1)), ready.quantile(quantile_of(cut, 0.9))
    return Window(early=early, likely=ready.quantile(0.5), late=late)


def earliest_on(state: CookState) -> dt.datetime:
    """Return the earliest instant at which the meat can go on, as of the newest fact, nor before it was put off to."""
    lit_at = state.at("light")
    lead = light_lead(state.cooker)
    free_at = state.as_of + lead if lit_at is None else max(lit_at + lead, state.as_of)
    put_off = state.put_off.get("meat_on")
    return free_at if put_off is None else max(free_at, put_off)


def latest_on(state: CookState, cut: Cut, confidence: float | None = None) -> dt.datetime | None:
    """Return the latest meat-on that meets dinner with the wanted confidence, None when dinner follows the meat.

    Cuts that hold: dinner minus slicing, the shortest rest, venting and the wanted quantile of the cooking time; an
    earlier finish rests longer. Others: the typical cooking time and an ideal rest, whatever confidence is wanted. It
    may lie in the past.
    """
    p = wanted_confidence(state) if confidence is None else confidence
    if holds(cut):
        end = state.serving.ends_at()
        return None if end is None else _on_for(state, cut, end - after_pull(cut), quantile_of(cut, p))
    aim = _middle(state.serving)
    return None if aim is None else _on_for(state, cut, aim - _typical_after_pull(cut, state.rest), 0.5)


def backward(state: CookState, cut: Cut) -> Backward:
    """Return the plan of a piece that is not on yet, as of the newest fact; nothing in it lies in the past."""
    earliest, latest = rounded(earliest_on(state), up=True), latest_on(state, cut)
    on_at = earliest if latest is None else max(rounded(latest, up=False), earliest)
    return plan_from(state, cut, on_at, latest)


def plan_from(state: CookState, cut: Cut, on_at: dt.datetime, latest: dt.datetime | None) -> Backward:
    """Return what comes of meat that goes on at an instant; `latest` is when it should, None: dinner is open."""
    ready = known(question_of(state, cut, on_at)).ready()
    pull, serve_at, serve_end = pull_window(ready, cut), state.serving.starts_at(), state.serving.ends_at()
    plate = pull.plus(after_pull(cut)).not_before(serve_at)
    if serve_at is None and pull.likely is not None:
        plate = pull.plus(planned_after_pull(cut, state.rest))
    met = latest is None or on_at - latest < _STEP
    return Backward(
        light_at=state.at("light") or on_at - light_lead(state.cooker),
        on_at=on_at,
        pull=pull,
        plate=plate,
        late_probability=None if serve_end is None else 1.0 - chance_of(ready, cut, serve_end - after_pull(cut)),
        confidence=wanted_confidence(state),
        met=met,
        rest=_rest(cut, pull.likely, plate.likely),
        snags=_snags(state, cut, pull, plate, None if met or latest is None else on_at - latest),
        sure_at=_sure_at(state, cut, ready.quantile(quantile_of(cut, wanted_confidence(state)))),
    )


def _sure_at(state: CookState, cut: Cut, pull_at: dt.datetime | None) -> dt.datetime | None:
    serve_at = state.serving.starts_at()
    if pull_at is None:
        return None
    plate_at = rounded(pull_at + after_pull(cut), up=True)
    return plate_at if serve_at is None else max(plate_at, serve_at)


def rounded(at: dt.datetime, *, up: bool) -> dt.datetime:
    """Return an instant on the whole five minutes before it, or after it."""
    midnight = at.replace(hour=0, minute=0, second=0, microsecond=0)
    steps = (at - midnight) // _STEP
    floor = midnight + steps * _STEP
    return floor + _STEP if up and floor < at else floor


def _on_for(state: CookState, cut: Cut, pull_by: dt.datetime, p: float) -> dt.datetime:
    """Return the latest meat-on that is pulled by an instant with probability `p`.

    Without a change of the pit ahead the cooking time does not depend on the start, and one round finds it.
    """
    on_at = pull_by - dt.timedelta(hours=12)
    for _ in range(_ROUNDS):
        found = pull_by - _span(known(question_of(state, cut, on_at)).ready(), on_at, p)
        if abs(found - on_at) < _MINUTE:
            return min(found, on_at)
        on_at = found
    return on_at


def _span(ready: Crossing, on_at: dt.datetime, p: float) -> dt.timedelta:
    at = ready.quantile(p)
    return HORIZON if at is None else at - on_at


def _middle(serving: Serving) -> dt.datetime | None:
    """Return the dinner that a cut is aimed at which can neither be early nor late: the middle of a window."""
    start, end = serving.starts_at(), serving.ends_at()
    return None if start is None or end is None else start + (end - start) / 2


def _typical_after_pull(cut: Cut, told: RestTold | None) -> dt.timedelta:
    if told is not None and told.minutes is not None:
        return planned_after_pull(cut, told)
    return dt.timedelta(minutes=cut.vent_min + sum(cut.rest_ideal_min) / 2 + cut.slice_min)


def _rest(cut: Cut, pulled_at: dt.datetime | None, plate_at: dt.datetime | None) -> dt.timedelta:
    """Return the time between venting and the knife, never less than the shortest rest."""
    shortest = dt.timedelta(minutes=cut.rest_min_min)
    if pulled_at is None or plate_at is None:
        return shortest
    return max(plate_at - pulled_at - dt.timedelta(minutes=cut.vent_min + cut.slice_min), shortest)


def _snags(state: CookState, cut: Cut, pull: Window, plate: Window, short_by: dt.timedelta | None) -> tuple[Snag, ...]:
    """Return what should be known of a plan before the fire is lit."""
    if state.serving.kind is ServingKind.WHEN_READY:
        return ()
    found = [] if short_by is None else [Snag(kind=SnagKind.TOO_LATE, minutes=short_by / _MINUTE)]
    if not holds(cut):
        found.append(Snag(kind=SnagKind.DOES_NOT_HOLD))
    found += [*_fast_end(state, cut, pull, plate), *_slow_end(state, cut, pull, plate)]
    return tuple(found)


def _fast_end(state: CookState, cut: Cut, pull: Window, plate: Window) -> list[Snag]:
    if pull.early is None or plate.early is None:
        return []
    waits = _rest(cut, pull.early, plate.early) / _MINUTE
    if waits > cut.rest_max_heated_min:
        return [Snag(kind=SnagKind.OUTLASTS_HOLD, minutes=waits)]
    boxed = (
        holds(cut) and not warm_oven(state) and waits > cut.rest_max_unheated_min
    )  # what does not keep is never boxed
    return [Snag(kind=SnagKind.NEEDS_OVEN, minutes=waits)] if boxed else []


def _slow_end(state: CookState, cut: Cut, pull: Window, plate: Window) -> list[Snag]:
    serve_end = state.serving.ends_at()
    if pull.late is None or plate.late is None or serve_end is None:
        return []
    if plate.late > serve_end:
        return [Snag(kind=SnagKind.SLIPS, minutes=(plate.late - serve_end) / _MINUTE)]
    left = _rest(cut, pull.late, plate.late) / _MINUTE
    return [Snag(kind=SnagKind.REST_EATEN, minutes=left)] if holds(cut) and left < cut.rest_ideal_min[0] else []
