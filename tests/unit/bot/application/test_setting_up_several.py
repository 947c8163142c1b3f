"""Setting up several pieces in one sentence: what is asked about, what is kept, and that nothing is dropped unsaid."""

from __future__ import annotations

import pytest

from scheduler.facts import Serving
from tests.fakes.kitchen import PlayedKitchen

THREE = "brisket 6 kg, 3 racks of ribs and 2 chickens, dinner 18:00 tomorrow, pit 250"


def _pieces(kitchen: PlayedKitchen) -> list[tuple[str, int, float | None]]:
    """Return (cut, count, mass) of every piece of the cook that runs."""
    views = kitchen.situation.views
    return [(view.cut.id, view.state.planned.count, view.state.planned.mass_kg) for view in views]


def _dinner(serving: Serving) -> str:
    assert serving.start is not None
    return serving.start.isoformat(timespec="minutes")


def _steps(kitchen: PlayedKitchen) -> str:
    """Return every step still to come, as people see it."""
    return kitchen.say("Ines", "all steps").text


def test_a_piece_that_may_be_several_cuts_is_asked_about(kitchen: PlayedKitchen) -> None:
    """Ribs beside a brisket and chickens are asked about with buttons; counts and masses stay where they were said."""
    kitchen.opens("Ines")
    asked = kitchen.say("Ines", THREE)
    assert asked.text.startswith("'3 ribs': which cut is it?")
    assert {"Spareribs", "Baby back ribs", "Another cut", "Leave it out"} <= set(asked.labels)
    kitchen.tap("Ines", "Spareribs")
    assert _pieces(kitchen) == [("brisket_packer", 1, 6.0), ("whole_chicken", 2, None), ("spareribs_stl", 3, None)]


@pytest.mark.parametrize("answer", ["baby back ribs", "they are baby backs"])
def test_the_cut_may_be_typed(kitchen: PlayedKitchen, answer: str) -> None:
    """The answer names the piece that was asked about, never the first one."""
    kitchen.opens("Ines")
    kitchen.say("Ines", THREE)
    kitchen.say("Ines", answer)
    assert _pieces(kitchen) == [("brisket_packer", 1, 6.0), ("whole_chicken", 2, None), ("baby_back_ribs", 3, None)]


@pytest.mark.parametrize("answer", ["Leave it out", "skip"])
def test_a_piece_may_be_left_out(kitchen: PlayedKitchen, answer: str) -> None:
    """Left out by a tap or a word it is named, and the rest is cooked."""
    kitchen.opens("Ines")
    kitchen.say("Ines", THREE)
    begun = kitchen.tap("Ines", answer) if answer[0].isupper() else kitchen.say("Ines", answer)
    assert "I left out: 'ribs'." in begun.text
    assert _pieces(kitchen) == [("brisket_packer", 1, 6.0), ("whole_chicken", 2, None)]


def test_another_cut_is_the_piece_that_was_asked_about(kitchen: PlayedKitchen) -> None:
    """The way over all cuts ends at the same piece."""
    kitchen.opens("Ines")
    kitchen.say("Ines", THREE)
    kitchen.tap("Ines", "Another cut")
    kitchen.tap("Ines", "Lamb")
    kitchen.tap("Ines", "Lamb shoulder")
    assert ("lamb_shoulder", 3, None) in _pieces(kitchen)
    assert _pieces(kitchen)[0] == ("brisket_packer", 1, 6.0)


