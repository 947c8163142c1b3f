"""Talk among people beside the fire closes no step, whatever is open; yes answers the newest buttons, none behind."""

from __future__ import annotations

import dataclasses

import pytest

from bot.commands import CallOff, Done, FeelSaid, Intent, Report, Skip, WrapSaid
from bot.conversation.context import Context, OfferedChoice
from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import plain, setting

CHATTER = (
    "gonna sleep, back at 6",
    "back at 6",
    "see you at 7",
    "tomas comes at 7",
    "kids are home at 4",
    "beer at 6",
    "the match starts at 3",
    "we have guests at 6",
    "my mum called at 3",
    "coming up at 8",
    "ok see you at 6",
    "i'll be there at 6",
    "it will be 165 at 7",
    "going to the shop, back in 20",
    "call it off",
    "actually it was 17 minutes ago",
    "mute everything",
    "mute all",
    "stop asking me everything",
    "done with work",
    "finished work at 5",
    "just finished my beer",
    "all done with the shopping",
    "ready for a beer",
    "closed the garage",
    "closed the window",
    "salad is on the table",
    "beers are on the table",
    "served in the army",
    "boxed set of music",
    "i pulled a muscle",
    "pulled the car out",
    "off to the shop",
    "off to bed",
    "good night",
    "the party is on",
    "who is on the table",
    "the dog washed down the stairs",
)
OPEN = ("", "raw_cleanup", "shutdown", "leftovers", "two_hour", "meat_on", "light", "wrap_do", "serve", "core_read")


def _writes(intent: Intent) -> bool:
    """Return whether an intent would close a step or store a number."""
    return isinstance(intent, Done | Skip | FeelSaid | Report | WrapSaid)


@pytest.mark.parametrize("text", CHATTER)
def test_chatter_closes_nothing(text: str) -> None:
    """Whatever is open, chatter is no step done, none skipped, no number."""
    for asked in OPEN:
        for stage in ("fire", "cooking", "resting", "after"):
            found = read(text, setting(f"unit=F stage={stage} pit_target=250F", asked))
            assert not any(_writes(intent) for intent in found), (stage, asked, plain(found))


def _with_buttons(asked: str, *choices: tuple[str, Intent]) -> Context:
    offered = tuple(
        OfferedChoice(letter=letter, label=label, meaning=meaning)
        for letter, (label, meaning) in zip("abc", choices, strict=False)
    )
    return dataclasses.replace(setting("unit=F stage=resting", asked), choices=offered)


@pytest.mark.parametrize("text", ["yes", "yep", "yes please", "ja"])
def test_yes_answers_the_newest_question(text: str) -> None:
    """After "Call off this cook?" a yes calls it off, and closes no older step."""
    asked = _with_buttons("shutdown", ("Yes, call it off", CallOff(sure=True)))
    assert read(text, asked) == (CallOff(sure=True),)


@pytest.mark.parametrize("text", ["ok", "done", "thumbs up"])
def test_less_than_a_yes_calls_nothing_off(text: str) -> None:
    """A nod neither calls the cook off nor closes what is behind the question."""
    asked = _with_buttons("shutdown", ("Yes, call it off", CallOff(sure=True)))
    assert not any(_writes(one) or isinstance(one, CallOff) for one in read(text, asked))


def test_yes_closes_nothing_behind_the_newest_buttons() -> None:
    """With buttons on the screen that are of something else, yes is only kept."""
    asked = _with_buttons("shutdown", ("The meat", Report(values=())), ("The pit", Report(values=())))
    assert plain(read("yes", asked)) == "note"


def test_done_is_of_the_newest_buttons_when_older_steps_are_open() -> None:
    """Of two open steps the one whose button is newest is done."""
    asked = _with_buttons("slice wood_add", ("Sliced", Done(step="slice")))
    assert read("done", asked) == (Done(step="slice"),)
