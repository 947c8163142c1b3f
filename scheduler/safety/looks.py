"""When time alone may make something unsafe, so that a cook is looked at although nobody says anything. Pure."""

from __future__ import annotations

import datetime as dt

from scheduler.cuts import Cut, Cuts
from scheduler.safety import come_up, cooling, fire, leftovers, off, raw, reheating
from scheduler.safety.case import Case
from scheduler.state import CookState, Stage


def next_look(state: CookState, cut: Cut, cuts: Cuts) -> dt.datetime | None:
    """Return the next instant at which a rule may find something by time alone, None when there is none.

    What was told already is not looked for again, nor what began before the food was thrown away.
    """
    return min(looks(state, cut, cuts), default=None)


def looks(state: CookState, cut: Cut, cuts: Cuts) -> tuple[dt.datetime, ...]:
    """Return every instant at which a rule may find something by time alone and that was not told yet."""
    if state.stage is Stage.CLOSED:
        return ()
    case = Case(state=state, cut=cut, cuts=cuts, now=state.as_of)
    found: list[tuple[str, dt.datetime | None, dt.datetime]] = [
        (look.rule, look.since, look.at) for rule in (*off.LOOKS, *fire.LOOKS, *come_up.LOOKS) for look in rule(case)
    ]
    found += [*cooling.looks_ahead(state), *reheating.looks_ahead(state), *leftovers.looks_ahead(state)]
    found += raw.looks_ahead(state, cut)
    gone_at = case.discarded_at
    standing = [one for one in found if gone_at is None or (one[1] is not None and one[1] > gone_at)]
    return tuple(at for rule, since, at in standing if (rule, since) not in state.warned)
