"""The air around food that is out: whether it was hot at any time of an interval, and how long food may be out in it.

What was told counts from when it was so: cooler air told later shortens nothing that has passed.
"""

from __future__ import annotations

import datetime as dt

from scheduler.facts import AirTold, Edition
from scheduler.safety.limits import HOT_AIR, OUT, OUT_HOT
from scheduler.state import CookState


def is_hot(air: AirTold) -> bool:
    """Return whether air is above 32.2 C (90 F), by number or by the word hot; untold air is not."""
    if air.temp_c is not None:
        return round(air.temp_c, 1) > HOT_AIR.under(Edition.CONSUMER).c
    return air.word == "hot"


def hot_between(state: CookState, since: dt.datetime, until: dt.datetime) -> bool:
    """Return whether the air was hot at any time of an interval: as told last before it, or told during it."""
    before = [air for at, air in state.airs if at <= since][-1:]
    return any(is_hot(air) for air in (*before, *(air for at, air in state.airs if since < at <= until)))


def out_span(state: CookState, since: dt.datetime, until: dt.datetime) -> dt.timedelta:
    """Return how long food that is out from one instant to another may be: two hours, one where the air was hot.

    The four hours of the Food Code count only for food that was read hot enough as it came out
    (`scheduler.safety.off`).
    """
    limit = OUT_HOT if hot_between(state, since, until) else OUT
    return dt.timedelta(minutes=limit.under(Edition.CONSUMER).value)
