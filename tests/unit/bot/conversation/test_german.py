"""German is read as the English words that mean the same: whoever is spoken to in German may answer in it."""

from __future__ import annotations

import re

import pytest

from bot.commands import Intent
from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import setting
from tests.unit.bot.conversation.spoken_german import (
    BEFORE,
    BEFORE_IT,
    COOKING,
    DEEDS,
    NONE,
    QUESTIONS,
    SET_UP,
    TROUBLES,
)

CASES = [
    *((COOKING, *pair) for pair in (*QUESTIONS, *DEEDS, *TROUBLES)),
    *((BEFORE, *pair) for pair in BEFORE_IT),
    *((NONE, *pair) for pair in SET_UP),
]


def meant(text: str, here: str) -> list[str]:
    """Return what is understood, without the words themselves."""
    return [_bare(one) for one in read(text, setting(here))]


def _bare(intent: Intent) -> str:
    return re.sub(r"text='[^']*'|text=\"[^\"]*\"", "", repr(intent))


@pytest.mark.parametrize(("here", "german", "english"), CASES)
def test_german_means_the_same(here: str, german: str, english: str) -> None:
    """Questions, readings, deeds, troubles and a whole set-up are understood alike in both languages."""
    assert "not_understood" not in "".join(meant(english, here))
    assert meant(german, here) == meant(english, here)
