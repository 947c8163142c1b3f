"""Prompts as the night wants them: later, riding along, silent, or waking somebody by name; and before the meat is on.

Pure. A night rule never touches a step of safety, and nothing moves to an earlier time of the night.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.planning.escalation import called, escalates
from scheduler.planning.nights import is_quiet, quiet_end
from scheduler.planning.prompts import Prompt
from scheduler.planning.trips import JOIN
from scheduler.state import CookState

AWAKE = dt.timedelta(minutes=30)
"""Whoever told something so short a time ago is up, and what is due is asked; common practice, no source."""

ONE_WALK = dt.timedelta(minutes=45)
"""What the watch is asked at night waits so long at most for the next walk: one message in 60 to 90 minutes is enough
while all is well; common practice, no source."""

NIGHT_GAP = dt.timedelta(minutes=60)
"""A look of the usual rhythm comes so long after the last message at night at the soonest; common practice, no
source."""

DAY_GAP = dt.timedelta(minutes=45)
"""... and so long by day: not more than one ping in 45 minutes when nothing changed; common practice, no source."""

_A_LITTLE = dt.timedelta(minutes=20)
"""What comes in the longer rhythm of the night already waits no longer than this."""


_SENT = frozenset({"vents_early", "smoke_clean", "meat_on"})
"""What is sent besides safety from the probe going in to meat on: hands are full, and raw; common practice, no
source."""

HANDS_FULL = dt.timedelta(minutes=90)
"""What waits for the meat to be on waits so long at most: then it was forgotten, or is not to be; house rule."""


def before_the_meat(prompts: tuple[Prompt, ...], state: CookState) -> tuple[Prompt, ...]:
    """Return prompts as they are sent between the probe going in and meat on: vents, smoke and safety at their time,
    everything else once the meat is on; nothing is given up for having waited, and what somebody asked for comes.
    """
    until = hands_full_until(state)
    return prompts if until is None else tuple(_held(prompt, until) for prompt in prompts)


def hands_full_until(state: CookState) -> dt.datetime | None:
    """Return until when hands are full of raw meat, at most: from the probe going in to meat on; None: they are not."""
    probe_at = state.at("probe_in")
    return None if probe_at is None or state.did("meat_on") or state.over else probe_at + HANDS_FULL


def _held(prompt: Prompt, until: dt.datetime) -> Prompt:
    asked_for = prompt.why.kind == "put_off" or prompt.why.event == "offer"
    waits = prompt.wake_at is not None and prompt.wake_at < until
    if prompt.step.safety or prompt.step.id in _SENT or asked_for or not waits:
        return prompt
    if prompt.asked:
        return dataclasses.replace(prompt, wake_at=until)
    return dataclasses.replace(prompt, due_at=until, wake_at=until, late_from=until)


def waiting_for_claim(prompt: Prompt, state: CookState) -> Prompt:
    """Return a prompt that waits while somebody has said "mine": asked again once, when the claim lapses.

    What was not asked yet waits no longer than it may, and a step of safety does not wait at all to be asked first.
    """
    claim = state.company.claims.get(prompt.step.id)
    if claim is None:
        return prompt
    if prompt.asked_at is not None:
        if claim.at < prompt.asked_at:
            return prompt
        return dataclasses.replace(prompt, wake_at=claim.lapses_at, lapses_at=None, follows_at=None, claim=claim)
    if prompt.step.safety or prompt.wake_at is None or not prompt.wake_at < claim.lapses_at:
        return prompt
    until = max(prompt.wake_at, min(claim.lapses_at, prompt.late_until))
    return dataclasses.replace(prompt, due_at=max(prompt.due_at, until), wake_at=until, claim=claim)


def shaped(prompts: tuple[Prompt, ...], state: CookState) -> tuple[Prompt, ...]:
    """Return prompts as the night wants them: later, riding along, silent, or waking somebody by name.

    Those that come by day stay as they are.
    """
    last_at = max((asked.last_at for asked in state.asked.values()), default=None)
    prompts = prompts if last_at is None else tuple(_spaced(prompt, state, last_at) for prompt in prompts)
    together = tuple(_with_the_walk(prompt, prompts, state) for prompt in prompts)
    carriers = tuple(p for p in together if p.wake_at is not None and _wakes(p))
    return tuple(_shaped(prompt, carriers, state) for prompt in together)


def _spaced(prompt: Prompt, state: CookState, last_at: dt.datetime) -> Prompt:
    """Return a look of the usual rhythm, not sooner after the last message than the budget allows, within its slip
    limit; what is read sooner because something is off or near a decision stays where it is.
    """
    at = prompt.wake_at
    if at is None or not _may_wait(prompt):
        return prompt
    quiet = is_quiet(state, at)
    if not quiet and prompt.why.kind != "repeat":
        return prompt
    until = min(prompt.late_until, at + (_A_LITTLE if _stretched(prompt) else ONE_WALK))
    later = min(last_at + (NIGHT_GAP if quiet else DAY_GAP), until)
    if later <= at:
        return prompt
    return dataclasses.replace(prompt, due_at=later, wake_at=later, late_from=prompt.late_from or prompt.due_at)


def _with_the_walk(prompt: Prompt, prompts: tuple[Prompt, ...], state: CookState) -> Prompt:
    """Return what the watch is asked at night, put off to the next walk when that comes within its slip limit."""
    at = prompt.wake_at
    if at is None or not _may_wait(prompt) or not is_quiet(state, at):
        return prompt
    until = min(prompt.late_until, at + (_A_LITTLE if _stretched(prompt) else ONE_WALK))
    walks = [p.wake_at for p in prompts if p.wake_at is not None and _wakes(p) and p.key != prompt.key]
    if any(prompt.early_from <= time <= at for time in walks if at - time <= JOIN):
        return prompt  # somebody walks there now anyway
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
        return _by_day(prompt, state, at)
    if _wakes(prompt) or at - state.heard_at <= AWAKE:
        return called(prompt, state, at)
    return _with_next(prompt, at, carriers, state) if prompt.step.night == "with_next" else _later(prompt, at, state)


def _by_day(prompt: Prompt, state: CookState, at: dt.datetime) -> Prompt:
    """Return what must not be missed with whom it calls; by day nobody is woken."""
    return dataclasses.replace(called(prompt, state, at), wakes=()) if escalates(prompt.step) else prompt


def _with_next(prompt: Prompt, at: dt.datetime, carriers: tuple[Prompt, ...], state: CookState) -> Prompt:
    """Return a prompt that rides with the next one that wakes somebody, as long as that is not too late for it."""
    until = prompt.late_until if prompt.asked == 0 else quiet_end(state, at)
    times = [max(c.wake_at, state.as_of) for c in carriers if c.wake_at is not None]
    riding = min((time for time in times if at <= time <= until), default=None)
    if riding is None:
        return _later(prompt, at, state)
    due_at = max(prompt.due_at, riding) if prompt.asked == 0 else prompt.due_at
    late_from = prompt.late_from or prompt.due_at
    return called(dataclasses.replace(prompt, due_at=due_at, wake_at=riding, late_from=late_from), state, riding)


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
