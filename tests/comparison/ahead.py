"""From what was learned to an answer: the engine's own run to the horizon, with its wraps to come, nudge and blur.

All designs that share the engine's physics end here, so that they differ in learning alone.
"""

from __future__ import annotations

import numpy as np

from scheduler.forecast import course, fit, simulate
from scheduler.forecast.assimilate import Analysis
from scheduler.forecast.draws import Dice
from scheduler.forecast.ensemble import Runs, _choices, _nudged, _passed, _planned
from scheduler.forecast.interface import Question
from scheduler.forecast.outlook import Outlook
from tests.comparison.answer import Answer, from_crossing
from tests.comparison.past import Past


def ahead(question: Question, target_c: float, known: Past, analysis: Analysis, thrown: Dice) -> Answer:
    """Return when the members of an analysis pass a target [°C]; `thrown` are dice for as many members."""
    of, model = known.of, known.model
    choices = _choices(of, analysis, thrown)
    many = analysis.pieces.repeated(len(choices))
    times_s = course.future_times(model.body, model.meat.diffusivity_m2_s, of.last_s)
    span = course.span(times_s, of, many, np.tile(analysis.pit_path, (1, len(choices))))
    planned = _planned(of, analysis, thrown, choices)
    _, future_c = simulate.run(many, analysis.now.repeated(len(choices)), span, planned)
    runs = Runs(
        of=of, model=model, dice=thrown, analysis=analysis, choices=choices,
        future_s=times_s, future_c=_nudged(future_c, of, analysis), passed=_passed(of, analysis),
    )  # fmt: skip
    return from_runs(question, target_c, runs)


def from_runs(question: Question, target_c: float, runs: Runs) -> Answer:
    """Return what the engine reads off runs: when the members pass a target [°C], blurred by what no model knows."""
    outlook = Outlook(
        cook=question.cook,
        piece=question.piece,
        on_at=question.on_at,
        runs=runs,
        dose_h=fit.of_cut(question.cut).dose_h,
    )
    return from_crossing(outlook.crossing(target_c), question.on_at)
