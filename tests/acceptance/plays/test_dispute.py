"""A dispute: two people read the same meat three minutes apart and differ by fourteen degrees."""

from __future__ import annotations

import pytest

from scheduler.facts import Slot
from scheduler.units import f_from_c
from tests.fakes.kitchen import on
from tests.fakes.stages import Stage
from tests.fakes.stages.dinners import brisket_of_two


@pytest.fixture
def differing(stage: Stage) -> Stage:
    """Return a stage on which Ines read 178 F and Tomas 164 F of the same brisket."""
    brisket_of_two(stage, "15:00")
    stage.says("Ines", "pit 250, meat 172")
    stage.until(on("16:00"))
    stage.says("Ines", "meat 178")
    stage.now = on("16:03")
    stage.says("Tomas", "meat 164")
    return stage


def cores_f(stage: Stage) -> list[float]:
    """Return the cores that count, in order of time [°F]."""
    return [round(f_from_c(one.value_c), 1) for one in stage.situation.state.read(Slot.CORE)]


def test_both_see_both_numbers_by_name_and_are_asked(differing: Stage) -> None:
    """Nobody's number is averaged or hidden; both have the same three buttons."""
    for name in ("Ines", "Tomas"):
        assert "Ines 178 F, Tomas 164 F" in differing.all_seen(name)
        assert differing.labels(name) == ("164 F is right", "178 F is right", "Both, two spots")
    assert "171 F" not in differing.all_seen("Ines")
    assert cores_f(differing) == [172.0, 178.0]


def test_one_tap_of_the_other_person_settles_it(differing: Stage) -> None:
    """Ines read again: hers was a hot spot. 164 counts, and both see who said so."""
    differing.now = on("16:06")
    differing.taps("Ines", "164 F is right")
    assert cores_f(differing)[-1] == 164.0
    assert "Ines: " in differing.all_seen("Tomas")


def test_of_two_spots_both_count(differing: Stage) -> None:
    """Each reading gets a spot of its own; nobody is asked any more."""
    differing.now = on("16:06")
    differing.taps("Tomas", "Both, two spots")
    assert cores_f(differing) == [172.0, 178.0, 164.0]
    assert {one.spot for one in differing.situation.state.read(Slot.CORE)[1:]} == {"one spot", "other spot"}
    differing.says("Tomas", "is it safe")
    assert "164 F" in differing.screen("Tomas")[-1]


def test_the_board_shows_both_until_it_is_settled(differing: Stage) -> None:
    """Not the higher one alone; once one is called right, that one."""
    differing.says("Ines", "board")
    assert "Meat: 164 F or 178 F at 16:03, two readings that differ." in differing.screen("Ines")[-1]
    differing.now = on("16:06")
    differing.taps("Tomas", "164 F is right")
    differing.says("Ines", "board")
    assert "Meat 164 F at 16:0" in differing.screen("Ines")[-1]
