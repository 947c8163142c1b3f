"""The forecast model: physics of one dimension, taught by readings.

It puts the parts together; equations are in `scheduler.thermal`, learning in `scheduler.forecast.assimilate`.
"""

from __future__ import annotations

import functools

from scheduler.forecast import anchors, ensemble, fit
from scheduler.forecast.ensemble import Runs
from scheduler.forecast.inputs import Inputs, inputs
from scheduler.forecast.interface import Question
from scheduler.forecast.outlook import Outlook


def forecast(question: Question) -> Outlook:
    """Return the forecast for a piece; the same question gives the same answer bit for bit.

    Without readings it is what is known of the cut, and does not depend on when the meat goes on. Answers are kept, so
    that planning may ask again and again: a question that was asked before costs microseconds.
    """
    runs, dose_h = _remembered(inputs(question))
    return Outlook(cook=question.cook, piece=question.piece, on_at=question.on_at, runs=runs, dose_h=dose_h)


@functools.lru_cache(maxsize=24)
def _remembered(of: Inputs) -> tuple[Runs, float]:
    known = fit.of_cut(of.cut)
    return ensemble.runs(of, known.anchor, anchors.MEMBERS), known.dose_h


def forget() -> None:
    """Forget all kept answers; the next question is computed afresh, to the same answer."""
    _remembered.cache_clear()
