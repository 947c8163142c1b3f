"""Matches a text with the choices now on the screen: their letter, their label, the words that tell them apart, or
the first letters of those.

A number is always a reading, never a choice by place.
"""

from __future__ import annotations

import re

from bot.commands import Ask, ChangePlan, Done, Draft, Intent, Report
from bot.conversation.context import Context, OfferedChoice
from bot.conversation.parsing.words import bare, tidy, word_set

_LETTER = re.compile(r"^\(?([a-z])[).:]?$")
_UNIT = re.compile(r"(?<=\d) ?[fc]\b")
"""The unit of a figure on a button, which is typed or not."""
_LETTER_AND_LABEL = re.compile(r"^\(?([a-z])[).:] (.+)$")
SHORTEST_BEGINNING = 2
"""A single letter is a choice by its letter, not the beginning of a word [letters]."""
_TOO_COMMON = word_set(
    "done yes no ok okay skip later not yet wait the a an it is in on at to of and or i we was now more "
    "all this that next plan rest help undo both k kk cool fine good great sure out right nice"
)
"""Words that say an answer by themselves: they choose a label only when they are all of it."""

_IT_IS = word_set("it it's its is that that's thats was")


def chosen(text: str, context: Context) -> Intent | None:
    """Return what the chosen button means, or None when the text chooses none."""
    heard = tidy(text)
    if letter := _LETTER.match(heard):
        for choice in context.choices:
            if choice.letter.casefold() == letter[1]:
                return choice.meaning
    lettered = _LETTER_AND_LABEL.match(heard)
    said = bare(lettered[2] if lettered else heard)
    if not said:
        return None
    labels = [(choice, bare(tidy(choice.label))) for choice in context.choices if not _is_number(choice.meaning)]
    same = [choice for choice, label in labels if label == said] or [
        choice for choice, label in labels if _UNIT.sub("", label) == _UNIT.sub("", said)
    ]
    if same:
        return same[0].meaning
    return _distinct(said, labels)


def _is_number(meaning: Intent) -> bool:
    """Return whether a button stands for a number: typed digits are finer than a button."""
    if isinstance(meaning, Draft):
        return meaning.mass_kg is not None and meaning == Draft(mass_kg=meaning.mass_kg)
    if isinstance(meaning, ChangePlan):
        return meaning.mass_kg is not None
    return isinstance(meaning, Report) and meaning.tapped


def begun(text: str, context: Context) -> Intent | None:
    """Return what the one choice means whose words begin, in order, with the words of a text ("pap", "sm th").

    For a text that says nothing else. Buttons that only show something, and "all done", must be said plainly.
    """
    said = bare(tidy(text)).split()
    if not said or any(not word.isalpha() or len(word) < SHORTEST_BEGINNING for word in said):
        return None
    meanings = [
        choice.meaning
        for choice in context.choices
        if not isinstance(choice.meaning, Ask)
        and not (isinstance(choice.meaning, Done) and choice.meaning.every)
        and _begin_in_order(said, bare(tidy(choice.label)).split())
    ]
    return meanings[0] if meanings and all(meaning == meanings[0] for meaning in meanings) else None


def _begin_in_order(said: list[str], label: list[str]) -> bool:
    rest = iter(label)
    return all(any(word.startswith(beginning) for word in rest) for beginning in said)


def _distinct(said: str, labels: list[tuple[OfferedChoice, str]]) -> Intent | None:
    """Return the one label that begins with these words, or the one that holds them all."""
    words = said.split()
    if all(word in _TOO_COMMON or word.isdigit() for word in words):
        return None
    starts = [choice for choice, label in labels if label.startswith(f"{said} ")]
    if len(starts) == 1:
        return starts[0].meaning
    words = [word for word in words if word not in _IT_IS] or words
    holds = [choice for choice, label in labels if set(words) <= set(label.split())]
    if len(holds) > 1 and not starts:  # "meat" answers the question about a figure before it names a button of old
        holds = [choice for choice in holds if isinstance(choice.meaning, Report)]
    return holds[0].meaning if len(holds) == 1 and not starts else None
