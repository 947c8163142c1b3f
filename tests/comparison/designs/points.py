"""Readings as the rivals of `tests.skill` take them: minutes since meat on and degrees Fahrenheit.

No forecast is made here.
"""

from __future__ import annotations

import datetime as dt

from scheduler.forecast import Question
from scheduler.units import f_from_c


def points_f(question: Question) -> tuple[tuple[float, float], ...]:
    """Return the core readings as (minute since meat on, °F)."""
    minute = dt.timedelta(minutes=1)
    return tuple(((one.at - question.on_at) / minute, f_from_c(one.value_c)) for one in question.readings)


def pit_f(question: Question) -> float:
    """Return the middle of the pit's band as of the last reading [°F]."""
    now = question.readings[-1].at if question.readings else question.on_at
    set_ = [event for event in question.pit if event.at <= now] or list(question.pit[:1])
    return f_from_c(0.5 * (set_[-1].low_c + set_[-1].high_c) if set_ else question.cut.pit_c.typical)
