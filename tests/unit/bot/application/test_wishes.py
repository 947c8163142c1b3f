"""Wishes about the plan from the typed word to the answer: what is kept, what it changes, what is refused kindly."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from bot.messages.steps import step_words
from scheduler.facts import Detail, WatchesTold
from tests.fakes.kitchen import PlayedKitchen, on

NIGHT = "brisket 6 kg, dinner 17:00 sunday, pit 225"


def overnight(folder: Path) -> PlayedKitchen:
    """Return a kitchen in which Ines planned a brisket over the night, Tomas beside her."""
    kitchen = PlayedKitchen(folder, on("14:00"))
    for name in ("Ines", "Tomas"):
        kitchen.opens(name)
    kitchen.say("Ines", NIGHT)
    return kitchen


# --- watches ----------------------------------------------------------------------------------------------------------


def test_watches_are_said_back_with_the_hours_that_nobody_has(tmp_path: Path) -> None:
    """Two watches leave the last hours of the night: they are named, and that somebody must be there."""
    kitchen = overnight(tmp_path)
    answer = kitchen.say("Ines", "Tomas watches 22:00 to 03:00, Wren 03:00 to 06:00")
    assert answer.lines[0] == "Watches: Tomas 22:00 to 03:00, Wren 03:00 to 06:00."
    alone = "Nobody has the watch Sun 06:00 to 07:00: while the fire burns somebody must be awake and near. Who?"
    assert alone in answer.lines
    assert any(line.startswith("At night I wake for: ") and "(Tomas)" in line for line in answer.lines)
    told = next(heard for heard in reversed(kitchen.heard) if heard.room.chat == "tomas")
    assert told.lines[0] == "Ines: Watches: Tomas 22:00 to 03:00, Wren 03:00 to 06:00."


def test_quiet_hours_keep_the_watches_and_the_other_way_round(tmp_path: Path) -> None:
    """What was not said stays: quiet hours told after watches leave them, and new watches leave the quiet hours."""
    kitchen = overnight(tmp_path)
    kitchen.say("Ines", "Ines until 2, then Tomas")
    kitchen.say("Ines", "quiet 23:00 to 06:30")
    kept = kitchen.situation.state.watches
    assert isinstance(kept, WatchesTold)
    assert [one.name for one in kept.watches] == ["Ines", "Tomas"]
    assert "Quiet 23:00 to 06:30." in kitchen.say("Ines", "Wren 23-06, Tomas 06-08").text
    assert "Nobody has the watch" not in kitchen.say("Ines", "who watches?").text


def test_no_watches_leaves_the_fire_without_a_name_and_says_so(tmp_path: Path) -> None:
    """Taking the watches back is answered with the hours in which the fire burns without anybody named."""
    kitchen = overnight(tmp_path)
    kitchen.say("Ines", "Tomas 22-03, Wren 03-07")
    answer = kitchen.say("Ines", "no watches")
    assert answer.lines[0] == "Nobody has a watch."
    assert "somebody must be awake and near" in answer.text


# --- what is told -----------------------------------------------------------------------------------------------------


def test_prompts_of_a_kind_stop_and_come_again(tmp_path: Path) -> None:
    """Switched off it is asked no more, with what that costs and a button back; asked for, the list names it."""
    kitchen = overnight(tmp_path)
    kitchen.say("Ines", "every step")
    answer = kitchen.say("Ines", "no more spritz prompts")
    assert answer.lines[0] == "Not told any more: spritz."
    assert "If forgotten: " in answer.text
    assert answer.labels == ("Spritz again",)
    assert kitchen.situation.state.muted == {"spritz"}
    assert "Switched off: spritz." in kitchen.say("Ines", "what do you tell me?").text
    assert kitchen.say("Ines", "spritz again").lines[0] == "Told from now on: spritz."
    assert kitchen.situation.state.muted == frozenset()


def test_what_is_about_safety_is_never_switched_off(tmp_path: Path) -> None:
    """Ash, raw boards, held meat: refused kindly with the reason, and nothing is kept of it."""
    kitchen = overnight(tmp_path)
    for text in ("stop asking about the ash", "no more raw prompts", "don't remind me of the four hours"):
        answer = kitchen.say("Ines", text)
        assert "is about safety, so I keep asking." in answer.lines[0]
        assert answer.lines[1].startswith("If forgotten: ")
    assert "stays: every later time is counted from it" in kitchen.say("Ines", "mute the pull").text
    assert kitchen.situation.state.kinds == {}


def test_the_level_of_the_last_cook_is_that_of_the_next(tmp_path: Path) -> None:
    """A cook that ended with only decisions begins so the next time, says so, and offers the usual."""
    kitchen = overnight(tmp_path)
    assert "As in the last cook" not in kitchen.heard[-1].text
    assert kitchen.say("Ines", "only decisions").lines[0] == "I tell only decisions, and whatever is about safety."
    kitchen.say("Ines", "cancel the cook")
    kitchen.say("Ines", "yes, call it off")
    answer = kitchen.say("Ines", NIGHT)
    assert "I tell only decisions. As in the last cook; whatever is about safety always comes." in answer.lines
    assert "The usual" in answer.labels
    assert kitchen.situation.state.detail == Detail("decisions")
    kitchen.say("Ines", "cancel the cook")
    kitchen.say("Ines", "yes, call it off")
    assert "As in the last cook" not in kitchen.say("Ines", f"{NIGHT}, every step").text
    assert kitchen.situation.state.detail == Detail("every")


# --- how sure ---------------------------------------------------------------------------------------------------------

SURE = "pork butt 3.6 kg, dinner 18:00 sunday, pit 250"


def test_another_certainty_moves_the_start_and_says_by_how_much(tmp_path: Path) -> None:
    """More certainty lights the fire earlier: the old time and the new one, and the chance of being late."""
    kitchen = PlayedKitchen(tmp_path, on("14:00"))
    kitchen.opens("Ines")
    kitchen.say("Ines", SURE)
    before = kitchen.situation.outlook.light_at
    answer = kitchen.say("Ines", "be 95 % sure")
    assert re.match(r"95 % sure, was 85 %\. Light the fire .+ \(was .+\), meat on ", answer.lines[0])
    assert answer.lines[1] == "Late 5 in 100."
    assert kitchen.situation.outlook.light_at < before
    assert kitchen.say("Ines", "bolder").lines[0].startswith("85 % sure, was 95 %. ")
    assert kitchen.situation.outlook.light_at == before


def test_the_sentence_that_sets_up_may_say_how_sure(tmp_path: Path) -> None:
    """90 % sure beside the meat plans for it at once."""
    kitchen = PlayedKitchen(tmp_path, on("14:00"))
    kitchen.opens("Ines")
    kitchen.say("Ines", f"{SURE}, 90 % sure")
    assert kitchen.situation.state.confidence == 0.9
    assert kitchen.situation.outlook.plan is not None
    assert kitchen.situation.outlook.plan.late_probability == pytest.approx(0.1, abs=0.02)


def test_nobody_is_promised_a_hundred(tmp_path: Path) -> None:
    """Out of limits, without a time, of a cut that does not keep, or with the meat on: said kindly, nothing changes."""
    kitchen = PlayedKitchen(tmp_path, on("14:00"))
    kitchen.opens("Ines")
    kitchen.say("Ines", SURE)
    for text in ("be 100 % sure", "plan for 20 %"):
        assert kitchen.say("Ines", text).lines[0].startswith("I plan for 50 to 99 %: ")
    assert kitchen.situation.state.confidence is None
    kitchen.say("Ines", "dinner when ready")
    assert kitchen.say("Ines", "safer").lines[0].startswith("Dinner follows the meat")
    kitchen.say("Ines", "lit")
    kitchen.say("Ines", "meat on")
    assert kitchen.say("Ines", "safer").lines[0].startswith("The meat is on, so its start stands.")


# --- why, and what if -------------------------------------------------------------------------------------------------


@pytest.fixture
def butt(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen in which Ines planned a pork butt for Sunday, at two in the afternoon of Saturday."""
    kitchen = PlayedKitchen(tmp_path, on("14:00"))
    kitchen.opens("Ines")
    kitchen.say("Ines", SURE)
    return kitchen


