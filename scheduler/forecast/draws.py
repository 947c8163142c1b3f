"""The ensemble's dice: standard normal numbers that depend on the piece alone.

Nothing physical is known here. A second question about the same piece throws the same dice, so that forecasts and
alternatives differ by data and not by luck.
"""

from __future__ import annotations

import dataclasses
import functools
import hashlib
import statistics

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

PARAMETERS = 12
_SINGLES = 2
KNOTS = 80
"""Hourly knots of the slow random factors; later hours keep the last one."""
MAX_READINGS = 64
_EVENED = 14
"""Hours of the slow factors that are made free of chance correlation, with each other and with the parameters."""


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Dice:
    """Standard normal numbers, last axis the members.

    `parameters` (12, n) are stratified and free of chance correlation, so that the prior hardly depends on the seed.
    `heat`, `vapour` and `pit` (80, n) drive the slow factors, `pit_reading` (64, n) perturbs pit readings, `need` (n,)
    and `trigger` (n,) say how tender is tender and at which core a wrap goes on.
    """

    parameters: Array
    heat: Array
    vapour: Array
    pit: Array
    pit_reading: Array
    need: Array
    trigger: Array


@functools.lru_cache(maxsize=16)
def dice(seed: str, members: int) -> Dice:
    """Return the dice of a piece; `seed` names it, the generator is made from nothing else."""
    digest = hashlib.sha256(seed.encode()).digest()
    generator = np.random.Generator(np.random.PCG64(int.from_bytes(digest[:16], "big")))
    strata = _strata(members)
    rows = PARAMETERS + _SINGLES
    single = np.stack([strata[generator.permutation(members)] for _ in range(rows)])
    knots = generator.standard_normal((3, KNOTS, members))
    evened = _evened(np.concatenate((single, *knots[:, :_EVENED])))
    knots[:, :_EVENED] = evened[rows:].reshape(3, _EVENED, members)
    return Dice(
        parameters=evened[:PARAMETERS],
        need=evened[PARAMETERS],
        trigger=evened[PARAMETERS + 1],
        heat=knots[0],
        vapour=knots[1],
        pit=knots[2],
        pit_reading=generator.standard_normal((MAX_READINGS, members)),
    )


def _evened(rows: Array) -> Array:
    """Return rows with zero mean, unit variance and no correlation over the members, as near to the given ones as can
    be.
    """
    rows = rows - rows.mean(axis=1, keepdims=True)
    values, vectors = np.linalg.eigh(rows @ rows.T / rows.shape[1])
    even: Array = vectors @ ((vectors.T @ rows) / np.sqrt(values)[:, None])
    return even


def _strata(members: int) -> Array:
    normal = statistics.NormalDist()
    return np.array([normal.inv_cdf((index + 0.5) / members) for index in range(members)])


def slow(knots: Array, *, correlation_h: float) -> Array:
    """Return hourly values with unit spread and the given correlation time from independent ones, same shape."""
    keep = float(np.exp(-1.0 / correlation_h))
    values: Array = knots * np.sqrt(1.0 - keep * keep)
    values[:1] = knots[:1]
    for hour in range(1, len(values)):
        values[hour] += keep * values[hour - 1]
    return values


def at_hours(values: Array, hours: Array) -> Array:
    """Return hourly `values` (knots, n) interpolated at `hours` (k,), shape (k, n); beyond the last knot it is kept."""
    position = np.clip(hours, 0.0, len(values) - 1.0)
    below = np.minimum(position.astype(int), len(values) - 2)
    share = (position - below)[:, None]
    low = values[below]
    result: Array = low + share * (values[below + 1] - low)
    return result
