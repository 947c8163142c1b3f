"""A pit on its way up: from the lighting time and a few readings, when it reaches a temperature.

It knows the air in the cooker only, not the meat and not the fuel; who closes the vents is told by others.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from scheduler.facts import CookerKind
from scheduler.forecast.interface import Crossing, Observation

Array = NDArray[np.float64]

CLOSING_C = (14.0, 11.0)
"""Vents begin to close this far before the set point, at the earliest and at the latest [°C]; common practice, no
source."""

HORIZON = dt.timedelta(hours=5)
"""Nothing is said of a pit that has not come up by then."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Warming:
    """How a kind of cooker warms with its vents open: medians [°C, min] and the spread of each logarithm.

    The charcoal catches (`delay_min`, then in `catch_min` to its full heat), the walls follow in `walls_min` toward
    `open_c`.
    """

    open_c: float
    walls_min: float
    catch_min: float = 10.0
    delay_min: float = 10.0
    open_spread: float = 0.5
    walls_spread: float = 0.6
    catch_spread: float = 0.8
    delay_spread: float = 0.6


WARMING: dict[CookerKind, Warming] = {
    CookerKind.CERAMIC: Warming(open_c=320.0, walls_min=40.0, catch_min=13.0),
    CookerKind.KETTLE: Warming(open_c=270.0, walls_min=14.0),
    CookerKind.OFFSET: Warming(open_c=240.0, walls_min=28.0, catch_min=13.0),
    CookerKind.DRUM: Warming(open_c=250.0, walls_min=18.0),
    CookerKind.CABINET: Warming(open_c=320.0, walls_min=30.0, catch_min=13.0),
}
"""Own choice, begun so that 120 C comes 25 to 40 min after lighting in a kettle or a drum and 40 to 70 in the others
(common practice, no source), then widened, and the cabinet made stronger, until the intervals held on simulated
evenings other than the committed ones."""

_START_C = 15.0
_WANDER_C, _WANDER_MIN = 9.0, 20.0
"""What the model leaves out, as a smooth departure: standard deviation [°C] and correlation time [min]; own choice."""
_READING_C = 1.5
"""Standard deviation of one reading of a pit on its way up [°C]: own choice."""
_NODES = (5, 6, 4, 5)
"""Equally likely values of final heat, walls, catching and delay."""
_LEAST_ABOVE_C = 40.0
"""With open vents a fire would carry the pit at least about so far past its set point: else nobody closed any."""
_WEAK, _WEAK_WEIGHT = (0.3,), 0.02
"""A fire that hardly burns: its pit stays at this share of the way to the set point; one in fifty times a good one."""
_OVERSHOOT_C = 6.0
_GRID_MIN = 1.0


def reaches(
    target_c: float,
    *,
    lit_at: dt.datetime,
    readings: tuple[Observation, ...] = (),
    kind: CookerKind | None = None,
    set_c: float,
) -> Crossing:
    """Return when a pit that was lit at `lit_at` and stands open passes `target_c` [°C].

    Parameters
    ----------
    readings
        Pit temperatures since lighting [°C]; two or three make the answer sharp, none leaves what is usual.
    kind
        The kind of cooker; None mixes all kinds.
    set_c
        Set point [°C]; vents are taken to close from 12.5 C before it on, and the pit to level off a little above.

    Notes
    -----
    First-order warming of the walls behind a fire that catches in first order after a delay, on a grid of
    parameters, each weighted by how well it explains the readings (Bayes' rule). What the model leaves out is a
    smooth Gaussian departure (Matern 3/2), conditioned on the readings for each set of parameters. No chance in it.
    """
    belief = _belief(lit_at, readings, kind, set_c)
    above = belief.weights @ _normal((belief.middle - target_c) / np.sqrt(np.maximum(belief.variance, 0.25)))
    return _Rising(lit_at=lit_at, minutes=belief.minutes, chance=np.maximum.accumulate(above))


def stands_at(
    when: dt.datetime,
    *,
    lit_at: dt.datetime,
    readings: tuple[Observation, ...] = (),
    kind: CookerKind | None = None,
    set_c: float,
) -> float:
    """Return how hot a pit that was lit at `lit_at` likely is at an instant [°C]; arguments as of `reaches`."""
    belief = _belief(lit_at, readings, kind, set_c)
    likely = belief.weights @ belief.middle
    return float(np.interp((when - lit_at) / dt.timedelta(minutes=1), belief.minutes, likely))


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Belief:
    """Paths (m, t) [°C] with the weight of each (m), and the variance around them by minute (t) [K²]."""

    minutes: Array
    middle: Array
    variance: Array
    weights: Array


