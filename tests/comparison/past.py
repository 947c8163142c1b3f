"""A question laid out for learning: what is known of the piece, its readings, and the physics run up to the last one.

The rival ways of learning share this with the engine, part by part; how they learn is in `designs`. The only file here,
beside `ahead`, that knows names inside the engine.
"""

from __future__ import annotations

import dataclasses

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import course, draws, ensemble, fit, simulate
from scheduler.forecast.assimilate import Analysis, _at, _distrust, _noise
from scheduler.forecast.inputs import Inputs, inputs
from scheduler.forecast.interface import Question
from scheduler.forecast.simulate import Model, Pieces, State

Array = NDArray[np.float64]

FARTHEST = 4.0
"""No parameter is believed farther than this from its median, in prior standard deviations: the engine's own limit."""


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Unknowns:
    """Members of an ensemble: `parameters` (12, n), `heat` and `vapour` (knots, n), standard normal, and the slow
    departure of the pit (knots, n) [°C].
    """

    parameters: Array
    heat: Array
    vapour: Array
    pit_path: Array


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Past:
    """What there is to learn from: `told_c` (k,) at `at_s` (k,), with `noise` (k, k) [°C^2]."""

    of: Inputs
    model: Model
    times_s: Array
    at_s: Array
    told_c: Array
    noise: Array

    @property
    def knots(self) -> int:
        """Return how many hourly knots of the slow factors the readings can tell something of."""
        return min(draws.KNOTS, int(self.of.last_s / 3600.0) + 2) if self.of.readings else 0

    def run(self, of: Unknowns) -> tuple[Pieces, State, Array]:
        """Return the pieces, where they stand now and their cores at `times_s` (steps + 1, n) [°C]."""
        pieces = simulate.pieces(self.model, of.parameters, of.heat, of.vapour)
        span = course.span(self.times_s, self.of, pieces, of.pit_path)
        now, cores_c = simulate.run(pieces, simulate.at_start(pieces), span)
        return pieces, now, cores_c

    def seen(self, of: Unknowns) -> Array:
        """Return what the probe would have shown at the readings (k, n) [°C]."""
        return _at(self.times_s, self.run(of)[2], self.at_s)

    def distrust(self, seen: Array) -> Array:
        """Return by how much the variance of each reading is raised (k,): the engine's own rule for outliers."""
        return _distrust(seen, self.told_c, self.noise)

    def raised(self, inflation: Array) -> Array:
        """Return the noise with the variance of each reading raised (k, k) [°C^2]."""
        raised: Array = self.noise * np.sqrt(inflation[:, None] * inflation)
        return raised

    def analysis(self, of: Unknowns, inflation: Array) -> Analysis:
        """Return what was learned in the engine's own form."""
        pieces, now, cores_c = self.run(of)
        return Analysis(
            pieces=pieces, pit_path=of.pit_path, times_s=self.times_s, cores_c=cores_c, now=now, inflation=inflation
        )


def past(question: Question) -> Past:
    """Return a question laid out for learning."""
    of = inputs(question)
    model = ensemble.model_of(of, fit.of_cut(of.cut).anchor)
    return Past(
        of=of,
        model=model,
        times_s=course.past_times(model.body, model.meat.diffusivity_m2_s, of.last_s),
        at_s=np.array([sample.at_s for sample in of.readings]),
        told_c=np.array([sample.value_c for sample in of.readings]),
        noise=_noise(of) if of.readings else np.zeros((0, 0)),
    )
