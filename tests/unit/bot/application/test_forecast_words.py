"""What people are told of the forecast's newer answers: the air, the stall, the wrap, a second spot, the rest."""

from __future__ import annotations

import dataclasses
import re

import pytest

from bot.application.manners import voice_of
from bot.messages.stall import stall_answer
from scheduler.facts import AirTold
from scheduler.forecast import StallPhase
from scheduler.planning.stall import Stall
from tests.fakes.kitchen import PlayedKitchen, on, window

CLOCK = r"(?:Sun )?\d\d:\d\d"
WINDOW = rf"{CLOCK} to {CLOCK}"


def _line(text: str, beginning: str) -> str:
    return next((line for line in text.split("\n") if line.startswith(beginning)), "")


def _stalled(ribs: PlayedKitchen) -> PlayedKitchen:
    for clock, core in (("10:30", 130), ("11:30", 150), ("12:00", 160), ("12:30", 161)):
        ribs.until(on(clock))
        ribs.say("Ines", f"275/{core}")
    return ribs


# --- the air ----------------------------------------------------------------------------------------------------------


def test_air_is_noted_in_words(ribs: PlayedKitchen) -> None:
    """Warmth and wind are said back; the others hear it as well."""
    assert ribs.say("Ines", "cold out, windy").lines[0] == "Air noted: cold, windy."
    assert ribs.told("Tomas")[0].lines[0] == "Ines: Air noted: cold, windy."
    assert ribs.say("Ines", "air 41 F").lines[0] == "Air noted: 41 F."
    assert ribs.situation.state.air == AirTold(temp_c=5.0, wind="windy")


def test_air_that_moves_the_pull_says_by_how_much(ribs: PlayedKitchen) -> None:
    """Deep frost makes it later: the new time and the old one, whether it is worth an announcement or not."""
    text = ribs.say("Ines", "air -20 C").text
    moved = rf"Pull now about {CLOCK}, was {CLOCK}\.|With the air as it is: .*pull now {CLOCK}, was {CLOCK}"
    assert re.search(moved, text)


def test_air_that_moves_nothing_says_nothing_more(ribs: PlayedKitchen) -> None:
    """Calm and mild is what the plan assumed."""
    assert "Pull now" not in ribs.say("Ines", "calm").text


def test_air_may_be_told_with_the_set_up_and_taken_back(kitchen: PlayedKitchen) -> None:
    """In the one sentence of the set-up; undo of a later word brings the first one back."""
    kitchen.say("Ines", "7 racks of short ribs, dinner 18:00, pit 275, cold and windy")
    assert kitchen.situation.state.air == AirTold(word="cold", wind="windy")
    kitchen.say("Ines", "wind died down")
    assert kitchen.situation.state.air == AirTold(word="cold", wind="calm")
    assert "Taken back: air noted: calm" in kitchen.say("Ines", "undo").text
    assert kitchen.situation.state.air == AirTold(word="cold", wind="windy")


# --- the stall --------------------------------------------------------------------------------------------------------


def test_before_the_stall_its_beginning_and_end_are_told(ribs: PlayedKitchen) -> None:
    """Not yet, from about when, and likely until when."""
    ribs.until(on("10:30"))
    ribs.say("Ines", "275/130")
    answer = ribs.say("Ines", "stall?").lines[0]
    assert re.match(
        rf"Not in the stall yet.* Likely over near {CLOCK} \({WINDOW}\)\.$|It may not stall much: if it does, from "
        rf"about {CLOCK} to {CLOCK}\.$",
        answer,
    )


def test_a_stall_is_ruled_out_only_where_that_is_very_likely(ribs: PlayedKitchen) -> None:
    """A cut that knows a stall may have little of one: none is promised unless it was wrapped before it."""
    voice = voice_of(ribs.situation, ribs.now)
    few = dataclasses.replace(ribs.situation, plateau=Stall(phase=StallPhase.UNLIKELY, share=0.6))
    sure = dataclasses.replace(few, plateau=Stall(phase=StallPhase.UNLIKELY, share=0.95))
    assert stall_answer(few, voice).text.startswith("It may not stall much: ")
    assert stall_answer(sure, voice).text == "No stall to speak of is expected."
    ribs.say("Ines", "wrapped in foil")
    wrapped = dataclasses.replace(ribs.situation, plateau=few.plateau)
    assert stall_answer(wrapped, voice).text == "No stall to speak of is expected."


