"""Setting up a cook in words and taps: one sentence or question by question, and what cannot be."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from tests.fakes.kitchen import PlayedKitchen, chat, on
from tests.unit.bot.application.conftest import RIBS

WHAT = "What is cooking?"
HEAVY = "How heavy is one"
WHEN = "When do people eat?"
HOT = "How hot does the cooker run?"


def test_a_newcomer_is_greeted_and_asked_what_is_cooking(kitchen: PlayedKitchen) -> None:
    """Opening a window greets by name, says what this is for, and offers the usual cuts and the way to all others."""
    hello = kitchen.opens("Ines")
    assert hello.text.startswith("Hello Ines.")
    assert WHAT in hello.text
    assert hello.labels == ("Beef short ribs", "Beef plate ribs", "Whole brisket", "Pork shoulder", "Another cut")


def test_one_sentence_is_enough(kitchen: PlayedKitchen) -> None:
    """Cut, count, dinner and pit in one sentence begin the cook: the plan comes back in at most ten lines, with how the
    meat is read, the other ways, and the question who eats below.
    """
    plan = kitchen.say("Ines", RIBS)
    assert plan.text.startswith(
        "7 racks of beef short ribs, pit 275 F, wrap decided at the bark.\nDinner 18:00: on time"
    )
    ways = plan.lines.index("Ways to do it:")
    assert plan.lines[ways - 1].startswith("How the meat is read is not told")
    assert ways - 1 < 10
    assert len(plan.lines) <= ways + 6
    assert plan.lines[-2].startswith("Before you buy: ")
    assert plan.last.startswith("Next: ")
    assert plan.labels[0] == "All steps"
    assert all(label.startswith("Light ") for label in plan.labels[1:-5])
    assert plan.labels[-5:] == (
        "Change something", "None of these", "Guests at risk", "Allergies", "Public or paid meal",
    )  # fmt: skip
    assert kitchen.situation.state.planned.count == 7


def test_question_by_question(kitchen: PlayedKitchen) -> None:
    """Said bit by bit, each answer is followed by the next question; the last one brings the plan."""
    kitchen.opens("Ines")
    assert HEAVY in kitchen.say("Ines", "brisket").text
    assert WHEN in kitchen.say("Ines", "6 kg").text
    assert HOT in kitchen.say("Ines", "tomorrow 6pm").text
    shown = kitchen.say("Ines", "250")
    assert shown.lines == ["Whole brisket, 6 kg, dinner Sun 18:00, pit 250 F.", "Start it, or change something?"]
    assert kitchen.say("Ines", "start").text.startswith("Whole brisket, 6 kg, pit 250 F")


@pytest.mark.parametrize("unknown", ["skip", "don't know", "not weighed yet"])
def test_a_cut_by_word_that_nobody_weighed(kitchen: PlayedKitchen, unknown: str) -> None:
    """A word gets the questions that a tap gets; a mass that nobody knows is the usual one."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket")
    assert kitchen.say("Ines", unknown).lines[0] == "Whole brisket, not weighed."


def test_a_word_and_a_tap_ask_the_same(kitchen: PlayedKitchen) -> None:
    """Question for question, button for button."""
    kitchen.opens("Ines")
    by_tap = kitchen.tap("Ines", "Whole brisket")
    kitchen.say("Ines", "undo")
    by_word = kitchen.say("Ines", "brisket")
    assert (by_word.text, by_word.labels) == (by_tap.text, by_tap.labels)


def test_more_than_a_cut_is_a_sentence(kitchen: PlayedKitchen) -> None:
    """Whoever says more than the cut is asked for nothing but what a plan needs, and it begins."""
    kitchen.opens("Ines")
    assert HOT in kitchen.say("Ines", "brisket, dinner tomorrow 18:00").text
    assert kitchen.say("Ines", "250").text.startswith("Whole brisket, pit 250 F")


def test_buttons_labels_and_letters_say_the_same(kitchen: PlayedKitchen) -> None:
    """A choice may be tapped, typed as its label, or as its letter; a number is a temperature, not the third button."""
    kitchen.opens("Ines")
    assert "How heavy is one brisket" in kitchen.tap("Ines", "Whole brisket").text
    assert WHEN in kitchen.say("Ines", "not weighed yet").text
    assert HOT in kitchen.say("Ines", "when ready").text
    assert kitchen.say("Ines", "a").text.startswith("Whole brisket, not weighed, dinner when ready, pit 250 F.")
    assert kitchen.say("Ines", "start").text.startswith("Whole brisket, pit 250 F")


