"""An exponential approach to the pit fitted to all readings, as unsure as the scatter about the fit makes it.

The fit itself is the rival of `tests.skill`; its spread is the standard error of the crossing time (delta method).
"""

from __future__ import annotations

import statistics

import numpy as np

from scheduler.forecast import Question, anchors
from scheduler.units import f_from_c
from tests.comparison.answer import STRATA, Answer, from_sample
from tests.comparison.designs.points import pit_f, points_f
from tests.skill.rivals import LONGEST_MIN, exponential

_READING_F = 1.8 * anchors.READING_C
_FEWEST = 2


def predict(question: Question, target_c: float) -> Answer:
    """Return when the core passes a target [°C]."""
    points, target_f, end_f = points_f(question), f_from_c(target_c), pit_f(question)
    now = points[-1][0] if points else 0.0
    middle = exponential.foretell(points, target_f, end_f)
    doubt = _doubt(points, target_f, end_f) if middle < LONGEST_MIN else 0.0
    return from_sample([max(now, middle + statistics.NormalDist().inv_cdf(p) * doubt) for p in STRATA])


def _doubt(points: tuple[tuple[float, float], ...], target_f: float, end_f: float) -> float:
    """Return the standard error of the time at which the fit passes the target [min]."""
    known = np.array([(minute, core) for minute, core in ((30.0, 40.0), *points) if core < end_f - 2])
    left = np.log(end_f - known[:, 1])
    rows = np.stack((known[:, 0], np.ones(len(known))), axis=1)
    (rate, level), *_ = np.linalg.lstsq(rows, left, rcond=None)
    own = float(np.mean((_READING_F / (end_f - known[:, 1])) ** 2))
    scatter = float(np.sum((left - rows @ [rate, level]) ** 2)) / max(1, len(known) - _FEWEST)
    at = (np.log(end_f - target_f) - level) / rate
    slope = np.array([-at / rate, -1.0 / rate])
    return float(np.sqrt(max(own, scatter) * slope @ np.linalg.pinv(rows.T @ rows) @ slope))