def test_in_the_stall_its_end_is_told(ribs: PlayedKitchen) -> None:
    """Asked how long it will last, and in the answer to how long: since when, and likely until when."""
    _stalled(ribs)
    ends = rf"(Likely over near {CLOCK} \({WINDOW}\)|Likely over by {CLOCK})\."
    asked = ribs.say("Ines", "how long will the stall last")
    assert re.fullmatch(rf"In the stall since about 12:00\. {ends}", asked.lines[0])
    how_long = ribs.say("Ines", "how long")
    assert re.fullmatch(rf"In the stall since about 12:00\. {ends}", _line(how_long.text, "In the stall"))
    assert len(how_long.lines) <= 6


def test_after_the_stall_and_after_the_pull_there_is_none(ribs: PlayedKitchen) -> None:
    """Climbing near 190 F it is behind; off the fire there is none."""
    _stalled(ribs)
    ribs.until(on("13:30"))
    ribs.say("Ines", "275/178")
    ribs.until(on("14:00"))
    ribs.say("Ines", "275/189")
    assert ribs.say("Ines", "stall?").lines[0] == "The stall is behind it: from here it climbs."
    ribs.say("Ines", "pulled it")
    assert ribs.say("Ines", "stall?").lines[0] == "The meat is off the fire: no stall any more."


# --- the wrap ---------------------------------------------------------------------------------------------------------


@pytest.fixture
def brisket(kitchen: PlayedKitchen) -> PlayedKitchen:
    """Return a brisket on the fire since 06:40 whose wrap nobody has decided."""
    kitchen.say("Ines", "brisket 6 kg, dinner 21:00, pit 250")
    kitchen.until(on("06:40"))
    for text in ("no ban", "lit at 6", "thin", "pit 250", "probe in", "meat is on", "raw side washed"):
        kitchen.say("Ines", text)
    for clock, core in (("08:30", 95), ("10:00", 130)):
        kitchen.until(on(clock))
        kitchen.say("Ines", f"250/{core}")
    return kitchen


def test_while_the_wrap_is_open_both_numbers_are_told(brisket: PlayedKitchen) -> None:
    """Wrapped and bare, where the pull is told in detail; wrapped comes first on the clock as well."""
    line = _line(brisket.say("Ines", "how long").text, "If wrapped")
    told = re.fullmatch(rf"If wrapped in (paper|foil) at the bark look: pull near ({CLOCK}); bare: ({CLOCK})\.", line)
    assert told is not None
    assert told[2] < told[3]
    assert line in brisket.say("Ines", "plan").text


def test_a_decided_wrap_is_a_condition_until_it_has_happened(brisket: PlayedKitchen) -> None:
    """Paper is meant: one number, counting on it; wrapped: just the number."""
    brisket.say("Ines", "going to wrap in paper")
    planned = brisket.say("Ines", "how long").text
    assert "If wrapped" not in planned
    assert "counting on paper at the bark look." in planned
    brisket.until(on("12:30"))
    brisket.say("Ines", "250/162")
    brisket.say("Ines", "wrapped in paper")
    done = brisket.say("Ines", "how long").text
    assert "counting on" not in done
    assert "If wrapped" not in done


def test_the_look_at_the_bark_gives_the_numbers_to_decide_from(brisket: PlayedKitchen) -> None:
    """Every wrap of the cut with its pull, in the question itself."""
    sent = brisket.until(on("14:30"))
    asked = next(heard.text for heard in sent if "Look at the bark" in heard.text)
    numbers = re.search(r"Pull near: (.*)\.", asked.replace("\n", " "))
    assert numbers is not None
    for wrap in ("in paper", "in foil", "in a foil boat", "bare"):
        assert re.search(rf"\b{wrap} {CLOCK}", numbers[1]), numbers[1]


# --- a second spot ----------------------------------------------------------------------------------------------------


def test_a_first_number_that_cannot_be_the_meat_is_asked_again(ribs: PlayedKitchen) -> None:
    """170 F half an hour after it went on: what was expected is named, and a second spot asked for."""
    ribs.until(on("09:10"))
    answer = ribs.say("Ines", "meat 170")
    assert re.match(
        r"170 F surprises me: I expected \d+ to \d+ F\. I keep it aside\. What does a second spot say",
        answer.lines[0],
    )
    assert answer.labels == ("170 F is right",)
    assert ribs.say("Ines", "meat 52").lines[0] == "Meat 52 F, 09:10."


# --- after the pull ---------------------------------------------------------------------------------------------------


