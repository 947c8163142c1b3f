"""Short words: a nod that closes nothing of safety, fuel told unasked, a washed board, a wrap before the meat is on.

Choices on the screen are tested elsewhere.
"""

from __future__ import annotations

import dataclasses

import pytest

from bot.conversation.interpreter import read
from bot.conversation.parsing.prompts import EXPLICIT_STEPS
from tests.unit.bot.conversation.spoken import STEPS, plain, setting

SAFETY = sorted(step for step, entry in STEPS.items() if entry.get("safety"))


def meant(text: str, here: str = "unit=F", asked: str = "") -> str:
    """Return what a text means in a setting, in words."""
    return plain(read(text, setting(here, asked)))


def test_every_safety_step_needs_more_than_a_nod() -> None:
    """Whatever step of the catalogue is one of safety is on the list of those that a nod never closes."""
    assert set(SAFETY) <= EXPLICIT_STEPS


@pytest.mark.parametrize("step", SAFETY)
@pytest.mark.parametrize(
    "nod", ["ok", "Okay", "cool", "k", "👍", "👌", "ok thanks", "sure", "got it", "all good", "fine"]
)
def test_a_nod_never_closes_a_step_of_safety(nod: str, step: str) -> None:
    """It is kept as a note, also when an older tick is open besides."""
    assert meant(nod, asked=step) == "note"
    assert meant(nod, asked=f"{step} spritz") == "note"


def test_a_nod_still_closes_a_small_tick() -> None:
    """What wants neither a number nor a choice is done with a thumb."""
    assert meant("👍", asked="spritz") == meant("ok", asked="spritz") == "done spritz"
    assert meant("cool", asked="spritz wood_add").startswith("question which_step")


@pytest.mark.parametrize("step", ["raw_cleanup", "leftovers", "shutdown", "fire_out", "ash"])
def test_said_plainly_it_is_done(step: str) -> None:
    """An explicit "done" closes what "ok" does not."""
    assert meant("done", asked=step) == f"done {step}"
    assert meant("all done", asked=step) == "done all"


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("fuel low", "low"),
        ("fuel is low", "low"),
        ("we are low on charcoal", "low"),
        ("running low on coal", "low"),
        ("coals are low", "low"),
        ("charcoal's getting low", "low"),
        ("not much fuel left", "low"),
        ("fuel half", "half"),
        ("fuel is about half", "half"),
        ("half the charcoal left", "half"),
        ("plenty of fuel", "plenty"),
        ("fuel: plenty", "plenty"),
        ("lots of charcoal left", "plenty"),
    ],
)
@pytest.mark.parametrize(
    ("here", "asked"), [("unit=F", ""), ("unit=F", "core_read pit_check"), ("stage=fire", "light")]
)
def test_fuel_may_be_told_at_any_time(text: str, left: str, here: str, asked: str) -> None:
    """How much is left answers the check of the fuel though it was not asked."""
    assert meant(text, here, asked) == f"done fuel_check, {left}"


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("added half a bag of charcoal", "done refuel"),
        ("out of charcoal", "trouble fuel_out"),
        ("fuel low, 240", "reading pit 115.6 + done fuel_check, low"),
        ("spritzed, fuel low", "done spritz + done fuel_check, low"),
        ("pit is low", "question not_understood"),
    ],
)
def test_what_is_said_of_fuel_besides_its_level(text: str, understood: str) -> None:
    """Fuel that was added or is gone is something else, and what stands beside the level is kept."""
    assert meant(text, "unit=F pit_target=250F") == understood


@pytest.mark.parametrize("text", ["washed", "washed down", "washed up", "raw", "cleaned", "all cleaned up"])
def test_a_word_is_enough_while_the_raw_side_is_open(text: str) -> None:
    """The step that is open gives a single word its meaning; with nothing open it has none."""
    assert meant(text, asked="raw_cleanup") == "done raw_cleanup"
    assert meant(text) == "question not_understood"