def test_why_names_what_happens_otherwise_and_why_it_is_due_then(butt: PlayedKitchen) -> None:
    """Of the step named, of the open one, or of what comes next: the consequence, then the reason of its time."""
    salt = butt.say("Ines", "why salt?")
    assert salt.lines[0].startswith("Salt the meat. If forgotten: only the outside is seasoned")
    assert re.match(r"Due (now|.*\d\d:\d\d), 16 h before: meat on\.", salt.lines[1])
    open_step = butt.situation.waiting[0].step.id
    assert butt.say("Ines", "why?").lines[0].partition(".")[0].casefold() == step_words(open_step).name.casefold()


def test_what_without_it_says_whether_it_may_be_left_out(butt: PlayedKitchen) -> None:
    """What happens without a step; one of safety stays open, another may be skipped by a button."""
    ash = butt.say("Ines", "what if I skip the ash?")
    assert ash.lines[0] == "Ash out. If forgotten: a bin or a deck burns."
    assert ash.lines[1] == "It is about safety: it stays open until it is done."
    assert ash.labels == ()
    assert butt.say("Ines", "what if I skip it?").labels == ("Skip it this once",)


def test_other_ways_can_be_seen_again_and_chosen(butt: PlayedKitchen) -> None:
    """The ways that the plan began with come back with their buttons, until the meat is on."""
    shown = butt.say("Ines", "other plans")
    assert shown.lines[0] == "Ways to do it:"
    assert any(label.startswith("Light ") for label in shown.labels)
    butt.say("Ines", "lit")
    butt.say("Ines", "meat on")
    assert butt.say("Ines", "alternatives").lines[0].startswith("The meat is on already")


