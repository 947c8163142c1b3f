"""Advice: what can still be done about a cook that runs late or early, each with its effect run through the engine.

Pure; it proposes, people decide. Nothing unsafe is ever among the options, and half-cooked meat is never paused.
"""

from scheduler.planning.advice.advise import Advice, Option, advise, option_of
from scheduler.planning.advice.moment import Lean, Moment, lean_of, moment
from scheduler.planning.advice.pausing import NotPaused, not_paused
from scheduler.planning.advice.problems import Cost, cost_of
from scheduler.planning.advice.standing import Standing

__all__ = [
    "Advice",
    "Cost",
    "Lean",
    "Moment",
    "NotPaused",
    "Option",
    "Standing",
    "advise",
    "cost_of",
    "lean_of",
    "moment",
    "not_paused",
    "option_of",
]
