"""Wishes about the plan from the typed word to the answer: what is kept, what it changes, what is refused kindly."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

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
    assert answer.labels[-1] == "The usual"
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
