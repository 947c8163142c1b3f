"""The axes of a chart: which instants and temperatures are marked, in even steps that people count in.

Values only; where a mark lies on the picture is decided in `bot.papers.chart_layout`.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable
from zoneinfo import ZoneInfo

from bot.messages import chart as words
from bot.messages.figures import Voice
from bot.papers.chart_values import Level, Tick
from scheduler.units import c_from_f, f_from_c

_STEPS_MIN = (15, 30, 60, 120, 180, 240, 360, 480, 720, 1440)
_MOST_TICKS = 6
"""Ticks that fit side by side with their words on a phone held upright."""

_STEPS_DEGREES = (2, 5, 10, 20, 25, 50, 100, 200)
_AIR = 0.04
"""Share of the range of temperatures that is left free above and below."""


def ticks(begin_at: dt.datetime, end_at: dt.datetime, dinner_at: dt.datetime, zone: str) -> tuple[Tick, ...]:
    """Return the marks of the axis from left to right, counted from dinner in the smallest even steps that fit."""
    minute = dt.timedelta(minutes=1)
    span_min = (end_at - begin_at) / minute
    step = next((s for s in _STEPS_MIN if span_min / s <= _MOST_TICKS), _STEPS_MIN[-1])
    first = math.floor((dinner_at - begin_at) / minute / step)
    last = -math.floor((end_at - dinner_at) / minute / step)
    found = []
    for count in range(first, last - 1, -1):
        at = dinner_at - count * step * minute
        clock = at.astimezone(ZoneInfo(zone)).strftime("%H:%M")
        found.append(Tick(at=at, hours=words.before(count * step), clock=clock))
    return tuple(found)


def span_of(values_c: Iterable[float]) -> tuple[float, float]:
    """Return the lowest and the highest temperature of an axis [°C], with a little air around all `values_c`."""
    known = list(values_c)
    low_c, high_c = min(known), max(known)
    air_c = max(1.0, _AIR * (high_c - low_c))
    return low_c - air_c, high_c + air_c


def levels(low_c: float, high_c: float, voice: Voice, most: int) -> tuple[Level, ...]:
    """Return the round temperatures between two [°C], in the unit of the room, at most so many."""
    low, high = (f_from_c(low_c), f_from_c(high_c)) if voice.unit == "F" else (low_c, high_c)
    step = next((s for s in _STEPS_DEGREES if (high - low) / s <= most), _STEPS_DEGREES[-1])
    first = math.ceil(low / step)
    found = [step * n for n in range(first, math.floor(high / step) + 1)]
    marked_c = [c_from_f(value) if voice.unit == "F" else float(value) for value in found]
    return tuple(Level(temp_c=temp_c, words=voice.temp(temp_c)) for temp_c in marked_c)
