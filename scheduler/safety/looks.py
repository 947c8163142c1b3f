"""When time alone may make something unsafe, so that a cook is looked at although nobody says anything. Pure."""

from __future__ import annotations

import datetime as dt

from scheduler.cuts import Cut
from scheduler.safety import cooling, leftovers, off, raw, reheating
from scheduler.state import CookState, Stage


def next_look(state: CookState, cut: Cut | None = None) -> dt.datetime | None:
    """Return the next instant at which a rule may find something by time alone, None when there is none.

    Raw meat is looked after only with its `cut`. What was told already is not looked for again.
    """
    return min(looks(state, cut), default=None)


def looks(state: CookState, cut: Cut | None = None) -> tuple[dt.datetime, ...]:
    """Return every instant at which a rule may find something by time alone and that was not told yet."""
    if state.stage is Stage.CLOSED:
        return ()
    times = [off.next_look(state)]
    found = [*cooling.looks_ahead(state), *reheating.looks_ahead(state), *leftovers.looks_ahead(state)]
    if cut is not None:
        found += raw.looks_ahead(state, cut)
    times += [at for rule, since, at in found if (rule, since) not in state.warned]
    return tuple(at for at in times if at is not None)
