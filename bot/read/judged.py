"""Judges readings as the chat does: what cannot follow the last one, what lies on or under a limit.

It knows no piece: a limit is that of a hold, of poultry where the words name it, else of intact meat.
"""

from __future__ import annotations

import datetime as dt
import re
from enum import StrEnum

from bot.commands import Value
from bot.conversation.context import Context
from scheduler.cook.plausible import follows
from scheduler.facts import Slot
from scheduler.units import c_from_f

HOLD_C = 60.0
"""Under this a hold is unsafe [°C]: 140 F, the trade's floor."""
POULTRY_C = c_from_f(165.0)
"""Safe minimum of poultry [°C]: 165 F, as published (see docs/reference/safety-rules.md)."""
INTACT_C = c_from_f(145.0)
"""Safe minimum of intact beef, pork and lamb [°C]: 145 F, as published."""
ROUNDED_C = 0.3
"""A reading so little above a limit shows as the limit [°C]."""
_POULTRY = re.compile(r"\b(?:breast|thighs?|wings?|drumsticks?|chicken|turkey|poultry|duck|goose|bird|hen|legs?)\b")
_LOOKS_DONE = re.compile(
    r"\b(?:looks?|seems?|think|must be|surely) (?:it'?s )?(?:all |pretty |about )?(?:done|ready|good|fine|cooked)\b"
)


RUNAWAY_C = 40.0
"""So far above its target a pit that nobody asked for is a trouble, not a number [°C]; common practice, no source."""


class Limit(StrEnum):
    """Where a core lies."""

    ON = "reading_limit"
    UNDER = "reading_below_limit"


def leaps(value: Value, at: dt.datetime | None, context: Context) -> bool:
    """Return whether a core on the fire cannot have come from the last one."""
    if value.slot is not Slot.CORE or context.stage != "cooking":
        return False
    if context.last_core_c is None or context.last_core_at is None:
        return False
    minutes = ((at or context.now) - context.last_core_at) / dt.timedelta(minutes=1)
    return minutes >= 0 and not follows(context.last_core_c, value.value_c, minutes=minutes, slack_c=value.spread_c)


def runs_away(value: Value, context: Context) -> bool:
    """Return whether somebody tells unasked of a pit far above its target."""
    if value.slot is not Slot.PIT or context.pit_target_c is None or context.open_steps:
        return False
    return value.value_c - context.pit_target_c >= RUNAWAY_C


def limit(value: Value, heard: str, context: Context) -> Limit | None:
    """Return whether a core lies on a safe limit or under it, None where neither is so or no limit is near."""
    if value.slot is not Slot.CORE or value.spread_c:
        return None
    if context.stage in ("resting", "serving") and not _POULTRY.search(heard):
        return _beside(value.value_c, HOLD_C)
    if _POULTRY.search(heard):
        return _beside(value.value_c, POULTRY_C) if _decides(heard, context) else None
    if _LOOKS_DONE.search(heard):
        return _beside(value.value_c, INTACT_C)
    return Limit.ON if _beside(value.value_c, INTACT_C) is Limit.ON and _decides(heard, context) else None


def _decides(heard: str, context: Context) -> bool:
    """Return whether a reading can decide about serving: another spot, words like done, nothing else known."""
    second = any(step.step in ("second_spot", "serve_reading") for step in context.open_steps)
    return second or bool(_LOOKS_DONE.search(heard)) or context.last_core_c is None


def _beside(value_c: float, limit_c: float) -> Limit | None:
    if value_c < limit_c - 1e-6:
        return Limit.UNDER
    return Limit.ON if value_c <= limit_c + ROUNDED_C else None
