"""The engine as it is: an ensemble smoother with multiple data assimilation in square-root form, 120 members.

It adds nothing to what `scheduler.forecast` says; `variant` asks the same engine with other members or other dice. The
dice are made free of chance correlation, which takes more members than the 58 numbers that are so treated.
"""

from __future__ import annotations

import dataclasses

import numpy as np

from scheduler.forecast import Question, anchors, ensemble, fit, forecast, timing
from scheduler.forecast.inputs import inputs
from scheduler.forecast.passing import passing
from tests.comparison.answer import Answer, Design, from_crossing


def predict(question: Question, target_c: float) -> Answer:
    """Return when the core passes a target [°C]."""
    return from_crossing(forecast(question).crossing(target_c), question.on_at)


def variant(members: int = anchors.MEMBERS, dice: str = "") -> Design:
    """Return the engine with so many members, and with the dice of a piece whose name is longer by `dice`."""

    def varied(question: Question, target_c: float) -> Answer:
        of = inputs(question)
        of = dataclasses.replace(of, seed=of.seed + dice)
        runs = ensemble.runs(of, fit.of_cut(of.cut).anchor, members)
        weights = np.repeat([choice.weight / members for choice in runs.choices], members)
        times_s = timing.crossing_s(runs, np.full(len(weights), target_c))
        return from_crossing(passing(question.on_at, times_s, weights), question.on_at)

    return varied
