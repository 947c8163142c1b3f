"""Changes told of one of several pieces go to that piece, in its words, and undo brings back what was before."""

from __future__ import annotations

from pathlib import Path

import pytest

from scheduler.facts import RestPlace, Slot
from tests.acceptance.table import INES
from tests.fakes.kitchen import PlayedKitchen, on
from tests.unit.bot.papers.papers import read_events

EVENING = "dinner 21:00 tomorrow, pit 250"


@pytest.fixture
def three(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen in which a brisket, a shoulder and a chicken are planned for one dinner."""
    kitchen = PlayedKitchen(tmp_path, on("8:30"))
    kitchen.opens(INES)
    kitchen.say(INES, f"brisket 5 kg and pork shoulder 4 kg and chicken 2 kg at 325, {EVENING}")
    return kitchen


@pytest.fixture
def waves(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen in which ribs are wanted at six and short ribs at seven."""
    kitchen = PlayedKitchen(tmp_path, on("6:00"))
    kitchen.opens(INES)
    kitchen.say(INES, "spare ribs 2 racks at 18:00, beef short ribs at 19:00, pit 275")
    return kitchen


def _masses(kitchen: PlayedKitchen) -> dict[str, float | None]:
    return {view.piece: view.state.planned.mass_kg for view in sorted(kitchen.situation.views, key=lambda v: v.piece)}


def _dinners(kitchen: PlayedKitchen) -> dict[str, str]:
    starts = {view.piece: view.state.serving.start for view in kitchen.situation.views}
    return {piece: f"{start:%H:%M}" for piece, start in sorted(starts.items()) if start is not None}


def test_a_mass_is_of_the_piece_that_is_named(three: PlayedKitchen) -> None:
    """The chicken is weighed: the brisket keeps its mass; undo brings the old mass back and says so."""
    assert three.say(INES, "the chicken is 2.5 kg").text.startswith("Whole chicken: now 2.5 kg.")
    assert _masses(three) == {"p1": 5.0, "p2": 4.0, "p3": 2.5}
    assert "Whole chicken: Back to: 2 kg." in three.say(INES, "undo").text
    assert _masses(three) == {"p1": 5.0, "p2": 4.0, "p3": 2.0}


def test_a_mass_of_the_first_piece_is_told_by_its_name(three: PlayedKitchen) -> None:
    """The piece that the plan stands for is changed and taken back like any other."""
    assert three.say(INES, "the brisket is 6 kg").text.startswith("Whole brisket: now 6 kg.")
    assert "Back to: whole brisket 5 kg." in three.say(INES, "undo").text.replace("Whole", "whole")
    assert _masses(three) == {"p1": 5.0, "p2": 4.0, "p3": 2.0}


def test_a_mass_without_a_name_costs_a_tap(three: PlayedKitchen) -> None:
    """Of several pieces one tap tells which is meant."""
    asked = three.say(INES, "it is 3 kg")
    assert "which piece?" in asked.text
    three.tap(INES, "Pork shoulder")
    assert _masses(three) == {"p1": 5.0, "p2": 3.0, "p3": 2.0}


def test_a_weighed_piece_keeps_its_wrap_and_its_pit(three: PlayedKitchen) -> None:
    """What was told of a piece before stays when its mass is told."""
    three.say(INES, "wrap the shoulder in foil")
    three.say(INES, "shoulder is 3 kg")
    assert three.situation.view("p2").state.planned.wrap == "foil"
    three.say(INES, "the chicken is 2.5 kg")
    assert round(three.situation.view("p3").state.pit[-1].low_c) == 163


def test_a_rest_is_of_the_piece_that_is_named(three: PlayedKitchen) -> None:
    """The shoulder is to rest in the oven, the brisket is not."""
    assert three.say(INES, "the shoulder rests in the oven").text.startswith("Pork shoulder: to be held")
    rests = {view.piece: view.state.rest for view in three.situation.views}
    assert (rests["p1"], rests["p3"]) == (None, None)
    assert rests["p2"] is not None
    assert rests["p2"].place is RestPlace.OVEN


@pytest.mark.parametrize(
    ("told", "back"),
    [("I have the wire in", "Back to: not told how the meat is read."), ("90 % sure", "Back to: 85 % sure.")],
)
def test_undo_of_a_changed_plan_says_what_holds_again(three: PlayedKitchen, told: str, back: str) -> None:
    """A change of the plan is taken back like anything else: the cook is not called off."""
    before = {view.piece: view.state.planned for view in three.situation.views}
    three.say(INES, told)
    assert back in three.say(INES, "undo").text
    assert {view.piece: view.state.planned for view in three.situation.views} == before


def test_another_certainty_tells_the_first_fire(three: PlayedKitchen) -> None:
    """With several pieces the fire is lit for the first of them, not for the one that decides about dinner."""
    said = three.say(INES, "90 % sure").text
    first = min(view.outlook.on_at for view in three.situation.views)
    assert f"meat on {first:%a} {first:%H:%M}" in said


def test_undo_of_an_added_piece_names_it(three: PlayedKitchen) -> None:
    """The piece that goes is named, not another one."""
    three.say(INES, "also spareribs 2 racks")
    assert three.say(INES, "undo").text.startswith("Spareribs: Taken back: added")


def test_a_dinner_with_a_name_moves_that_wave(waves: PlayedKitchen) -> None:
    """The second wave eats later; the first one stays, and undo brings it back."""
    assert "Beef short ribs: dinner moved to 20:00" in waves.say(INES, "dinner for the short ribs 20:00").text
    assert _dinners(waves) == {"p1": "18:00", "p2": "20:00"}
    waves.say(INES, "undo")
    assert _dinners(waves) == {"p1": "18:00", "p2": "19:00"}


def test_a_dinner_without_a_name_is_the_next_wave(waves: PlayedKitchen) -> None:
    """Whoever says only dinner means the one that comes next; it is told which moved."""
    said = waves.say(INES, "dinner 30 minutes later").text
    assert "Spareribs: dinner moved to 18:30" in said
    assert _dinners(waves) == {"p1": "18:30", "p2": "19:00"}


def test_a_wave_is_moved_by_its_name_and_a_time_alone(waves: PlayedKitchen) -> None:
    """A name with a time to come is when the piece is wanted, and no step done yesterday evening."""
    waves.say(INES, "short ribs at 19:30")
    assert _dinners(waves) == {"p1": "18:00", "p2": "19:30"}
    waves.say(INES, "beef short ribs: dinner 30 minutes later")
    assert _dinners(waves) == {"p1": "18:00", "p2": "20:00"}


def test_a_wave_is_not_moved_by_a_time_gone_by(waves: PlayedKitchen) -> None:
    """A time that has passed tells of something done, and moves no dinner to tomorrow."""
    waves.until(on("16:00"))
    waves.mutter(INES, "short ribs at 13:30")
    assert _dinners(waves) == {"p1": "18:00", "p2": "19:00"}


def _on_the_fire(folder: Path) -> PlayedKitchen:
    """Return a kitchen with a brisket and a shoulder on one fire, in which both have been read."""
    kitchen = PlayedKitchen(folder, on("8:30"))
    kitchen.opens(INES)
    kitchen.say(INES, "brisket 5 kg and pork shoulder 4 kg, when ready, pit 250")
    kitchen.say(INES, "lit at 8:30")
    kitchen.until(on("10:00"))
    kitchen.say(INES, "brisket and shoulder are on")
    kitchen.until(on("11:40"))
    return kitchen


def test_a_probe_in_the_bone_is_that_of_the_piece_named(tmp_path: Path) -> None:
    """The reading of the shoulder is kept aside, the one of the brisket counts; the note holds the words as typed."""
    kitchen = _on_the_fire(tmp_path)
    kitchen.say(INES, "brisket 88")
    kitchen.say(INES, "shoulder 92")
    kitchen.say(INES, "brisket 89")
    said = kitchen.say(INES, "shoulder probe hits the bone").text
    assert "Pork shoulder: Kept aside: meat 92 F" in said
    assert (kitchen.situation.view("p2").state.last(Slot.CORE), kitchen.notes[-1]) == (
        None,
        "shoulder probe hits the bone",
    )
    assert kitchen.situation.view("p1").state.last(Slot.CORE) is not None


def test_a_correction_tells_what_it_was(tmp_path: Path) -> None:
    """Also of a piece that is not the leading one the old value is said."""
    kitchen = _on_the_fire(tmp_path)
    for piece, cut in (("p1", "brisket"), ("p2", "shoulder")):
        kitchen.say(INES, f"{cut} 91")
        assert "(it was 91 F)" in kitchen.say(INES, "I meant 89").text
        read = kitchen.situation.view(piece).state.last(Slot.CORE)
        assert read is not None
        assert round(read.value_c * 1.8 + 32) == 89


def _titles(kitchen: PlayedKitchen) -> dict[str, tuple[str, str]]:
    """Return (status, title) of every event of a calendar taken now, by the key of its step."""
    document = kitchen.say(INES, "calendar").outgoing.document
    assert document is not None
    events = read_events(document.data)
    return {str(event.uid.value).split("@")[0]: (event.status.value, event.summary.value) for event in events}


def test_papers_with_other_meat_are_offered_anew(three: PlayedKitchen) -> None:
    """A piece that is dropped or added is not on the page that hangs there, though no time has moved."""
    three.say(INES, "page")
    first = _titles(three)
    assert first["p1-slice-1"] == ("CONFIRMED", "Whole brisket, pork shoulder, whole chicken: slice")
    dropped = three.say(INES, "drop the chicken")
    assert "Page no. 1 has other meat on it: print a new one?" in dropped.text
    assert {"New page", "New calendar"} <= set(dropped.labels)
    second = _titles(three)
    gone = {key for key, (status, _title) in second.items() if status == "CANCELLED"}
    assert gone == {key for key in first if key.startswith("p3-")}
    assert "Your calendar file has other meat in it" in three.say(INES, "also spareribs 2 racks").text


def test_a_cancelled_event_of_the_cook_names_no_piece(three: PlayedKitchen) -> None:
    """What is done once for all belongs to no piece, also when it is no longer planned."""
    _titles(three)
    three.say(INES, "drop the chicken")
    three.say(INES, "dinner 20:00 tomorrow")
    cancelled = [title for status, title in _titles(three).values() if status == "CANCELLED"]
    assert cancelled
    assert not any("Whole brisket: go or move" in title for title in cancelled)
