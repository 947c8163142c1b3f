"""Choices on the screen, typed: letters, labels, and the words that only one label has."""

from __future__ import annotations

import dataclasses
import string

import pytest

from bot.commands import Ask, CallOff, Done, Draft, FeelSaid, Intent, NotYet, Report, Skip, Topic, Value, WrapSaid
from bot.conversation.context import Context, OfferedChoice
from bot.conversation.interpreter import read
from scheduler.facts import Feel, Slot, Wrap
from tests.unit.bot.conversation.spoken import plain, setting

PAPER = WrapSaid(wrap=Wrap.PAPER, done=False)
FOIL = WrapSaid(wrap=Wrap.FOIL, done=False)
LATER = NotYet(step="wrap_decide")


def screen(*choices: tuple[str, Intent]) -> Context:
    """Return a moment with these buttons on the screen, lettered from a."""
    offered = tuple(
        OfferedChoice(letter=string.ascii_lowercase[index], label=label, meaning=meaning)
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


WIDE = screen(
    ("All done", Done(every=True)),
    ("Still tight", FeelSaid(feel=Feel.TIGHT)),
    ("Almost", FeelSaid(feel=Feel.ALMOST)),
    ("Wrapped in paper", PAPER),
    ("Smoke: thin", Done(step="smoke_clean", outcome="thin")),
    ("Smoke: grey", Done(step="smoke_clean", outcome="grey")),
    ("Smoke: white", Done(step="smoke_clean", outcome="white")),
    ("Fuel: low", Done(step="fuel_check", outcome="low")),
    ("Cooling", Done(step="fire_out", outcome="cooling")),
    ("All steps", Ask(topic=Topic.PLAN_REST)),
)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("pap", PAPER),
        ("al", FeelSaid(feel=Feel.ALMOST)),
        ("Al", FeelSaid(feel=Feel.ALMOST)),
        ("ti", FeelSaid(feel=Feel.TIGHT)),
        ("gre", Done(step="smoke_clean", outcome="grey")),
        ("whi", Done(step="smoke_clean", outcome="white")),
        ("lo", Done(step="fuel_check", outcome="low")),
        ("sm th", Done(step="smoke_clean", outcome="thin")),
        ("wr pa", PAPER),
    ],
)
def test_the_beginning_of_a_choice_is_enough(text: str, meaning: Intent) -> None:
    """The first letters of a label's words, two at least, choose it when only one label has them."""
    assert read(text, WIDE) == (meaning,)


@pytest.mark.parametrize("text", ["sm", "th sm", "zz", "p a", "smo"])
def test_a_beginning_that_fits_none_or_several_chooses_nothing(text: str) -> None:
    """Two labels with these letters, or none, or the words in another order: it is asked."""
    assert plain(read(text, WIDE)) == "question not_understood"


@pytest.mark.parametrize(
    ("text", "understood"),
    [("cool", "note"), ("ok", "note"), ("no", "note"), ("178", "reading core 81.1"), ("plan", "ask plan")],
)
def test_words_that_mean_something_choose_nothing_by_their_beginning(text: str, understood: str) -> None:
    """A nod, a no, a number or a command keeps its own meaning though a label begins alike."""
    fire = dataclasses.replace(setting("unit=F", "fire_out"), choices=WIDE.choices)
    assert plain(read(text, fire)) == understood


def test_a_beginning_stands_for_a_cut_when_cuts_are_offered() -> None:
    """In the question what is cooking, the first letters of a cut on the screen are that cut, not an unknown one."""
    ribs = Draft(cut="beef_chuck_ribs")
    offered = screen(("beef short ribs", ribs), ("whole brisket", Draft(cut="brisket_packer")))
    context = dataclasses.replace(setting("stage=none setup=cut unit=-"), choices=offered.choices)
    assert read("bris", context) == (Draft(cut="brisket_packer"),)
    assert read("sh ri", context) == (ribs,)


def on_screen(asked: str, *choices: tuple[str, Intent]) -> Context:
    """Return a moment with these open steps and these buttons."""
    return dataclasses.replace(setting("unit=F", asked), choices=screen(*choices).choices)


@pytest.mark.parametrize("text", ["no", "n", "Nope", "no thanks", "nah"])
def test_no_refuses_only_what_was_asked_last(text: str) -> None:
    """After a question that is no step, or one for a number, "no" does nothing; after a step it is not yet."""
    tick = ("Spritzed", Done(step="spritz"))
    assert plain(read(text, on_screen("spritz", tick))) == "not yet spritz"
    assert plain(read(text, on_screen("spritz", ("Yes", CallOff(sure=True))))) == "note"
    assert plain(read(text, on_screen("spritz", ("Paper", PAPER), ("Foil", FOIL)))) == "note"
    assert plain(read(text, on_screen("spritz", ("All steps", Ask(topic=Topic.PLAN_REST))))) == "note"
    assert plain(read(text, on_screen("wrap_do", ("Wrapped in paper", PAPER)))) == "not yet wrap_do"
    assert plain(read(text, on_screen("core_read"))) == "note"
    assert plain(read(text, on_screen(""))) == "note"


def test_words_that_two_labels_share_choose_neither() -> None:
    """What could mean either button is neither, nor an older step behind them."""
    context = screen(("Spritz done", Done(step="spritz")), ("Wood done", Done(step="wood_add")))
    assert read("wood", context) == (Done(step="wood_add"),)
    assert plain(read("done", context)) == "note"


def test_common_answers_are_not_caught_by_longer_labels() -> None:
    """A plain "skip" alone stays the plain answer when a label only holds the word."""
    context = screen(("Skip the rest of the cook", Skip(step="everything")), ("Go on", LATER))
    assert read("skip", context) == (Skip(step="wrap_decide"),)
