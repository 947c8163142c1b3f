"""Time grid, pit temperature and wraps of a run, as arrays.

What happened is laid out here; what it does to the meat is not known.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import anchors, draws
from scheduler.forecast.draws import Dice
from scheduler.forecast.inputs import Inputs, Sample
from scheduler.forecast.simulate import Pieces, Span
from scheduler.thermal.geometry import Body

Array = NDArray[np.float64]

HORIZON_S = 31 * 3600.0
"""A forecast reaches this far beyond meat on or the last reading [s]."""

_STEP_FOURIER = 0.025
_SHORTEST_S, _LONGEST_S, _LAST_S = 10.0, 300.0, 900.0
_BLOCK = 60
_MOST_PAST_STEPS = 600
_PIT_OUTLIER_C = 25.0


def past_times(body: Body, last_s: float) -> Array:
    """Return evenly spaced times from meat on to the last reading [s], just one when there is none."""
    if last_s <= 0.0:
        return np.zeros(1)
    steps = min(_MOST_PAST_STEPS, int(np.ceil(last_s / _first_step(body))))
    return np.linspace(0.0, last_s, steps + 1)


def future_times(body: Body, last_s: float) -> Array:
    """Return times from the last reading to the horizon [s]; steps double every sixty, up to a quarter of an hour."""
    lengths: list[float] = []
    length, total = _first_step(body), 0.0
    while total < HORIZON_S:
        lengths.append(length)
        total += length
        if len(lengths) % _BLOCK == 0:
            length = min(_LAST_S, 2.0 * length)
    return last_s + np.concatenate(([0.0], np.cumsum(lengths)))


def _first_step(body: Body) -> float:
    scale_s = body.half_thickness_m**2 / anchors.DIFFUSIVITY_M2_S
    return min(_LONGEST_S, max(_SHORTEST_S, _STEP_FOURIER * scale_s))


def span(times_s: Array, inputs: Inputs, of: Pieces, pit_path: Array) -> Span:
    """Return the span for these times: set points and wraps that have happened, and the doubt about the pit.

    `pit_path` (knots, n) is the slow departure of the pit from its set point [°C].
    """
    starts = times_s[:-1] + 1e-3
    hours = (0.5 * (times_s[:-1] + times_s[1:])) / 3600.0
    middle = _held(starts, [at_s for at_s, _ in inputs.pit], [_felt(temp_c, inputs) for _, temp_c in inputs.pit])
    pit_c = middle[:, None] + of.pit_bias_c + draws.at_hours(pit_path, hours)
    resistance = np.zeros((len(starts), len(of.paper)))
    for at_s, wrap in inputs.wraps:
        resistance[starts >= at_s] = of.resistance(wrap)
    return Span(times_s=times_s, pit_c=pit_c, resistance=resistance)


def _felt(set_c: float, inputs: Inputs) -> float:
    return anchors.felt_pit_c(set_c, inputs.cut.duration_pit_c)


def _held(at: Array, knots: list[float], values: list[float]) -> Array:
    held: Array = np.asarray(values)[np.maximum(np.searchsorted(np.asarray(knots), at, side="right") - 1, 0)]
    return held


def pit_paths(inputs: Inputs, dice: Dice) -> tuple[Array, Array]:
    """Return the slow departure of the pit from its set point (knots, n) [°C] and the pit bias, standard normal (n,).

    Notes
    -----
    A Gaussian process about the set point, conditioned on the pit readings by perturbed observations (Matheron's
    rule): each reading is a snapshot of a swinging temperature, so that it moves the path mildly and for an hour or
    two only.
    """
    path = anchors.PIT_NOISE_C * draws.slow(dice.pit, correlation_h=anchors.PIT_NOISE_HOURS)
    bias = dice.parameters[9]
    if not inputs.pit_readings:
        return path, bias
    hours = np.array([sample.at_s / 3600.0 for sample in inputs.pit_readings])
    knots = np.arange(len(path), dtype=float)
    middle = _held(hours * 3600.0, [at_s for at_s, _ in inputs.pit], [temp_c for _, temp_c in inputs.pit])
    told = _values(inputs.pit_readings) - middle
    told = np.clip(told, -_PIT_OUTLIER_C, _PIT_OUTLIER_C)
    noise = np.array([anchors.PIT_SNAPSHOT_C**2 + sample.spread_c**2 for sample in inputs.pit_readings])
    spread = anchors.PIT_BIAS_C.spread
    alike = anchors.PIT_NOISE_C**2 * np.exp(-np.abs(hours[:, None] - hours) / anchors.PIT_NOISE_HOURS)
    across = anchors.PIT_NOISE_C**2 * np.exp(-np.abs(knots[:, None] - hours) / anchors.PIT_NOISE_HOURS)
    seen = draws.at_hours(path, hours) + spread * bias
    perturbed = np.sqrt(noise)[:, None] * dice.pit_reading[: len(hours)]
    weights = np.linalg.solve(alike + spread**2 + np.diag(noise), told[:, None] + perturbed - seen)
    return path + across @ weights, bias + spread * weights.sum(axis=0)


def _values(samples: tuple[Sample, ...]) -> Array:
    return np.array([sample.value_c for sample in samples])
