"""How far off the forecasts of a log were: when it reached a target, and what was said of that on the way.

It only compares; nothing is forecast here.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from bot.backtest.replay import Asked
from scheduler.units import c_from_f

SHARES = (25, 50, 75)
"""Stages by the share of the rise from the first reading to the target [%]."""
MARKS_F = (150, 165, 180)
"""Stages by the core first passing a temperature [°F]."""
FALLS_BACK_C = 5.0
"""A reading over the target with the next one so far below it was a slip [K]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Reached:
    """When the core passed the target: minute between the readings `before` (None: none below it) and `after`."""

    minute: float
    before: float | None
    after: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Stage:
    """What was said at a stage: `percent` of the rise done, or the core past `mark_f`. An error of plus is too late."""

    asked: Asked
    percent: int | None = None
    mark_f: int | None = None
    error_min: float | None
    inside: bool


def when_reached(cook: Sequence[Asked], target_c: float, place: int) -> Reached | None:
    """Return when the core first passed the target, on a straight line between two readings; None when it never did.

    The lines join the readings that were higher than all before them. Where the last forecast knows the crossing of
    target number `place`, it is that one: then no reading is counted here that the forecast does not trust.
    """
    risen: list[Asked] = []
    for number, now in enumerate(cook):
        after_c = cook[number + 1].core_c if number + 1 < len(cook) else now.core_c
        slip = after_c < now.core_c - FALLS_BACK_C and after_c < target_c - FALLS_BACK_C
        if slip or (risen and now.core_c <= risen[-1].core_c):
            continue
        if now.core_c >= target_c:
            return _crossed(cook, risen[-1] if risen else None, now, target_c, place)
        risen.append(now)
    return None


def _crossed(cook: Sequence[Asked], last: Asked | None, now: Asked, target_c: float, place: int) -> Reached:
    """Return the crossing between the last reading below the target (None: there is none) and the first above it."""
    if last is None:
        return Reached(minute=now.minute, before=None, after=now.minute)
    share = (target_c - last.core_c) / (now.core_c - last.core_c)
    minute = last.minute + share * (now.minute - last.minute)
    end = cook[-1]
    answer = end.answers[place]
    if answer.p50 is None or not answer.p10 == answer.p50 == answer.p90 or answer.p50 > end.minute:
        return Reached(minute=minute, before=last.minute, after=now.minute)
    before = [one.minute for one in cook if one.minute <= answer.p50]
    after = [one.minute for one in cook if one.minute >= answer.p50]
    inside = last.minute <= answer.p50 <= now.minute
    return Reached(
        minute=answer.p50, before=last.minute if inside else before[-1], after=now.minute if inside else after[0]
    )


def stages(cook: Sequence[Asked], reached: Reached, target_c: float, place: int) -> tuple[Stage, ...]:
    """Return what was said of target number `place` at each stage that came before it was reached, in time order."""
    first_c = cook[0].core_c
    marks: list[tuple[int | None, int | None, float]]
    marks = [(percent, None, first_c + percent / 100 * (target_c - first_c)) for percent in SHARES]
    marks += [(None, mark_f, c_from_f(mark_f)) for mark_f in MARKS_F if first_c < c_from_f(mark_f) < target_c]
    found = []
    for percent, mark_f, mark_c in marks:
        asked = next((one for one in cook if one.core_c >= mark_c and one.minute < reached.after), None)
        if asked is not None:
            answer = asked.answers[place]
            found.append(
                Stage(
                    asked=asked,
                    percent=percent,
                    mark_f=mark_f,
                    error_min=None if answer.p50 is None else answer.p50 - reached.minute,
                    inside=answer.p10 is not None
                    and answer.p10 <= reached.minute
                    and (answer.p90 is None or reached.minute <= answer.p90),
                )
            )
    return tuple(sorted(found, key=lambda stage: stage.asked.minute))
