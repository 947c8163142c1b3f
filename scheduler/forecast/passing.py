"""When something happens, as times of an ensemble with weights.

No physics and no learning here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Passing:
    """When something happens: one time per member [s since meat on], with weights."""

    on_at: dt.datetime
    times_s: Array
    """In ascending order."""
    summed: Array
    """Weights added up in that order, the last is 1."""

    def quantile(self, p: float) -> dt.datetime | None:
        """Return the instant (UTC) before which it happens with probability `p`, None beyond the horizon."""
        seconds = self.seconds(p)
        return self.on_at + dt.timedelta(seconds=round(seconds)) if np.isfinite(seconds) else None

    def seconds(self, p: float) -> float:
        """Return the quantile in seconds since meat on, infinite beyond the horizon."""
        place = int(np.searchsorted(self.summed, min(max(p, 0.0), 1.0) - 1e-9))
        return float(self.times_s[min(place, len(self.times_s) - 1)])

    def probability_by(self, when: dt.datetime) -> float:
        """Return the probability that it has happened by `when` (UTC), 0 to 1."""
        seconds = (when - self.on_at).total_seconds()
        place = int(np.searchsorted(self.times_s, seconds, side="right"))
        return 0.0 if place == 0 else min(1.0, float(self.summed[place - 1]))


def passing(on_at: dt.datetime, times_s: Array, weights: Array) -> Passing:
    """Return the distribution of times (n,) [s since meat on] with weights (n,)."""
    order = np.argsort(times_s, kind="stable")
    summed = np.cumsum(weights[order])
    return Passing(on_at=on_at, times_s=times_s[order], summed=summed / summed[-1])


def first_passage(times_s: Array, values: Array, targets: Array) -> Array:
    """Return when each column of `values` (k, n) first reaches its target (n,) [s], linear between steps, inf when it
    does not.
    """
    above = values >= targets
    index = np.argmax(above, axis=0)
    columns = np.arange(values.shape[1])
    reached = above[index, columns]
    before = np.maximum(index - 1, 0)
    low, high = values[before, columns], values[index, columns]
    share = np.where(index > 0, (targets - low) / np.maximum(high - low, 1e-12), 1.0)
    times = times_s[before] + share * (times_s[index] - times_s[before])
    first: Array = np.where(reached, times, np.inf)
    return first


def row(times_s: Array, values: Array, at_s: float) -> Array:
    """Return `values` (k, n) at `at_s` [s], linear between the times, held beyond either end."""
    if len(times_s) == 1:
        only: Array = values[0]
        return only
    above = int(np.clip(np.searchsorted(times_s, at_s), 1, len(times_s) - 1))
    share = float(np.clip((at_s - times_s[above - 1]) / (times_s[above] - times_s[above - 1]), 0.0, 1.0))
    result: Array = (1.0 - share) * values[above - 1] + share * values[above]
    return result


def weighted_quantile(values: Array, weights: Array, p: float) -> float:
    """Return the `p` quantile of values (n,) with weights (n,)."""
    order = np.argsort(values, kind="stable")
    summed = np.cumsum(weights[order])
    place = int(np.searchsorted(summed, p * summed[-1] - 1e-12))
    return float(values[order][min(place, len(values) - 1)])
