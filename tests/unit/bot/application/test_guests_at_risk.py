"""Guests at risk, allergies and public meals: asked once with the plan, told at any time, and what they change."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.messages.care_asked import on_paper
from scheduler.facts import CareTold, Edition, EditionTold
from tests.fakes.kitchen import PlayedKitchen, on

CHICKEN = "whole chicken, dinner 18:00, pit 325"
QUESTION = "Before you buy: anybody pregnant, old, very young or ill, any allergies, or is it a public or paid meal?"
BUTTONS = ("None of these", "Guests at risk", "Allergies", "Public or paid meal")


def care(kitchen: PlayedKitchen) -> CareTold:
    """Return what is known of guests and occasion."""
    return kitchen.situation.state.care


def asked(kitchen: PlayedKitchen) -> int:
    """Return in how many messages to Ines the question stood."""
    return sum(QUESTION in heard.text for heard in kitchen.heard)


def test_the_question_comes_with_the_plan_in_one_line(kitchen: PlayedKitchen) -> None:
    """One line before what comes next, and four buttons, the last ones of the message, two rows on a phone."""
    plan = kitchen.say("Ines", CHICKEN)
    assert plan.lines[-2].startswith(QUESTION)
    assert plan.labels[-len(BUTTONS) :] == BUTTONS
    assert [len(row) for row in plan.outgoing.choices][-2:] == [3, 1]


def test_it_is_asked_once_over_answers_and_restarts(kitchen: PlayedKitchen) -> None:
    """Not with the plan asked for later, not after a restart, not while prompts come, answered or not."""
    kitchen.say("Ines", CHICKEN)
    kitchen.say("Ines", "plan")
    kitchen.reopen()
    kitchen.opens("Ines")
    kitchen.say("Ines", "plan")
    kitchen.until(on("16:30"))
    kitchen.say("Ines", "none of these")
    kitchen.reopen()
    kitchen.say("Ines", "plan")
    assert asked(kitchen) == 1
    assert care(kitchen) == CareTold(at_risk=False, allergies=(), public=False)


def test_what_was_said_with_the_set_up_is_not_asked(kitchen: PlayedKitchen) -> None:
    """The plan shows it, and says what it changes."""
    plan = kitchen.say("Ines", f"{CHICKEN}, grandma is pregnant, Wren has a nut allergy")
    assert QUESTION not in plan.text
    assert "Guests at risk: nothing under the minimum. Allergies: nuts (Wren)." in plan.lines
    assert "time at a lower temperature does not count" in plan.text
    assert care(kitchen) == CareTold(at_risk=True, allergies=("nuts (Wren)",))


def test_what_was_not_said_with_the_set_up_is_asked(kitchen: PlayedKitchen) -> None:
    """Somebody named a guest at risk: allergies and a public meal are still asked; the paper says what is open."""
    plan = kitchen.say("Ines", f"{CHICKEN}, grandma is pregnant")
    assert plan.lines[-2] == "Who eats, still: any allergies or a public or paid meal? Tap what is so."
    assert plan.labels[-3:] == ("That is all", "Allergies", "Public or paid meal")
    assert on_paper(kitchen.situation) == (
        "Guests at risk: nothing under the minimum. Allergies, public meal: not told."
    )
    kitchen.tap("Ines", "That is all")
    assert care(kitchen) == CareTold(at_risk=True, allergies=(), public=False)
    assert on_paper(kitchen.situation) == "Guests at risk: nothing under the minimum."


def test_meat_that_is_on_gets_its_question_after_what_is_due(kitchen: PlayedKitchen) -> None:
    """A cook begun in the middle is asked, too, below the prompts that ride in the answer."""
    answer = kitchen.say("Ines", "pork butt 4 kg on at 2am, pit 250, dinner 18:00")
    known, question, _rest = answer.text.partition("Who eats: anybody pregnant, old, very young or ill")
    assert question
    assert "ead the" in known
    assert answer.labels[-4:] == BUTTONS


def test_several_are_tapped_one_after_the_other(kitchen: PlayedKitchen) -> None:
    """Each answer offers what is left; an allergy is asked for by name, and nothing is lost."""
    kitchen.say("Ines", CHICKEN)
    first = kitchen.tap("Ines", "Guests at risk")
    assert first.labels == ("Allergies", "Public or paid meal", "That is all")
    second = kitchen.tap("Ines", "Allergies")
    assert "Which allergy, and whose?" in second.text
    assert "not named yet" in second.text
    assert kitchen.say("Ines", "nuts, Wren").lines[0] == "Allergies: nuts (Wren)."
    third = kitchen.tap("Ines", "Public or paid meal")
    assert "local codes decide" in third.text
    assert third.labels == ()
    assert care(kitchen) == CareTold(at_risk=True, allergies=("nuts (Wren)",), public=True)
    assert "Public meal: permit, licensed handler and local codes decide." in kitchen.say("Ines", "plan").text


def test_an_allergy_in_words_nobody_knows_is_kept_when_it_was_asked_for(kitchen: PlayedKitchen) -> None:
    """A food of no list answers the question which allergy it is; without the question it is a note."""
    kitchen.say("Ines", CHICKEN)
    kitchen.say("Ines", "kiwi")
    assert care(kitchen).allergies is None
    kitchen.tap("Ines", "Allergies")
    kitchen.say("Ines", "kiwi")
    assert care(kitchen).allergies == ("kiwi",)


def test_none_of_these_takes_nothing_back(kitchen: PlayedKitchen) -> None:
    """After "grandma is pregnant" the last button fills in the rest; only plain words, asked once, take it back."""
    kitchen.say("Ines", CHICKEN)
    kitchen.say("Ines", "grandma is pregnant")
    kitchen.tap("Ines", "That is all")
    assert care(kitchen) == CareTold(at_risk=True, allergies=(), public=False)
    kitchen.say("Ines", "nobody is at risk")
    assert care(kitchen).at_risk is True
    kitchen.tap("Ines", "It was wrong")
    assert care(kitchen).at_risk is False


def test_a_reading_beside_it_is_taken(ribs: PlayedKitchen) -> None:
    """A figure told in the same breath as a guest at risk is a reading."""
    ribs.later(5)
    ribs.say("Ines", "pit 268, grandma is pregnant")
    state = ribs.situation.state
    assert state.care.at_risk
    assert round(state.readings[-1].value_c * 1.8 + 32) == 268


def test_anybody_may_tell_of_a_risk_and_only_who_decides_takes_it_back(kitchen: PlayedKitchen) -> None:
    """A guest says that somebody has an allergy; that nobody is at risk is not theirs to say."""
    kitchen.say("Ines", CHICKEN)
    kitchen.invite("guest-code-12", "guest")
    kitchen.say("Bashir", "join guest-code-12")
    said = kitchen.say("Bashir", "Bashir has a nut allergy")
    assert "nuts (Bashir)" in said.text
    kitchen.say("Bashir", "no allergies")
    assert care(kitchen).allergies == ("nuts (Bashir)",)


@pytest.mark.parametrize("told", ["guests at risk", "it's a public supper"])
def test_the_stricter_rules_count_whatever_was_chosen(kitchen: PlayedKitchen, told: str) -> None:
    """Guests at risk and public meals override a chosen edition; without them it counts."""
    kitchen.say("Ines", CHICKEN)
    assert kitchen.say("Ines", "rules: food code").lines[0] == "The FDA Food Code counts; local codes may differ."
    chosen = kitchen.situation.state.edition
    kitchen.say("Ines", told)
    assert (chosen, kitchen.situation.state.edition) == (Edition.FOOD_CODE, Edition.STRICTER)
    assert "the stricter figure counts whatever was chosen" in kitchen.say("Ines", "use the consumer rules").text


def test_rules_nobody_knows_are_answered_with_those_there_are(kitchen: PlayedKitchen) -> None:
    """What is there stands in words and buttons; nothing is changed."""
    kitchen.say("Ines", CHICKEN)
    answer = kitchen.say("Ines", "rules: mine")
    assert answer.lines[0] == "I do not know the rules 'mine'."
    assert answer.labels == ("USDA consumer", "Food Code")
    assert not any(isinstance(fact.body, EditionTold) for fact in kitchen.cook.facts)
    kitchen.tap("Ines", "Food Code")
    assert kitchen.situation.state.edition is Edition.FOOD_CODE


def test_the_setting_is_written_with_each_cook(tmp_path: Path) -> None:
    """A house that goes by the Food Code begins its cooks so; the default writes nothing."""
    for edition, told in ((Edition.FOOD_CODE, [Edition.FOOD_CODE]), (Edition.STRICTER, [])):
        kitchen = PlayedKitchen(tmp_path / edition, on("06:00"), edition=edition)
        kitchen.opens("Ines")
        kitchen.say("Ines", CHICKEN)
        assert [f.body.edition for f in kitchen.cook.facts if isinstance(f.body, EditionTold)] == told
        kitchen.close()


def _allergic(kitchen: PlayedKitchen, told: str, *, later: str = "") -> list[str]:
    """Return the prompts that name allergies in a chicken dinner from lighting to the table."""
    kitchen.now = on("10:00")
    kitchen.say("Ines", f"{CHICKEN}{told}")
    if later:
        kitchen.say("Ines", later)
    sent = kitchen.until(on("15:55"))
    for text in ("lit at 15:00", "pit 325", "meat is on", "raw side washed"):
        kitchen.say("Ines", text)
    sent += kitchen.until(on("17:05"))
    kitchen.say("Ines", "meat 170")
    kitchen.say("Ines", "pulled")
    sent += kitchen.until(on("18:30"))
    return [heard.text for heard in sent if heard.sort == "prompt" and "Allergies: " in heard.text]


@pytest.mark.parametrize(
    ("told", "later", "named"),
    [
        (", Wren has a nut allergy", "", ("nuts (Wren)",)),
        ("", "Wren has a nut allergy", ("nuts (Wren)",)),
        (", Wren has a nut allergy", "Bashir is allergic to celery", ("nuts (Wren)", "celery (Bashir)")),
    ],
)
def test_the_promise_to_say_it_again_is_kept(
    kitchen: PlayedKitchen, told: str, later: str, named: tuple[str, ...]
) -> None:
    """Told at set-up or later, of one or two people: before serving they are named, in two prompts at most."""
    heard = _allergic(kitchen, told, later=later)
    assert 1 <= len(heard) <= 2
    assert all(name in text for text in heard for name in named)
    assert not any("Ask for allergies" in text for text in heard)
