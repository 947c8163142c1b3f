"""The answers about one piece: the runs of the ensemble, laid on the clock at meat on.

No physics and no learning here: only what the runs and the readings say together.
"""

from __future__ import annotations

import datetime as dt
import functools

import numpy as np
from numpy.typing import NDArray

from scheduler.facts import Wrap
from scheduler.forecast import anchors, fan, plateau, timing, worth
from scheduler.forecast.ensemble import Runs
from scheduler.forecast.interface import FanPoint, Observation, StallOutlook, Worth, WrapChoice
from scheduler.forecast.passing import Passing, passing, row, weighted_quantile

Array = NDArray[np.float64]


class Outlook:
    """A forecast about one piece. `only` restricts it to one of the wraps that may still come."""

    def __init__(
        self, *, cook: str, piece: str, on_at: dt.datetime, runs: Runs, dose_h: float, only: Wrap | None = None
    ) -> None:
        self.cook = cook
        self.piece = piece
        self._on_at = on_at
        self._runs = runs
        self._dose_h = dose_h
        self._only = only

    @functools.cached_property
    def _weights(self) -> Array:
        members = self._runs.analysis.cores_c.shape[1]
        weights = [choice.weight if self._only in {None, choice.wrap} else 0.0 for choice in self._runs.choices]
        return np.repeat(np.array(weights) / (sum(weights) * members), members)

    @property
    def choices(self) -> tuple[WrapChoice, ...]:
        """Return the wraps that may still come: one when it is known or decided, several when it is not."""
        return self._runs.choices if self._only is None else (WrapChoice(wrap=self._only, weight=1.0),)

    def given(self, wrap: Wrap) -> Outlook:
        """Return the forecast on the condition of one of `choices`; raise ValueError for another wrap."""
        if wrap not in {choice.wrap for choice in self.choices}:
            raise ValueError(f"{wrap} is not among the wraps that may still come")
        return Outlook(
            cook=self.cook, piece=self.piece, on_at=self._on_at, runs=self._runs, dose_h=self._dose_h, only=wrap
        )

    def crossing(self, core_temp_c: float) -> Passing:
        """Return when the core passes `core_temp_c` [°C]; one already passed gives the time it was passed."""
        targets = np.full(self._runs.future_c.shape[1], core_temp_c)
        return self._passing(timing.crossing_s(self._runs, targets))

    def _passing(self, times_s: Array) -> Passing:
        return passing(self._on_at, *timing.blurred(self._runs, times_s, self._weights))

    @functools.cached_property
    def _ready_s(self) -> Array:
        return timing.ready_s(self._runs, self._dose_h)

    @functools.cached_property
    def _ready(self) -> Passing:
        return self._passing(self._ready_s)

    def ready(self) -> Passing:
        """Return when the piece is worth pulling: tough cuts by a time-temperature dose (a heuristic, never a claim),
        others by core temperature.
        """
        return self._ready

    def core_c(self, when: dt.datetime, p: float = 0.5) -> float:
        """Return the `p` quantile of the core temperature [°C] at `when` (UTC), on the fire."""
        return weighted_quantile(self._cores_c((when - self._on_at).total_seconds()), self._weights, p)

    def _cores_c(self, at_s: float) -> Array:
        runs = self._runs
        if at_s < runs.of.last_s:
            past: Array = np.tile(row(runs.analysis.times_s, runs.analysis.cores_c, at_s), len(runs.choices))
            return past
        return row(runs.future_s, runs.future_c, at_s)

    def fan(self, until: dt.datetime, *, every: dt.timedelta = dt.timedelta(minutes=15)) -> tuple[FanPoint, ...]:
        """Return core temperatures from meat on to the plate: on the fire until ready, then vented and at rest."""
        return fan.fan(self._runs, self._on_at, self._ready_s, self._weights, until, every)

    @functools.cached_property
    def _stall(self) -> StallOutlook:
        return plateau.stall(self._runs, self._on_at, self._weights)

    def stall(self) -> StallOutlook:
        """Return where the piece stands with its stall."""
        return self._stall

    def worth_reading(self, at: dt.datetime, *, by: dt.datetime | None = None) -> Worth:
        """Return what a core reading at `at` would bring; `by` is the instant whose probability decides something."""
        cores_c = self._cores_c((at - self._on_at).total_seconds())
        by_s = None if by is None else (by - self._on_at).total_seconds()
        return worth.of_reading(cores_c, self._ready_s, self._weights, by_s)

    def surprise(self, reading: Observation) -> float:
        """Return how unlikely a new reading is, in standard deviations of the prediction made without it (signed).

        Only meaningful for a forecast that was made without the reading.
        """
        cores = self._cores_c((reading.at - self._on_at).total_seconds())
        middle = float(np.average(cores, weights=self._weights))
        variance = float(np.average((cores - middle) ** 2, weights=self._weights))
        noise = anchors.READING_C**2 + anchors.SHARED_C**2 + reading.spread_c**2
        return (reading.value_c - middle) / float(np.sqrt(variance + noise))

    def outlier_probability(self, reading: Observation) -> float:
        """Return the probability (0 to 1) that a new reading is wrong (slip, bone, fat), from a forecast without it."""
        cores = self._cores_c((reading.at - self._on_at).total_seconds())
        return worth.outlier_probability(cores, self._weights, reading)
