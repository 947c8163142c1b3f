"""The engine as it is: an ensemble smoother with multiple data assimilation in square-root form, 120 members.

It adds nothing to what `scheduler.forecast` says.
"""

from __future__ import annotations

from scheduler.forecast import Question, forecast
from tests.comparison.answer import Answer, from_crossing


def predict(question: Question, target_c: float) -> Answer:
    """Return when the core passes a target [°C]."""
    return from_crossing(forecast(question).crossing(target_c), question.on_at)