@pytest.mark.parametrize(
    ("text", "here", "asked", "understood"),
    [
        ("washed the boards and knives", "unit=F", "", "done raw_cleanup"),
        ("probe", "stage=fire", "probe_in", "done probe_in"),
        ("probes", "stage=before", "probe_test", "done probe_test"),
        ("probe", "stage=fire", "probe_in probe_test", "question not_understood"),
        ("cleaned", "stage=before", "clean_cooker", "done clean_cooker"),
        ("cleaned", "stage=before", "", "done clean_cooker"),
        ("cleaned", "stage=before", "clean_cooker raw_cleanup", "question not_understood"),
        ("cleaned the grill", "stage=before", "", "done clean_cooker"),
        ("slides", "unit=F", "", "feel tender"),
        ("no ban", "stage=before", "", "done rules_recheck, ok"),
        ("no fire ban", "stage=before", "rules_recheck", "done rules_recheck, ok"),
        ("no ban but windy", "stage=before", "rules_recheck", "done rules_recheck, stop"),
        ("there is a fire ban", "stage=before", "", "done rules_recheck, stop"),
        ("too windy", "stage=fire", "", "done rules_recheck, stop"),
        ("no ban, lit at 7:40", "stage=before now=08:30", "", "done rules_recheck, ok + done light at 07:40"),
        ("no wrap, lit at 7:40", "stage=before now=08:30", "", "wrap none, planned + done light at 07:40"),
        ("no, it was 7:40", "stage=before now=08:30", "", "correct to 07:40"),
        ("nope at 7:40", "stage=before now=08:30", "", "correct to 07:40"),
    ],
)
def test_words_that_are_clear_by_themselves(text: str, here: str, asked: str, understood: str) -> None:
    """A step that a word or two name clearly is done, asked or not; a ban or wind is never read as none."""
    assert meant(text, here, asked) == understood


@pytest.mark.parametrize(
    ("text", "wrap"),
    [
        ("no wrap", "none"),
        ("naked", "none"),
        ("wrapped in foil", "foil"),
        ("will wrap in foil", "foil"),
        ("paper", "paper"),
    ],
)
@pytest.mark.parametrize("stage", ["before", "fire"])
def test_before_the_meat_is_on_a_wrap_is_a_plan(text: str, wrap: str, stage: str) -> None:
    """Nothing can be wrapped yet: the words say what it shall be."""
    assert meant(text, f"unit=F stage={stage}") == f"wrap {wrap}, planned"
    assert meant("no wrap") == "wrap none"


@pytest.mark.parametrize(
    ("text", "here", "understood"),
    [
        ("wrapped in foil at 13:45", "now=13:40", "wrap foil at 13:45"),
        ("boxed at 13:50", "now=13:40", "done box_meat at 13:50"),
        ("pulled at 1:50", "now=13:40", "done pull at 13:50"),
        ("boxed at 13:30", "now=13:40", "done box_meat at 13:30"),
        ("boxed at 1:30", "now=13:40", "done box_meat at 13:30"),
        ("pulled at 2", "now=13:40", "done pull at 02:00"),
    ],
)
def test_a_thing_done_some_minutes_ahead_keeps_its_time(text: str, here: str, understood: str) -> None:
    """It has not happened yet and is refused as it was said: it is not dated half a day ago, nor now."""
    assert meant(text, here) == understood


def test_skip_asks_which_one_to_skip() -> None:
    """With several ticks open the question about "skip" is its own: "done with which one" would mislead."""
    asked = setting("unit=F", "spritz wood_add")
    ticks = tuple(dataclasses.replace(step, is_question=False) for step in asked.open_steps)
    understood = plain(read("skip", dataclasses.replace(asked, open_steps=ticks)))
    assert understood == "question skip_which [spritz: skip spritz | wood_add: skip wood_add]"
