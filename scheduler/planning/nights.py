"""Quiet hours, watches, roles: when the night is, who has the watch, and whom a step falls to.

Pure. It moves no prompt and wakes nobody (`scheduler.planning.shaping`, `scheduler.planning.escalation`).
"""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

from scheduler.facts import CrewRole
from scheduler.planning.steps import Step
from scheduler.state import CookState, changes_of, spans

QUIET = (dt.time(22), dt.time(7))
"""Quiet hours of the cook's own clock when nobody said others; common practice, no source."""

_DAY = dt.timedelta(days=1)
_ASLEEP_FOR = dt.timedelta(hours=4)
"""Whoever has to be up so long after the quiet hours began has slept; common practice, no source."""


def quiet_hours(state: CookState) -> tuple[dt.time, dt.time]:
    """Return the quiet hours, as told or the usual ones; equal times are none."""
    told = None if state.watches is None else state.watches.quiet
    return QUIET if told is None else told


def is_quiet(state: CookState, at: dt.datetime) -> bool:
    """Return whether an instant lies in the quiet hours of the cook's own clock."""
    start, end = quiet_hours(state)
    clock = at.astimezone(_zone(state)).time()
    return start <= clock < end if start < end else (clock >= start or clock < end) and start != end


def quiet_end(state: CookState, at: dt.datetime) -> dt.datetime:
    """Return when the quiet hours around an instant end; the instant itself outside of them."""
    return _next(state, at, quiet_hours(state)[1]) if is_quiet(state, at) else at


def quiet_start(state: CookState, at: dt.datetime) -> dt.datetime:
    """Return when the next quiet hours after an instant begin."""
    return _next(state, at, quiet_hours(state)[0])


def _next(state: CookState, at: dt.datetime, clock: dt.time) -> dt.datetime:
    """Return the first instant at or after another at which the cook's clock shows a time."""
    local = at.astimezone(_zone(state))
    wall = dt.datetime.combine(local.date(), clock)
    found = wall.replace(tzinfo=local.tzinfo).astimezone(dt.UTC)
    return found if found >= at else (wall + _DAY).replace(tzinfo=local.tzinfo).astimezone(dt.UTC)


def _zone(state: CookState) -> ZoneInfo:
    return ZoneInfo(state.serving.zone)


def getting_up(state: CookState, at: dt.datetime) -> bool:
    """Return whether people have gone to bed by an instant and have to get up for it: four hours into the night."""
    return is_quiet(state, at) and is_quiet(state, at - _ASLEEP_FOR)


def on_duty(state: CookState, at: dt.datetime) -> str | None:
    """Return whose watch it is, None when nobody was named for that time."""
    return next((name for name, start, end in watches(state) if start <= at < end), None)


def watches(state: CookState) -> tuple[tuple[str, dt.datetime, dt.datetime], ...]:
    """Return (name, from, to) of every watch as instants, in order."""
    return spans(state.watches, state.serving.zone)


def changes(state: CookState) -> tuple[tuple[dt.datetime, str, str], ...]:
    """Return (instant, outgoing, incoming) of every change of the watch, in order: planned ones, and the one that who
    took it over named.
    """
    return changes_of(watches(state), state.takings, state.lead)


def lead_of(state: CookState) -> str | None:
    """Return who leads the fire: whoever was told to, else whoever began the cook."""
    leads = holding(CrewRole.FIRE_LEAD, state)
    return state.lead if state.lead in leads or not leads else leads[0]


def holding(role: CrewRole, state: CookState) -> tuple[str, ...]:
    """Return the names of those who hold a role in this cook, in the order in which they were told."""
    return tuple(name for name, roles in state.crew.items() if role in roles)


def watching(state: CookState, at: dt.datetime) -> str | None:
    """Return who looks after the fire at an instant: who has the watch, else the only one in that role."""
    named = holding(CrewRole.WATCH, state)
    alone = named[0] if len(named) == 1 and not watches(state) else None
    return state.watch_holder(at) or alone


def everybody(state: CookState) -> tuple[str, ...]:
    """Return everybody who looks after this cook, who leads first: no guests but those who have, or took, a watch."""
    guests = {name for name, roles in state.crew.items() if roles == {CrewRole.GUEST}}
    named = {*state.people, *state.crew} - guests
    named |= {name for name, _start, _end in watches(state)} | {taking.name for taking in state.takings}
    lead = lead_of(state)
    return tuple(sorted(named | ({lead} if lead else set()), key=lambda name: (name != lead, name)))


def at_the_fire(state: CookState) -> tuple[str, ...]:
    """Return everybody who may be called for the fire or the watch, who leads first: nobody whose only roles are those
    of a helper, a carver, a host, a food handler or a guest, unless they have, or took, a watch.
    """
    on_list = {name for name, _start, _end in watches(state)} | {taking.name for taking in state.takings}
    lead = lead_of(state)
    return tuple(
        name
        for name in everybody(state)
        if name == lead or name in on_list or state.crew.get(name, _OF_THE_FIRE) & _OF_THE_FIRE
    )


_OF_THE_FIRE = frozenset({CrewRole.FIRE_LEAD, CrewRole.WATCH})

_ROLES = {
    "helper": CrewRole.HELPER, "carver": CrewRole.CARVER, "food_handler": CrewRole.FOOD_HANDLER, "host": CrewRole.HOST,
}  # fmt: skip


def owner_of(step: Step, state: CookState, at: dt.datetime, due_at: dt.datetime | None = None) -> str | None:
    """Return the name of whoever a step falls to at an instant; None when nobody is known.

    Whoever claimed it and has not let it lapse; else whoever holds its role; else who has the watch (as taken over,
    not as planned); else who leads. In the quiet hours the watch, who is up, does the work of those who sleep. What a
    helper was to do goes to the watch, too, once it was due (`due_at`) longer ago than it may slip.
    """
    claim = state.company.claims.get(step.id)
    if claim is not None and claim.holds(at):
        return claim.name
    lead, watch = lead_of(state), watching(state, at)
    if step.owner == "fire_lead":
        return lead
    if step.owner == "host":
        return next(iter(holding(CrewRole.HOST, state)), lead)
    slipped = due_at is not None and at > due_at + dt.timedelta(minutes=step.slips_min)
    role = _ROLES.get(step.owner)
    if role is not None and not slipped and not (watch is not None and is_quiet(state, at)):
        return next(iter(holding(role, state)), watch or lead)
    return watch or lead
