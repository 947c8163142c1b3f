"""Matches a text with the choices now on the screen: their letter, their label, or the words that tell them apart.

A number is always a reading, never a choice by place.
"""

from __future__ import annotations

import re

from bot.commands import Intent
from bot.conversation.context import Context, OfferedChoice
from bot.conversation.parsing.words import bare, tidy, word_set

_LETTER = re.compile(r"^\(?([a-z])[).:]?$")
_LETTER_AND_LABEL = re.compile(r"^\(?([a-z])[).:] (.+)$")
_TOO_COMMON = word_set(
    "done yes no ok okay skip later not yet wait the a an it is in on at to of and or i we was now more "
    "all this that next plan rest help undo both"
)
"""Words that say an answer by themselves: they choose a label only when they are all of it."""


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
    labels = [(choice, bare(tidy(choice.label))) for choice in context.choices]
    same = [choice for choice, label in labels if label == said]
    if same:
        return same[0].meaning
    return _distinct(said, labels)


def _distinct(said: str, labels: list[tuple[OfferedChoice, str]]) -> Intent | None:
    """Return the one label that begins with these words, or the one that holds them all."""
    words = said.split()
    if all(word in _TOO_COMMON or word.isdigit() for word in words):
        return None
    starts = [choice for choice, label in labels if label.startswith(f"{said} ")]
    if len(starts) == 1:
        return starts[0].meaning
    holds = [choice for choice, label in labels if set(words) <= set(label.split())]
    return holds[0].meaning if len(holds) == 1 and not starts else None
