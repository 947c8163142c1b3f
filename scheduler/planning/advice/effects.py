"""The effect of each lever: the engine run under the change, or the range of the trade where it knows no better.

Spans are counted on the pull (or on the plate, where only the rest or dinner moves); negative is earlier.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import RestPlace, Wrap
from scheduler.forecast import Opening, Question
from scheduler.planning.advice import changes
from scheduler.planning.advice.conditions import pit_short_c
from scheduler.planning.advice.moment import Moment
from scheduler.planning.advice.standing import Standing, as_it_is, pulled_at, under, with_dinner, with_rest
from scheduler.planning.asking import in_parts
from scheduler.planning.backward import after_pull, planned_after_pull
from scheduler.planning.remedies import Lever

_MINUTE = dt.timedelta(minutes=1)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Effect:
    """What comes of a lever: from where to where, by how much, and what the number is counted in.

    `shift` is earlier when negative. `of`: "pull", "rest" (shorter than planned, and counted in already), "dinner"
    (people eat at another time), "hold" (it keeps so long), "opening" (all those that are not made), "none".
    """

    before: Standing
    after: Standing
    shift: dt.timedelta
    of: str
    computed: bool = True
    times: int = 0
    """How many openings are counted."""


def effect_of(lever: Lever, at: Moment) -> Effect | None:
    """Return the effect of an open lever, None when the engine finds that it changes nothing that matters."""
    question = changes.asked(at)
    match lever.change:
        case "pit":
            band = at.state.pit[-1]
            return _run(
                at, changes.with_pit(question, at.now, band.low_c + lever.by, band.high_c + lever.by)
            )  # fmt: skip
        case "wrap" | "bare":
            return _run(at, changes.with_wrap(question, at.now, lever.wrap or Wrap.NONE))
        case "oven":
            indoors = changes.in_oven(question, at.now, lever.oven_c or at.state.pit_c)
            return _run(at, indoors if at.wrapped else changes.wrapped_now(indoors, at.now, Wrap.FOIL))
        case "divide":
            divided = in_parts(question, round(lever.by))
            wraps = lever.wrap is not None and not at.wrapped
            return _run(at, changes.wrapped_now(divided, at.now, lever.wrap) if wraps and lever.wrap else divided)
        case "unwrap":
            return _run(at, changes.unwrapped(question, at, lever.by))
        case "spritz":
            return _openings(at, Opening.SPRITZ, max(1, round(lever.by)), saved=False)
        case "openings":
            times = changes.openings_ahead(at)
            return None if times == 0 else _openings(at, Opening.LID, times, saved=True)
        case "fix_pit":
            return _fix_pit(at)
        case _:
            return _without_the_engine(lever, at)


def _run(at: Moment, question: Question) -> Effect | None:
    before, after = as_it_is(at), under(at, question)
    shift = _shift(before, after)
    return None if shift is None else Effect(before=before, after=after, shift=shift, of="pull")


def _fix_pit(at: Moment) -> Effect | None:
    """From a pit that stays where it reads to one that is back in its band."""
    if pit_short_c(at) is None:
        return None
    low_c = changes.pit_now(at)
    before, after = under(at, changes.with_pit(changes.asked(at), at.now, low_c, low_c)), as_it_is(at)
    shift = _shift(before, after)
    return None if shift is None else Effect(before=before, after=after, shift=shift, of="pull")


def _openings(at: Moment, kind: Opening, times: int, *, saved: bool) -> Effect | None:
    """Compare with the cooker opened so many times more: what that costs, or what not doing it saves."""
    busy = under(at, changes.opened(changes.asked(at), at, kind, times))
    calm = as_it_is(at)
    before, after = (busy, calm) if saved else (calm, busy)
    shift = _shift(before, after)
    if shift is None:
        return None
    return Effect(before=before, after=after, shift=shift, of="opening" if saved else "pull", times=times)


def _without_the_engine(lever: Lever, at: Moment) -> Effect | None:
    now = as_it_is(at)
    typical = dt.timedelta() if lever.effect is None else lever.effect.typical * _MINUTE
    match lever.change:
        case "rest":
            spare = planned_after_pull(at.cut) - after_pull(at.cut)
            before = with_rest(at, planned_after_pull(at.cut))
            return Effect(before=before, after=with_rest(at, after_pull(at.cut)), shift=-spare, of="rest")
        case "pull_sooner":
            return _pull_sooner(at)
        case "dinner":
            by = lever.by * _MINUTE
            return Effect(before=now, after=with_dinner(at, by), shift=by, of="dinner")
        case "starter":
            return Effect(before=now, after=with_dinner(at, typical), shift=typical, of="dinner", computed=False)
        case "hold":
            longest = _holds_min(lever, at) * _MINUTE
            return Effect(before=now, after=now, shift=longest, of="hold", computed=False)
        case "nothing" | "verify" | "plan_b" | "chill" | "carve" | "delay_on":
            return Effect(before=now, after=now, shift=dt.timedelta(), of="none", computed=False)
        case "water" | "hot_side":
            share = 0.0 if lever.effect is None or at.left_min is None else lever.effect.typical * at.left_min
            return Effect(before=now, after=now, shift=share * _MINUTE, of="pull", computed=False)
        case _:
            return None


def _pull_sooner(at: Moment) -> Effect | None:
    """Pull at the low end of the tender band instead of waiting for readiness, never before feeling makes sense."""
    low_c = max(at.cut.target_c.low, at.cut.start_testing_c)
    before, after = as_it_is(at), pulled_at(at, at.outlook.crossing(low_c))
    shift = _shift(before, after)
    if shift is None or shift > -5 * _MINUTE:
        return None
    return Effect(before=before, after=after, shift=shift, of="pull")


def _holds_min(lever: Lever, at: Moment) -> float:
    match lever.place:
        case RestPlace.BOX:
            return at.cut.rest_max_unheated_min
        case RestPlace.OVEN:
            return at.cut.rest_max_heated_min
        case _:
            return 0.0 if lever.effect is None else lever.effect.typical


def _shift(before: Standing, after: Standing) -> dt.timedelta | None:
    """Return how far the likely pull moves; None when one of the two lies beyond the horizon."""
    if before.pull.likely is None or after.pull.likely is None:
        return None
    return after.pull.likely - before.pull.likely
