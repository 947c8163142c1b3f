"""Every design asked in every case, and what came of it. It prints nothing and holds no design."""

from __future__ import annotations

import dataclasses
import time
from collections.abc import Iterable, Mapping, Sequence

from tests.comparison.answer import Answer, Design
from tests.comparison.cases import Case
from tests.skill.scores import LEVELS, Foretold


@dataclasses.dataclass(frozen=True, kw_only=True)
class Outcome:
    """What a design said in a case with some dice, against what came, and the time of the processor it took [ms]."""

    design: str
    dice: str
    case: Case
    foretold: Foretold
    took_ms: float


def ask(designs: Mapping[str, Design], cases: Iterable[Case], dice: Sequence[str] = ("",)) -> list[Outcome]:
    """Return the outcomes of all designs in all cases, each with all dice.

    Dice come from the name of the cook, which tells a design nothing else: a longer name is other luck. With one name
    the cooks of a cut share their dice, so that one lucky throw can look like a better design.
    """
    found = []
    for case in cases:
        for throw in dice:
            question = dataclasses.replace(case.question, cook=case.question.cook + throw)
            for name, predict in designs.items():
                began = time.process_time()
                answer = predict(question, case.target_c)
                took_ms = 1000.0 * (time.process_time() - began)
                foretold = scored(answer, case.truth_min)
                found.append(Outcome(design=name, dice=throw, case=case, foretold=foretold, took_ms=took_ms))
    return found


def scored(answer: Answer, truth_min: float) -> Foretold:
    """Return an answer beside the truth [min since meat on]."""
    low_80, low_50, median, high_50, high_80 = answer.quantiles
    return Foretold(
        truth=truth_min,
        median=median,
        low_80=low_80,
        high_80=high_80,
        low_50=low_50,
        high_50=high_50,
        quantiles=tuple(answer.at(p) for p in LEVELS),
    )
