"""Who is called after whom for what must not be missed: its owner, after stated minutes the next name, then the group.

Pure. Whoever cannot be woken is passed over, and named. The minutes of each stage stand here and nowhere else.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.planning.handover import coming_change
from scheduler.planning.nights import at_the_fire, everybody, is_quiet, lead_of, owner_of, watches, watching
from scheduler.planning.prompts import Escalation, EscalationLevel, Prompt
from scheduler.planning.sound import not_wakeable
from scheduler.planning.steps import Level, Step
from scheduler.state import AskedAt, CookState

STAGE_MIN = 10.0
"""In the quiet hours who does not answer is followed by the next name after so many minutes; common practice, no
source."""

SAFETY_STAGE_MIN = 10.0
"""... and so many for a step of safety that wakes: the same, so that nobody is called twice within ten minutes."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Stages:
    """Who is called at each stage, in order: none is empty but that of the group, when nobody else has the fire."""

    names: tuple[tuple[str, ...], ...]
    levels: tuple[EscalationLevel, ...]
    skipped: tuple[str, ...] = ()
    """Who would have been called and cannot be woken."""
    minutes: float | None = None
    """Minutes of each stage, None: those of the step itself."""


def escalates(step: Step) -> bool:
    """Return whether somebody else is called when nobody answers: what wakes by night, what must be, and safety."""
    return step.safety or step.level is Level.MUST or step.night == "wake"


def stages(step: Step, state: CookState, at: dt.datetime, due_at: dt.datetime | None = None) -> Stages:
    """Return who is called for a step at an instant, stage after stage.

    In the quiet hours: its owner, the next name, the group. By day: its owner, then the group. The next name and the
    group are called only for what must be or wakes, and for the watch that is handed over; the group with everybody
    else who looks after the fire by name; whoever helps, carves, hosts or eats is never in this chain. What only the
    watch is asked goes no further than the watch; nor does safety that neither must be nor wakes (raw boards): it is
    asked, asked again and stays open with whoever is up, and nobody is got out of bed for it.
    """
    quiet = is_quiet(state, at)
    handover = step.anchor.kind == "watch"
    asleep = frozenset(not_wakeable(state, at)) if quiet else frozenset()
    chain = _handing_over(state) if handover else _chain(step, state, at, due_at)
    able = tuple(name for name in chain if name not in asleep)
    others = tuple(name for name in at_the_fire(state) if name not in asleep)
    if not able and not others:  # nobody can be woken: then all the same those whose it is
        able, asleep = chain, frozenset()
    only_watch = step.night == "watch_only" and not step.safety and not handover
    wide = step.level is Level.MUST or step.night == "wake"
    first = able[:1] or others[:1]
    parts = [(EscalationLevel.OWNER, first)]
    if escalates(step) and not only_watch:
        second = able[1:2] if (quiet and wide) or handover else ()
        if handover and second:
            second = tuple(dict.fromkeys((*_outgoing(state), *second)))
        parts += [(EscalationLevel.NEXT, second)]
        called = {*first, *second}
        last = tuple(name for name in others if name not in called)
        if wide and set(everybody(state)) - called - asleep:
            parts += [(EscalationLevel.GROUP, last)]
    parts = [(level, names) for level, names in parts if names or level is EscalationLevel.GROUP]
    hurried = step.safety and wide
    return Stages(
        names=tuple(names for _level, names in parts),
        levels=tuple(level for level, _names in parts),
        skipped=tuple(name for name in chain if name in asleep),
        minutes=(SAFETY_STAGE_MIN if hurried else STAGE_MIN) if quiet or handover else None,
    )


def _chain(step: Step, state: CookState, at: dt.datetime, due_at: dt.datetime | None) -> tuple[str, ...]:
    """Return the owner of a step, whoever else is up, who leads, and who has the watch next."""
    beside = [name for name, start, end in watches(state) if start <= at < end]
    later = [name for name, start, _end in watches(state) if start > at]
    names = [owner_of(step, state, at, due_at), watching(state, at), lead_of(state), *beside, *later]
    return tuple(dict.fromkeys(name for name in names if name is not None))


def _handing_over(state: CookState) -> tuple[str, ...]:
    change = coming_change(state)
    return () if change is None else change.asked


def _outgoing(state: CookState) -> tuple[str, ...]:
    change = coming_change(state)
    return () if change is None or change.outgoing is None else (change.outgoing,)


def passed(step: Step, asked: int, state: CookState, at: dt.datetime, last_at: dt.datetime | None = None) -> int:
    """Return how many stages have passed: one for each asking that nobody answered.

    Asked again because a claim lapsed, it begins with its owner anew; whoever declined the watch was a stage by itself.
    A number told since it was asked last (`last_at`) is an answer, doubted or not: who told it stands there.
    """
    claim = state.company.claims.get(step.id)
    anew = 1 if claim is not None and claim.lapses_at <= at else 0
    anew += last_at is not None and any(r.doubtful and r.slot in step.slots and r.at >= last_at for r in state.readings)
    change = coming_change(state) if step.anchor.kind == "watch" else None
    return max(0, asked - anew - (0 if change is None else len(change.declined)))


def again_min(step: Step, state: CookState, asked: AskedAt) -> float | None:
    """Return after how many minutes the next stage is called, None when there is none: then the step's own rhythm."""
    if not escalates(step):
        return None
    found = stages(step, state, asked.last_at)
    return found.minutes if passed(step, asked.times, state, state.as_of, asked.last_at) < len(found.names) else None


def escalation_of(prompt: Prompt, state: CookState, at: dt.datetime) -> Escalation | None:
    """Return whom a prompt calls when it goes out at an instant, None when nobody is known."""
    found = stages(prompt.step, state, at, prompt.late_from or prompt.due_at)
    if not found.names:
        return None
    stage = min(passed(prompt.step, prompt.asked, state, at, prompt.asked_at), len(found.names) - 1)
    further = stage + 1 < len(found.names)
    return Escalation(
        level=found.levels[stage],
        names=found.names[stage],
        before=tuple(name for names in found.names[:stage] for name in names),
        minutes=(found.minutes or prompt.step.unanswered.again_min) if further else None,
        skipped=found.skipped,
    )


def whom(prompt: Prompt, state: CookState, at: dt.datetime) -> tuple[str, ...]:
    """Return whose a prompt is when it goes out at an instant: of whoever said "mine", else of those whom it calls,
    else of its owner; none where nobody is known. Boards, lists and messages all name these.
    """
    claim = state.company.claims.get(prompt.step.id)
    if claim is not None and claim.holds(at):
        return (claim.name,)
    if prompt.escalation is not None:
        return prompt.escalation.names or prompt.escalation.before
    owner = owner_of(prompt.step, state, at, prompt.late_from or prompt.due_at)
    return () if owner is None else (owner,)


def called(prompt: Prompt, state: CookState, at: dt.datetime) -> Prompt:
    """Return a prompt that names whom it wakes in the quiet hours, and whom it calls at which stage."""
    found = escalation_of(prompt, state, at)
    woken = () if found is None else (*found.before, *found.names)
    return dataclasses.replace(prompt, wakes=woken, escalation=found)
