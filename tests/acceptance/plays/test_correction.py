"""A correction: somebody typed 187 for 178 and puts it right, by the means that the stage has."""

from __future__ import annotations

import pytest

from scheduler.facts import Slot
from scheduler.units import f_from_c
from tests.fakes.kitchen import on
from tests.fakes.stages import Stage


@pytest.fixture
def cooking(stage: Stage) -> Stage:
    """Return a stage on which Ines cooks a brisket for the allotment club, nine hours on the fire."""
    stage.comes("Ines")
    stage.says("Ines", "brisket 12 lb, dinner 23:30, pit 250F")
    stage.says("Ines", "no guests at risk")
    stage.until(on("07:00"))
    stage.says("Ines", "meat on")
    stage.until(on("15:00"))
    stage.says("Ines", "pit 250, meat 172")
    stage.until(on("16:00"))
    return stage


def core_f(stage: Stage) -> float:
    """Return the newest core that counts [°F]."""
    last = stage.situation.state.last(Slot.CORE)
    assert last is not None
    return round(f_from_c(last.value_c), 1)


def test_a_changed_text_changes_the_fact_and_says_so(cooking: Stage) -> None:
    """The core is 178 afterwards, at the time it was read, and the change is shown."""
    cooking.says("Ines", "meat 187")
    cooking.now = on("16:03")
    cooking.changes("Ines", "178")
    assert core_f(cooking) == 178.0
    assert "178 F" in cooking.screen("Ines")[-1] or "178 F" in cooking.all_seen("Ines")


def test_words_of_correction_do_the_same(cooking: Stage) -> None:
    """The reading keeps its time when somebody says sorry and which number was meant."""
    cooking.says("Ines", "meat 187")
    cooking.now = on("16:05")
    cooking.says("Ines", "sorry 178 not 187")
    assert core_f(cooking) == 178.0
    last = cooking.situation.state.last(Slot.CORE)
    assert last is not None
    assert last.at == on("16:00")


def test_undo_takes_back_the_last_thing_of_whoever_says_it(cooking: Stage) -> None:
    """After it the core is the one of before."""
    cooking.says("Ines", "meat 187")
    cooking.now = on("16:02")
    cooking.says("Ines", "undo")
    assert core_f(cooking) == 172.0


def test_nonsense_in_a_changed_text_takes_nothing_back(cooking: Stage) -> None:
    """What was told still counts, and where texts can be changed it is said so."""
    cooking.says("Ines", "meat 181")
    cooking.now = on("16:04")
    cooking.changes("Ines", "blue umbrellas")
    assert core_f(cooking) == 181.0
    if cooking.changes_messages:
        assert "Still counted: meat 181 F at 16:00" in cooking.screen("Ines")[-1]
