"""Outlook: the plan backward from dinner and the forecast, as instants that people can be told.

Pure; the forecast is asked, nothing is scheduled here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
from enum import StrEnum

from scheduler.cuts import Cut
from scheduler.facts import Feel, ServingKind, Slot, Wrap
from scheduler.forecast import Crossing, Forecast, Observation, PitEvent, Question, WrapEvent, forecast
from scheduler.planning.rest import keeps_until
from scheduler.planning.surroundings import air_of, openings_of, start_of
from scheduler.state import CookState, ReadingAt

LIGHT_LEAD = dt.timedelta(minutes=60)
"""From lighting to meat on; common practice, no source."""

PLAN_ON = 0.78
"""Quantile of the cooking time that a cut which holds is planned on: typical plus 60 % of (high minus typical),
with high
at one cook in ten, lies near there; common practice, no source."""

ON_TIME = 0.75
"""Chance of eating on time from which dinner is called on time: house rule."""

LATE = 0.40
"""Chance below which it is called late; between the two it is called close: house rule."""

_STEP = dt.timedelta(minutes=5)


class Verdict(StrEnum):
    """What is said of dinner."""

    ON_TIME = "on_time"
    CLOSE = "close"
    """It may be late."""
    LATE = "late"
    OPEN = "open"
    """No time was fixed: dinner follows the meat."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Window:
    """An instant with its doubt: one in ten comes before `early`, one in ten after `late` (None: beyond the
    horizon).
    """

    early: dt.datetime | None
    likely: dt.datetime | None
    late: dt.datetime | None

    def plus(self, span: dt.timedelta) -> Window:
        """Return the window moved by a span."""
        early, likely, late = (None if t is None else t + span for t in (self.early, self.likely, self.late))
        return Window(early=early, likely=likely, late=late)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Outlook:
    """What is expected of one cook, as of its newest fact."""

    cook: str
    piece: str
    forecast: Forecast
    light_at: dt.datetime
    on_at: dt.datetime
    """Meat on: as it was, or as planned."""
    pull: Window
    plate: Window
    """When it could be on the table at the earliest: pull, vent, shortest rest, slice."""
    serve_at: dt.datetime | None
    serve_end: dt.datetime | None
    plate_at: dt.datetime | None
    """When it is planned on the table: dinner, or when the meat allows if that is later."""
    chance: float | None
    """Probability of eating on time, None when no time is fixed."""
    verdict: Verdict
    spare: dt.timedelta | None
    """Dinner minus the likely earliest plate: negative is late."""
    box_outlasted: bool
    """True when an early finish, or the meat as it rests, would wait longer than an unheated box holds."""

    def crossing(self, core_temp_c: float) -> Crossing:
        """Return when the core passes a temperature [°C]."""
        return self.forecast.crossing(core_temp_c)


def after_pull(cut: Cut) -> dt.timedelta:
    """Return the shortest span from pull to plate: vent, shortest rest, slice."""
    return dt.timedelta(minutes=cut.vent_min + cut.rest_min_min + cut.slice_min)


def planned_after_pull(cut: Cut) -> dt.timedelta:
    """Return the span from pull to plate that a plan allows: as above with a rest in the lower part of the ideal."""
    low, high = cut.rest_ideal_min
    return dt.timedelta(minutes=cut.vent_min + low + 0.25 * (high - low) + cut.slice_min)


@functools.lru_cache(maxsize=64)
def known(question: Question) -> Forecast:
    """Return the forecast for a question; one decision asks the same question several times."""
    return forecast(question)


def look(state: CookState, cut: Cut) -> Outlook:
    """Return the outlook of a cook as of its newest fact."""
    serve_at, serve_end = state.serving.starts_at(), state.serving.ends_at()
    on_at = state.at("meat_on") or _planned_on(state, cut, serve_at)
    course = known(question_of(state, cut, on_at))
    pull = _pull_window(state, course)
    plate = pull.plus(after_pull(cut))
    served = state.at("serve")
    chance = _chance(state, course, cut, serve_end)
    spare = None if serve_end is None or plate.likely is None else serve_end - plate.likely
    if served is not None:
        plate = Window(early=served, likely=served, late=served)
    return Outlook(
        cook=state.cook,
        piece=state.piece,
        forecast=course,
        light_at=state.at("light") or on_at - LIGHT_LEAD,
        on_at=on_at,
        pull=pull,
        plate=plate,
        serve_at=serve_at,
        serve_end=serve_end,
        plate_at=served or _plate_at(pull, plate, serve_at, cut),
        chance=chance,
        verdict=_verdict(chance),
        spare=spare,
        box_outlasted=_box_outlasted(state, pull, serve_at, cut),
    )


def question_of(state: CookState, cut: Cut, on_at: dt.datetime) -> Question:
    """Return what the forecast may know of the piece."""
    planned = state.planned
    wraps = tuple(WrapEvent(at=at, wrap=body.wrap) for at, body in state.wraps if at >= on_at)
    decided = wraps[-1].wrap if wraps else planned.wrap
    pulled_at = state.at("pull")
    start = start_of(state, on_at)
    return Question(
        cook=state.cook,
        piece=state.piece,
        cut=cut,
        mass_kg=planned.mass_kg,
        thickness_m=planned.thickness_m,
        on_at=on_at,
        pit=tuple(PitEvent(at=band.at, low_c=band.low_c, high_c=band.high_c) for band in state.pit),
        readings=_observations(state, Slot.CORE, on_at, pulled_at, but=start),
        pit_readings=_observations(state, Slot.PIT, on_at, pulled_at),
        wraps=wraps,
        wrap_plan=decided,
        openings=openings_of(state, on_at),
        air=air_of(state),
        start_c=None if start is None else start.value_c,
    )


