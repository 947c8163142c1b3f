"""The temperature around the meat: set points, what opening the cooker does, and the doubt about both.

What the pit does to the meat is not known here.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import anchors, draws
from scheduler.forecast.draws import Dice
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.interface import Air, Opening, Wind
from scheduler.thermal import air

Array = NDArray[np.float64]

_OUTLIER_C = 25.0
_WIDEST = 3.0

_LOADING = (30.0, 15.0)
"""Fall of the pit when cold meat goes on [°C] and the time in which it recovers [min]; common practice, no source: the
lid is open for a minute or two, and thick pieces draw heat."""

_OPENING = {Opening.LID: (35.0, 8.0), Opening.SPRITZ: (30.0, 6.0), Opening.REFUEL: (15.0, 20.0)}
"""Fall [°C] and recovery [min] for each opening: chosen so that a lid opening costs 3 to 15 min, typically 8 (trade
figure, common practice, no source)."""

_COLD_PER_C = 0.2
_MILD_C = 20.0
"""Cold walls radiate less than the thermometer in the air shows: 0.2 C for each degree of outside air below 20 C, so
that air below freezing adds 5 to 12 % (trade: 5 to 30 %, common practice, no source)."""

_WIND_C = 2.0
_WIND_SPREAD = 1.5
"""Wind costs a little and makes the pit less certain (trade: -10 to +25 %, common practice, no source)."""


def middle_c(edges_s: Array, of: Inputs) -> Array:
    """Return the mean pit temperature in each step [°C], shape (k,) for edges (k + 1,): set points, loading and
    openings, air.
    """
    knots = [at_s for at_s, _ in of.pit]
    values = [temp_c for _, temp_c in of.pit]
    levels = averaged(edges_s, knots, values) - _chill_c(of.air)
    levels -= _dip(edges_s, 0.0, *_LOADING)
    for at_s, kind in of.openings:
        levels -= _dip(edges_s, at_s, *_OPENING[kind])
    return levels


def averaged(edges_s: Array, knots: list[float], values: list[float]) -> Array:
    """Return the mean over each step of a value that jumps to `values` at `knots` [s]."""
    if len(knots) == 1:
        return np.full(len(edges_s) - 1, values[0])
    ends = np.concatenate((knots, [max(float(edges_s[-1]), knots[-1]) + 1.0]))
    summed = np.concatenate(([0.0], np.cumsum(np.diff(ends) * np.asarray(values))))
    before = np.minimum(edges_s - ends[0], 0.0) * values[0]
    whole: Array = np.diff(np.interp(edges_s, ends, summed) + before) / np.diff(edges_s)
    return whole


def _dip(edges_s: Array, at_s: float, fall_c: float, recovery_min: float) -> Array:
    recovery_s = 60.0 * recovery_min
    left = recovery_s * np.exp(-np.maximum(edges_s - at_s, 0.0) / recovery_s)
    dip: Array = fall_c * -np.diff(left) / np.diff(edges_s)
    return dip


def _chill_c(around: Air) -> float:
    temp_c = air.temp_c(around.temp)
    chill_c = 0.0 if temp_c is None else _COLD_PER_C * max(0.0, _MILD_C - temp_c)
    return chill_c + (_WIND_C if around.wind is Wind.WINDY else 0.0)


def paths(of: Inputs, dice: Dice) -> tuple[Array, Array]:
    """Return the slow departure of the pit from its middle (knots, n) [°C] and the pit bias, standard normal (n,).

    Notes
    -----
    A Gaussian process about the set point, conditioned on the pit readings by perturbed observations (Matheron's
    rule): each reading is a snapshot of a swinging temperature, so that it moves the path mildly and for an hour or
    two only. Readings that depart farther than the process allows widen it, up to threefold: an unruly fire.
    """
    spread = anchors.PIT_BIAS_C.spread * (_WIND_SPREAD if of.air.wind is Wind.WINDY else 1.0)
    bias = dice.parameters[9]
    swing_c = anchors.PIT_NOISE_C
    unit = draws.slow(dice.pit, correlation_h=anchors.PIT_NOISE_HOURS)
    if not of.pit_readings:
        return swing_c * unit, bias * (spread / anchors.PIT_BIAS_C.spread)
    hours = np.array([sample.at_s / 3600.0 for sample in of.pit_readings])
    at_s = hours * 3600.0
    told = np.array([sample.value_c for sample in of.pit_readings]) - _levels_c(at_s, of)
    noise = np.array([anchors.PIT_SNAPSHOT_C**2 + sample.spread_c**2 for sample in of.pit_readings])
    usual = swing_c**2 + spread**2 + noise
    wider = float(
        np.clip(np.sqrt(np.mean(np.clip(told, -2.0 * _OUTLIER_C, 2.0 * _OUTLIER_C) ** 2 / usual)), 1.0, _WIDEST)
    )
    swing_c, spread = wider * swing_c, wider * spread
    told = np.clip(told, -wider * _OUTLIER_C, wider * _OUTLIER_C)
    path = swing_c * unit
    knots = np.arange(len(path), dtype=float)
    alike = swing_c**2 * np.exp(-np.abs(hours[:, None] - hours) / anchors.PIT_NOISE_HOURS)
    across = swing_c**2 * np.exp(-np.abs(knots[:, None] - hours) / anchors.PIT_NOISE_HOURS)
    seen = draws.at_hours(path, hours) + spread * bias
    perturbed = np.sqrt(noise)[:, None] * dice.pit_reading[: len(hours)]
    weights = np.linalg.solve(alike + spread**2 + np.diag(noise), told[:, None] + perturbed - seen)
    learned = bias + spread * weights.sum(axis=0)
    return path + across @ weights, learned * (spread / anchors.PIT_BIAS_C.spread)


def _levels_c(at_s: Array, of: Inputs) -> Array:
    """Return the set point at each instant [°C]."""
    knots = np.array([knot_s for knot_s, _ in of.pit])
    values = np.array([temp_c for _, temp_c in of.pit])
    levels: Array = values[np.maximum(np.searchsorted(knots, at_s, side="right") - 1, 0)]
    return levels
