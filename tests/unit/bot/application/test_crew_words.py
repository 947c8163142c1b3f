"""The crew beside its prompts: edits and their rights, who cannot be woken in the plan, two cooks of one evening."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scheduler.facts import Slot
from tests.fakes.kitchen import Heard, PlayedKitchen, on


def _ribs(folder: Path) -> PlayedKitchen:
    """Return ribs on the fire at noon: Ines leads, Wren helps, Bashir is the host."""
    kitchen = PlayedKitchen(folder, on("06:00"))
    for name in ("Ines", "Wren", "Bashir"):
        kitchen.opens(name)
    kitchen.say("Ines", "7 racks of short ribs, dinner 18:00, pit 250")
    for text in ("Wren is helper", "Bashir is host"):
        kitchen.say("Ines", text)
    kitchen.until(on("09:00"))
    kitchen.say("Ines", "lit")
    kitchen.until(on("10:00"))
    kitchen.say("Ines", "meat on")
    kitchen.until(on("12:00"))
    return kitchen


def _newest(kitchen: PlayedKitchen) -> str:
    """Return the message of what Wren told last."""
    found = next(fact.message for fact in reversed(kitchen.cook.facts) if fact.by == "Wren")
    assert found is not None
    return found


@pytest.mark.parametrize("edited", ["dinner at 19:00", "pit to 275", "wrapped in foil, dinner at 19:00"])
def test_an_edit_needs_the_rights_of_its_new_text(tmp_path: Path, edited: str) -> None:
    """A helper's "120" that is edited into a decision decides nothing: whoever does is asked, the number stays."""
    kitchen = _ribs(tmp_path)
    serving, pit = kitchen.situation.state.serving, kitchen.situation.state.pit_c
    kitchen.say("Wren", "120 F")
    kitchen.edit(_newest(kitchen), "Wren", edited)
    assert kitchen.situation.state.serving == serving
    assert kitchen.situation.state.pit_c == pit
    assert len(kitchen.situation.state.levers_asked) == 1
    assert [one.labels for name in ("Ines", "Bashir") for one in kitchen.told(name, "lever")] == [("Yes", "No")]
    kitchen.close()


def test_a_helper_may_still_correct_a_number(tmp_path: Path) -> None:
    """What needs no other right than the first text is corrected as ever."""
    kitchen = _ribs(tmp_path)
    kitchen.say("Wren", "120 F")
    kitchen.edit(_newest(kitchen), "Wren", "125 F")
    last = kitchen.situation.state.last(Slot.CORE)
    assert last is not None
    assert round(last.value_c * 1.8 + 32) == 125
    assert kitchen.situation.state.levers_asked == {}
    kitchen.close()


def _evening(folder: Path, *, second: bool) -> PlayedKitchen:
    """Return an evening before a night with watches: one cook, or two with the same people."""
    kitchen = PlayedKitchen(folder, on("17:00"))
    for name in ("Ines", "Tomas"):
        kitchen.opens(name)
    kitchen.say("Ines", "brisket 5 kg, pit 250, dinner tomorrow 18:00")
    kitchen.say("Ines", "Tomas is watch")
    kitchen.say("Ines", "Tomas 22:00-07:00")
    if second:
        kitchen.say("Ines", "new cook: pork butt 4 kg, pit 250, dinner tomorrow 19:00")
        kitchen.say("Ines", "pork butt: Tomas 22:00-07:00")
    return kitchen


def test_who_cannot_be_woken_stands_in_the_plan(tmp_path: Path) -> None:
    """Nobody answered the test: the plan names them, with the times for an alarm clock."""
    kitchen = _evening(tmp_path, second=False)
    kitchen.until(on("20:16"))
    plan = kitchen.say("Ines", "plan").text
    assert "Tomas cannot be woken by a message. Ordinary alarm clock: " in plan
    assert plan.count("cannot be woken by a message") == 2
    kitchen.close()


def test_two_cooks_of_one_evening_test_each_person_once(tmp_path: Path) -> None:
    """One test for each telephone, and its answer counts for both cooks."""
    kitchen = _evening(tmp_path, second=True)
    sent: list[Heard] = [one for one in kitchen.until(on("20:05")) if one.sort == "sound"]
    assert sorted(one.room.chat for one in sent) == ["ines", "tomas"]
    kitchen.tap("Tomas", "I heard it")
    later = kitchen.until(on("20:30"))
    assert [one.text for one in later if re.search(r"Tomas .*(?:cannot|did not)", one.text)] == []
    kitchen.close()