def test_a_date_counts_beside_its_weekday(kitchen: PlayedKitchen) -> None:
    """Saturday 19 September is not the Saturday before it, with several pieces too, and the fire is lit for it."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket and 2 chickens, Saturday 19 September 18:00, pit 250, 24 adults 6 children")
    assert {_dinner(view.state.serving) for view in kitchen.situation.views} == {"2026-09-19T18:00"}
    steps = _steps(kitchen)
    assert all(step in steps for step in ("light the fire", "salt the meat", "meat on (whole brisket)"))


def test_a_weekday_that_contradicts_the_date_is_asked_about(kitchen: PlayedKitchen) -> None:
    """Both days are offered; the answer begins the cook with all that was said before."""
    kitchen.opens("Ines")
    asked = kitchen.say("Ines", "brisket 6 kg, dinner Friday 19 September 18:00, pit 250")
    assert asked.labels == ("Sat 19 Sep", "Fri 18 Sep")
    kitchen.tap("Ines", "Fri 18 Sep")
    assert _dinner(kitchen.situation.state.serving) == "2026-09-18T18:00"
    assert _pieces(kitchen) == [("brisket_packer", 1, 6.0)]


def test_the_same_sentence_twice_leaves_the_cook_whole(kitchen: PlayedKitchen) -> None:
    """Said again while it is planned, the sentence takes no step away and reads no figure of it as a temperature."""
    sentence = "brisket and 3 racks of spare ribs, Saturday 19 September 18:00, pit 250, 24 adults 6 children"
    kitchen.opens("Ines")
    kitchen.say("Ines", sentence)
    before, readings = _steps(kitchen), kitchen.situation.state.readings
    kitchen.say("Ines", sentence)
    assert kitchen.situation.state.readings == readings
    assert _steps(kitchen) == before
    assert "meat on (whole brisket)" in before


def test_pits_to_choose_from_fit_every_piece(kitchen: PlayedKitchen) -> None:
    """Beside chickens, which begin at 275 F, no brisket pit of 225 F is offered."""
    kitchen.opens("Ines")
    asked = kitchen.say("Ines", "brisket 6 kg and 2 chickens, dinner 18:00 tomorrow")
    assert asked.labels == ("Usual: 275 F", "300 F", "Back")


@pytest.mark.parametrize(
    ("sentence", "said"),
    [
        ("salmon 1 kg, dinner 18:00, pit 325", "Pit 325 F is hotter than usual for salmon side (up to 275 F)"),
        ("2 chickens, dinner 18:00, pit 250", "Pit 250 F is colder than usual for whole chicken (from 275 F)"),
        (
            "brisket 6 kg and salmon 1 kg, dinner 18:00 tomorrow, pit 300",
            "Pit 300 F is hotter than usual for salmon side (up to 275 F)",
        ),
    ],
)
def test_an_unusual_pit_is_said_with_the_plan(kitchen: PlayedKitchen, sentence: str, said: str) -> None:
    """What a cut is not usually cooked at is planned, and one line says so; a usual pit needs none."""
    kitchen.opens("Ines")
    assert sum(said in line for line in kitchen.say("Ines", sentence).lines) == 1


def test_a_usual_pit_needs_no_word(kitchen: PlayedKitchen) -> None:
    """Within the bands of every piece nothing is said of the pit."""
    kitchen.opens("Ines")
    assert "than usual" not in kitchen.say("Ines", "brisket 6 kg and 2 chickens, dinner 18:00 tomorrow, pit 285").text


def test_a_time_said_later_keeps_the_day_said_before(kitchen: PlayedKitchen) -> None:
    """Monday evening, and then 2pm: dinner is on Monday at two."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "spare ribs for 30 people, monday evening")
    kitchen.say("Ines", "2pm")
    kitchen.say("Ines", "250")
    assert _dinner(kitchen.situation.state.serving) == "2026-08-17T14:00"


def test_a_question_about_the_running_cook_is_no_answer_of_the_new_one(kitchen: PlayedKitchen) -> None:
    """While a second cook is set up, a question that names the first one's meat is answered for the first one."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket 6 kg, dinner 18:00 tomorrow, pit 250")
    kitchen.say("Ines", "new cook: chicken, dinner Monday 18:00")
    assert "How hot" not in kitchen.say("Ines", "is my brisket ok").text
    begun = kitchen.say("Ines", "300")
    assert "chicken" in begun.text.casefold()


def test_a_time_tomorrow_is_no_deed(kitchen: PlayedKitchen) -> None:
    """With ticks open "at 1pm tomorrow" closes none of them: it is asked whether people eat then."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket 6 kg, dinner 18:00 tomorrow, pit 250")
    done = dict(kitchen.situation.state.done)
    asked = kitchen.say("Ines", "at 1pm tomorrow")
    assert asked.text.startswith('"at 1pm tomorrow": is that when people eat?')
    assert dict(kitchen.situation.state.done) == done
    assert asked.labels == ("Yes", "No")
