"""A straight line through the last three readings, as unsure as the noise of the readings makes its slope.

The line itself is the rival of `tests.skill`; the spread is all that a line knows of its own errors.
"""

from __future__ import annotations

import statistics

import numpy as np

from scheduler.forecast import Question, anchors
from scheduler.units import f_from_c
from tests.comparison.answer import STRATA, Answer, from_sample
from tests.comparison.designs.points import points_f
from tests.skill.rivals import line

_READING_F = 1.8 * anchors.READING_C


def predict(question: Question, target_c: float) -> Answer:
    """Return when the core passes a target [°C]."""
    points, target_f = points_f(question), f_from_c(target_c)
    last = points[-line.LAST :]
    minutes = np.array([minute for minute, _ in ((0.0, 0.0), *last)[-line.LAST :]])
    spread = float(np.sqrt(np.sum((minutes - minutes.mean()) ** 2)))
    doubt = _READING_F / spread if spread > 0.0 else 0.0

    def tilted(z: float) -> float:
        """Return the answer of the line turned about the newest reading by `z` standard deviations of its slope."""
        now = points[-1][0] if points else 0.0
        turned = tuple((minute, core - z * doubt * (now - minute)) for minute, core in points)
        return line.foretell(turned, target_f)

    return from_sample([tilted(statistics.NormalDist().inv_cdf(p)) for p in STRATA])
