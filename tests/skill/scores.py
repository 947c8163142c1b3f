"""Scores of foretold times: error, coverage with its binomial band, CRPS. Pure arithmetic."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence

import numpy as np

LEVELS = tuple((place + 0.5) / 20 for place in range(20))
"""Probabilities at which a distribution is asked for its quantiles: CRPS is their mean pinball loss, doubled."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Foretold:
    """A foretold time against what came, in minutes since meat on. Quantiles at `LEVELS`."""

    truth: float
    median: float
    low_80: float
    high_80: float
    low_50: float
    high_50: float
    quantiles: tuple[float, ...]

    @property
    def error(self) -> float:
        """How far the median was off [min]."""
        return abs(self.median - self.truth)

    @property
    def in_80(self) -> bool:
        """True when the 80 % interval held the truth."""
        return self.low_80 <= self.truth <= self.high_80

    @property
    def in_50(self) -> bool:
        """True when the 50 % interval held the truth."""
        return self.low_50 <= self.truth <= self.high_50

    @property
    def crps(self) -> float:
        """Continuous ranked probability score [min], from twenty quantiles."""
        return crps(self.quantiles, self.truth)


def crps(quantiles: Sequence[float], truth: float) -> float:
    """Return the continuous ranked probability score from quantiles at `LEVELS`, in the unit of the truth."""
    off = truth - np.asarray(quantiles)
    levels = np.asarray(LEVELS)
    return float(2 * np.mean(np.maximum(levels * off, (levels - 1) * off)))


def band(share: float, count: int) -> tuple[float, float]:
    """Return between which shares 95 % of samples of so many independent trials lie (exact binomial, central)."""
    cumulative, low, high = 0.0, None, 1.0
    for hits in range(count + 1):
        cumulative += math.comb(count, hits) * share**hits * (1 - share) ** (count - hits)
        if low is None and cumulative > 0.025:
            low = hits / count
        if cumulative >= 0.975:
            high = hits / count
            break
    return low or 0.0, high


def middle(values: Sequence[float]) -> float:
    """Return the median, NaN of nothing."""
    return float(np.median(values)) if values else math.nan
