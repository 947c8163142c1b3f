"""Who decides about a lever, and how long it waits for them; what may be done when nobody decides.

Pure. It takes no lever; a lever that waits is a fact (`LeverAsked`).
"""

from __future__ import annotations

import datetime as dt

from scheduler.facts import CrewRole, LeverAsked, SafeDefault, Wrap
from scheduler.planning.advice.conditions import is_open
from scheduler.planning.advice.moment import Moment
from scheduler.planning.nights import holding, lead_of, watching
from scheduler.planning.remedies import Lever
from scheduler.state import CookState, LeverWait, Stage

WAITS = dt.timedelta(minutes=20)
"""A lever waits so long for whoever decides, or until it stops paying; common practice, no source."""

LEAST_WAIT = dt.timedelta(minutes=5)
"""... but so long at least: nobody answers sooner; house rule."""


def deciders(lever: Lever, state: CookState, at: dt.datetime) -> tuple[str, ...]:
    """Return who may decide about a lever at an instant, the one who is asked first; everybody when it is empty.

    Who leads decides about everything.
    """
    lead = lead_of(state)
    match lever.decides:
        case "anyone":
            return ()
        case "watch":
            names = [watching(state, at), *holding(CrewRole.WATCH, state), lead]
        case "host":
            names = [*holding(CrewRole.HOST, state), lead]
        case "carver":
            names = [*holding(CrewRole.CARVER, state), lead]
        case _:
            names = [lead]
    return tuple(dict.fromkeys(name for name in (*names, *holding(CrewRole.FIRE_LEAD, state)) if name is not None))


def may_decide(lever: Lever, name: str, state: CookState, at: dt.datetime) -> bool:
    """Return whether somebody may take or decline a lever at an instant."""
    found = deciders(lever, state, at)
    return not found or name in found


def lever_asked(lever: Lever, name: str, at: Moment) -> LeverAsked | None:
    """Return the question that waits for who decides when somebody asks for a lever; None when they may decide.

    It waits until the lever stops paying, for twenty minutes at most, for five at least.
    """
    found = deciders(lever, at.state, at.now)
    if not found or name in found:
        return None
    opened = is_open(lever, at)
    until = None if opened is None else opened.until
    return question(lever.id, found[0], at, wraps=lever.change == "wrap", pays_until=until)


def question(
    about: str, decider: str, at: Moment, *, wraps: bool = False, pays_until: dt.datetime | None = None
) -> LeverAsked:
    """Return a question that waits for who decides about anything: a lever, or a wish that is none of the list.

    It waits until it stops paying (None: that is not known), for twenty minutes at most, for five at least.
    """
    ends_at = at.now + WAITS if pays_until is None else min(at.now + WAITS, pays_until)
    return LeverAsked(
        lever=about,
        decider=decider,
        default=safe_default(at.state, wraps=wraps),
        until=max(ends_at, at.now + LEAST_WAIT),
    )


def safe_default(state: CookState, *, wraps: bool) -> SafeDefault:
    """Return what may be done when nobody decides: wrap, if that was asked for, where the bark is set; hold what is
    off; else keep the pit.
    """
    if state.stage not in {Stage.BEFORE, Stage.FIRE, Stage.COOKING}:
        return "hold"
    bark = state.did("bark_check")
    bare = not state.wraps and state.wrap_plan is not Wrap.NONE
    return "wrap" if wraps and bare and bark is not None and bark.outcome == "set" else "keep_pit"


def default_allowed(wait: LeverWait, name: str, state: CookState, now: dt.datetime) -> bool:
    """Return whether somebody may do the safe default of a lever: who has the watch, once nobody decided in time."""
    return now >= wait.until and name in {watching(state, now), lead_of(state), wait.decider}