@pytest.mark.parametrize(
    ("text", "head"),
    [
        ("what if pit 275", "If pit 275 F: late "),
        ("what if dinner is at 19:00", "If dinner Sun 19:00: late "),
        ("what if we start at 23:00", "If lit 23:00: late "),
        ("what if we start an hour later", "If 1 h later: late "),
    ],
)
def test_what_if_is_answered_by_the_engine_and_kept_nowhere(butt: PlayedKitchen, text: str, head: str) -> None:
    """The times under the change, then those that stand; the log holds nothing new of it."""
    before = butt.situation
    answer = butt.say("Ines", text)
    assert answer.lines[0].startswith(head)
    assert re.match(r"As it stands: late 1[45] in 100, light ", answer.lines[1])
    assert answer.lines[2] == "Nothing is changed."
    assert butt.situation.outlook.light_at == before.outlook.light_at
    assert butt.situation.state.serving == before.state.serving


def test_a_later_start_is_later_more_often(butt: PlayedKitchen) -> None:
    """The chance of being late comes from the engine under the change: an hour more of sleep costs some of it."""
    late = [
        int(re.findall(r"late (\d+) in 100", butt.say("Ines", text).lines[0])[0])
        for text in ("what if we start an hour earlier", "what if we start an hour later", "what if we start 4 h later")
    ]
    assert late == sorted(late)
    assert late[0] < late[2] - 5


def test_a_supposed_dinner_that_cannot_be_says_when_it_can(butt: PlayedKitchen) -> None:
    """Too soon is answered with the earliest plate, and dinner stays where it was."""
    answer = butt.say("Ines", "what if dinner is at 20:00 today")
    assert answer.lines[0].startswith("That is too soon. The earliest plate is about ")
    assert butt.situation.state.serving.start == on("18:00", 1).replace(tzinfo=None)


def test_what_was_supposed_can_be_kept_by_a_button(butt: PlayedKitchen) -> None:
    """The button under a supposed pit makes it so."""
    butt.say("Ines", "what if pit 275")
    butt.say("Ines", "do it so")
    assert butt.situation.state.pit_c == pytest.approx(135.0, abs=0.1)


# --- the rest ---------------------------------------------------------------------------------------------------------


def test_a_warm_oven_is_planned_with_and_said_to_keep(butt: PlayedKitchen) -> None:
    """The place and its set point are said back with how long it keeps there, and the plan needs no oven any more."""
    assert "have a warm oven ready" in butt.say("Ines", "plan").text
    answer = butt.say("Ines", "rest in the oven at 170")
    assert answer.lines[0] == "To be held in a warm oven at 170 F."
    assert "It keeps there 10 h at most; a reading decides." in answer.lines
    assert "have a warm oven ready" not in butt.say("Ines", "plan").text
    assert "into the warm oven until dinner" in butt.say("Ines", "rest?").text


def test_an_oven_that_cools_or_cooks_is_said_to(butt: PlayedKitchen) -> None:
    """Too cool is counted on as a cold box, too hot is no rest and not kept."""
    assert "That is too cool to hold it: I count on a cold box." in butt.say("Ines", "rest in the oven at 140").text
    hot = butt.say("Ines", "rest in the oven at 250")
    assert hot.lines[0] == "At 250 F it cooks on. To hold it: 150 to 170 F (65 to 77 C)."
    assert butt.situation.state.rest is not None
    assert butt.situation.state.rest.oven_c == pytest.approx(60.0, abs=0.1)


def test_a_shorter_rest_is_never_shorter_than_the_shortest(butt: PlayedKitchen) -> None:
    """Thirty minutes are kept with the vent before them; five are refused kindly, and the shortest is planned."""
    assert butt.say("Ines", "shorten the rest to 30 min").lines[0] == "50 min from pull to knife."
    answer = butt.say("Ines", "shorten the rest to 5 min")
    assert "Its shortest rest is 30 min: I plan with that." in answer.lines


def test_meat_that_lies_in_the_oven_is_boxed_no_more(butt: PlayedKitchen) -> None:
    """Told after the pull, it is off the list of what to do, and what is said of dinner is that of the oven."""
    for text in ("lit", "meat on"):
        butt.say("Ines", text)
    butt.until(on("1:00", 1))
    butt.say("Ines", "pulled")
    answer = butt.say("Ines", "it's in the oven at 165")
    assert answer.lines[0].startswith("To be held in a warm oven at 165 F, boxed, ")
    assert butt.situation.state.did("box_meat") is not None
    assert "later than a cold box holds" not in answer.text
    assert butt.say("Ines", "in the cooler").lines[0] == "To be held in a box."
    assert "later than a cold box holds" in butt.say("Ines", "rest?").text
