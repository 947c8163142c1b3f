"""Which open prompts a report answers. Pure; reads the schedule, changes nothing."""

from __future__ import annotations

import datetime as dt

from scheduler.cook.changes import Report
from scheduler.cook.situation import Situation
from scheduler.facts import AirTold, Body, Felt, GuestsTold, HandoverTaken, Reading, Slot, WatchesTold, Wrapped
from scheduler.planning.gates import IN_BAND_C
from scheduler.planning.prompts import Prompt
from scheduler.safety.limits import DANGER_LOW, REHEAT

SOON = dt.timedelta(minutes=30)
"""A number volunteered this long before it would be asked for answers that question; common practice, no source: nobody
wants to be asked what was just told."""

A_DAY = dt.timedelta(days=1)
"""A fridge that was read so long before is not asked about: house rule, it changes slowly."""

FRESH = dt.timedelta(minutes=30)
"""A question for two numbers is answered when the other one is not older than this."""

_AT_OPENING = dt.timedelta(minutes=15)
"""... for the reading before serving so long: an older number does not tell how hot the food comes out."""

_ANSWERED_BY: dict[type[Body], tuple[str, ...]] = {
    Wrapped: ("bark_check", "wrap_do"),
    Felt: ("tender_test",),
    GuestsTold: ("headcount",),
    WatchesTold: ("roles",),
    HandoverTaken: ("handover",),
    AirTold: ("weather",),
}
"""Steps that are answered by a fact of their own."""


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
        and _fits(prompt, reading, current)
        and _wanted_now(prompt, reading, report.happened_at)
        and _others_fresh(prompt, reading.slot, report.happened_at, current)
    )


def _wanted_now(prompt: Prompt, reading: Reading, at: dt.datetime) -> bool:
    """Return whether a reading of that time is the one asked for: an old one, told late, answers no new question."""
    asked_at = prompt.due_at if prompt.asked_at is None else min(prompt.due_at, prompt.asked_at)
    if prompt.step.id == "serve_reading":
        return asked_at - at <= _AT_OPENING
    return asked_at - at <= (A_DAY if reading.slot is Slot.FRIDGE else SOON)


def _fits(prompt: Prompt, reading: Reading, current: Situation) -> bool:
    """Return whether a number that nobody asked for may answer: several spots are read on purpose, and a pit that is
    still on its way up is not there yet.
    """
    if prompt.step.id == "fridge_check":  # until it is cold it is read again
        return round(reading.value_c + reading.spread_c, 1) <= DANGER_LOW.under(current.state.edition).c
    if prompt.step.id == "reheat":  # until it is hot enough it is still being reheated
        return round(reading.value_c - reading.spread_c, 1) >= REHEAT.under(current.state.edition).c
    if prompt.asked > 0:
        return True
    if prompt.step.id == "pit_stable":
        band = current.state.pit[-1]
        return band.low_c - IN_BAND_C <= reading.value_c <= band.high_c + IN_BAND_C
    return prompt.step.id != "second_spot"


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
    """Return the keys that a wrap, a feel, or what was told of guests, watches and air closes."""
    steps = next((steps for kind, steps in _ANSWERED_BY.items() if isinstance(body, kind)), ())
    return tuple(p.key for p in current.prompts if p.step.id in steps)
