"""What a reported problem costs: the engine run with a pit that sags, a gap in the fire, rain, cold or wind.

A problem the engine knows nothing of has no number here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.forecast import Air, AirWord, Question, Wind
from scheduler.planning.advice import changes
from scheduler.planning.advice.moment import Moment
from scheduler.planning.advice.standing import Standing, as_it_is, under
from scheduler.planning.remedies import Problem
from scheduler.state import Stage

GAP = dt.timedelta(minutes=40)
"""From a fire that is out to a pit that holds again; common practice, no source."""

GAP_FALL_C = 55.0
"""How far the pit falls meanwhile, on the mean [°C]; common practice, no source."""

SAG_C = 14.0
"""A pit that is reported low or high without a number is taken to be so far off [°C]: 25 F."""

RAIN_SAG_C = 8.0
"""Rain on thin steel lets the pit sag so far [°C] unless more fuel burns: chosen so that the rest grows by 3 to 25 %
(common practice, no source)."""

_LEAST = dt.timedelta(minutes=5)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Cost:
    """By how much a problem moves the pull if nobody does anything about it, and where dinner stands then.

    `pit_c` is the pit that was assumed [°C], None when the pit is not what changes.
    """

    shift: dt.timedelta
    after: Standing
    pit_c: float | None = None


def cost_of(problem: Problem, at: Moment) -> Cost | None:
    """Return what a problem costs, None when the engine cannot say or it is not worth a word."""
    if at.state.stage is not Stage.COOKING or at.outlook.pull.likely is None:
        return None
    question, pit_c = _question(problem, at)
    if question is None:
        return None
    after = under(at, question)
    before = as_it_is(at)
    if after.pull.likely is None or before.pull.likely is None:
        return None
    shift = after.pull.likely - before.pull.likely
    return None if abs(shift) < _LEAST else Cost(shift=shift, after=after, pit_c=pit_c)


def _question(problem: Problem, at: Moment) -> tuple[Question | None, float | None]:
    asked, band = changes.asked(at), at.state.pit[-1]
    middle_c = at.state.pit_c
    match problem.model:
        case "pit_low":
            pit_c = min(changes.pit_now(at), middle_c - SAG_C)
            return changes.with_pit(asked, at.now, pit_c, pit_c), pit_c
        case "pit_high":
            pit_c = max(changes.pit_now(at), middle_c + SAG_C)
            return changes.with_pit(asked, at.now, pit_c, pit_c), pit_c
        case "rain":
            pit_c = middle_c - RAIN_SAG_C
            return changes.with_pit(asked, at.now, pit_c, pit_c), pit_c
        case "fuel_gap":
            low_c = middle_c - GAP_FALL_C
            sagged = changes.with_pit(asked, at.now, low_c, low_c)
            return changes.with_pit(sagged, at.now + GAP, band.low_c, band.high_c), None
        case "cold":
            return dataclasses.replace(asked, air=Air(temp=AirWord.COLD, wind=asked.air.wind)), None
        case "wind":
            return dataclasses.replace(asked, air=Air(temp=asked.air.temp, wind=Wind.WINDY)), None
        case _:
            return None, None
