"""What a question for a number will likely be answered with, as things stand: the middle of the forecast, in °C.

Pure. It is never shown: people are offered round numbers on both sides of it, so that nobody is led.
"""

from __future__ import annotations

import datetime as dt
import math

from scheduler.facts import Slot
from scheduler.planning.gates import rising_c
from scheduler.planning.prompts import Prompt
from scheduler.planning.rest import held_core_c
from scheduler.planning.views import PieceView
from scheduler.safety.limits import COOL_COLD, COOL_FIRST, COOL_FIRST_TIME, REHEAT
from scheduler.state import Stage

FRIDGE_C = 4.0
"""Where a fridge is set; common practice, no source [°C]."""

RESTS_C = 70.0
"""Held meat of which nobody read anything; common practice, no source [°C]."""

_KNOWN_FOR = dt.timedelta(hours=3)
"""A pit read longer ago says no more about now than its set point; common practice, no source."""


def expected_c(slot: Slot, prompt: Prompt, view: PieceView, now: dt.datetime) -> float:
    """Return the likely answer [°C] to a question for a slot, of a piece as it is seen at `now` (UTC)."""
    if slot is Slot.PIT:
        return _pit_c(prompt, view, now)
    if slot is Slot.FRIDGE:
        last = view.state.last(Slot.FRIDGE)
        return FRIDGE_C if last is None else last.value_c
    if slot is Slot.LEFTOVERS:
        return _leftovers_c(prompt, view, now)
    if view.state.stage in {Stage.BEFORE, Stage.FIRE, Stage.COOKING}:
        return view.outlook.forecast.core_c(now)
    held = held_core_c(view.state, view.cut, now)
    return RESTS_C if held is None else held


RISING_C, RISES_MIN = 20.0, 30.0
"""A pit read further than this under its set point [°C] was rising, and in so many minutes [min] most of what was left
of the way is gone: house rule.
"""


def _pit_c(prompt: Prompt, view: PieceView, now: dt.datetime) -> float:
    """Return the pit: as its rise was foreseen, else half way between what was read last and its set point.

    In the cooks of the virtual kitchen the middle of the two is nearer to the next reading than either.
    """
    if prompt.why.pit_c is not None:
        return prompt.why.pit_c
    state = view.state
    rising = rising_c(state, now)
    if rising is not None:
        return rising
    last = state.last(Slot.PIT)
    if last is None or now - last.at > _KNOWN_FOR:
        return state.pit_c
    off_c = last.value_c - state.pit_c
    half = 0.5
    if off_c < -RISING_C:  # it was on its way up, and has gone on since
        half *= math.exp(-((now - last.at) / dt.timedelta(minutes=1)) / RISES_MIN)
    return state.pit_c + half * off_c


def _leftovers_c(prompt: Prompt, view: PieceView, now: dt.datetime) -> float:
    """Return what put away food reads: at its limit, which is what its question is about."""
    edition = view.state.edition
    if prompt.step.id == "reheat":
        return REHEAT.under(edition).c
    served_at = view.state.at("leftovers") or view.state.at("serve")
    first = dt.timedelta(minutes=COOL_FIRST_TIME.under(edition).value)
    late = served_at is not None and now - served_at > 1.5 * first
    return (COOL_COLD if late else COOL_FIRST).under(edition).c
