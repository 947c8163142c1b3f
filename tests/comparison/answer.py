"""What a design answers: when a core temperature is reached, as quantiles and a sample.

It holds no design and no score.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Callable, Sequence

import numpy as np

from scheduler.forecast import Crossing, Question
from tests.skill.rivals import LONGEST_MIN

PROBABILITIES = (0.1, 0.25, 0.5, 0.75, 0.9)
SAMPLE = 101
"""Odd, so that the middle of a sample spread about one number is that number."""
STRATA = tuple((place + 0.5) / SAMPLE for place in range(SAMPLE))


@dataclasses.dataclass(frozen=True, kw_only=True)
class Answer:
    """Minutes since meat on: the quantiles at `PROBABILITIES`, and a sample of about a hundred in ascending order.

    Times beyond the horizon are `LONGEST_MIN`.
    """

    quantiles: tuple[float, ...]
    sample: tuple[float, ...]

    def at(self, p: float) -> float:
        """Return a quantile of the sample."""
        return float(np.quantile(self.sample, p))


Design = Callable[[Question, float], Answer]
"""Takes a question and a core temperature [°C], returns when it is reached."""


def from_sample(minutes: Sequence[float]) -> Answer:
    """Return the answer that a sample of times [min since meat on] makes, in any order."""
    sample = np.sort(np.minimum(np.nan_to_num(np.asarray(minutes, dtype=float), nan=LONGEST_MIN), LONGEST_MIN))
    quantiles = np.quantile(sample, PROBABILITIES)
    return Answer(quantiles=tuple(quantiles.tolist()), sample=tuple(sample.tolist()))


def from_crossing(crossing: Crossing, on_at: dt.datetime) -> Answer:
    """Return the answer that a crossing of the engine makes."""

    def at(p: float) -> float:
        when = crossing.quantile(p)
        return LONGEST_MIN if when is None else min(LONGEST_MIN, (when - on_at) / dt.timedelta(minutes=1))

    return Answer(quantiles=tuple(at(p) for p in PROBABILITIES), sample=tuple(at(p) for p in STRATA))
