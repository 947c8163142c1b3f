"""The recipe book: hours per kilo from the trade's usual duration of the cut, as spread out as the trade's own range.

It reads no readings.
"""

from __future__ import annotations

import math
import statistics

from scheduler.forecast import Question
from tests.comparison.answer import STRATA, Answer, from_sample
from tests.skill.rivals import per_pound

_TENTH = statistics.NormalDist().inv_cdf(0.9)


def predict(question: Question, target_c: float) -> Answer:
    """Return when the core passes the cut's usual end: the recipe knows no other target, whatever `target_c`."""
    del target_c
    middle, usual = per_pound.foretell(question.cut, question.mass_kg), question.cut.duration_h

    def at(p: float) -> float:
        z = statistics.NormalDist().inv_cdf(p) / _TENTH
        return middle * math.exp(z * math.log(usual.high / usual.typical if z > 0 else usual.typical / usual.low))

    return from_sample([at(p) for p in STRATA])
