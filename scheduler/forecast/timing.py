"""From runs to times: when each member passes a core temperature and when it is worth pulling.

What the readings have passed is read off the readings; what is to come is blurred by what no model knows.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import anchors, course, tenderness
from scheduler.forecast.ensemble import Runs
from scheduler.forecast.passing import first_passage

Array = NDArray[np.float64]

_POINTS = np.array((-2.8569700, -1.3556262, 0.0, 1.3556262, 2.8569700))
_SHARES = np.array((0.0112574, 0.2220759, 0.5333333, 0.2220759, 0.0112574))
"""Five points of Gauss-Hermite quadrature for a standard normal, and their weights (Abramowitz and Stegun 1964, table
25.10, from memory; checked in the tests)."""
_WIDEST = 0.7


def crossing_s(runs: Runs, targets_c: Array) -> Array:
    """Return when each member passes its own target (choices * n,) [s since meat on], inf beyond the horizon."""
    targets_c = np.minimum(targets_c, anchors.CORE_CAP_C)
    times = first_passage(runs.future_s, runs.future_c, targets_c)
    at, values = runs.passed
    if not len(at):
        return times
    known = np.clip(_passed_s(runs, targets_c), 0.0, runs.of.last_s)
    either: Array = np.where(targets_c <= values[-1], known, times)
    return either


def ready_s(runs: Runs, usual_dose_h: float) -> Array:
    """Return when each member is worth pulling (choices * n,) [s since meat on], inf beyond the horizon.

    Cuts done by temperature pass their own end point; tough cuts gather a dose (`scheduler.forecast.tenderness`).
    """
    cut, choices = runs.of.cut, len(runs.choices)
    need = np.tile(runs.dice.need, choices)
    if cut.doneness == "temperature":
        return crossing_s(runs, tenderness.targets_c(cut, need))
    past = tenderness.doses_h(runs.analysis.times_s, runs.analysis.cores_c)
    future = np.tile(past[-1], choices) + tenderness.doses_h(runs.future_s, runs.future_c)
    needs_h = tenderness.needs_h(cut, usual_dose_h, need)
    ahead = first_passage(runs.future_s, future, needs_h)
    if runs.of.last_s <= 0.0:
        return ahead
    behind = first_passage(runs.analysis.times_s, np.tile(past, (1, choices)), needs_h)
    return np.where(np.isfinite(behind), behind, ahead)


def blurred(runs: Runs, times_s: Array, weights: Array) -> tuple[Array, Array]:
    """Return times and weights (5 * n,) of members (n,) with the model error on what is left of each: a share of it and
    some minutes. What the readings have passed stays as it is.

    Each member is spread over the five points of Gauss-Hermite quadrature, so that the blur brings no chance with it.
    """
    last_s = runs.of.last_s
    left_s = np.maximum(times_s - last_s, 0.0)
    with np.errstate(invalid="ignore", divide="ignore"):
        spread = np.where(left_s > 0.0, np.hypot(anchors.BLUR, 60.0 * anchors.BLUR_MINUTES / left_s), 0.0)
    points = np.multiply.outer(_POINTS, np.minimum(spread, _WIDEST))
    spread_s = np.where(left_s > 0.0, last_s + left_s * np.exp(points), times_s)
    spread_s[spread_s > last_s + course.HORIZON_S] = np.inf
    return spread_s.ravel(), np.multiply.outer(_SHARES, weights).ravel()


def _passed_s(runs: Runs, targets_c: Array) -> Array:
    """Return when the readings passed each target: between two on the line, before the first as the members ran."""
    at, values = runs.passed
    past_s, past_c = runs.analysis.times_s, np.tile(runs.analysis.cores_c, (1, len(runs.choices)))
    first = np.full_like(targets_c, values[0])
    own = first_passage(past_s, past_c, targets_c)
    reached = first_passage(past_s, past_c, first)
    even = np.clip(targets_c - past_c[0], 0.0, None) / np.maximum(first - past_c[0], 0.1)
    with np.errstate(invalid="ignore", divide="ignore"):
        share = np.where(np.isfinite(reached) & (reached > 0.0), own / reached, even)
    before = at[0] * np.clip(share, 0.0, 1.0)
    passed: Array = np.where(targets_c <= values[0], before, np.interp(targets_c, values, at))
    return passed
