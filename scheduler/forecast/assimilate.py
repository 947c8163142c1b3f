"""Learning from readings: ensemble smoother with multiple data assimilation, in its deterministic form.

It changes what is believed of the piece and predicts nothing.
"""

from __future__ import annotations

import dataclasses

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import anchors, course, pit, simulate
from scheduler.forecast.draws import PARAMETERS, Dice
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.simulate import Model, Pieces, State

Array = NDArray[np.float64]

_FARTHEST = 4.0
"""No parameter is believed farther than this from its median, in prior standard deviations."""

_INFLATIONS = (8.0, 4.0, 1.6)
"""The readings are used three times with their variance raised by these; the inverses sum to one."""

_SUSPECT = 3.0
"""A reading farther than this from what the others foretell, in standard deviations, is trusted less: its variance is
raised with the fourth power of how much farther, so that a wild one moves the less the wilder it is."""
_STEEP = 4.0
_MOST_WRONG = 8

OUTLIER_INFLATION = 4.0
"""Above this inflation of its variance a reading counts as an outlier."""


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Analysis:
    """The ensemble after the readings: the pieces, their core temperatures so far and where they stand now.

    `inflation` (readings,) is the factor by which the variance of each reading was raised: 1 for good ones.
    """

    pieces: Pieces
    pit_path: Array
    times_s: Array
    cores_c: Array
    now: State
    inflation: Array


def analyse(of: Inputs, model: Model, dice: Dice) -> Analysis:
    """Return the ensemble that agrees with the readings as far as they can be trusted.

    Notes
    -----
    ES-MDA (Emerick and Reynolds 2013, Computers & Geosciences 55, 3-15, from memory) with the symmetric square-root
    update of the ensemble transform Kalman filter (Bishop et al. 2001, from memory) in place of perturbed readings:
    the same readings move the same ensemble in the same way, without sampling noise. What is learned: twelve parameters
    of the piece, pit, start and probe, and the hourly slow factors on heat and vapour up to the last reading.
    """
    times_s = course.past_times(model.body, model.meat.diffusivity_m2_s, of.last_s)
    pit_path, bias = pit.paths(of, dice)
    parameters = dice.parameters.copy()
    parameters[9] = bias
    knots = min(len(dice.heat), int(of.last_s / 3600.0) + 2) if of.readings else 0

    def simulated(believed: Array) -> tuple[Pieces, State, Array]:
        heat = np.concatenate((believed[PARAMETERS : PARAMETERS + knots], dice.heat[knots:]))
        vapour = np.concatenate((believed[PARAMETERS + knots :], dice.vapour[knots:]))
        pieces = simulate.pieces(model, believed[:PARAMETERS], heat, vapour)
        now, cores = simulate.run(pieces, simulate.at_start(pieces), course.span(times_s, of, pieces, pit_path))
        return pieces, now, cores

    believed = np.concatenate((parameters, dice.heat[:knots], dice.vapour[:knots]))
    inflation = np.ones(len(of.readings))
    if of.readings:
        at_s = np.array([sample.at_s for sample in of.readings])
        told_c = np.array([sample.value_c for sample in of.readings])
        noise = _noise(of)
        for share in _INFLATIONS:
            seen = _at(times_s, simulated(believed)[2], at_s)
            inflation = np.maximum(inflation, _distrust(seen, told_c, noise))
            raised = noise * np.sqrt(inflation[:, None] * inflation)
            believed = _updated(believed, seen, told_c, share * raised)
    pieces, now, cores = simulated(believed)
    return Analysis(pieces=pieces, pit_path=pit_path, times_s=times_s, cores_c=cores, now=now, inflation=inflation)


def _noise(of: Inputs) -> Array:
    """Return the covariance of the readings [°C^2]: each its own doubt, and a part that neighbours in time share."""
    at = np.array([sample.at_s for sample in of.readings])
    own = np.array([anchors.READING_C**2 + sample.spread_c**2 for sample in of.readings])
    shared = anchors.SHARED_C**2 * np.exp(-np.abs(at[:, None] - at) / (60.0 * anchors.SHARED_MINUTES))
    noise: Array = np.diag(own) + shared
    return noise


def _distrust(seen: Array, told_c: Array, noise: Array) -> Array:
    """Return the factor by which the variance of each reading is raised (readings,), 1 for those that fit.

    Each reading is compared with what the ensemble and all other readings foretell of it (its cross-validation
    residual, from the inverse of the covariance of all readings). The one that fits worst is distrusted first and the
    others are judged again without it, since a wild reading makes its neighbours look wrong.
    """
    shown = seen - seen.mean(axis=1, keepdims=True)
    spread = shown @ shown.T / (seen.shape[1] - 1)
    off_c = told_c - seen.mean(axis=1)
    raised = np.ones(len(told_c))
    for _ in range(_MOST_WRONG):
        inverse = np.linalg.inv(spread + noise * np.sqrt(raised[:, None] * raised))
        left_out = np.where(raised > 1.0, 0.0, np.abs(inverse @ off_c) / np.sqrt(np.diag(inverse)))
        worst = int(np.argmax(left_out))
        if left_out[worst] <= _SUSPECT:
            break
        raised[worst] = (left_out[worst] / _SUSPECT) ** _STEEP
    return raised


def _updated(current: Array, seen: Array, told_c: Array, noise: Array) -> Array:
    """Return the parameters (d, n) after one round: the mean moved, the departures shrunk, no dice thrown."""
    members = current.shape[1]
    mean, expected = current.mean(axis=1, keepdims=True), seen.mean(axis=1, keepdims=True)
    whitening = np.linalg.cholesky(noise)
    shown = np.linalg.solve(whitening, seen - expected) / np.sqrt(members - 1)
    surprise = np.linalg.solve(whitening, told_c - expected[:, 0])
    left, strength, right = np.linalg.svd(shown, full_matrices=False)
    departures = current - mean
    along = departures @ right.T
    moved = along @ (strength / (1.0 + strength**2) * (left.T @ surprise)) / np.sqrt(members - 1)
    shrunk = departures - (along * (1.0 - 1.0 / np.sqrt(1.0 + strength**2))) @ right
    believed: Array = np.clip(mean + moved[:, None] + shrunk, -_FARTHEST, _FARTHEST)
    return believed


def _at(times_s: Array, cores_c: Array, at_s: Array) -> Array:
    """Return core temperatures (k, n) at `at_s` (k,), linear between the steps."""
    if len(times_s) == 1:
        return np.repeat(cores_c, len(at_s), axis=0)
    above = np.clip(np.searchsorted(times_s, at_s), 1, len(times_s) - 1)
    share = ((at_s - times_s[above - 1]) / (times_s[above] - times_s[above - 1]))[:, None]
    result: Array = (1.0 - share) * cores_c[above - 1] + share * cores_c[above]
    return result
