"""Choices on the screen, typed: letters, labels, and the words that only one label has."""

from __future__ import annotations

import dataclasses

import pytest

from bot.commands import Done, Intent, NotYet, Report, Skip, Value, WrapSaid
from bot.conversation.context import Context, OfferedChoice
from bot.conversation.interpreter import read
from scheduler.facts import Slot, Wrap
from tests.unit.bot.conversation.spoken import plain, setting

PAPER = WrapSaid(wrap=Wrap.PAPER, done=False)
FOIL = WrapSaid(wrap=Wrap.FOIL, done=False)
LATER = NotYet(step="wrap_decide")


def screen(*choices: tuple[str, Intent]) -> Context:
    """Return a moment with these buttons on the screen, lettered from a."""
    offered = tuple(
        OfferedChoice(letter="abcdef"[index], label=label, meaning=meaning)
        for index, (label, meaning) in enumerate(choices)
    )
    return dataclasses.replace(setting("unit=F", "wrap_decide"), choices=offered)


WRAPS = screen(("Pink paper", PAPER), ("Tin foil, tight", FOIL), ("Not yet, look again", LATER))


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("a", PAPER),
        ("B", FOIL),
        ("c)", LATER),
        ("(a)", PAPER),
        ("b.", FOIL),
        ("pink paper", PAPER),
        ("PINK PAPER!", PAPER),
        ("Tin foil", FOIL),
        ("tin foil tight", FOIL),
        ("tight", FOIL),
        ("look again", LATER),
        ("a) pink paper", PAPER),
    ],
)
def test_a_choice_on_the_screen_can_be_typed(text: str, meaning: Intent) -> None:
    """A letter, a label or the words that only one label has choose it; case and punctuation do not matter."""
    assert read(text, WRAPS) == (meaning,)


def test_a_letter_without_a_choice_is_no_choice() -> None:
    """A letter beyond those on the screen is not taken for another one."""
    assert plain(read("e", WRAPS)) == "question not_understood"


def test_a_number_is_always_a_reading() -> None:
    """A figure never chooses by place, even when a label begins with it."""
    reading = Report(values=(Value(value_c=70.0, slot=Slot.CORE),))
    context = dataclasses.replace(screen(("1 more look", LATER), ("178 in the pit", reading)), open_steps=())
    assert plain(read("1", context)) != plain((LATER,))
    assert plain(read("178", context)) == "reading core 81.1"


def test_a_unit_question_is_answered_by_its_label() -> None:
    """Where a label is a figure with its unit, typing that very label chooses it."""
    celsius = Report(values=(Value(value_c=95.0, slot=Slot.PIT),))
    fahrenheit = Report(values=(Value(value_c=35.0, slot=Slot.PIT),))
    context = screen(("95 °C", celsius), ("95 °F", fahrenheit))
    assert read("95 c", context) == (celsius,)
    assert read("fahrenheit", screen(("Celsius", celsius), ("Fahrenheit", fahrenheit))) == (fahrenheit,)


def test_words_that_two_labels_share_choose_neither() -> None:
    """What could mean either button is left to the readers of replies."""
    context = screen(("Spritz done", Done(step="spritz")), ("Wood done", Done(step="wood_add")))
    assert read("wood", context) == (Done(step="wood_add"),)
    assert plain(read("done", context)) == "done wrap_decide"


def test_common_answers_are_not_caught_by_longer_labels() -> None:
    """A plain "skip" alone stays the plain answer when a label only holds the word."""
    context = screen(("Skip the rest of the cook", Skip(step="everything")), ("Go on", LATER))
    assert read("skip", context) == (Skip(step="wrap_decide"),)
