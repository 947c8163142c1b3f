"""The answers: crossing times of any core temperature, as distributions over the ensemble.

No physics and no learning here: only what the runs and the readings say together.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

import numpy as np
from numpy.typing import NDArray

from scheduler.cuts import Spread
from scheduler.forecast import anchors
from scheduler.forecast.interface import Observation

Array = NDArray[np.float64]

_TENTH = 1.2815515655446004
"""The 90 % quantile of the standard normal: low and high of a figure leave one case in ten outside."""


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Paths:
    """Core temperatures of every member so far and from now on, in seconds since meat on.

    `future_c` (k, options * n) holds the members once for each wrap they may get, `weights` (options * n,) sum to one.
    `passed` are the trusted readings made non-decreasing: (times [s], values [°C]), empty before the first.
    """

    past_s: Array
    past_c: Array
    future_s: Array
    future_c: Array
    weights: Array
    passed: tuple[Array, Array]
    blur: Array
    target_z: Array
    target_c: Spread

    @property
    def last_s(self) -> float:
        """Return the time of the last reading, 0 when there is none [s]."""
        return float(self.future_s[0])

    def times_s(self, targets_c: Array) -> Array:
        """Return when each member passes its own target (options * n,) [s since meat on], inf beyond the horizon."""
        targets_c = np.minimum(targets_c, anchors.CORE_CAP_C)
        remaining = _first_passage(self.future_s, self.future_c, targets_c) - self.last_s
        blurred = remaining * np.exp(anchors.BLUR * self.blur[0]) + 60.0 * anchors.BLUR_MINUTES * self.blur[1]
        times: Array = self.last_s + np.maximum(blurred, 0.0)
        at, values = self.passed
        if not len(at):
            return times
        known = self._passed_s(targets_c) + 30.0 * anchors.BLUR_MINUTES * self.blur[1]
        either: Array = np.where(targets_c <= values[-1], np.clip(known, 0.0, self.last_s), times)
        return either

    def _passed_s(self, targets_c: Array) -> Array:
        """Return when the readings passed each target: between two on the line, before the first as the members ran."""
        at, values = self.passed
        options = len(self.weights) // self.past_c.shape[1]
        past_c = np.tile(self.past_c, (1, options))
        first = np.full_like(targets_c, values[0])
        own = _first_passage(self.past_s, past_c, targets_c)
        reached = _first_passage(self.past_s, past_c, first)
        even = np.clip(targets_c - past_c[0], 0.0, None) / np.maximum(first - past_c[0], 0.1)
        with np.errstate(invalid="ignore", divide="ignore"):
            share = np.where(np.isfinite(reached) & (reached > 0.0), own / reached, even)
        before = at[0] * np.clip(share, 0.0, 1.0)
        passed: Array = np.where(targets_c <= values[0], before, np.interp(targets_c, values, at))
        return passed

    def core_c(self, at_s: float) -> Array:
        """Return core temperatures (options * n,) at `at_s` [s since meat on]; held beyond either end."""
        if at_s < self.last_s:
            options = len(self.weights) // self.past_c.shape[1]
            past: Array = np.tile(_row(self.past_s, self.past_c, at_s), options)
            return past
        return _row(self.future_s, self.future_c, at_s)


def _row(times_s: Array, cores_c: Array, at_s: float) -> Array:
    above = int(np.clip(np.searchsorted(times_s, at_s), 1, max(1, len(times_s) - 1)))
    if len(times_s) == 1:
        only: Array = cores_c[0]
        return only
    share = float(np.clip((at_s - times_s[above - 1]) / (times_s[above] - times_s[above - 1]), 0.0, 1.0))
    result: Array = (1.0 - share) * cores_c[above - 1] + share * cores_c[above]
    return result


def _first_passage(times_s: Array, cores_c: Array, targets_c: Array) -> Array:
    """Return when each column first reaches its target [s], linear between steps, inf when it does not."""
    above = cores_c >= targets_c
    index = np.argmax(above, axis=0)
    columns = np.arange(cores_c.shape[1])
    reached = above[index, columns]
    before = np.maximum(index - 1, 0)
    low, high = cores_c[before, columns], cores_c[index, columns]
    share = np.where(index > 0, (targets_c - low) / np.maximum(high - low, 1e-9), 1.0)
    times = times_s[before] + share * (times_s[index] - times_s[before])
    first: Array = np.where(reached, times, np.inf)
    return first


def _weighted_quantile(values: Array, weights: Array, p: float) -> float:
    order = np.argsort(values, kind="stable")
    summed = np.cumsum(weights[order])
    place = int(np.searchsorted(summed, p * summed[-1] - 1e-12))
    return float(values[order][min(place, len(values) - 1)])


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
        place = int(np.searchsorted(self.summed, min(max(p, 0.0), 1.0) - 1e-9))
        seconds = float(self.times_s[min(place, len(self.times_s) - 1)])
        return self.on_at + dt.timedelta(seconds=round(seconds)) if np.isfinite(seconds) else None

    def probability_by(self, when: dt.datetime) -> float:
        """Return the probability that it has happened by `when` (UTC), 0 to 1."""
        seconds = (when - self.on_at).total_seconds()
        place = int(np.searchsorted(self.times_s, seconds, side="right"))
        return 0.0 if place == 0 else min(1.0, float(self.summed[place - 1]))


class Outlook:
    """A forecast about one piece: the paths of the ensemble, laid on the clock at meat on."""

    def __init__(self, *, cook: str, piece: str, on_at: dt.datetime, paths: Paths, memo: dict[str, Array]) -> None:
        self.cook = cook
        self.piece = piece
        self._on_at = on_at
        self._paths = paths
        self._memo = memo

    def crossing(self, core_temp_c: float) -> Passing:
        """Return when the core passes `core_temp_c` [°C]; one already passed gives the time it was passed."""
        return self._passing(f"{core_temp_c!r}", core_temp_c)

    def ready(self) -> Passing:
        """Return when the piece is tender enough to pull: the core passing the cut's target, which is itself
        uncertain.
        """
        return self._passing("ready", None)

    def core_c(self, when: dt.datetime, p: float = 0.5) -> float:
        """Return the `p` quantile of the core temperature [°C] at `when` (UTC)."""
        cores = self._paths.core_c((when - self._on_at).total_seconds())
        return _weighted_quantile(cores, self._paths.weights, p)

    def surprise(self, reading: Observation) -> float:
        """Return how unlikely a new reading is, in standard deviations of this prediction (signed).

        Only meaningful for a forecast that was made without the reading.
        """
        cores = self._paths.core_c((reading.at - self._on_at).total_seconds())
        middle = float(np.average(cores, weights=self._paths.weights))
        variance = float(np.average((cores - middle) ** 2, weights=self._paths.weights))
        noise = anchors.READING_C**2 + anchors.SHARED_C**2 + reading.spread_c**2
        return (reading.value_c - middle) / float(np.sqrt(variance + noise))

    def _passing(self, name: str, core_temp_c: float | None) -> Passing:
        paths = self._paths
        if name not in self._memo:
            targets = _targets(paths) if core_temp_c is None else np.full(len(paths.weights), core_temp_c)
            times = paths.times_s(targets)
            order = np.argsort(times, kind="stable")
            summed = np.cumsum(paths.weights[order])
            self._memo[name] = np.stack((times[order], summed / summed[-1]))
        times, summed = self._memo[name]
        return Passing(on_at=self._on_at, times_s=times, summed=summed)


def _targets(paths: Paths) -> Array:
    """Return each member's own end point [°C]: low and high of the cut leave one piece in ten outside at each end."""
    band = paths.target_c
    side = np.where(paths.target_z < 0.0, band.typical - band.low, band.high - band.typical)
    targets: Array = band.typical + side * paths.target_z / _TENTH
    return targets
