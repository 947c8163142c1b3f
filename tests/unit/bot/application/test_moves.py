"""What moved is told from thirty minutes on, a turned verdict at once; and what is said after having been away."""

from __future__ import annotations

import re
from pathlib import Path

from bot.chat import IncomingKind
from tests.fakes.kitchen import MINUTE, PlayedKitchen, on, window
from tests.unit.bot.application.conftest import RIBS

MOVED = re.compile(r"(\w[\w ]*) now (?:\w{3} )?(\d\d):(\d\d), was (?:\w{3} )?(\d\d):(\d\d) \(([+-])(.+?)\)")


def moves(text: str) -> list[int]:
    """Return the minutes between the two times of every move that a text tells."""
    return [
        (int(late_h) - int(early_h)) * 60 + int(late_m) - int(early_m)
        for _what, late_h, late_m, early_h, early_m, _sign, _by in MOVED.findall(text)
    ]


# --- moves ----------------------------------------------------------------------------------------------------------


def test_a_move_names_old_and_new_time_and_how_dinner_stands(ribs: PlayedKitchen) -> None:
    """A reading that changes much is answered with old and new time, by how much, and dinner; the other room hears."""
    ribs.until(on("10:40"))
    answer = ribs.say("Ines", "272/98")
    told = next(line for line in answer.lines if line.startswith("The meat runs slower than I said: "))
    assert MOVED.search(told)
    assert all(abs(by) >= 25 for by in moves(told))
    assert any(line.startswith("Dinner 18:00: ") for line in answer.lines)
    assert told in ribs.told("Tomas")[0].lines


def test_small_moves_are_not_told(ribs: PlayedKitchen) -> None:
    """A reading on course brings how dinner stands and no old and new times."""
    ribs.until(on("10:40"))
    answer = ribs.say("Ines", "272/125")
    assert MOVED.search(answer.text) is None
    assert answer.lines[1].startswith("Dinner 18:00: on time, about ")


def test_the_same_move_is_told_once(ribs: PlayedKitchen) -> None:
    """What was told is told: the next reading on the new course moves nothing."""
    ribs.until(on("10:40"))
    assert MOVED.search(ribs.say("Ines", "272/98").text)
    ribs.later(3)
    assert MOVED.search(ribs.say("Ines", "meat 100").text) is None


def test_moving_dinner_tells_what_it_means(ribs: PlayedKitchen) -> None:
    """Another dinner is said back with how it stands; the plate that moves with it is not told as news."""
    answer = ribs.say("Ines", "dinner at 8pm")
    assert answer.lines[0] == "Dinner moved to 20:00."
    assert answer.lines[1].startswith("Dinner 20:00: early: ready about ")
    assert "plate now" not in answer.text


def test_dinner_moved_too_early_is_refused(ribs: PlayedKitchen) -> None:
    """A dinner that cannot be is refused with the earliest and its sum, and dinner stays where it was."""
    answer = ribs.say("Ines", "dinner at 11:30")
    assert answer.text.startswith("That is too soon. The earliest plate is about ")
    assert "fire" not in answer.text.partition("cooking about")[0].partition("plate is")[2]
    assert "Dinner 18:00" in ribs.say("Ines", "how long").text


def test_a_fire_never_lit_turns_the_verdict_by_itself(planned: PlayedKitchen) -> None:
    """Nobody answers, the fire is never lit: time alone turns dinner from on time to close to late, each told once.

    The plan leaves no more room than the wanted confidence asks for: half an hour without a fire is enough.
    """
    assert "Dinner 18:00: on time, " in planned.say("Ines", "plan").text
    told = [heard for heard in planned.until(on("13:00")) if heard.room == window("Ines")]
    verdicts = [line for heard in told for line in heard.lines if line.startswith("Dinner 18:00: ")]
    kinds = [next(k for k in ("likely on time", "on time", "late by", "may be late") if k in v) for v in verdicts]
    assert kinds[0] in {"on time", "likely on time"}
    assert kinds.index("likely on time") < kinds.index("late by")
    assert all(heard.last.startswith("Next: ") for heard in told)


