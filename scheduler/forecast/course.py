"""Time grid of a run, and what surrounds the piece in each step, as arrays.

What happened is laid out here; what it does to the meat is not known.
"""

from __future__ import annotations

import functools

import numpy as np
from numpy.typing import NDArray

from scheduler.facts import Wrap
from scheduler.forecast import draws, pit
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.interface import Opening
from scheduler.forecast.simulate import Pieces, Span
from scheduler.thermal import surface
from scheduler.thermal.geometry import Body

Array = NDArray[np.float64]

HORIZON_S = 31 * 3600.0
"""A forecast reaches this far beyond meat on or the last reading [s]."""

_STEP_FOURIER = 0.045
_SHORTEST_S, _LONGEST_S = 10.0, 600.0
_GROWTH = 1.06
_LAST_S = 2400.0
_MOST_PAST_STEPS = 400

_SPRITZ_KG_M2 = 0.08
"""Water that a spritz leaves on the surface, a quarter of a decilitre on a third of a square metre: an assumption."""


def past_times(body: Body, diffusivity_m2_s: float, last_s: float) -> Array:
    """Return evenly spaced times from meat on to the last reading [s], just one when there is none."""
    if last_s <= 0.0:
        return np.zeros(1)
    steps = min(_MOST_PAST_STEPS, int(np.ceil(last_s / _first_step(body, diffusivity_m2_s))))
    return np.linspace(0.0, last_s, steps + 1)


def future_times(body: Body, diffusivity_m2_s: float, last_s: float) -> Array:
    """Return times from the last reading to the horizon [s]; each step is a little longer than the one before."""
    return last_s + _stretched(_first_step(body, diffusivity_m2_s))


@functools.lru_cache(maxsize=64)
def _stretched(first_s: float) -> Array:
    lengths, total = [first_s], first_s
    while total < HORIZON_S:
        lengths.append(float(round(min(_LAST_S, lengths[-1] * _GROWTH), 1)))
        total += lengths[-1]
    return np.concatenate(([0.0], np.cumsum(lengths)))


def _first_step(body: Body, diffusivity_m2_s: float) -> float:
    scale_s = body.half_thickness_m**2 / diffusivity_m2_s
    return min(_LONGEST_S, max(_SHORTEST_S, _STEP_FOURIER * scale_s))


def span(times_s: Array, of: Inputs, pieces: Pieces, pit_path: Array) -> Span:
    """Return what surrounds the pieces in each step: set points, openings and wraps that have happened, and the doubt.

    `pit_path` (knots, n) is the slow departure of the pit from its set point [°C].
    """
    hours = (0.5 * (times_s[:-1] + times_s[1:])) / 3600.0
    pit_c = pit.middle_c(times_s, of)[:, None] + pieces.pit_bias_c + draws.at_hours(pit_path, hours)
    heat = pieces.heat_w_m2k * draws.at_hours(pieces.heat_factor, hours) * surface.heat_ratio(pit_c)
    return Span(
        times_s=times_s,
        pit_c=pit_c,
        heat_w_m2k=heat,
        vapour=pieces.vapour * draws.at_hours(pieces.vapour_factor, hours),
        resistance=_resistance(times_s, of, pieces),
        wetting_kg_m2=_wetting(times_s, of),
    )


def _resistance(edges_s: Array, of: Inputs, pieces: Pieces) -> Array:
    """Return the vapour resistance of the wrap in each step (k, n), (k, 1) while bare."""
    shares = {wrap: np.zeros(len(edges_s) - 1) for wrap in Wrap if wrap is not Wrap.NONE}
    lengths = np.diff(edges_s)
    starts = [at_s for at_s, _ in of.wraps]
    for (at_s, wrap), until_s in zip(of.wraps, [*starts[1:], np.inf], strict=False):
        if wrap is not Wrap.NONE:
            shares[wrap] += (
                np.clip(np.minimum(edges_s[1:], until_s) - np.maximum(edges_s[:-1], at_s), 0.0, None) / lengths
            )
    total = np.zeros((len(lengths), 1))
    for wrap, share in shares.items():
        if share.any():
            total = total + share[:, None] * pieces.resistance(wrap)
    return total


def _wetting(edges_s: Array, of: Inputs) -> dict[int, float]:
    """Return the water that spritzing brings in a step [kg/m2], by index of the step."""
    found: dict[int, float] = {}
    for at_s, kind in of.openings:
        if kind is Opening.SPRITZ and edges_s[0] <= at_s < edges_s[-1]:
            index = int(np.searchsorted(edges_s, at_s, side="right")) - 1
            found[index] = found.get(index, 0.0) + _SPRITZ_KG_M2
    return found
