"""German is read as the English words that mean the same: whoever is spoken to in German may answer in it."""

from __future__ import annotations

import re

import pytest

from bot.commands import Intent
from bot.conversation.interpreter import read
from bot.conversation.parsing.german import from_german
from bot.conversation.parsing.words import tidy
from tests.catalogues import kept
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
    WORDS,
)

TYPED = re.compile(r"\b(?:[Tt]ype|ask|Ask|say|says|tells|shows|like)\b")
"""A text that quotes what can be typed."""

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


@pytest.mark.parametrize(("german", "english"), WORDS)
def test_german_words_become_english(german: str, english: str) -> None:
    """Words whose meaning hangs on what is open become the English ones; umlauts may be written out."""
    assert tidy(german) == tidy(english)


@pytest.mark.parametrize(
    "text", ["the rest is fast", "plan b", "wait bis later", "die hard", "art of the grill", "also gut"]
)
def test_english_is_left_alone(text: str) -> None:
    """A word that both languages have is no German by itself."""
    assert from_german(tidy(text)) == tidy(text)


def test_what_german_texts_say_to_type_is_understood() -> None:
    """What stands in quotation marks in a German text is read as what stands there in English."""
    pairs = [
        (german, english)
        for one in kept("de")
        if isinstance(one.id, str) and isinstance(one.string, str) and TYPED.search(one.id)
        for german, english in zip(
            re.findall('[„"]([^“"]*)[“"]', one.string), re.findall('"([^"]*)"', one.id), strict=True
        )
        if "{" not in english
    ]
    assert len(pairs) > 10
    assert [
        pair for pair in pairs if tidy(pair[0]) != tidy(pair[1]) and meant(pair[0], COOKING) != meant(pair[1], COOKING)
    ] == []


@pytest.mark.parametrize("text", ["a guest is ill", "guest is sick", "ein Gast ist krank"])
def test_an_ill_guest_is_no_new_name(text: str) -> None:
    """Who is ill is heard as that, never as somebody called so who comes as a guest."""
    assert {type(one).__name__ for one in read(text, setting(COOKING))} <= {"CareSaid", "Trouble"}
