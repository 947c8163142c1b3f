"""The fan of core temperature from meat on to the plate: on the fire until it is ready, then vented and at rest.

It joins what `ensemble` ran on the fire with what `rest` makes of a piece after the pull; no physics of its own.
"""

from __future__ import annotations

import datetime as dt

import numpy as np
from numpy.typing import NDArray

from scheduler.facts import Wrap
from scheduler.forecast.after import Held, Place, hold
from scheduler.forecast.ensemble import Runs
from scheduler.forecast.interface import FanPoint
from scheduler.forecast.passing import row, weighted_quantile

Array = NDArray[np.float64]

_AFTER_EVERY_S = 600.0


def fan(
    runs: Runs, on_at: dt.datetime, ready_s: Array, weights: Array, until: dt.datetime, every: dt.timedelta
) -> tuple[FanPoint, ...]:
    """Return 10, 50 and 90 % of the core at even steps from `on_at` to `until`, both included.

    Each member follows its own path until it is ready, and from there the path of the usual piece after the pull
    (`scheduler.forecast.after`), moved to the core at which it was pulled. How much the rests themselves differ is left
    out: the fan at the plate is a little narrow.
    """
    span_s = max(0.0, (until - on_at).total_seconds())
    every_s = max(60.0, every.total_seconds())
    instants_s = np.unique(np.append(np.arange(0.0, span_s, every_s), span_s))
    fire_c = _on_the_fire(runs, instants_s)
    pulled_c = _at_own_time(runs, ready_s)
    middle_s = weighted_quantile(ready_s, weights, 0.5)
    found = fire_c
    if np.isfinite(middle_s) and bool(np.any(instants_s[:, None] > ready_s)):
        since_s, change_c = _after(runs, on_at, middle_s, weighted_quantile(pulled_c, weights, 0.5), span_s)
        rested = np.interp(
            np.maximum(instants_s[:, None] - np.where(np.isfinite(ready_s), ready_s, np.inf), 0.0), since_s, change_c
        )
        found = np.where(instants_s[:, None] > ready_s, pulled_c + rested, fire_c)
    return tuple(
        FanPoint(
            at=on_at + dt.timedelta(seconds=float(at_s)),
            low_c=weighted_quantile(cores_c, weights, 0.1),
            middle_c=weighted_quantile(cores_c, weights, 0.5),
            high_c=weighted_quantile(cores_c, weights, 0.9),
        )
        for at_s, cores_c in zip(instants_s, found, strict=True)
    )


def _on_the_fire(runs: Runs, instants_s: Array) -> Array:
    """Return the cores of all members (k, choices * n) at the instants [s], had nobody pulled them."""
    past, choices = runs.analysis, len(runs.choices)
    return np.stack(
        [
            np.tile(row(past.times_s, past.cores_c, at_s), choices)
            if at_s < runs.of.last_s
            else row(runs.future_s, runs.future_c, at_s)
            for at_s in instants_s.tolist()
        ]
    )


def _at_own_time(runs: Runs, ready_s: Array) -> Array:
    """Return the core of each member at its own time of readiness (choices * n,) [°C]."""
    at_s = np.clip(ready_s, runs.future_s[0], runs.future_s[-1])
    above = np.clip(np.searchsorted(runs.future_s, at_s), 1, len(runs.future_s) - 1)
    columns = np.arange(len(at_s))
    low, high = runs.future_c[above - 1, columns], runs.future_c[above, columns]
    share = (at_s - runs.future_s[above - 1]) / (runs.future_s[above] - runs.future_s[above - 1])
    found: Array = low + share * (high - low)
    return found


def _after(runs: Runs, on_at: dt.datetime, pulled_s: float, pulled_c: float, span_s: float) -> tuple[Array, Array]:
    """Return times since the pull [s] and by how much the core of the usual piece has changed by then [°C]."""
    of, pulled_at = runs.of, on_at + dt.timedelta(seconds=pulled_s)
    wrap = max(runs.choices, key=lambda choice: choice.weight).wrap
    rest = hold(
        Held(
            cut=of.cut, mass_kg=of.mass_kg, thickness_m=of.thickness_m, core_c=pulled_c, spread_c=0.1, at=pulled_at,
            wrap=wrap if of.cut.doneness == "feel" else Wrap.NONE,
            place=Place.BOX if of.cut.doneness == "feel" else Place.BOARD, air=of.air, pit_c=of.pit[-1][1], on_at=on_at,
            vented=dt.timedelta(minutes=of.cut.vent_min),
        )
    )  # fmt: skip
    since_s = np.arange(0.0, max(span_s, 1.0) + _AFTER_EVERY_S, _AFTER_EVERY_S)
    cores_c = [rest.core_c(pulled_at + dt.timedelta(seconds=float(at_s))) for at_s in since_s]
    return since_s, np.array(cores_c) - cores_c[0]
