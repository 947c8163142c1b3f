"""Learning from readings: ensemble smoother with multiple data assimilation.

It changes what is believed of the piece and predicts nothing.
"""

from __future__ import annotations

import dataclasses

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import anchors, course, simulate
from scheduler.forecast.anchors import Anchor
from scheduler.forecast.draws import PARAMETERS, ROUNDS, Dice
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.simulate import Pieces, State
from scheduler.thermal.geometry import Body

Array = NDArray[np.float64]

_FARTHEST = 4.0
"""No parameter is believed farther than this from its median, in prior standard deviations."""

_DEGREES_OF_FREEDOM = 4.0
_SUSPECT = 3.0
"""A reading whose residual is more than this many standard deviations makes the smoother start again without trust in
it."""

OUTLIER_INFLATION = 4.0
"""Above this inflation of its variance a reading counts as an outlier."""


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Analysis:
    """The ensemble after the readings: the pieces, their core temperatures so far and where they stand now.

    `inflation` (readings,) is the factor by which the variance of each reading was raised: about 1 for good ones.
    """

    pieces: Pieces
    pit_path: Array
    times_s: Array
    cores_c: Array
    now: State
    inflation: Array


def analyse(inputs: Inputs, body: Body, anchor: Anchor, dice: Dice) -> Analysis:
    """Return the ensemble that agrees with the readings as far as they can be trusted.

    Notes
    -----
    ES-MDA (Emerick and Reynolds 2013, Computers & Geosciences 55, 3-15, from memory): the same readings are used four
    times with their variance raised fourfold and fresh perturbations. What is learned: ten parameters of the piece,
    pit and start, and the hourly slow factors on heat and vapour up to the last reading. A second pass with variances
    raised as for Student's t (four degrees of freedom) follows when a reading does not fit the first.
    """
    last_s = inputs.readings[-1].at_s if inputs.readings else 0.0
    times_s = course.past_times(body, last_s)
    pit_path, bias = course.pit_paths(inputs, dice)
    parameters = dice.parameters.copy()
    parameters[9] = bias
    knots = min(len(dice.heat), int(last_s / 3600.0) + 2) if inputs.readings else 0
    prior = np.concatenate((parameters, dice.heat[:knots], dice.vapour[:knots]))

    def simulated(believed: Array) -> tuple[Pieces, State, Array]:
        heat = np.concatenate((believed[PARAMETERS : PARAMETERS + knots], dice.heat[knots:]))
        vapour = np.concatenate((believed[PARAMETERS + knots :], dice.vapour[knots:]))
        of = simulate.pieces(body, anchor, believed[:PARAMETERS], heat, vapour)
        now, cores = simulate.run(of, simulate.at_start(of), course.span(times_s, inputs, of, pit_path))
        return of, now, cores

    inflation = np.ones(len(inputs.readings))
    believed = prior
    if inputs.readings:
        at = np.array([sample.at_s for sample in inputs.readings])
        told = np.array([sample.value_c for sample in inputs.readings])
        noise = _noise(inputs)

        def smoothed(inflation: Array) -> tuple[Array, Array]:
            raised = noise * np.sqrt(inflation[:, None] * inflation)
            current = prior
            for round_ in range(ROUNDS):
                seen = _at(times_s, simulated(current)[2], at)
                current = _updated(current, seen, told, raised, dice.reading[: len(at), round_])
            return current, _at(times_s, simulated(current)[2], at)

        believed, seen = smoothed(inflation)
        residual = (told - seen.mean(axis=1)) / np.sqrt(np.diag(noise))
        if np.abs(residual).max() > _SUSPECT and len(at) > 1:
            inflation = np.maximum(1.0, (_DEGREES_OF_FREEDOM + residual**2) / (_DEGREES_OF_FREEDOM + 1.0))
            believed, seen = smoothed(inflation)
    of, now, cores = simulated(believed)
    return Analysis(pieces=of, pit_path=pit_path, times_s=times_s, cores_c=cores, now=now, inflation=inflation)


def _noise(inputs: Inputs) -> Array:
    """Return the covariance of the readings [°C^2]: each its own doubt, and a part that neighbours in time share."""
    at = np.array([sample.at_s for sample in inputs.readings])
    own = np.array([anchors.READING_C**2 + sample.spread_c**2 for sample in inputs.readings])
    shared = anchors.SHARED_C**2 * np.exp(-np.abs(at[:, None] - at) / (60.0 * anchors.SHARED_MINUTES))
    noise: Array = np.diag(own) + shared
    return noise


def _updated(current: Array, seen: Array, told: Array, noise: Array, perturbation: Array) -> Array:
    """Return the parameters after one round of the smoother."""
    members = current.shape[1]
    departures = current - current.mean(axis=1, keepdims=True)
    shown = seen - seen.mean(axis=1, keepdims=True)
    raised = ROUNDS * noise
    innovation = told[:, None] + np.linalg.cholesky(raised) @ perturbation - seen
    weights = np.linalg.solve(shown @ shown.T / (members - 1) + raised, innovation)
    moved: Array = current + departures @ (shown.T @ weights) / (members - 1)
    return np.clip(moved, -_FARTHEST, _FARTHEST)


def _at(times_s: Array, cores_c: Array, at_s: Array) -> Array:
    """Return core temperatures (k, n) at `at_s` (k,), linear between the steps."""
    above = np.clip(np.searchsorted(times_s, at_s), 1, max(1, len(times_s) - 1))
    if len(times_s) == 1:
        return np.repeat(cores_c, len(at_s), axis=0)
    share = ((at_s - times_s[above - 1]) / (times_s[above] - times_s[above - 1]))[:, None]
    result: Array = (1.0 - share) * cores_c[above - 1] + share * cores_c[above]
    return result
