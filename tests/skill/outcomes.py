"""The engine and its rivals asked at every stage of cooks, and what came of it. It prints nothing."""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools

from bot.backtest.replay import ON_AT
from scheduler.forecast import Crossing, forecast
from tests.skill.cooks import Cooked, all_cooks, stages
from tests.skill.rivals import LONGEST_MIN, exponential, line, per_pound
from tests.skill.scores import LEVELS, Foretold


@dataclasses.dataclass(frozen=True, kw_only=True)
class Outcome:
    """One stage of one cook: the engine's times of target and readiness, and the errors of the rivals [min]."""

    cook: str
    family: str
    wrap: str
    plan_known: bool
    by_temperature: bool
    place: int
    left_min: float
    """From the stage to the target."""
    readings: int
    target: Foretold
    ready: Foretold | None
    """None when it was tender already."""
    line_error: float
    exponential_error: float
    per_pound_error: float


def foretold(crossing: Crossing, truth_min: float) -> Foretold:
    """Return what a crossing says, beside the truth [min since meat on]."""

    def at(p: float) -> float:
        when = crossing.quantile(p)
        return LONGEST_MIN if when is None else min(LONGEST_MIN, (when - ON_AT) / dt.timedelta(minutes=1))

    return Foretold(
        truth=truth_min,
        median=at(0.5),
        low_80=at(0.1),
        high_80=at(0.9),
        low_50=at(0.25),
        high_50=at(0.75),
        quantiles=tuple(at(p) for p in LEVELS),
    )


def of_cook(cook: Cooked) -> tuple[Outcome, ...]:
    """Return the outcome at every stage of a cook."""
    found = []
    for stage in stages(cook):
        assert cook.target_min is not None
        known = forecast(stage.question)
        lasting = cook.ready_min is not None and cook.ready_min > stage.minute
        truth = cook.target_min
        found.append(
            Outcome(
                cook=cook.id,
                family=cook.family,
                wrap=cook.wrap,
                plan_known=bool(cook.told["told_wrap"]),
                by_temperature=cook.by_temperature,
                place=stage.place,
                left_min=truth - stage.minute,
                readings=len(stage.points),
                target=foretold(known.crossing((cook.target_f - 32) / 1.8), truth),
                ready=foretold(known.ready(), cook.ready_min) if lasting and cook.ready_min is not None else None,
                line_error=abs(line.foretell(stage.points, cook.target_f) - truth),
                exponential_error=abs(exponential.foretell(stage.points, cook.target_f, stage.pit_f) - truth),
                per_pound_error=abs(per_pound.foretell(cook.cut, stage.question.mass_kg) - truth),
            )
        )
    return tuple(found)


@functools.cache
def of_all(every: int = 1) -> tuple[Outcome, ...]:
    """Return the outcomes of every so-many-th cook of the data."""
    return tuple(one for cook in all_cooks()[::every] for one in of_cook(cook))
