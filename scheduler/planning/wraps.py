"""The pull on the condition of each wrap that may still come, so that the wrap can be decided from it.

Pure; what is decided already is no condition any more.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Wrap
from scheduler.forecast import Forecast, WrapEvent
from scheduler.planning.outlook import Outlook, Window, felt_tender, known, question_of
from scheduler.state import CookState


@dataclasses.dataclass(frozen=True, kw_only=True)
class PullIf:
    """When the meat is expected off the fire if it gets this wrap."""

    wrap: Wrap
    pull: Window


def pulls_if(state: CookState, outlook: Outlook) -> tuple[PullIf, ...]:
    """Return the pull for each wrap that may still come, the likeliest first and bare last; nothing when decided."""
    choices = outlook.forecast.choices
    if state.did("pull") or len(choices) < 2 or felt_tender(state):  # noqa: PLR2004 - one choice is no choice
        return ()
    ordered = sorted(choices, key=lambda choice: (choice.wrap is Wrap.NONE, -choice.weight))
    return tuple(
        PullIf(wrap=choice.wrap, pull=_window(outlook.forecast.given(choice.wrap), state)) for choice in ordered
    )


def pull_if(state: CookState, outlook: Outlook, cut: Cut, wrap: Wrap) -> Window | None:
    """Return the pull with this wrap: where it is decided or still open as it would come, else wrapped so now; None
    when the meat is off.
    """
    if state.did("pull"):
        return None
    if not state.wraps and any(choice.wrap is wrap for choice in outlook.forecast.choices):
        return _window(outlook.forecast.given(wrap), state)
    asked = question_of(state, cut, outlook.on_at)
    at = max(state.as_of, outlook.on_at)
    wraps = (*asked.wraps, WrapEvent(at=at, wrap=wrap))
    return _window(known(dataclasses.replace(asked, wraps=wraps, wrap_plan=wrap)), state)


def counted_on(state: CookState, outlook: Outlook) -> Wrap | None:
    """Return the wrap that was decided and has not happened yet, None when there is none to come."""
    planned = state.planned.wrap
    if state.wraps or state.did("pull") or planned in {None, Wrap.NONE} or felt_tender(state):
        return None
    return planned if [choice.wrap for choice in outlook.forecast.choices] == [planned] else None


def _window(forecast: Forecast, state: CookState) -> Window:
    ready = forecast.ready()
    on_the_fire = state.stage == "cooking"
    early, likely, late = (
        t if t is None or not on_the_fire else max(t, state.as_of)
        for t in (ready.quantile(0.1), ready.quantile(0.5), ready.quantile(0.9))
    )
    return Window(early=early, likely=likely, late=late)


def spread(found: tuple[PullIf, ...]) -> dt.timedelta | None:
    """Return how far apart the likely pulls lie, None when one is beyond the horizon or there are none."""
    times = [one.pull.likely for one in found]
    known = [t for t in times if t is not None]
    return max(known) - min(known) if known and len(known) == len(times) else None
