"""The night of a cook: quiet hours, watches, whom a prompt wakes, and what waits, rides along or stays silent.

Pure. A night rule never touches a step of safety, and nothing moves to an earlier time of the night.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from zoneinfo import ZoneInfo

from scheduler.planning.prompts import Prompt
from scheduler.planning.steps import Step
from scheduler.state import CookState, changes_of, spans

QUIET = (dt.time(22), dt.time(7))
"""Quiet hours of the cook's own clock when nobody said others; common practice, no source."""

AWAKE = dt.timedelta(minutes=30)
"""Whoever told something so short a time ago is up, and what is due is asked; common practice, no source."""

ONE_WALK = dt.timedelta(minutes=45)
"""What the watch is asked at night waits so long at most for the next walk: one message in 60 to 90 minutes is enough
while all is well; common practice, no source."""

_A_LITTLE = dt.timedelta(minutes=20)
"""What comes in the longer rhythm of the night already waits no longer than this."""

_DAY = dt.timedelta(days=1)
_CHANGE = dt.timedelta(minutes=30)
"""A handover this near to a change of the watch is that change's."""
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


def owner_of(step: Step, state: CookState, at: dt.datetime) -> str | None:
    """Return the name of whoever a step falls to: the watch on duty, or whoever leads; None when nobody is known."""
    if step.owner in {"fire_lead", "host"}:
        return state.lead
    return on_duty(state, at) or state.lead


def shaped(prompts: tuple[Prompt, ...], state: CookState) -> tuple[Prompt, ...]:
    """Return prompts as the night wants them: later, riding along, silent, or waking somebody by name.

    Those that come by day stay as they are.
    """
    together = tuple(_with_the_walk(prompt, prompts, state) for prompt in prompts)
    carriers = tuple(p for p in together if p.wake_at is not None and _wakes(p))
    return tuple(_shaped(prompt, carriers, state) for prompt in together)


def _with_the_walk(prompt: Prompt, prompts: tuple[Prompt, ...], state: CookState) -> Prompt:
    """Return what the watch is asked at night, put off to the next walk when that comes within its slip limit."""
    at = prompt.wake_at
    if at is None or not _may_wait(prompt) or not is_quiet(state, at):
        return prompt
    until = min(prompt.late_until, at + (_A_LITTLE if _stretched(prompt) else ONE_WALK))
    walks = (p.wake_at for p in prompts if p.wake_at is not None and _wakes(p))
    next_walk = min((time for time in walks if at < time <= until), default=None)
    if next_walk is None:
        return prompt
    return dataclasses.replace(
        prompt, due_at=next_walk, wake_at=next_walk, late_from=prompt.late_from or prompt.due_at
    )  # fmt: skip


def _stretched(prompt: Prompt) -> bool:
    """Return whether it comes in the longer rhythm of the night already."""
    repeat, why = prompt.step.repeat, prompt.why
    return repeat is not None and why.kind == "repeat" and (why.minutes or 0) > repeat.every_min


def _may_wait(prompt: Prompt) -> bool:
    """Return whether nothing is lost by half an hour: a look of the watch, first asked, in its usual rhythm."""
    repeat, why = prompt.step.repeat, prompt.why
    hurried = repeat is not None and why.kind == "repeat" and (why.minutes or 0) < repeat.every_min
    watch = prompt.step.night == "watch_only" and not prompt.step.safety and prompt.step.phase == "cooking"
    return watch and prompt.asked == 0 and why.kind != "put_off" and not hurried


def _wakes(prompt: Prompt) -> bool:
    """Return whether a prompt comes at its own time whatever the hour."""
    return prompt.step.safety or prompt.step.night in {"wake", "watch_only"} or prompt.why.kind == "put_off"


def _shaped(prompt: Prompt, carriers: tuple[Prompt, ...], state: CookState) -> Prompt:
    if prompt.wake_at is None:
        return prompt
    at = max(prompt.wake_at, state.as_of)
    if not is_quiet(state, at):
        return prompt
    if _wakes(prompt) or at - state.heard_at <= AWAKE:
        return dataclasses.replace(prompt, wakes=_names(prompt, state, at))
    return _with_next(prompt, at, carriers, state) if prompt.step.night == "with_next" else _later(prompt, at, state)


def _with_next(prompt: Prompt, at: dt.datetime, carriers: tuple[Prompt, ...], state: CookState) -> Prompt:
    """Return a prompt that rides with the next one that wakes somebody, as long as that is not too late for it."""
    until = prompt.late_until if prompt.asked == 0 else quiet_end(state, at)
    times = [max(c.wake_at, state.as_of) for c in carriers if c.wake_at is not None]
    riding = min((time for time in times if at <= time <= until), default=None)
    if riding is None:
        return _later(prompt, at, state)
    due_at = max(prompt.due_at, riding) if prompt.asked == 0 else prompt.due_at
    return dataclasses.replace(
        prompt,
        due_at=due_at,
        wake_at=riding,
        late_from=prompt.late_from or prompt.due_at,
        wakes=_names(prompt, state, riding),
    )


def _later(prompt: Prompt, at: dt.datetime, state: CookState) -> Prompt:
    """Return a prompt that waits for the morning, or stays silent when it is of no use then."""
    morning = quiet_end(state, at)
    if prompt.asked > 0:
        return dataclasses.replace(prompt, wake_at=morning)
    if prompt.must_arrive or (morning <= prompt.late_until and prompt.step.night == "wait"):
        return dataclasses.replace(
            prompt, due_at=morning, wake_at=morning, late_from=prompt.late_from or prompt.due_at
        )  # fmt: skip
    return dataclasses.replace(prompt, wake_at=None, silent=True)


def _names(prompt: Prompt, state: CookState, at: dt.datetime) -> tuple[str, ...]:
    """Return whom a prompt wakes: its owner, then one more each time that nobody answered, then everybody; nobody but
    the watch for what only the watch is asked.
    """
    first = owner_of(prompt.step, state, at)
    if prompt.step.anchor.kind == "watch":
        first = next((name for change, _out, name in changes(state) if abs(change - at) <= _CHANGE), first)
    chain = [name for name in (first, on_duty(state, at), state.lead) if name is not None]
    if prompt.asked > 1:
        chain += sorted(state.people | {name for name, _start, _end in watches(state)})
    unique = tuple(dict.fromkeys(chain))
    if prompt.step.night == "watch_only" and not prompt.step.safety:
        return unique[:1]
    return unique if prompt.asked > 1 else unique[: 1 + prompt.asked]