def test_after_the_pull_the_hold_is_told_and_never_called_safe(ribs: PlayedKitchen) -> None:
    """Pulled and boxed: when one in ten has fallen, and when to read it; that is when it is asked for, too."""
    for clock, core in (("10:30", 130), ("11:30", 152), ("12:30", 165), ("13:30", 182), ("14:20", 198)):
        ribs.until(on(clock))
        ribs.say("Ines", f"275/{core}")
    ribs.say("Ines", "203, slides in")
    pulled = ribs.say("Ines", "it is off").text
    stays = rf"one in ten falls to 145 F by {CLOCK}(: read it then|; read it by {CLOCK})\."
    assert re.search(rf"Boxed after the vent {stays}", pulled)
    ribs.later(20)
    boxed = ribs.say("Ines", "boxed").text
    told = re.search(rf"In the box {stays}", boxed)
    assert told is not None
    assert "safe" not in f"{pulled} {boxed}".casefold().replace("this one is about safety", "")
    hold = ribs.situation.prompt("hold_check")
    last = ribs.situation.prompt("serve_reading")
    assert hold is not None or last is not None


def test_a_dinner_after_the_box_needs_a_warm_oven_told_once_and_when_asked(ribs: PlayedKitchen) -> None:
    """When dinner lies after the time by which one in ten has fallen, the pull and every status name a time for the
    oven, never after that of the box; boxing does not repeat it within the hour; the list of steps holds the reading.
    """
    for clock, core in (("10:30", 150), ("11:30", 182), ("12:20", 198)):
        ribs.until(on(clock))
        ribs.say("Ines", f"275/{core}")
        ribs.say("Ines", f"{core} F is right")
    ribs.say("Ines", "203, slides in")
    assert "into a warm oven" in ribs.say("Ines", "it is off").text
    ribs.later(20)
    boxed = ribs.say("Ines", "boxed").text
    falls = re.search(r"one in ten falls to 145 F by (\d\d:\d\d)", boxed)
    assert falls is not None
    assert "into a warm oven" not in boxed
    status = ribs.say("Ines", "status").text
    oven = re.search(r"by (\d\d:\d\d) into a warm oven", status)
    assert oven is not None
    assert oven[1] <= falls[1]
    assert "on time with a warm oven" in status
    assert ribs.situation.outlook.box_outlasted
    assert "read the held meat" in ribs.say("Ines", "all steps").text


def test_a_bark_that_is_never_set_is_asked_for_three_times_and_then_left(brisket: PlayedKitchen) -> None:
    """The third "not yet" is answered with what to say later, and the status names no look that nobody asks for."""
    answers = []
    for _look in range(3):
        answers.append(brisket.say("Ines", "bark not yet").text)
        for _minutes in range(41):
            brisket.later(1)
    left = "I do not ask about the bark again; say bark set when it is."
    assert [left in answer for answer in answers] == [False, False, True]
    before = len([h for h in brisket.heard if "scratch it with a nail" in h.text])
    status = brisket.say("Ines", "status").text
    assert "at the bark look" not in status
    assert "If you wrap in " in status
    brisket.later(120)
    assert len([h for h in brisket.heard if "scratch it with a nail" in h.text]) == before
    assert "Wrap it: " in brisket.say("Ines", "bark set, foil").text


def test_a_wrap_that_nobody_confirms_is_reminded_of_once_more(brisket: PlayedKitchen) -> None:
    """Decided and asked for three times: one reminder after an hour, then silence, and the status says what it is."""
    brisket.say("Ines", "bark set, foil")
    begun = brisket.now
    status = brisket.say("Ines", "status").text
    assert "counting on foil, not wrapped yet" in status
    for _quarter in range(20):
        brisket.later(15)
    asked = [h.at - begun for h in brisket.heard if "Wrap it: lay the wrap out" in h.text and h.room == window("Ines")]
    minutes = [round(wait.total_seconds() / 60) for wait in asked]
    assert len(minutes) == 4
    assert minutes[3] - minutes[2] >= 40  # it joins a walk to the cooker that comes a little sooner
    assert "counting on foil, not wrapped yet" in brisket.say("Ines", "status").text


def test_a_late_dinner_is_not_called_late_at_every_number(ribs: PlayedKitchen) -> None:
    """Told once: a number says so again only when the plate has moved by a quarter of an hour, or when asked."""
    late = []
    for clock, core in (("14:10", 139), ("14:10", 140), ("14:40", 143), ("14:55", 145), ("15:10", 146)):
        ribs.until(on(clock))
        late.append("late by about" in ribs.say("Ines", f"275/{core}").text)
    assert any(late[:4])
    assert not late[4]
    assert "late by about" in ribs.say("Ines", "eta").text


def test_a_meat_reading_that_is_old_is_called_so(ribs: PlayedKitchen) -> None:
    """A question put off keeps the forecast; the age of the reading is told, and what a new one is worth."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "meat 128")
    assert "long ago" not in ribs.say("Ines", "how long").text
    ribs.until(on("11:55"))
    ribs.say("Ines", "cannot read it now")
    told = ribs.say("Ines", "how long")
    (last,) = [line for line in told.lines if line.startswith("Last: meat 128 F")]
    assert last.endswith("The meat was read long ago: a new reading narrows the window.")
