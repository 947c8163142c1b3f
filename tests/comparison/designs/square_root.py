"""The engine as it is: an ensemble smoother with multiple data assimilation in square-root form, 120 members.

It adds nothing to what `scheduler.forecast` says; `variant` asks the same engine with more or fewer members. The dice
are made free of chance correlation, which takes more members than the fifty-odd numbers that are so treated.
"""

from __future__ import annotations

from scheduler.forecast import Question, anchors, ensemble, fit, forecast
from scheduler.forecast.inputs import inputs
from tests.comparison.ahead import from_runs
from tests.comparison.answer import Answer, Design, from_crossing


def predict(question: Question, target_c: float) -> Answer:
    """Return when the core passes a target [°C]."""
    return from_crossing(forecast(question).crossing(target_c), question.on_at)


def variant(members: int = anchors.MEMBERS) -> Design:
    """Return the engine with so many members."""

    def varied(question: Question, target_c: float) -> Answer:
        anchor = fit.of_cut(question.cut).anchor
        return from_runs(question, target_c, ensemble.runs(inputs(question), anchor, members))

    return varied