def test_news_by_itself_says_why(planned: PlayedKitchen) -> None:
    """What moves because time passes is said to move because time passes."""
    told = planned.until(on("09:00"))
    assert any("As time goes on without news: meat on now " in heard.text for heard in told)


# --- what was told as the next time -----------------------------------------------------------------------------------


def test_a_prompt_comes_when_it_was_told(ribs: PlayedKitchen) -> None:
    """The time in the last line is when the next message comes."""
    answer = ribs.say("Ines", "what next")
    clock = re.search(r"Next: (\d\d:\d\d), ", answer.text)
    assert clock
    assert ribs.until(on(clock.group(1)) - MINUTE) == []
    assert [heard.sort for heard in ribs.until(on(clock.group(1))) if heard.room == window("Ines")] == ["prompt"]


# --- away -----------------------------------------------------------------------------------------------------------


def test_after_an_outage_one_message_and_no_storm(ribs: PlayedKitchen) -> None:
    """Three hours away: one message to each room, which says since when, what passed unasked, and what comes."""
    ribs.until(on("09:20"))
    ribs.say("Ines", "pit 272")
    sent = ribs.away_until(on("12:30"))
    assert sorted((heard.room.chat, heard.sort) for heard in sent) in (
        [("ines", "prompt"), ("tomas", "prompt")],
        [("ines", "summary"), ("tomas", "summary")],
    )
    assert re.match(r"(I was away from |Later than I said \()10:\d\d", sent[0].text)
    assert "Passed unasked: " in sent[0].text
    assert "read the meat" in sent[0].text
    assert sent[0].last.startswith("Next: 1")


def test_what_still_matters_is_asked_late(planned: PlayedKitchen) -> None:
    """A fire that should have been lit while the program was away is asked for at once: first that this is late, then
    what to do, then what has moved meanwhile.
    """
    (mine, _theirs) = planned.away_until(on("08:40"))
    assert re.match(r"Later than I said \(0[67]:", mine.lines[0])
    assert "Light the fire" in mine.text
    assert "carbon monoxide" in mine.text
    assert mine.text.index("Light the fire") < mine.text.index("As time goes on without news: meat on now")
    assert "Lit" in mine.labels


def test_nothing_due_means_nothing_said(planned: PlayedKitchen) -> None:
    """Away while nothing was due: not a word."""
    assert planned.away_until(on("06:20")) == []


def test_a_few_minutes_late_is_not_worth_a_word(planned: PlayedKitchen) -> None:
    """A prompt five minutes after its time is just asked."""
    due_at = planned.kitchen.next_wake_at()
    assert due_at is not None
    (mine,) = planned.away_until(due_at + 5 * MINUTE)  # before seven only whoever leads is woken
    assert mine.lines[0].startswith("- Before any flame")


def test_the_inbox_is_worked_on_before_the_bell(ribs: PlayedKitchen) -> None:
    """A reply sent during the outage counts from when it was sent, and what it answers is not asked again."""
    ribs.until(on("09:20"))
    ribs.say("Ines", "pit 272")
    ribs.now = on("10:50")
    ribs.accept(ribs.incoming("Ines", window("Ines"), IncomingKind.TEXT, text="272/121"))
    sent = [heard for heard in ribs.away_until(on("11:00")) if heard.room == window("Ines")]
    assert [heard.sort for heard in sent] == ["answer"]
    assert sent[0].lines[0] == "Pit 272 F, meat 121 F, 10:50."
    assert "Read pit and meat" not in sent[0].text


def test_a_killed_kitchen_goes_on(tmp_path: Path) -> None:
    """Killed after every message, a kitchen says the same as one that runs through."""
    texts = []
    for killed in (False, True):
        played = PlayedKitchen(tmp_path / str(killed), on("06:00"))
        for text in (RIBS, "cooker clean", "how long", "dinner at 19:00"):
            played.say("Ines", text)
            if killed:
                played.reopen()
        played.until(on("08:50"))
        if killed:
            played.reopen()
        played.say("Ines", "lit at 8:30")
        texts.append([heard.text for heard in played.heard])
        played.close()
    assert texts[0] == texts[1]
