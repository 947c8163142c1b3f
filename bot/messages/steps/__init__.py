"""Words for each step: what to do, what it is called in a list, what its buttons say, and why it matters.

Structure and times of steps live in the engine's catalogue; a test holds both lists together.
"""

from __future__ import annotations

from bot.messages.steps import after, before, cooking, fire, table
from bot.messages.steps.cautions import CAUTIONS, caution_text
from bot.messages.steps.consequences import consequence
from bot.messages.steps.words import StepWords

__all__ = ["CAUTIONS", "StepWords", "all_step_ids", "caution_text", "consequence", "step_words"]

_CACHE: dict[str, StepWords] = {}


def step_words(step_id: str) -> StepWords:
    """Return the words of a step."""
    if not _CACHE:
        _CACHE.update(_all())
    return _CACHE[step_id]


def all_step_ids() -> tuple[str, ...]:
    """Return the ids of every step that has words."""
    return tuple(_all())


def _all() -> dict[str, StepWords]:
    return before.words() | fire.words() | cooking.words() | table.words() | after.words()
