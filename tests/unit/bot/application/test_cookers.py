"""The cooker in the chat: chosen, copied into the log, offered again, and what it changes of the words."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.catalogue.cards import OWN_COOKERS, open_cards
from bot.messages import own_cuts
from scheduler.cookers import Cards, read_cards
from scheduler.facts import CookerKind, CookerTold, FuelTold, ReadBy, Reading
from tests.fakes.kitchen import CATALOGUE, PlayedKitchen, on

CARDS, _NONE_BROKEN = read_cards(
    """
[[cookers]]
name = "the old kettle"
kind = "kettle"
dial_offset_f = -10
fuel_kg_per_h = 0.4
fuel_at_f = 250
vents = [{ low_f = 225, high_f = 260, words = "top two fingers, bottom a quarter" }]

[[cookers]]
name = "Big Blue"
kind = "drum"
""",
    CATALOGUE.cookers,
)
BRISKET = "brisket 4 kg, dinner 23:30, pit 275"


@pytest.fixture
def kitchen(tmp_path: Path) -> Iterator[PlayedKitchen]:
    """A kitchen whose owner has two cards."""
    played = PlayedKitchen(tmp_path, on("06:00"), cards=CARDS)
    yield played
    played.close()


def cooker(kitchen: PlayedKitchen) -> CookerTold | None:
    """Return the cooker in the log of the cook."""
    told = [fact.body for fact in kitchen.cook.facts if isinstance(fact.body, CookerTold)]
    return told[-1] if told else None


def test_a_card_named_in_the_set_up_is_copied_into_the_log(kitchen: PlayedKitchen) -> None:
    """The log holds the whole card, so that it stands when the file changes; the plan says what it takes."""
    heard = kitchen.say("Ines", f"{BRISKET}, on the old kettle")
    told = cooker(kitchen)
    assert told is not None
    assert (told.cooker, told.name, told.fuel_kg_per_h) == (CookerKind.KETTLE, "the old kettle", 0.4)
    assert told.vents[0].words == "top two fingers, bottom a quarter"
    text = heard.text
    assert "Charcoal: about" in text
    assert text.splitlines()[-1].startswith("Next:")


def test_cards_are_offered_and_a_tap_chooses(kitchen: PlayedKitchen) -> None:
    """A plan without a cooker offers the cards, without hiding what comes next; a tap tells lighting and charcoal."""
    heard = kitchen.say("Ines", BRISKET)
    assert "Which cooker?" in heard.text
    assert heard.text.splitlines()[-1].startswith("Next:")
    heard = kitchen.tap("Ines", "On Big Blue")
    told = cooker(kitchen)
    assert told is not None
    assert (told.cooker, told.name) == (CookerKind.DRUM, "Big Blue")
    assert "On Big Blue" in heard.text
    assert "Light at" in heard.text
    assert "Charcoal: about" in heard.text


def test_the_cooker_used_last_is_offered_first(kitchen: PlayedKitchen) -> None:
    """The next cook offers the card of the last one before the others; and it is only offered."""
    kitchen.say("Ines", f"{BRISKET}, on Big Blue")
    kitchen.say("Ines", "call it off")
    kitchen.tap("Ines", "Yes, call it off")
    heard = kitchen.say("Ines", BRISKET)
    labels = [label for label in heard.labels if label.startswith("On ")]
    assert labels == ["On Big Blue", "On the old kettle"]
    assert cooker(kitchen) is None


def test_without_cards_nothing_is_asked(tmp_path: Path) -> None:
    """Somebody who never told of a cooker is not asked for one, and may name a kind at any time."""
    played = PlayedKitchen(tmp_path, on("06:00"))
    try:
        heard = played.say("Ines", BRISKET)
        assert "Which cooker?" not in heard.text
        played.say("Ines", "on the offset")
        told = cooker(played)
        assert told is not None
        assert (told.cooker, told.name, told.wood_by) == (CookerKind.OFFSET, None, "firebox")
    finally:
        played.close()


def test_a_dial_is_corrected_by_the_offset_of_the_card(kitchen: PlayedKitchen) -> None:
    """240 on a dial that reads ten too high is 230 at the grate; on a cooker without an offset it is only uncertain."""
    kitchen.say("Ines", f"{BRISKET}, on the old kettle")
    kitchen.say("Ines", "lit at 6:00")
    kitchen.say("Ines", "meat on")
    kitchen.say("Ines", "dial 240")
    reading = [fact.body for fact in kitchen.cook.facts if isinstance(fact.body, Reading)][-1]
    assert reading.value_c == pytest.approx((230 - 32) / 1.8)
    assert reading.spread_c == 0.0
    kitchen.say("Ines", "on Big Blue")
    kitchen.say("Ines", "dial 250")
    reading = [fact.body for fact in kitchen.cook.facts if isinstance(fact.body, Reading)][-1]
    assert reading.value_c == pytest.approx((250 - 32) / 1.8)
    assert reading.spread_c > 5.0


def test_fuel_until_stands_on_the_board_and_follows_the_answers(kitchen: PlayedKitchen) -> None:
    """Loaded, lit, on: the board says until when; "low" brings it nearer at once."""
    kitchen.say("Ines", f"{BRISKET}, on the old kettle")
    kitchen.say("Ines", "loaded 3 kg charcoal")
    assert [f.body for f in kitchen.cook.facts if isinstance(f.body, FuelTold)] == [FuelTold(kg=3.0)]
    kitchen.say("Ines", "lit")
    kitchen.say("Ines", "meat on")
    heard = kitchen.say("Ines", "what next")
    assert "Fuel until about" in heard.text
    before = heard.text
    heard = kitchen.say("Ines", "charcoal is low")
    assert "Fuel until about" in heard.text or "Fuel: likely low" in heard.text
    assert heard.text != before


def test_how_the_meat_is_read_is_kept_and_said(kitchen: PlayedKitchen) -> None:
    """In the set-up or later; without a thermometer the one number that must be is said kindly, with its limit."""
    heard = kitchen.say("Ines", f"{BRISKET}, no thermometer")
    assert "borrow a thermometer" in heard.text
    assert "145 F" in heard.text
    heard = kitchen.say("Ines", "wire")
    assert "The wire stays in the meat." in heard.text
    planned = [f.body for f in kitchen.cook.facts if f.body.kind == "planned"][-1]
    assert getattr(planned, "read_by", None) is ReadBy.WIRE


def test_a_broken_file_is_told_where_a_cook_is_set_up_and_stops_nothing(tmp_path: Path) -> None:
    """One card with a typing error is left out by name; the other one counts; a file that is no text is said so."""
    path = tmp_path / OWN_COOKERS
    path.write_text('[[cookers]]\nname = "A"\nkind = "pot"\n[[cookers]]\nname = "B"\nkind = "drum"\n', "utf-8")
    cards, complaints = open_cards(tmp_path, CATALOGUE.cookers)
    assert [card.name for card in cards.cookers] == ["B"]
    assert own_cuts.broken(complaints, own_cuts.COOKERS_FILE).startswith("cookers.toml needs a look. 'A' is left out")
    path.write_bytes(b"\xff\xfe")
    assert open_cards(tmp_path, CATALOGUE.cookers)[1][0].why == "it is not a text in UTF-8"
    path.unlink()
    assert open_cards(tmp_path, CATALOGUE.cookers) == (Cards(), ())


def test_no_cards_is_a_usual_thing() -> None:
    """An empty file is no complaint."""
    assert read_cards("", CATALOGUE.cookers) == (Cards(), ())
