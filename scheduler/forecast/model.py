"""The first forecast model: physics of one dimension, taught by readings.

It puts the parts together; equations are in `scheduler.thermal`, learning in `scheduler.forecast.assimilate`.
"""

from __future__ import annotations

import functools

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast import anchors, ensemble, fit
from scheduler.forecast.inputs import Inputs, inputs
from scheduler.forecast.interface import Question
from scheduler.forecast.outlook import Outlook, Paths

Array = NDArray[np.float64]


def forecast(question: Question) -> Outlook:
    """Return the forecast for a piece; the same question gives the same answer bit for bit.

    Without readings it is what is known of the cut, and does not depend on when the meat goes on. Answers are kept, so
    that planning may ask again and again: a question that was asked before costs microseconds.
    """
    paths, memo = _remembered(inputs(question))
    return Outlook(cook=question.cook, piece=question.piece, on_at=question.on_at, paths=paths, memo=memo)


@functools.lru_cache(maxsize=24)
def _remembered(of: Inputs) -> tuple[Paths, dict[str, Array]]:
    return ensemble.paths(of, fit.anchor(of.cut), anchors.MEMBERS), {}


def forget() -> None:
    """Forget all kept answers; the next question is computed afresh, to the same answer."""
    _remembered.cache_clear()
