"""The most probable piece by Gauss-Newton on the engine's physics, and a Laplace sample about it.

Sensitivities are finite differences: all perturbed pieces are columns of one run. The pit's slow path and bias are
learned too, along the few directions in which they can move.
"""

from __future__ import annotations

import dataclasses

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import Question, anchors, pit
from scheduler.forecast.draws import PARAMETERS, Dice, dice
from tests.comparison.ahead import ahead
from tests.comparison.answer import Answer
from tests.comparison.past import FARTHEST, Past, Unknowns, past

Array = NDArray[np.float64]

MEMBERS = 120
ROUNDS = 8
_DIFFERENCE = 0.1
_SETTLED = 0.03
_LEAST_SHARE = 0.005
_BIAS = 9
_OTHERS = [index for index in range(PARAMETERS) if index != _BIAS]


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Space:
    """The unknowns as one vector x, standard normal before any core reading: eleven parameters, the hourly slow factors
    on heat and vapour, and `along` (directions, n), the directions in which pit path and bias vary over the members.

    `path` (80, directions) and `bias` (directions,) say how the pit moves with one unit along each.
    """

    known: Past
    thrown: Dice
    pit_path: Array
    pit_bias: Array
    along: Array
    path: Array
    bias: Array

    @property
    def prior(self) -> Array:
        """Return the members before any core reading (d, n)."""
        knots = self.known.knots
        thrown = self.thrown
        return np.concatenate((thrown.parameters[_OTHERS], thrown.heat[:knots], thrown.vapour[:knots], self.along))

    def unknowns(self, x: Array, thrown: Dice | None) -> Unknowns:
        """Return what columns x (d, n) mean. With dice, the i-th column takes all that x says nothing of from the i-th
        member; without, from the median.
        """
        knots, count = self.known.knots, x.shape[1]
        pit_x = x[-len(self.along) :]
        parameters = np.empty((PARAMETERS, count))
        parameters[_OTHERS] = x[: PARAMETERS - 1]
        heat = x[PARAMETERS - 1 : PARAMETERS - 1 + knots]
        vapour = x[PARAMETERS - 1 + knots : PARAMETERS - 1 + 2 * knots]
        if thrown is None:
            parameters[_BIAS] = self.pit_bias.mean() + self.bias @ pit_x
            pit_path = self.pit_path[:knots].mean(axis=1, keepdims=True) + self.path[:knots] @ pit_x
            return Unknowns(parameters=parameters, heat=heat, vapour=vapour, pit_path=pit_path)
        parameters[_BIAS] = self.pit_bias + self.bias @ (pit_x - self.along)
        return Unknowns(
            parameters=parameters,
            heat=np.concatenate((heat, thrown.heat[knots:])),
            vapour=np.concatenate((vapour, thrown.vapour[knots:])),
            pit_path=self.pit_path + self.path @ (pit_x - self.along),
        )

    def linear(self, x: Array) -> tuple[Array, Array]:
        """Return what x (d,) foretells of the readings (k,) [°C] and how that answers to each unknown (k, d)."""
        columns = np.concatenate((np.zeros((len(x), 1)), _DIFFERENCE * np.eye(len(x))), axis=1) + x[:, None]
        seen = self.known.seen(self.unknowns(columns, None))
        return seen[:, 0], (seen[:, 1:] - seen[:, :1]) / _DIFFERENCE


def predict(question: Question, target_c: float) -> Answer:
    """Return when the core passes a target [°C]."""
    known = past(question)
    thrown = dice(known.of.seed, MEMBERS)
    space = space_of(known, thrown)
    if not len(known.told_c):
        return ahead(question, target_c, known, known.analysis(space.unknowns(space.prior, thrown), np.ones(0)), thrown)
    best, slope, inflation = most_probable(space)
    # Laplace: the inverse of I + J^T R^-1 J is the covariance; its symmetric root turns the prior's members.
    values, vectors = np.linalg.eigh(np.eye(len(best)) + slope.T @ np.linalg.solve(known.raised(inflation), slope))
    departures = vectors @ ((vectors.T @ space.prior) / np.sqrt(values)[:, None])
    sample = np.clip(best[:, None] + departures, -FARTHEST, FARTHEST)
    return ahead(question, target_c, known, known.analysis(space.unknowns(sample, thrown), inflation), thrown)


def most_probable(space: Space) -> tuple[Array, Array, Array]:
    """Return the most probable x (d,), the sensitivities there (k, d) and the inflation of each reading (k,).

    Each round goes to the minimum of the linearised problem; a step that made things worse is halved.
    """
    known = space.known
    inflation = known.distrust(known.seen(space.unknowns(space.prior, space.thrown)))
    x = np.zeros(len(space.prior))
    best, best_seen, best_slope = x, *space.linear(x)
    for round_ in range(ROUNDS):
        seen, slope = (best_seen, best_slope) if round_ == 0 else space.linear(x)
        if round_ > 0:
            inflation = known.distrust(_as_members(x, seen, slope))
        noise = known.raised(inflation)
        if misfit(known, noise, x, seen) > misfit(known, noise, best, best_seen):
            x = 0.5 * (x + best)
            continue
        best, best_seen, best_slope = x, seen, slope
        wanted = slope.T @ np.linalg.solve(slope @ slope.T + noise, known.told_c - seen + slope @ x)
        x = np.clip(wanted, -FARTHEST, FARTHEST)
        if float(np.abs(x - best).max()) < _SETTLED:
            break
    return best, best_slope, inflation


def misfit(known: Past, noise: Array, x: Array, seen: Array) -> float:
    """Return twice the negative logarithm of the posterior density of x (d,), but for a constant."""
    off = known.told_c - seen
    return float(x @ x + off @ np.linalg.solve(noise, off))


def _as_members(x: Array, seen: Array, slope: Array) -> Array:
    """Return pairs of columns with the mean and covariance that the linearised prior gives the readings (k, 2 d)."""
    size = np.sqrt(len(x) - 0.5)
    middle = (seen - slope @ x)[:, None]
    return np.concatenate((middle + size * slope, middle - size * slope), axis=1)


def space_of(known: Past, thrown: Dice) -> Space:
    """Return the unknowns, with the directions of the pit found from its members (principal components)."""
    pit_path, bias = pit.paths(known.of, thrown)
    rows = np.concatenate((pit_path[: known.knots], anchors.PIT_BIAS_C.spread * bias[None]))
    off = rows - rows.mean(axis=1, keepdims=True)
    _, strength, right = np.linalg.svd(off, full_matrices=False)
    kept = strength**2 > _LEAST_SHARE * np.sum(strength**2)
    along = np.sqrt(MEMBERS) * right[kept]
    path_off = pit_path - pit_path.mean(axis=1, keepdims=True)
    return Space(
        known=known,
        thrown=thrown,
        pit_path=pit_path,
        pit_bias=bias,
        along=along,
        path=path_off @ along.T / MEMBERS,
        bias=along @ (bias - bias.mean()) / MEMBERS,
    )
