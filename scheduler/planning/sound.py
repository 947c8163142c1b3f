"""The sound check: who is tested on the eve exactly as a wake-up will be sent, who cannot be woken, and their alarms.

Pure. It sends nothing; whoever did not answer gets the times for an ordinary alarm clock.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from zoneinfo import ZoneInfo

from scheduler.planning.nights import is_quiet, lead_of, owner_of, quiet_hours, watches
from scheduler.planning.steps import Step
from scheduler.state import CookState

ANSWER_WITHIN = dt.timedelta(minutes=15)
"""Whoever has not answered the test for so long cannot be woken: the rule of the plan."""

EVE = dt.timedelta(hours=2)
"""The test comes so long before the quiet hours of the night, or before the first watch; common practice, no source."""

SLACK = dt.timedelta(minutes=15)
"""An alarm clock is set so long before a watch begins: house rule."""

FORECAST_SLACK = dt.timedelta(minutes=30)
"""... and so long before what follows the meat, which may come sooner: house rule."""

_TOO_NEAR = dt.timedelta(minutes=20)
"""Nobody is tested who is needed so soon."""

_DAY = dt.timedelta(days=1)

Courses = Sequence[tuple[dt.datetime, Step]]
"""(instant, step) of what is still to come."""


def not_wakeable(state: CookState, now: dt.datetime) -> tuple[str, ...]:
    """Return who was tested and cannot be woken, in order of name: no private chat, or no answer in time.

    Whoever answers later can be woken again; whoever was never tested counts as wakeable.
    """
    return tuple(sorted(name for name in state.sound if _unheard(state, name, now)))


def _unheard(state: CookState, name: str, now: dt.datetime) -> bool:
    sound = state.sound[name]
    if sound.sent_at is None or (sound.heard_at is not None and sound.heard_at >= sound.sent_at):
        return False
    return not sound.private or now - sound.sent_at >= ANSWER_WITHIN


def needed(state: CookState, courses: Courses) -> dict[str, dt.datetime]:
    """Return name -> when they are first needed in the night to come: a watch of theirs, or what wakes them.

    Only where watches were told, and until the meat is off: a cook alone knows the own telephone.
    """
    if state.over or state.did("pull") or not watches(state):
        return {}
    found: dict[str, dt.datetime] = {}
    for name, start, end in watches(state):
        if start > state.as_of and _touches_night(state, start, end):
            found[name] = min(start, found.get(name, start))
    for at, name in _wake_ups(state, courses):
        found[name] = min(at, found.get(name, at))
    lead = lead_of(state)
    if lead is not None and found:
        found.setdefault(lead, min(found.values()))  # who leads is called when nobody else answers
    return found


def _touches_night(state: CookState, start: dt.datetime, end: dt.datetime) -> bool:
    return is_quiet(state, start) or is_quiet(state, end - dt.timedelta(minutes=1)) or end - start > _DAY / 2


def _wake_ups(state: CookState, courses: Courses) -> list[tuple[dt.datetime, str]]:
    """Return (instant, name) of what is to wake somebody in the quiet hours."""
    return [
        (at, name)
        for at, step in courses
        if at > state.as_of
        and is_quiet(state, at)
        and (step.safety or step.night == "wake")
        and (name := owner_of(step, state, at)) is not None
    ]


def check_times(state: CookState, courses: Courses) -> dict[str, dt.datetime]:
    """Return name -> when the test is due of everybody who was not tested for the night to come: on the eve, before the
    first watch; at once when that has passed.
    """
    first = needed(state, courses)
    if not first:
        return {}
    night_at = min(_eve_of(state, at) for at in first.values())
    return {name: night_at - EVE for name, at in first.items() if not _tested(state, name, night_at)}


def _tested(state: CookState, name: str, night_at: dt.datetime) -> bool:
    """Return whether somebody was tested, or answered unasked, within the day before the night begins."""
    sound = state.sound.get(name)
    times = [] if sound is None else [at for at in (sound.sent_at, sound.heard_at) if at is not None]
    return any(at > night_at - _DAY for at in times)


def _eve_of(state: CookState, at: dt.datetime) -> dt.datetime:
    """Return when the night begins in which somebody is needed: with the quiet hours, or with the watch."""
    if not is_quiet(state, at):
        return at
    start, _end = quiet_hours(state)
    local = at.astimezone(ZoneInfo(state.serving.zone))
    begins = dt.datetime.combine(local.date(), start, tzinfo=local.tzinfo)
    return (begins if begins <= local else begins - _DAY).astimezone(dt.UTC)


def checks_due(state: CookState, courses: Courses, now: dt.datetime) -> tuple[str, ...]:
    """Return who is to be tested now, in order of name: nobody in the quiet hours, and nobody who is needed so soon
    that the test says nothing.
    """
    if is_quiet(state, now):
        return ()
    first = needed(state, courses)
    due = check_times(state, courses)
    return tuple(sorted(name for name, at in due.items() if at <= now and first[name] - now > _TOO_NEAR))


def next_check_at(state: CookState, courses: Courses) -> dt.datetime | None:
    """Return when somebody is to be tested next, as of the newest fact; None when nobody is, or it is too late now."""
    first = needed(state, courses)
    ahead = [
        max(at, state.as_of)
        for name, at in check_times(state, courses).items()
        if first[name] - max(at, state.as_of) > _TOO_NEAR and not is_quiet(state, max(at, state.as_of))
    ]
    return min(ahead, default=None)


def unanswered(state: CookState, now: dt.datetime) -> tuple[str, ...]:
    """Return who has turned out not to be wakeable and of whom nobody was told yet, in order of name."""
    told = {(one.about, at) for at, one in state.company.ran_out if one.what == "sound"}
    return tuple(
        name
        for name in not_wakeable(state, now)
        if not any(about == name and at >= (state.sound[name].sent_at or at) for about, at in told)
    )


def answers_until(state: CookState) -> dt.datetime | None:
    """Return when the next test has waited long enough for its answer, None when none waits."""
    waiting = [
        sound.sent_at + (ANSWER_WITHIN if sound.private else dt.timedelta())
        for name, sound in state.sound.items()
        if sound.sent_at is not None and name in unanswered(state, sound.sent_at + ANSWER_WITHIN)
    ]
    return min(waiting, default=None)


def alarm_times(state: CookState, courses: Courses, name: str) -> tuple[dt.datetime, ...]:
    """Return when an ordinary alarm clock of somebody is to ring (UTC): before each watch of theirs, and before what is
    theirs in the quiet hours outside of it; what falls within half an hour is one.
    """
    mine = [(start, end) for who, start, end in watches(state) if who == name and end > state.as_of]
    times = [start - SLACK for start, _end in mine if start > state.as_of]
    times += [
        at - FORECAST_SLACK
        for at, who in _wake_ups(state, courses)
        if who == name and not any(start <= at < end for start, end in mine)
    ]
    return _apart(max(at, state.as_of) for at in times)


def _apart(times: Iterable[dt.datetime]) -> tuple[dt.datetime, ...]:
    found: list[dt.datetime] = []
    for at in sorted(times):
        if not found or at - found[-1] > FORECAST_SLACK:
            found.append(at)
    return tuple(found)
