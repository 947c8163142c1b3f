"""Rooms of one cook that are spoken to in different units: figures typed and figures told."""

from __future__ import annotations

from pathlib import Path

from bot.ports import Apply, RoomWrite
from tests.fakes.kitchen import PlayedKitchen, on, window


def _two_windows(folder: Path) -> PlayedKitchen:
    kitchen = PlayedKitchen(folder, on("06:00"))
    kitchen.opens("Ines")
    kitchen.opens("Tomas")
    kitchen.store.apply(Apply(now=kitchen.now, rooms=(RoomWrite(address=window("Tomas"), unit="C"),)))
    kitchen.say("Ines", "brisket 12 lb, dinner 20:00, pit 250F")
    kitchen.say("Ines", "no guests at risk")
    return kitchen


def test_each_room_hears_its_own_unit(tmp_path: Path) -> None:
    """The plan is told in Fahrenheit to one and in Celsius to the other."""
    kitchen = _two_windows(tmp_path)
    told = {name: [h.text for h in kitchen.heard if h.room == window(name)] for name in ("Ines", "Tomas")}
    assert any("250 F" in text for text in told["Ines"])
    assert any("121 C" in text for text in told["Tomas"])
    assert not any(" F" in text for text in told["Tomas"] if "121 C" in text)


def test_a_figure_is_read_in_the_unit_of_the_room(tmp_path: Path) -> None:
    """A bare 71 typed where Celsius is spoken is 71 C, and the other room is told it in Fahrenheit."""
    kitchen = _two_windows(tmp_path)
    kitchen.say("Tomas", "meat on at 6:00")
    kitchen.now = on("10:00")
    answered = kitchen.say("Tomas", "meat 71")
    assert "71 C" in answered.text
    told = [h.text for h in kitchen.heard if h.room == window("Ines") and h.sort == "echo"]
    assert "160 F" in told[-1]
