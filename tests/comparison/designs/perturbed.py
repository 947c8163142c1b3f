"""The textbook form of the smoother on the engine's physics: 100 members, perturbed readings, four rounds of four.

ES-MDA after Emerick and Reynolds 2013, Computers & Geosciences 55, 3-15 (from memory). Outliers are told from good
readings by the engine's rule, which the textbook does not have: without it one slip of the pen decides everything.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import Question, pit
from scheduler.forecast.draws import PARAMETERS, dice
from tests.comparison.ahead import ahead
from tests.comparison.answer import Answer
from tests.comparison.past import FARTHEST, Unknowns, past

Array = NDArray[np.float64]

MEMBERS = 100
ROUNDS = 4
"""The variance of the readings is raised by as much in each: the inverses sum to one."""


def predict(question: Question, target_c: float) -> Answer:
    """Return when the core passes a target [°C]."""
    known = past(question)
    thrown, knots, count = dice(known.of.seed, MEMBERS), known.knots, len(known.told_c)
    pit_path, bias = pit.paths(known.of, thrown)
    parameters = thrown.parameters.copy()
    parameters[9] = bias

    def unknowns(believed: Array) -> Unknowns:
        heat = np.concatenate((believed[PARAMETERS : PARAMETERS + knots], thrown.heat[knots:]))
        vapour = np.concatenate((believed[PARAMETERS + knots :], thrown.vapour[knots:]))
        return Unknowns(parameters=believed[:PARAMETERS], heat=heat, vapour=vapour, pit_path=pit_path)

    believed = np.concatenate((parameters, thrown.heat[:knots], thrown.vapour[:knots]))
    inflation = np.ones(count)
    for round_ in range(ROUNDS if count else 0):
        seen = known.seen(unknowns(believed))
        inflation = np.maximum(inflation, known.distrust(seen))
        noise = ROUNDS * known.raised(inflation)
        # Dice of the piece's own, one set for each round, of which only these normal numbers are used.
        chance = dice(f"{known.of.seed}, round {round_}", MEMBERS).pit_reading[:count]
        perturbed = known.told_c[:, None] + np.linalg.cholesky(noise) @ chance
        shown = seen - seen.mean(axis=1, keepdims=True)
        departures = believed - believed.mean(axis=1, keepdims=True)
        needed = np.linalg.solve(shown @ shown.T / (MEMBERS - 1) + noise, perturbed - seen)
        believed = np.clip(believed + departures @ shown.T @ needed / (MEMBERS - 1), -FARTHEST, FARTHEST)
    return ahead(question, target_c, known, known.analysis(unknowns(believed), inflation), thrown)