def test_the_plan_stands_on_every_step(kitchen: PlayedKitchen) -> None:
    """Behind "All steps", by tap or letter, every step still to come is listed in order of time."""
    kitchen.say("Ines", RIBS)
    tapped = kitchen.tap("Ines", "All steps")
    assert tapped.text.startswith("Every step still to come:")
    assert tapped.text.index("light the fire") < tapped.text.index("look at the bark") < tapped.text.index("ash out")
    assert kitchen.say("Ines", "all steps").text == tapped.text


@pytest.mark.parametrize(
    ("pit", "band", "pull_near"), [("120-135c", "120 to 135 C", "C"), ("250-275", "250 to 275 F", "F")]
)
def test_the_unit_that_people_use_is_kept(kitchen: PlayedKitchen, pit: str, band: str, pull_near: str) -> None:
    """Whoever says Celsius is answered in Celsius from then on, also about the meat; the same for Fahrenheit."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "short ribs, dinner 18:00")
    plan = kitchen.say("Ines", pit)
    assert f"pit {band}, " in plan.lines[0]
    assert any(line.endswith(f" {pull_near}") and "near" in line for line in plan.lines)


def test_celsius_is_kept_in_what_comes_by_itself(kitchen: PlayedKitchen) -> None:
    """Prompts of a cook in Celsius name their temperatures in Celsius; Fahrenheit stands only beside it, in rules."""
    kitchen.now = on("13:00")
    kitchen.say("Ines", "short ribs on since 11, 60c now, dinner 20:00, pit 135c")
    asked = [heard.text for heard in kitchen.until(on("16:00")) if heard.sort == "prompt"]
    assert any("should hold 135 C" in text for text in asked)
    assert any("I expect the meat near 80 C." in text for text in asked)
    assert [text for text in asked if re.search(r"\d F\b(?! \()", text)] == []


@pytest.mark.parametrize(("number", "unit"), [("120", "C"), ("250", "F")])
def test_a_bare_number_shows_the_unit_by_its_size(kitchen: PlayedKitchen, number: str, unit: str) -> None:
    """No cooker runs at 120 F nor at 250 C, so a bare number tells the unit."""
    kitchen.say("Ines", f"brisket, dinner tomorrow 18:00, pit {number}")
    assert kitchen.situation.state.planned.unit == unit


def test_an_unknown_cut_is_named_back_with_the_known_ones(kitchen: PlayedKitchen) -> None:
    """What stood where a cut was expected is quoted, and cuts are offered; the rest is not asked again."""
    asked = kitchen.say("Ines", "goat shanks, dinner 18:00 tomorrow, pit 250")
    assert "goat shanks" in asked.text
    assert asked.labels[-2:] == ("Pork shoulder", "Another cut")
    assert kitchen.say("Ines", "pork shoulder").text.startswith("Pork shoulder, pit 250 F")


def test_what_is_not_understood_is_quoted_and_asked_again(kitchen: PlayedKitchen) -> None:
    """Words that say nothing about the open question are named, and the question is put again."""
    kitchen.say("Ines", "brisket")
    asked = kitchen.say("Ines", "quarrel umbrella")
    assert "quarrel umbrella" in asked.text
    assert HEAVY in asked.text


def test_a_dinner_in_the_past_is_refused_with_the_earliest(kitchen: PlayedKitchen) -> None:
    """A time that has passed is said to have passed, the earliest plate is named with its sum, and another works."""
    kitchen.now = on("12:00")
    refused = kitchen.say("Ines", "pork shoulder, dinner today at 7am, pit 250")
    assert refused.text.startswith("That time has passed. The earliest plate from now is about Sun ")
    assert ": fire 1 h, cooking about " in refused.text
    assert kitchen.store.open_cooks() == ()
    assert kitchen.say("Ines", "tomorrow 19:00").text.startswith("Pork shoulder, pit 250 F")


def test_a_dinner_in_the_past_without_a_cut(kitchen: PlayedKitchen) -> None:
    """Before the cut is known a past time is refused all the same, and dinner is asked for again."""
    kitchen.now = on("12:00")
    assert kitchen.say("Ines", "dinner today at 7am").text == "That time has passed. When do people eat?"


def test_a_dinner_impossibly_soon_names_the_earliest_and_its_sum(kitchen: PlayedKitchen) -> None:
    """Too soon: the earliest plate, how it adds up from fire to slicing, and then another time begins the cook."""
    refused = kitchen.say("Ines", "pork shoulder, dinner at noon, pit 250")
    assert re.match(r"That is too soon\. The earliest plate is about (19|20|21):\d\d: fire 1 h, cooking ", refused.text)
    parts = refused.text.partition(": fire ")[2]
    assert [word in parts for word in ("cooking about", "venting 20 min", "the shortest rest 30 min", "slicing")] == (
        [True] * 4
    )
    plan = kitchen.say("Ines", "tomorrow at 13:00")
    assert plan.text.startswith("Pork shoulder, pit 250 F")
    assert "Dinner Sun 13:00: on time" in plan.text


def test_a_window(kitchen: PlayedKitchen) -> None:
    """People may eat within a window; both ends are said back."""
    plan = kitchen.say("Ines", "2 shoulders, dinner 18:00-19:30 tomorrow, pit 250")
    assert plan.text.startswith("2 pork shoulders, pit 250 F")
    assert "Dinner Sun 18:00 to 19:30: on time" in plan.text


def test_when_ready(kitchen: PlayedKitchen) -> None:
    """Dinner may follow the meat: the plate is forecast, and nothing is late or on time."""
    plan = kitchen.say("Ines", "short ribs, when ready, pit 275")
    assert "Dinner when ready: plate about " in plan.text
    assert "on time" not in plan.text


def test_the_usual_pit(kitchen: PlayedKitchen) -> None:
    """Whoever does not know takes the usual pit of the cut."""
    kitchen.say("Ines", "brisket, dinner tomorrow 18:00")
    assert kitchen.say("Ines", "the usual").text.startswith("Whole brisket, pit 250 F")


def test_no_dates_means_weekdays(kitchen: PlayedKitchen) -> None:
    """A time today stands alone, another day with its weekday, so that nobody lights the fire a day off."""
    plan = kitchen.say("Ines", "brisket 6 kg, dinner 18:00 tomorrow, pit 250")
    assert "Dinner Sun 18:00" in plan.text
    assert any(line.startswith("Sun ") and "pull the meat" in line for line in plan.lines)
    assert any(line[:2].isdigit() and "light the fire" in line for line in plan.lines)
    assert "Whole brisket, 6 kg" in plan.text


def test_a_half_finished_set_up_survives_a_restart(kitchen: PlayedKitchen) -> None:
    """After a kill the open question is put again, and the next answer goes on from what was said before."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket 6 kg, pit 250")
    kitchen.reopen()
    hello = kitchen.opens("Ines")
    assert hello.text.startswith("We were setting up a cook.")
    assert WHEN in hello.text
    assert kitchen.say("Ines", "tomorrow 18:00").text.startswith("Whole brisket, 6 kg, pit 250 F")


