"""Wishes about the plan from the typed word to the answer: what is kept, what it changes, what is refused kindly."""

from __future__ import annotations

from pathlib import Path

from scheduler.facts import WatchesTold
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
