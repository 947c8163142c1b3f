"""Outlook: the plan backward from dinner and the forecast, as instants that people can be told.

Pure; the forecast is asked, nothing is scheduled here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum

from scheduler.cuts import Cut
from scheduler.facts import Feel, ServingKind, Wrap
from scheduler.forecast import Crossing, Forecast, PitEvent
from scheduler.planning.asking import HORIZON, Window, known, question_of, window_of
from scheduler.planning.backward import (
    Backward,
    after_pull,
    backward,
    earliest_on,
    holds,
    planned_after_pull,
    warm_oven,
)  # fmt: skip
from scheduler.planning.fuel import LIGHT_LEAD, light_lead
from scheduler.planning.rest import keeps_until
from scheduler.planning.waiting import TOO_LONG_MIN, excess_min, keeps_min
from scheduler.state import CookState, Stage

__all__ = [
    "LATE",
    "LIGHT_LEAD",
    "ON_TIME",
    "Outlook",
    "Verdict",
    "Window",
    "after_pull",
    "cooking_span",
    "decided_bare",
    "earliest_on",
    "felt_tender",
    "known",
    "look",
    "planned_after_pull",
    "question_of",
]

ON_TIME = 0.75
"""Chance of eating on time from which dinner is called on time: house rule."""

LATE = 0.40
"""Chance below which it is called late; between the two it is called close: house rule."""


MISS = dt.timedelta(minutes=15)
"""A cut that does not keep, once on, is late only from here on: it is aimed at its usual time, so half of all cooks lie
behind it by minutes that nobody moves a dinner for (the miss that the trade counts; common practice, no source)."""


class Verdict(StrEnum):
    """What is said of dinner."""

    ON_TIME = "on_time"
    CLOSE = "close"
    """It may be late."""
    LATE = "late"
    EARLY = "early"
    """On time, but it would be ready longer before dinner than it keeps."""
    USUAL = "usual"
    """Not on yet, of a cut that does not keep: planned on its usual time, a little early or late as likely."""
    OPEN = "open"
    """No time was fixed: dinner follows the meat."""


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
    """True when an early finish, or the meat as it rests, would wait longer than an unheated box holds, or the
    warm oven that was told."""
    plan: Backward | None = None
    """How the start was planned and what should be known of it; None once the meat is on."""

    def crossing(self, core_temp_c: float) -> Crossing:
        """Return when the core passes a temperature [°C]."""
        return self.forecast.crossing(core_temp_c)


def look(state: CookState, cut: Cut) -> Outlook:
    """Return the outlook of a cook as of its newest fact."""
    serve_at, serve_end = state.serving.starts_at(), state.serving.ends_at()
    plan = None if state.did("meat_on") else backward(state, cut)
    on_at = state.at("meat_on") or (earliest_on(state) if plan is None else plan.on_at)
    course = known(question_of(state, cut, on_at))
    pull = _pull_window(state, course, plan)
    plate = pull.plus(after_pull(cut))
    served = state.at("serve")
    chance = _chance(state, course, cut, serve_end, plan)
    spare = None if serve_end is None or plate.likely is None else serve_end - plate.likely
    if served is not None:
        plate = Window(early=served, likely=served, late=served)
    return Outlook(
        cook=state.cook,
        piece=state.piece,
        forecast=course,
        light_at=state.at("light") or on_at - light_lead(state.cooker),
        on_at=on_at,
        pull=pull,
        plate=plate,
        serve_at=serve_at,
        serve_end=serve_end,
        plate_at=served or _plate_at(state, pull, plate, cut),
        chance=chance,
        verdict=_verdict_of(state, course, cut, plan, pull, chance),
        spare=spare,
        box_outlasted=_box_outlasted(state, pull, serve_at, cut),
        plan=plan,
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
    return HORIZON if ready_at is None else ready_at - reference


def _pull_window(state: CookState, course: Forecast, plan: Backward | None) -> Window:
    pulled_at = state.at("pull")
    if pulled_at is not None:
        return Window(early=pulled_at, likely=pulled_at, late=pulled_at)
    if plan is not None:
        return plan.pull
    window = window_of(course.ready())
    if state.stage != "cooking":
        return window
    if felt_tender(state):
        return Window(early=state.as_of, likely=state.as_of, late=state.as_of)
    # While it is on the fire it cannot have been ready before the newest fact: nobody has pulled it.
    early, likely, late = (
        None if t is None else max(t, state.as_of) for t in (window.early, window.likely, window.late)
    )
    return Window(early=early, likely=likely, late=late)


def _chance(
    state: CookState, course: Forecast, cut: Cut, serve_end: dt.datetime | None, plan: Backward | None
) -> float | None:
    if serve_end is None:
        return None
    last_pull = serve_end - after_pull(cut)
    pulled_at = state.at("pull") or (state.as_of if felt_tender(state) else None)
    if pulled_at is not None:
        return 1.0 if pulled_at <= last_pull else 0.0
    if last_pull <= state.as_of:
        return 0.0
    if plan is not None and plan.late_probability is not None:
        return 1.0 - plan.late_probability
    return course.ready().probability_by(last_pull)


def _too_early(state: CookState, pull: Window, cut: Cut) -> bool:
    """Return whether meat that is on, or off already, likely waits longer for dinner than it keeps."""
    return state.stage in {Stage.COOKING, Stage.RESTING} and excess_min(state, cut, pull.likely) >= TOO_LONG_MIN


def _verdict_of(
    state: CookState, course: Forecast, cut: Cut, plan: Backward | None, pull: Window, chance: float | None
) -> Verdict:
    """Return what is said of dinner; a cut that does not keep is aimed at its usual time, and judged so."""
    if not holds(cut) and chance is not None:
        if plan is not None and plan.met:
            return Verdict.USUAL
        ends_at = state.serving.ends_at()
        if plan is None and ends_at is not None:
            chance = _chance(state, course, cut, ends_at + MISS, plan)
    return _verdict(chance, early=_too_early(state, pull, cut))


def _verdict(chance: float | None, *, early: bool) -> Verdict:
    if chance is None:
        return Verdict.OPEN
    if chance >= ON_TIME:
        return Verdict.EARLY if early else Verdict.ON_TIME
    return Verdict.LATE if chance < LATE else Verdict.CLOSE


def _plate_at(state: CookState, pull: Window, plate: Window, cut: Cut) -> dt.datetime | None:
    serve_at = state.serving.starts_at()
    if serve_at is None:
        return None if pull.likely is None else pull.likely + planned_after_pull(cut, state.rest)
    return serve_at if plate.likely is None else max(serve_at, plate.likely)


def _box_outlasted(state: CookState, pull: Window, serve_at: dt.datetime | None, cut: Cut) -> bool:
    if serve_at is None or pull.early is None or state.serving.kind is ServingKind.WHEN_READY:
        return False
    until = keeps_until(state, cut)
    if until is not None:
        return serve_at > until
    boxed_at = pull.early + dt.timedelta(minutes=cut.vent_min)
    longest_min = keeps_min(state, cut) if warm_oven(state) else cut.rest_max_unheated_min
    return serve_at - boxed_at > dt.timedelta(minutes=longest_min)


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