def _observations(
    state: CookState, slot: Slot, on_at: dt.datetime, until: dt.datetime | None, *, but: ReadingAt | None = None
) -> tuple[Observation, ...]:
    """Return the readings the model may use: undoubted, on the fire, `but` for the one that says how it began."""
    return tuple(
        Observation(at=r.at, value_c=r.value_c, spread_c=r.spread_c)
        for r in state.read(slot)
        if r is not but and r.at >= on_at and (until is None or r.at <= until)
    )


def cooking_span(cut: Cut, state: CookState, p: float) -> dt.timedelta:
    """Return the `p` quantile of meat on to pull, from the prior alone."""
    reference = dt.datetime(2000, 1, 1, tzinfo=dt.UTC)
    bands = state.pit[-1:]
    question = dataclasses.replace(
        question_of(state, cut, reference),
        pit=tuple(PitEvent(at=reference, low_c=b.low_c, high_c=b.high_c) for b in bands),
        readings=(),
        pit_readings=(),
        wraps=(),
        openings=(),
        start_c=None,
    )
    ready_at = known(question).ready().quantile(p)
    horizon = reference + dt.timedelta(hours=30)
    return (ready_at or horizon) - reference


def earliest_on(state: CookState) -> dt.datetime:
    """Return the earliest instant at which the meat can go on, as of the newest fact."""
    lit_at = state.at("light")
    return state.as_of + LIGHT_LEAD if lit_at is None else max(lit_at + LIGHT_LEAD, state.as_of)


def _planned_on(state: CookState, cut: Cut, serve_at: dt.datetime | None) -> dt.datetime:
    """Plan backward: serve, slice, rest, vent, cook on the slow side; never before it can be."""
    earliest = earliest_on(state)
    if serve_at is None:
        return _rounded(earliest, up=True)
    back = serve_at - planned_after_pull(cut) - cooking_span(cut, state, PLAN_ON)
    return max(_rounded(back, up=False), earliest)


def _rounded(at: dt.datetime, *, up: bool) -> dt.datetime:
    midnight = at.replace(hour=0, minute=0, second=0, microsecond=0)
    steps = (at - midnight) // _STEP
    floor = midnight + steps * _STEP
    return floor + _STEP if up and floor < at else floor


def _pull_window(state: CookState, course: Forecast) -> Window:
    pulled_at = state.at("pull")
    if pulled_at is not None:
        return Window(early=pulled_at, likely=pulled_at, late=pulled_at)
    ready = course.ready()
    window = Window(early=ready.quantile(0.1), likely=ready.quantile(0.5), late=ready.quantile(0.9))
    if state.stage != "cooking":
        return window
    if felt_tender(state):
        return Window(early=state.as_of, likely=state.as_of, late=state.as_of)
    # While it is on the fire it cannot have been ready before the newest fact: nobody has pulled it.
    early, likely, late = (
        None if t is None else max(t, state.as_of) for t in (window.early, window.likely, window.late)
    )
    return Window(early=early, likely=likely, late=late)


def _chance(state: CookState, course: Forecast, cut: Cut, serve_end: dt.datetime | None) -> float | None:
    if serve_end is None:
        return None
    last_pull = serve_end - after_pull(cut)
    pulled_at = state.at("pull") or (state.as_of if felt_tender(state) else None)
    if pulled_at is not None:
        return 1.0 if pulled_at <= last_pull else 0.0
    if last_pull <= state.as_of:
        return 0.0
    return course.ready().probability_by(last_pull)


def _verdict(chance: float | None) -> Verdict:
    if chance is None:
        return Verdict.OPEN
    if chance >= ON_TIME:
        return Verdict.ON_TIME
    return Verdict.LATE if chance < LATE else Verdict.CLOSE


def _plate_at(pull: Window, plate: Window, serve_at: dt.datetime | None, cut: Cut) -> dt.datetime | None:
    if serve_at is None:
        return None if pull.likely is None else pull.likely + planned_after_pull(cut)
    return serve_at if plate.likely is None else max(serve_at, plate.likely)


def _box_outlasted(state: CookState, pull: Window, serve_at: dt.datetime | None, cut: Cut) -> bool:
    if serve_at is None or pull.early is None or state.serving.kind is ServingKind.WHEN_READY:
        return False
    until = keeps_until(state, cut)
    if until is not None:
        return serve_at > until
    boxed_at = pull.early + dt.timedelta(minutes=cut.vent_min)
    return serve_at - boxed_at > dt.timedelta(minutes=cut.rest_max_unheated_min)


def felt_tender(state: CookState) -> bool:
    """Return whether the last feel since the meat went on was tender: the hand decides, not the number."""
    on_at = state.at("meat_on")
    feels = [felt.feel for at, felt in state.feels if on_at is not None and at >= on_at]
    return bool(feels) and feels[-1] is Feel.TENDER


def decided_bare(state: CookState) -> bool:
    """Return whether it was decided that the meat stays bare to the end."""
    if state.wraps:
        return state.wraps[-1][1].wrap is Wrap.NONE
    return state.planned.wrap is Wrap.NONE
