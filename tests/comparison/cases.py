"""The cases: every stage of the virtual cooks and of the measured ones, as a question with the truth kept apart.

No design sees more than the question and the target.
"""

from __future__ import annotations

import dataclasses
import functools

from scheduler.facts import Wrap
from scheduler.forecast import Observation, PitEvent, Question, WrapEvent
from scheduler.units import c_from_f
from tests.comparison.fresh import fresh_cooks
from tests.published import measured
from tests.skill.cooks import SLIPS, Cooked, all_cooks, stages

TO_195 = "to 195 F"
BY_TEMPERATURE = "done at a temperature"
MEASURED = "measured"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Case:
    """One stage of one cook: place 0 to 2, the question and target put to a design, and when the target was passed.

    `slipped` is true when a slip of the pen (unit, swapped or lost digit) is among its readings.
    """

    cook: str
    kind: str
    wrap: str
    plan_known: bool
    slipped: bool
    place: int
    question: Question
    target_c: float
    truth_min: float


def kitchen(count: int | None = None) -> tuple[Case, ...]:
    """Return the cases of so many virtual cooks, spread evenly over all families; of all of them by default."""
    cooks = all_cooks()
    count = len(cooks) if count is None else min(count, len(cooks))
    return tuple(case for place in range(count) for case in of_cook(cooks[place * len(cooks) // count]))


def fresh(seed: int, a_family: int) -> tuple[Case, ...]:
    """Return the cases of cooks that nobody has looked at."""
    return tuple(case for cook in fresh_cooks(seed, a_family) for case in of_cook(cook))


def of_cook(cook: Cooked) -> tuple[Case, ...]:
    """Return the stages of one virtual cook."""
    if cook.target_min is None:
        return ()
    return tuple(
        Case(
            cook=cook.id,
            kind=BY_TEMPERATURE if cook.by_temperature else TO_195,
            wrap=cook.wrap,
            plan_known=bool(cook.told["told_wrap"]),
            slipped=any(row.slip in SLIPS and row.minute <= stage.minute for row in cook.rows),
            place=stage.place,
            question=stage.question,
            target_c=c_from_f(cook.target_f),
            truth_min=cook.target_min,
        )
        for stage in stages(cook)
    )


@functools.cache
def measured_cooks() -> tuple[Case, ...]:
    """Return the measured cooks at a quarter, half and three quarters of their rise, until their last reading."""
    return tuple(
        _measured(cook, place, share) for cook in measured.cooks() for place, share in enumerate(measured.STAGES)
    )


def _measured(cook: measured.Cook, place: int, share: float) -> Case:
    (_, first_c), (end_min, top_c) = cook.points[0], cook.points[-1]
    count = 1 + next(i for i, (_, c) in enumerate(cook.points) if c >= first_c + share * (top_c - first_c))
    so_far, now_min = cook.points[:count], cook.points[count - 1][0]
    worn = [(minute, wrap) for minute, wrap in cook.covers if minute <= now_min]
    return Case(
        cook=cook.name,
        kind=MEASURED,
        wrap=worn[-1][1].value if worn else Wrap.NONE.value,
        plan_known=True,
        slipped=False,
        place=place,
        question=Question(
            cook="measured",
            piece=cook.name,
            cut=cook.cut,
            mass_kg=cook.mass_kg,
            thickness_m=None,
            on_at=measured.ON_AT,
            pit=tuple(PitEvent(at=measured.after(at), low_c=temp_c, high_c=temp_c) for at, temp_c in cook.oven),
            readings=tuple(Observation(at=measured.after(at), value_c=temp_c) for at, temp_c in so_far),
            wraps=tuple(WrapEvent(at=measured.after(at), wrap=wrap) for at, wrap in worn),
            wrap_plan=Wrap.NONE,
        ),
        target_c=top_c,
        truth_min=end_min,
    )