def _belief(lit_at: dt.datetime, readings: tuple[Observation, ...], kind: CookerKind | None, set_c: float) -> _Belief:
    """Return how a pit may rise after lighting, weighted by its readings."""
    minutes = np.arange(0.0, HORIZON / dt.timedelta(minutes=1) + _GRID_MIN / 2, _GRID_MIN)
    kinds = tuple(WARMING) if kind is None else (kind,)
    grid = np.concatenate([_grid(WARMING[one], set_c) for one in kinds])
    before = np.where(grid[:, 0] < set_c, _WEAK_WEIGHT, 1.0)
    seen = [(r, (r.at - lit_at) / dt.timedelta(minutes=1)) for r in readings if lit_at <= r.at <= lit_at + HORIZON]
    at = np.array([minute for _, minute in seen])
    told = np.array([r.value_c for r, _ in seen])
    noise = np.array([_READING_C**2 + r.spread_c**2 for r, _ in seen])
    middle = _paths_c(grid, minutes, set_c)
    variance = np.full(len(minutes), _WANDER_C**2)
    weights = before / before.sum()
    if len(at):
        off = told - _paths_c(grid, at, set_c)
        inverse = np.linalg.inv(_alike(at, at) + np.diag(noise))
        across = _alike(minutes, at)
        middle += off @ inverse @ across.T
        variance -= np.einsum("ti,ij,tj->t", across, inverse, across)
        fits = -0.5 * np.einsum("mi,ij,mj->m", off, inverse, off)
        weights = before * np.exp(fits - fits.max())
        weights /= weights.sum()
    return _Belief(minutes=minutes, middle=middle, variance=variance, weights=weights)


def closing(set_c: float) -> tuple[float, float]:
    """Return the pit temperatures between which the vents begin to close [°C]."""
    early, late = CLOSING_C
    return set_c - early, set_c - late


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Rising:
    """Chance of having passed the target by each minute since lighting."""

    lit_at: dt.datetime
    minutes: Array
    chance: Array

    def quantile(self, p: float) -> dt.datetime | None:
        place = int(np.searchsorted(self.chance, p))
        if place >= len(self.chance):
            return None
        if place == 0:
            return self.lit_at
        low, high = float(self.chance[place - 1]), float(self.chance[place])
        minute = self.minutes[place - 1] + _GRID_MIN * (p - low) / max(high - low, 1e-12)
        return self.lit_at + dt.timedelta(minutes=float(minute))

    def probability_by(self, when: dt.datetime) -> float:
        minute = (when - self.lit_at) / dt.timedelta(minutes=1)
        return float(np.interp(minute, self.minutes, self.chance, left=0.0))


def _grid(usual: Warming, set_c: float) -> Array:
    """Return parameters (m, 4): open heat [°C], walls, catching, delay [min]."""
    above_c = max(usual.open_c - set_c, _LEAST_ABOVE_C)
    axes = (
        [
            *(_START_C + share * (set_c - _START_C) for share in _WEAK),
            *(set_c + above_c * step for step in _steps(usual.open_spread, _NODES[0])),
        ],
        [usual.walls_min * step for step in _steps(usual.walls_spread, _NODES[1])],
        [usual.catch_min * step for step in _steps(usual.catch_spread, _NODES[2])],
        [usual.delay_min * step for step in _steps(usual.delay_spread, _NODES[3])],
    )
    return np.array(list(itertools.product(*axes)))


def _steps(spread: float, count: int) -> list[float]:
    normal = NormalDist()
    return [float(np.exp(spread * normal.inv_cdf((n + 0.5) / count))) for n in range(count)]


def _paths_c(grid: Array, minutes: Array, set_c: float) -> Array:
    """Return the pit for each set of parameters at each minute since lighting (m, t) [°C]."""
    open_c, walls, catch, delay = (column[:, None] for column in grid.T)
    walls = np.where(np.abs(walls - catch) < 0.05 * catch, 1.05 * catch, walls)
    since = np.maximum(minutes - delay, 0.0)
    left = (walls * np.exp(-since / walls) - catch * np.exp(-since / catch)) / (walls - catch)
    free = _START_C + (open_c - _START_C) * (1.0 - left)
    # From the closing on it levels off, with the slope that it had: the first-order approach to a little above.
    begins_c = set_c - sum(CLOSING_C) / 2
    room_c = set_c + _OVERSHOOT_C - begins_c
    past = np.maximum(free - begins_c, 0.0)
    path: Array = np.minimum(free, begins_c) + room_c * (1.0 - np.exp(-past / room_c))
    return path


def _alike(first: Array, second: Array) -> Array:
    """Return the covariance of the departures at two sets of minutes [K²] (Matern 3/2)."""
    apart = np.sqrt(3.0) * np.abs(first[:, None] - second) / _WANDER_MIN
    found: Array = _WANDER_C**2 * (1.0 + apart) * np.exp(-apart)
    return found


def _normal(values: Array) -> Array:
    """Return the standard normal distribution function, to 4e-4 (Page 1977, from memory)."""
    inner = np.clip(values, -8.0, 8.0)
    found: Array = 0.5 * (1.0 + np.tanh(np.sqrt(2.0 / np.pi) * (inner + 0.044715 * inner**3)))
    return found