def test_each_person_has_a_set_up_of_their_own(kitchen: PlayedKitchen) -> None:
    """What one person has said of a cook is not mixed into what another one says."""
    kitchen.say("Ines", "brisket")
    assert HEAVY in kitchen.say("Tomas", "pork shoulder").text
    assert HEAVY in kitchen.say("Ines", "tomorrow 18:00").text
    assert HOT in kitchen.say("Ines", "6 kg").text


def test_undo_starts_over(kitchen: PlayedKitchen) -> None:
    """Undo in a set-up forgets what was said so far and asks the first question again."""
    kitchen.say("Ines", "brisket")
    again = kitchen.say("Ines", "undo")
    assert again.text.startswith("Started over.")
    assert WHAT in again.text
    assert WHAT in kitchen.say("Ines", "tomorrow 18:00").text


def test_calling_off_a_set_up(kitchen: PlayedKitchen) -> None:
    """A set-up that is called off is forgotten: the next greeting is the first one."""
    kitchen.say("Ines", "brisket")
    assert kitchen.say("Ines", "call it off").text == "Nothing is cooking."
    assert WHAT in kitchen.opens("Ines").text


def test_questions_while_nothing_cooks(kitchen: PlayedKitchen) -> None:
    """How long, without a cook, says that nothing is cooking and asks what is."""
    answer = kitchen.say("Ines", "how long")
    assert answer.text.startswith("Nothing is cooking.")
    assert WHAT in answer.text
    assert "help" not in kitchen.say("Ines", "help").text.split("\n")[-1]


