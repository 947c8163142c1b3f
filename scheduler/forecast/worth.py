"""What a reading is worth before it is made, and how far to believe one that surprises.

From the ensemble alone; no physics.
"""

from __future__ import annotations

import datetime as dt

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import anchors
from scheduler.forecast.interface import Observation, Worth

Array = NDArray[np.float64]

_WIDTH_80 = 2.563
"""Width of the middle 80 % of a normal distribution in standard deviations."""

_ON_TIME, _LATE = 0.75, 0.40
"""Chances between which a verdict lies (as in planning: on time, close, late); house rule."""

_WRONG_BEFORE = 0.02
"""Share of typed readings that are wrong before anything is known (slip, bone, fat, typing): an assumption."""

_WRONG_RANGE_C = 60.0
"""A wrong reading may be anything within a range of this width [°C]: an assumption."""

_READING_VAR_C2 = anchors.READING_C**2 + anchors.SHARED_C**2


def of_reading(cores_c: Array, ready_s: Array, weights: Array, by_s: float | None) -> Worth:
    """Return what a core reading would bring, from the cores (n,) then and the times of readiness (n,) of all members.

    Notes
    -----
    The expected shrinking of the spread is that of a linear regression of readiness on the core, 1 - sqrt(1 - r^2),
    with the noise of a reading in r. The chance of another verdict is found by letting each member in turn be the truth
    that is read, and reweighting the others by how well they agree with it.
    """
    finite = np.isfinite(ready_s)
    weight = np.where(finite, weights, 0.0)
    if weight.sum() <= 0.0:
        return Worth(narrows=dt.timedelta(0), turns=0.0)
    weight = weight / weight.sum()
    ready = np.where(finite, ready_s, 0.0)
    core_off, ready_off = cores_c - weight @ cores_c, ready - weight @ ready
    together = float(weight @ (core_off * ready_off))
    ready_var = float(weight @ ready_off**2)
    explained = together**2 / (float(weight @ core_off**2) + _READING_VAR_C2) / max(ready_var, 1e-9)
    narrows_s = _WIDTH_80 * np.sqrt(ready_var) * (1.0 - np.sqrt(max(0.0, 1.0 - explained)))
    turns = 0.0 if by_s is None else _turns(cores_c, ready_s <= by_s, weights)
    return Worth(narrows=dt.timedelta(seconds=round(float(narrows_s))), turns=turns)


def _turns(cores_c: Array, in_time: NDArray[np.bool_], weights: Array) -> float:
    alike = np.exp(-0.5 * (cores_c[:, None] - cores_c) ** 2 / _READING_VAR_C2) * weights
    chances = (alike @ in_time) / alike.sum(axis=1)
    before = _verdict(np.array([weights @ in_time]))[0]
    return float(weights @ (_verdict(chances) != before))


def _verdict(chances: Array) -> NDArray[np.int64]:
    return np.searchsorted(np.array([_LATE, _ON_TIME]), chances, side="right")


def outlier_probability(cores_c: Array, weights: Array, reading: Observation) -> float:
    """Return the probability that a reading is wrong, given the cores (n,) that were expected at its time.

    Bayes' rule between a wrong reading, which may be anything, and a right one, spread as the members and a reading's
    own doubt are.
    """
    variance = _READING_VAR_C2 + reading.spread_c**2
    off = reading.value_c - cores_c
    right = float(weights @ np.exp(-0.5 * off**2 / variance)) / np.sqrt(2.0 * np.pi * variance)
    # Heavier tails than the members have: no ensemble knows all that a fire can do.
    middle = float(weights @ cores_c)
    spread = float(np.sqrt(weights @ (cores_c - middle) ** 2 + variance))
    wide = 1.0 / (np.pi * spread * (1.0 + ((reading.value_c - middle) / spread) ** 2))
    right = 0.9 * right + 0.1 * float(wide)
    wrong = _WRONG_BEFORE / _WRONG_RANGE_C
    return float(wrong / (wrong + (1.0 - _WRONG_BEFORE) * right))
