"""When the meat is read next: usually in the step's rhythm, later when a reading would tell nothing before that.

Pure. It only ever puts the plain reading of the meat later, never a step of safety and never one that somebody asked
for.
"""

from __future__ import annotations

import datetime as dt
import functools

from scheduler.cuts import Cut
from scheduler.forecast import Forecast
from scheduler.planning.outlook import Outlook, after_pull
from scheduler.state import CookState

NARROWS = dt.timedelta(minutes=15)
"""A reading that makes the 80 % window of the pull this much narrower is worth a walk: house rule."""

TURNS = 0.1
"""... as is one that may turn the verdict on dinner with this probability: house rule."""

LATER = dt.timedelta(minutes=60)
"""A reading is put off by so much at most: with the rhythm of an hour the meat is seen every two hours."""

LAST_HOUR = dt.timedelta(hours=1)
"""For so long before the earliest pull, and from the first feel on, nothing is put off."""

_STEP, _BY_HAND = dt.timedelta(minutes=15), dt.timedelta(minutes=30)


def worth_reading_at(usual_at: dt.datetime, state: CookState, outlook: Outlook, cut: Cut) -> dt.datetime:
    """Return when the meat is to be read: at its usual time when that tells something, else at the first quarter of an
    hour later that does, within the hour.

    What was told since the usual time has changed the forecast: it is judged from then on, never in hindsight.
    """
    early, testing = outlook.pull.early, outlook.crossing(cut.start_testing_c).quantile(0.1)
    if early is None or testing is None:
        return usual_at
    latest = min(usual_at + LATER, early - LAST_HOUR, testing)
    by = None if outlook.serve_end is None else outlook.serve_end - after_pull(cut)
    at = max(usual_at, min(state.heard_at, latest))
    while at < latest and not _tells(outlook.forecast, at, by):  # type: ignore[arg-type]  # a forecast has its identity
        at = min(at + _STEP, latest)
    return at


def decides_at(usual_at: dt.datetime, state: CookState, outlook: Outlook, cut: Cut) -> dt.datetime | None:
    """Return when a number that costs an open lid may turn the verdict on dinner, None when none will.

    For people who read by hand: a narrower window alone is not worth the heat. The looks at the bark and the feel for
    tenderness open the cooker anyway and are not counted here; from the feel on they bring the number.
    """
    early, testing = outlook.pull.early, outlook.crossing(cut.start_testing_c).quantile(0.5)
    if early is None or testing is None or outlook.serve_end is None:
        return None
    by, latest = outlook.serve_end - after_pull(cut), min(early, testing)
    at = max(usual_at, state.heard_at)
    while at < latest:
        if _turns(outlook.forecast, at, by):  # type: ignore[arg-type]  # a forecast has its identity
            return at
        at += _BY_HAND
    return None


@functools.lru_cache(maxsize=256)
def _turns(forecast: Forecast, at: dt.datetime, by: dt.datetime) -> bool:
    """Return whether a reading then may turn the verdict on dinner."""
    return forecast.worth_reading(at, by=by).turns >= TURNS


@functools.lru_cache(maxsize=256)
def _tells(forecast: Forecast, at: dt.datetime, by: dt.datetime | None) -> bool:
    """Return whether a reading then is worth a walk; one decision asks the same several times."""
    worth = forecast.worth_reading(at, by=by)
    return worth.narrows >= NARROWS or worth.turns >= TURNS
