"""Which open prompts a report answers. Pure; reads the schedule, changes nothing."""

from __future__ import annotations

import datetime as dt

from scheduler.cook.changes import Report
from scheduler.cook.situation import Situation
from scheduler.facts import Body, Felt, Reading, Slot, Wrapped
from scheduler.planning.prompts import Prompt

SOON = dt.timedelta(minutes=30)
"""A number volunteered this long before it would be asked for answers that question; common practice, no source: nobody
wants to be asked what was just told."""

FRESH = dt.timedelta(minutes=30)
"""A question for two numbers is answered when the other one is not older than this."""


def of_reading(report: Report, current: Situation) -> tuple[str, ...]:
    """Return the keys of the number questions that a reading answers.

    A question for core and pit needs both, a feel for tenderness needs the hand: a number alone leaves it open.
    """
    reading = report.body
    assert isinstance(reading, Reading)
    if reading.doubtful:
        return ()
    return tuple(
        prompt.key
        for prompt in current.prompts
        if reading.slot in prompt.step.slots
        and prompt.step.id != "tender_test"
        and _wanted_now(prompt, report.happened_at)
        and _others_fresh(prompt, reading.slot, report.happened_at, current)
    )


def _wanted_now(prompt: Prompt, at: dt.datetime) -> bool:
    """Return whether a reading of that time is the one asked for: an old one, told late, answers no new question."""
    asked_at = prompt.due_at if prompt.asked_at is None else min(prompt.due_at, prompt.asked_at)
    return asked_at - at <= SOON


def _others_fresh(prompt: Prompt, slot: Slot, at: dt.datetime, current: Situation) -> bool:
    others = [s for s in prompt.step.slots if s is not slot]
    newest = [current.state.last(other) for other in others]
    return all(reading is not None and abs(at - reading.at) <= FRESH for reading in newest)


def of_step(step_id: str, current: Situation) -> tuple[str, ...]:
    """Return the key of the open prompt of a step, if there is one."""
    prompt = current.prompt(step_id)
    return () if prompt is None else (prompt.key,)


def of_done(step_id: str, current: Situation) -> tuple[str, ...]:
    """Return the keys that a step being done closes: its own and those it stands for."""
    closes = [p.key for p in current.prompts if p.step.id == step_id or step_id in p.step.closed_by]
    if step_id == "pull":
        closes += [p.key for p in current.prompts if p.step.id == "tender_test"]
    return tuple(closes)


def of_body(body: Body, current: Situation) -> tuple[str, ...]:
    """Return the keys that a wrap or a feel closes."""
    steps = ("bark_check", "wrap_do") if isinstance(body, Wrapped) else ("tender_test",)
    if not isinstance(body, Wrapped | Felt):
        return ()
    return tuple(p.key for p in current.prompts if p.step.id in steps)
