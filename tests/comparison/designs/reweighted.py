"""Two thousand members of the prior on the engine's physics, weighted by how well they agree with the readings.

The likelihood is Student's t, so that one slip of the pen rules nobody out; it is flattened as far as it takes to
leave thirty members their say, because otherwise one or two would decide.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import Question, pit
from scheduler.forecast.draws import dice
from tests.comparison.ahead import ahead
from tests.comparison.answer import Answer
from tests.comparison.past import Past, Unknowns, past

Array = NDArray[np.float64]

MEMBERS = 2000
KEPT = 120
"""So many are drawn by their weights and run on."""
_DEGREES_OF_FREEDOM = 4.0
LEAST_COUNT = 30.0


def predict(question: Question, target_c: float) -> Answer:
    """Return when the core passes a target [°C]."""
    known = past(question)
    many, few = dice(known.of.seed, MEMBERS), dice(known.of.seed, KEPT)
    pit_path, bias = pit.paths(known.of, many)
    parameters = many.parameters.copy()
    parameters[9] = bias
    prior = Unknowns(parameters=parameters, heat=many.heat, vapour=many.vapour, pit_path=pit_path)
    if len(known.told_c):
        seen = known.seen(prior)
        chosen, inflation = _drawn(weights(known, seen)), known.distrust(seen)
    else:
        chosen, inflation = np.arange(KEPT), np.ones(0)
    # A member drawn twice gets another future each time.
    knots = known.knots
    kept = Unknowns(
        parameters=parameters[:, chosen],
        heat=np.concatenate((many.heat[:knots, chosen], few.heat[knots:])),
        vapour=np.concatenate((many.vapour[:knots, chosen], few.vapour[knots:])),
        pit_path=pit_path[:, chosen],
    )
    return ahead(question, target_c, known, known.analysis(kept, inflation), few)


def weights(known: Past, seen: Array) -> Array:
    """Return the weight of each member (n,), sum one, from what it would have shown at the readings (k, n) [°C]."""
    off = np.linalg.solve(np.linalg.cholesky(known.noise), known.told_c[:, None] - seen)
    logs = -0.5 * (_DEGREES_OF_FREEDOM + 1.0) * np.log1p(off**2 / _DEGREES_OF_FREEDOM).sum(axis=0)
    logs -= logs.max()
    flat, sharp = 0.0, 1.0
    if _count(logs) >= LEAST_COUNT:
        flat = 1.0
    for _ in range(20 if flat < sharp else 0):
        middle = 0.5 * (flat + sharp)
        flat, sharp = (middle, sharp) if _count(middle * logs) >= LEAST_COUNT else (flat, middle)
    weight = np.exp(flat * logs)
    shares: Array = weight / weight.sum()
    return shares


def _count(logs: Array) -> float:
    """Return how many equally weighted members weigh as much (Kish)."""
    weight = np.exp(logs)
    return float(weight.sum() ** 2 / (weight @ weight))


def _drawn(weight: Array) -> NDArray[np.int64]:
    """Return the members drawn in even steps through the summed weights."""
    steps = (np.arange(KEPT) + 0.5) / KEPT
    return np.minimum(np.searchsorted(np.cumsum(weight), steps), len(weight) - 1)
