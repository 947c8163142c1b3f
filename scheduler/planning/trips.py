"""Trips: what is due within twenty minutes becomes one message; what comes too late is given up with a reason.

Pure: a schedule and an instant in, a trip and withdrawals out.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.planning.prompts import Prompt
from scheduler.state import CookState

JOIN = dt.timedelta(minutes=20)
"""What is due within this joins the trip: one walk to the cooker, one open lid."""

BREATH = dt.timedelta(minutes=10)
"""What was asked this short a time ago is not asked again with something else: house rule."""

OUTAGE = dt.timedelta(minutes=10)
"""A message this much off what was told says so; a first asking this late means the program was away."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Trip:
    """Prompts that go out as one message, in the order of doing.

    `late` are those asked for the first time more than ten minutes after they were due; `again` was asked before.
    """

    prompts: tuple[Prompt, ...]
    late: tuple[Prompt, ...] = ()
    again: bool = False
    cautions: tuple[str, ...] = ()
    """The caution that rides along, at most one (`scheduler.planning.cautions`)."""
    brief: bool = False
    """True for a room that was shown the card of a handover already."""
    told_at: dt.datetime | None = None
    """What was last told as the time of this message, when it is more than ten minutes off."""

    @property
    def keys(self) -> tuple[str, ...]:
        """Return the keys of its prompts."""
        return tuple(prompt.key for prompt in self.prompts)

    @property
    def wakes(self) -> tuple[str, ...]:
        """Return whom it is to wake in the quiet hours, in the order of the prompts; empty by day."""
        return tuple(dict.fromkeys(name for prompt in self.prompts for name in prompt.wakes))

    @property
    def safety(self) -> bool:
        """Return whether it carries a safety prompt."""
        return any(prompt.step.safety for prompt in self.prompts)


@dataclasses.dataclass(frozen=True, kw_only=True)
class GivenUp:
    """A prompt that is withdrawn, with the reason: too_late, no_answer, night (nobody was to be woken for it)."""

    prompt: Prompt
    reason: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Gathered:
    """What is to be done now: at most one trip, and what is given up."""

    trip: Trip | None
    given_up: tuple[GivenUp, ...]


def gather(prompts: tuple[Prompt, ...], state: CookState, now: dt.datetime) -> Gathered:
    """Return the trip that is due at `now` and the prompts whose time has gone.

    A prompt that is due starts a trip; whatever is due within `JOIN` and may come that early joins it. A first asking
    after `late_until` is given up, unless the step must arrive. An unanswered prompt that may lapse does so silently.
    """
    given_up = [
        GivenUp(prompt=p, reason="no_answer") for p in prompts if p.lapses_at is not None and p.lapses_at <= now
    ]
    given_up += too_late(prompts, now)
    gone = {entry.prompt.key for entry in given_up}
    due = [p for p in prompts if p.key not in gone and p.wake_at is not None and p.wake_at <= now]
    if not due:
        return Gathered(trip=None, given_up=tuple(given_up))
    pull = [p for p in due if p.step.id == "pull"]
    if pull:
        return Gathered(trip=_trip(pull, state, now), given_up=tuple(given_up))  # nothing may bury this one
    chosen = {p.key for p in due}
    joining = [p for p in prompts if p.key not in gone and p.key not in chosen and _joins(p, now)]
    trip = _trip([*due, *joining], state, now)
    return Gathered(trip=trip, given_up=tuple(given_up))


def too_late(prompts: tuple[Prompt, ...], now: dt.datetime) -> tuple[GivenUp, ...]:
    """Return the prompts whose time had gone before they could be asked."""
    return tuple(
        GivenUp(prompt=p, reason="night" if p.silent else "too_late") for p in prompts if _too_late(p, now)
    )  # fmt: skip


def next_at(prompts: tuple[Prompt, ...]) -> tuple[dt.datetime, Prompt] | None:
    """Return when the next message comes by itself and the prompt that brings it, None when none will."""
    waking = [(p.wake_at, p) for p in prompts if p.wake_at is not None]
    waking += [(p.follows_at, p) for p in prompts if p.wake_at is None and p.follows_at is not None]
    return min(waking, key=lambda entry: entry[0]) if waking else None


def wakes(prompts: tuple[Prompt, ...]) -> tuple[tuple[str, dt.datetime], ...]:
    """Return (key, instant) of every moment at which a cook must be looked at again."""
    moments = []
    for prompt in prompts:
        times = [t for t in (prompt.wake_at, prompt.lapses_at) if t is not None]
        if times:
            moments.append((prompt.key, min(times)))
    return tuple(moments)


def _joins(prompt: Prompt, now: dt.datetime) -> bool:
    """Return whether a prompt that is not due yet may ride along: not when it was just asked, or put off to a time.

    What is silent in the night rides along as soon as somebody goes to the cooker anyway, and so does a look of the
    watch that only waits for its next walk.
    """
    if prompt.silent:
        return prompt.asked == 0 and prompt.early_from <= now
    if _waits_for_a_walk(prompt, now):
        return True
    if prompt.wake_at is None or prompt.wake_at > now + JOIN or prompt.why.kind == "put_off":
        return False
    return prompt.early_from <= now if prompt.asked_at is None else now - prompt.asked_at >= BREATH


def _waits_for_a_walk(prompt: Prompt, now: dt.datetime) -> bool:
    """Return whether a look of the watch was due already and was put off to spare a message."""
    look = prompt.step.night == "watch_only" and prompt.step.phase == "cooking" and not prompt.step.safety
    moved = prompt.wake_at is not None and prompt.late_from is not None and prompt.late_from <= now
    return look and moved and prompt.asked == 0 and prompt.why.kind != "put_off"


def _too_late(prompt: Prompt, now: dt.datetime) -> bool:
    return prompt.asked == 0 and not prompt.must_arrive and now > prompt.late_until


def _trip(prompts: list[Prompt], state: CookState, now: dt.datetime) -> Trip:
    ordered = tuple(sorted(prompts, key=lambda prompt: prompt.order))
    late = tuple(p for p in ordered if p.asked == 0 and now - max(p.due_at, state.planned_at) > OUTAGE)
    fresh = [p for p in ordered if p.asked == 0]
    told_at = state.told.next_at if state.told is not None else None
    off = told_at is not None and abs(now - told_at) > OUTAGE
    return Trip(
        prompts=ordered,
        late=late,
        again=not fresh,
        told_at=told_at if off else None,
    )
