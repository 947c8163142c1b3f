"""A time-temperature dose for connective tissue: a guide to when feeling for tenderness becomes worthwhile.

A heuristic, and never a claim that meat is tender: published kinetics of collagen between 60 and 95 C are thin. It
knows nothing of safety.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scheduler.cuts import Cut

Array = NDArray[np.float64]

Z_C = 12.0
"""Temperature step for a tenfold rate [°C]: brisket is called done after 0 to 2 h at 90 to 95 C, 4 to 6 h at 85 C, 12
to 18 h at 77 C (kitchen practice, from memory), which implies 11 to 13 C; low confidence."""

REFERENCE_C = 95.0

_LEVEL = 1e-6
"""Change of the logarithm of the rate below which it counts as constant within a step."""

_TENTH = 1.2815515655446004
"""The 90 % quantile of the standard normal: low and high of a figure leave one case in ten outside."""


def doses_h(times_s: Array, cores_c: Array) -> Array:
    """Return the dose gathered by each time [h at 95 C], shape of `cores_c` (k, n), for times (k,) [s].

    Exact for a core that rises on a straight line between the times.
    """
    rate = np.exp((np.log(10.0) / Z_C) * (cores_c - REFERENCE_C))
    change = (np.log(10.0) / Z_C) * np.diff(cores_c, axis=0)
    level = np.abs(change) < _LEVEL
    mean = np.where(level, rate[:-1], np.diff(rate, axis=0) / np.where(level, 1.0, change))
    gathered: Array = np.concatenate(
        (np.zeros((1, cores_c.shape[1])), np.cumsum(mean * (np.diff(times_s) / 3600.0)[:, None], axis=0))
    )
    return gathered


def needs_h(cut: Cut, usual_h: float, need: Array) -> Array:
    """Return the dose that each member needs [h at 95 C], from standard normal `need`.

    `usual_h` is the dose of the cut's usual cook at its typical end point; the spread is that of the cut's end points,
    carried over at the usual pace (one Z for a tenfold dose).
    """
    band = cut.target_c
    spread_c = 0.5 * (band.high - band.low) / _TENTH
    needs: Array = usual_h * np.exp((np.log(10.0) / Z_C) * spread_c * need)
    return needs


def targets_c(cut: Cut, need: Array) -> Array:
    """Return the end point of each member [°C] for cuts that are done by temperature: low and high of the cut leave one
    piece in ten outside at each end, and they move with a core that somebody wished.
    """
    band = cut.target_c
    side = np.where(need < 0.0, band.typical - band.low, band.high - band.typical)
    targets: Array = cut.done_c + side * need / _TENTH
    return targets
