"""Where dinner stands under a changed question: the pull and the chance of being on time, as the engine computes them.

It asks the forecast and changes nothing.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.forecast import Crossing, Question
from scheduler.planning.advice.moment import Moment
from scheduler.planning.asking import Window, known
from scheduler.planning.backward import after_pull
from scheduler.state import Stage


@dataclasses.dataclass(frozen=True, kw_only=True)
class Standing:
    """The pull, and the chance (0 to 1) of eating on time; None when no time is fixed."""

    pull: Window
    chance: float | None


def as_it_is(at: Moment) -> Standing:
    """Return where it stands if nothing is changed."""
    return Standing(pull=at.outlook.pull, chance=at.outlook.chance)


def under(at: Moment, question: Question) -> Standing:
    """Return where it stands under another question about the piece."""
    ready = known(question).ready()
    return Standing(pull=_window(at, ready), chance=_chance(at, ready, after_pull(at.cut)))


def pulled_at(at: Moment, crossing: Crossing) -> Standing:
    """Return where it stands if it is pulled when something else than readiness comes."""
    return Standing(pull=_window(at, crossing), chance=_chance(at, crossing, after_pull(at.cut)))


def with_dinner(at: Moment, later: dt.timedelta) -> Standing:
    """Return where it stands if people eat so much later."""
    return Standing(pull=at.outlook.pull, chance=_chance(at, at.outlook.forecast.ready(), after_pull(at.cut) - later))


def with_rest(at: Moment, span: dt.timedelta) -> Standing:
    """Return where it stands if so much passes between pull and plate."""
    return Standing(pull=at.outlook.pull, chance=_chance(at, at.outlook.forecast.ready(), span))


def _window(at: Moment, ready: Crossing) -> Window:
    on_the_fire = at.state.stage is Stage.COOKING
    early, likely, late = (
        t if t is None or not on_the_fire else max(t, at.now)
        for t in (ready.quantile(0.1), ready.quantile(0.5), ready.quantile(0.9))
    )
    return Window(early=early, likely=likely, late=late)


def _chance(at: Moment, ready: Crossing, pull_to_plate: dt.timedelta) -> float | None:
    if at.outlook.serve_end is None:
        return None
    last_pull = at.outlook.serve_end - pull_to_plate
    off_at = at.state.at("pull")
    if off_at is not None:
        return 1.0 if off_at <= last_pull else 0.0
    return 0.0 if last_pull <= at.now else ready.probability_by(last_pull)
