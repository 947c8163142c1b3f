"""Words for each step: what to do, what it is called in a list, what its buttons say, and why it matters.

Structure and times of steps live in the engine's catalogue; a test holds both lists together.
"""

from __future__ import annotations

import functools

from bot.messages.steps import after, before, cooking, fire, table
from bot.messages.steps.cautions import CAUTIONS, caution_text
from bot.messages.steps.consequences import consequence
from bot.messages.steps.words import StepWords
from bot.messages.words import spoken

__all__ = ["CAUTIONS", "StepWords", "all_step_ids", "caution_text", "consequence", "step_words"]


def step_words(step_id: str) -> StepWords:
    """Return the words of a step."""
    return _all(spoken())[step_id]


def all_step_ids() -> tuple[str, ...]:
    """Return the ids of every step that has words."""
    return tuple(_all(spoken()))


@functools.cache
def _all(_language: str) -> dict[str, StepWords]:
    """Return the words of every step in the language that is spoken now, which is the key they are kept under."""
    return before.words() | fire.words() | cooking.words() | table.words() | after.words()