def test_from_the_middle_with_the_cut_one_message_is_useful(kitchen: PlayedKitchen) -> None:
    """A cook begun in the middle ("on since 11, 165 now, eating at 6") with its cut is answered at once with dinner
    and pull, and nothing else is asked: earlier steps are unknown, not open.
    """
    kitchen.now = on("15:00")
    answer = kitchen.say("Ines", "short ribs on since 11, 165 now, eating at 6")
    assert "the usual 275 F" in answer.text
    assert "Beef short ribs, pit 275 F" in answer.text
    assert "Dinner 18:00: " in answer.text
    assert "pull the meat (" in answer.text
    assert [heard for heard in kitchen.new if heard.sort == "prompt"] == []
    assert kitchen.situation.waiting == ()
    assert not any(word in answer.text for word in ("salt the meat", "light the fire", "clean the cooker"))


def test_from_the_middle_without_the_cut_each_cut_is_answered(kitchen: PlayedKitchen) -> None:
    """Without the cut the answer says what each would mean, and naming it begins the cook with what was said."""
    kitchen.now = on("15:00")
    answer = kitchen.say("Ines", "on since 11, 165 now, eating at 6")
    assert answer.text.startswith("Got it: on since 11:00, meat 165 F now.")
    assert "beef short ribs: ready about 17:" in answer.text
    assert answer.last == "Which is it?"
    begun = kitchen.tap("Ines", "Beef short ribs")
    assert "Beef short ribs, pit 275 F" in begun.text
    assert kitchen.situation.state.at("meat_on") == on("11:00")


def test_a_second_cook_in_the_same_room_is_not_begun(kitchen: PlayedKitchen) -> None:
    """A button of the set-up, pressed while a cook is running, says that one is running and changes nothing."""
    kitchen.opens("Ines")
    kitchen.say("Ines", RIBS)
    length = len(kitchen.cook.facts)
    answer = kitchen.tap("Ines", "Pork shoulder")
    assert answer.text.startswith("A cook is running here already.")
    assert answer.last.startswith("Next: ")
    assert len(kitchen.store.open_cooks()) == 1
    assert len(kitchen.cook.facts) == length


def test_a_helper_cannot_begin(kitchen: PlayedKitchen) -> None:
    """Somebody who may not start a cook is told that nothing is cooking, and no question is opened."""
    kitchen.invite("code-of-bashir", "helper")
    kitchen.say("Bashir", "/start code-of-bashir", room=chat("Bashir"))
    assert kitchen.say("Bashir", "brisket, dinner 18:00", room=chat("Bashir")).text == "Nothing is cooking."


def test_warm_meat_without_its_beginning_is_asked_about(kitchen: PlayedKitchen) -> None:
    """165 F now and no word since when: asked, never planned as if the fire were still to be lit."""
    kitchen.now = on("13:00")
    said = kitchen.say("Ines", "brisket, pit 250, 165 now, eating at 8pm")
    assert "When did it go on?" in said.text
    begun = kitchen.say("Ines", "on at 8:00")
    assert "Dinner 20:00" in begun.text
    assert kitchen.situation.state.at("meat_on") == on("8:00")


def test_the_readme_shows_the_plan_that_is_really_made(kitchen: PlayedKitchen) -> None:
    """The sentence of the README, said on the Wednesday before, brings the plan that stands there."""
    readme = (Path(__file__).parents[4] / "README.md").read_text(encoding="utf-8")
    sentence = "brisket 6 kg, dinner 18:00 Saturday, pit 250"
    shown = readme.partition(f"> {sentence}\n15:31  ")[2].partition("```")[0]
    kitchen.now = dt.datetime(2026, 8, 12, 15, 31, tzinfo=ZoneInfo("Europe/London")).astimezone(dt.UTC)
    plan = kitchen.say("Ines", sentence)
    buttons = " ".join(f"{letter}) {label}" for letter, label in zip("abcdefgh", plan.labels, strict=True))
    assert shown.split() == [*plan.text.split(), *buttons.split()]


@pytest.mark.parametrize(
    ("told", "line"),
    [
        ("wire stays in", "The wire stays in the meat."),
        ("hand thermometer", "The meat is read by hand: I ask only for numbers that decide something."),
        ("no thermometer", "No thermometer: I ask for no numbers on the way."),
    ],
)
def test_a_plan_says_how_its_meat_is_read(kitchen: PlayedKitchen, told: str, line: str) -> None:
    """As it was told with the set-up."""
    assert line in kitchen.say("Ines", f"{RIBS}, {told}").lines
