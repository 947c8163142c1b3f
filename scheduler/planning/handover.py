"""The change of the watch that comes next: who has it, who is asked to take it, and who is asked after them.

Pure. Only an acceptance moves the watch (`scheduler.state.crew`); this room says who is asked for it and when.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.planning.nights import at_the_fire, changes, lead_of, watches, watching
from scheduler.planning.prompts import step_of
from scheduler.planning.steps import Step
from scheduler.state import CookState

_EARLY = dt.timedelta(minutes=60)
"""Whatever was settled this long before a change at most was that change: house rule."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Change:
    """A change of the watch that nobody has accepted yet."""

    at: dt.datetime
    """When it is to change (UTC); of an offer, when it was made."""
    outgoing: str | None
    """Who has the watch, and keeps it until somebody accepts."""
    asked: tuple[str, ...]
    """Who is asked to take it, one after the other: the incoming, then the next names; those who declined are not."""
    until: dt.datetime | None
    """Until when it would be theirs: the end of the planned watch, or as offered; None: nobody said."""
    offered: bool = False
    """True for one that somebody asked for, not planned ("going to bed, Bashir has it")."""
    declined: tuple[tuple[dt.datetime, str], ...] = ()
    """(instant, name) of those who were asked and declined."""

    @property
    def incoming(self) -> str | None:
        """Return who is asked first of those who have not declined."""
        return self.asked[0] if self.asked else None


def coming_change(state: CookState) -> Change | None:
    """Return the change of the watch that waits or comes next, None when there is none; an open offer goes first."""
    offer = state.handover
    if offer is not None:
        outgoing = watching(state, state.as_of) or offer.by or lead_of(state)
        return _change(state, offer.at, outgoing, offer.to, offer.until, offered=True)
    settled = [taking.at for taking in state.takings]
    settled += [at for key, at in state.closed.items() if step_of(key) == "handover"]
    last_at = max(settled, default=None)
    open_ones = [one for one in changes(state) if last_at is None or last_at < one[0] - _EARLY]
    begun = [one for one in open_ones if one[0] <= state.as_of]
    found = (begun[-1:] or open_ones[:1]) if open_ones else []
    for at, outgoing, incoming in found:
        has_it = watching(state, min(at, state.as_of)) if at <= state.as_of else outgoing
        if has_it == incoming:
            return None
        until = next((end for name, start, end in watches(state) if name == incoming and end > at), None)
        return _change(state, at, has_it, incoming, until)
    return None


def _change(
    state: CookState,
    at: dt.datetime,
    outgoing: str | None,
    to: str,
    until: dt.datetime | None,
    *,
    offered: bool = False,
) -> Change:
    since = min(at, state.as_of) - _EARLY
    declined = [(when, name) for when, name in state.company.declined if when >= since]
    followers = [name for name, start, _end in watches(state) if start > at]
    names = [to, lead_of(state), *followers, *at_the_fire(state)]
    gone = {outgoing, None, *(name for _when, name in declined)}
    return Change(
        at=at,
        outgoing=outgoing,
        asked=tuple(dict.fromkeys(name for name in names if name is not None and name not in gone)),
        until=until,
        offered=offered,
        declined=tuple(declined),
    )


def asked_anew(step: Step, state: CookState, asked_at: dt.datetime) -> dt.datetime | None:
    """Return since when somebody else is to be asked for the watch at once: it was offered, or one who was asked
    declined, after the last asking; None when neither.
    """
    change = coming_change(state) if step.anchor.kind == "watch" else None
    if change is None or not change.asked:
        return None
    since = [when for when, _name in change.declined] + ([change.at] if change.offered else [])
    return max((when for when in since if when > asked_at), default=None)
