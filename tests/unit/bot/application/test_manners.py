"""Rooms of one cook that are spoken to in different units: figures typed and figures told."""

from __future__ import annotations

import dataclasses
from pathlib import Path

from bot.chat import IncomingKind
from bot.ports import Apply, RoomWrite
from tests.fakes.kitchen import PlayedKitchen, chat, group, on, window


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


def test_a_private_room_chooses_its_language(tmp_path: Path) -> None:
    """Whoever says so is answered in German from that answer on, also in what comes by itself; others are not."""
    kitchen = _two_windows(tmp_path)
    answered = kitchen.say("Tomas", "auf deutsch")
    assert answered.text.startswith("Ich spreche hier ab jetzt Deutsch.")
    assert "Als Nächstes" in answered.last
    kitchen.say("Ines", "dinner at 21:00")
    told = {name: kitchen.told(name)[-1].text for name in ("Ines", "Tomas")}
    assert "Dinner moved to 21:00" in told["Ines"]
    assert "Essen verschoben auf 21:00" in told["Tomas"]
    assert kitchen.say("Tomas", "english please").text.startswith("I speak English here from now on.")


def test_a_room_chooses_its_unit(tmp_path: Path) -> None:
    """Celsius asked for in one room leaves the other in Fahrenheit."""
    kitchen = _two_windows(tmp_path)
    assert kitchen.say("Tomas", "use fahrenheit").text.startswith("Temperatures are in Fahrenheit here from now on.")
    assert "250 F" in kitchen.say("Tomas", "plan").text
    assert kitchen.say("Ines", "celsius").text.startswith("Temperatures are in Celsius here from now on.")
    assert "121 C" in kitchen.say("Ines", "plan").text


def test_languages_are_offered(tmp_path: Path) -> None:
    """Asked which there are, or for one that is not spoken, it offers what is, each by its own name."""
    kitchen = _two_windows(tmp_path)
    assert kitchen.say("Ines", "language").labels == ("English", "Deutsch", "Celsius", "Fahrenheit")
    assert kitchen.say("Ines", "language klingon").lines[0] == "I do not speak klingon. I speak English, Deutsch."
    assert kitchen.tap("Ines", "Deutsch").text.startswith("Ich spreche hier ab jetzt Deutsch.")


def test_in_a_group_who_decides_chooses(tmp_path: Path) -> None:
    """A group is spoken to in English until its fire lead says otherwise; a helper may not."""
    kitchen = PlayedKitchen(tmp_path, on("06:00"))
    kitchen.opens("Ines")
    kitchen.invite("lead-code-1234", "fire_lead")
    allotment = group("allotment")
    kitchen.say("Wren", "/start lead-code-1234", room=chat("Wren"))
    kitchen.mutter("Wren", "hello", room=allotment)
    refused = kitchen.say("Bashir", "auf deutsch", room=allotment)
    assert refused.text.startswith("As helper you cannot change that here")
    assert kitchen.say("Wren", "auf deutsch", room=allotment).text.startswith("Ich spreche hier ab jetzt Deutsch.")


def test_a_device_gives_the_first_guess(tmp_path: Path) -> None:
    """A private room begins in the language of the device where that is spoken here; what was chosen counts more."""
    kitchen = PlayedKitchen(tmp_path, on("06:00"))
    kitchen.opens("Ines")
    kitchen.invite("code-for-wren-1", "fire_lead")
    started = kitchen.incoming("Wren", chat("Wren"), IncomingKind.TEXT, text="/start code-for-wren-1")
    sent = kitchen.does(dataclasses.replace(started, language="de-AT"))
    assert sent[-1].text.startswith("Hallo Wren.")
    kitchen.say("Wren", "english please", room=chat("Wren"))
    asked = kitchen.incoming("Wren", chat("Wren"), IncomingKind.TEXT, text="help")
    assert "Type a number" in kitchen.does(dataclasses.replace(asked, language="de"))[-1].text
