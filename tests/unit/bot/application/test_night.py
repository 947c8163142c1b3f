"""A message of the night says first whom it is to wake, when there is more than one to wake."""

from __future__ import annotations

from pathlib import Path

from tests.fakes.kitchen import Heard, PlayedKitchen, on


def _night(folder: Path, *crew: str) -> list[Heard]:
    """Return what came in the night of a brisket that this crew put on at eleven."""
    kitchen = PlayedKitchen(folder, on("18:00"))
    for name in crew:
        kitchen.opens(name)
    kitchen.say("Ines", "brisket 6 kg, dinner 17:00 sunday, pit 225")
    kitchen.until(on("22:30"))
    kitchen.mutter(crew[-1], "no ban")
    kitchen.mutter("Ines", "lit")
    kitchen.until(on("23:30"))
    kitchen.mutter("Ines", "meat on")
    return [heard for heard in kitchen.until(on("4:00", 1)) if heard.sort == "prompt"]


def test_whom_a_message_wakes_stands_first(tmp_path: Path) -> None:
    """Two people follow the cook: names open every message of the night, hers first; his when she does not answer."""
    first = {heard.lines[0] for heard in _night(tmp_path, "Ines", "Tomas")}
    assert first == {"Ines:", "Ines, Tomas:"}


def test_one_person_is_not_called_by_name(tmp_path: Path) -> None:
    """Whoever is alone knows who is meant."""
    assert all(not heard.lines[0].startswith("Ines") for heard in _night(tmp_path, "Ines"))


def test_who_goes_to_bed_hears_that_a_lit_cooker_is_never_left(ribs: PlayedKitchen) -> None:
    """No step is closed, no meat paused: who has the watch is said and asked."""
    before = len(ribs.situation.state.done)
    said = ribs.say("Ines", "I'm going to bed")
    assert "a lit cooker is never left alone" in said.text
    assert "Who has it?" in said.text
    assert len(ribs.situation.state.done) == before
