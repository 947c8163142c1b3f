"""Words about the cooker: vents in the owner's words, wood as it gets in, the dial, charcoal."""

from __future__ import annotations

import dataclasses

import pytest

from bot.messages.cooker import (
    at_this_cooker,
    dial_words,
    fuel_line,
    need_line,
    no_thermometer,
    vent_words,
    wood_words,
)
from bot.messages.figures import Voice
from scheduler.cookers import read_cards
from scheduler.facts import CookerKind, CookerTold, FuelTold, PieceAdded, ReadBy
from scheduler.units import c_from_f
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, dinner, planned

CARDS, _COMPLAINTS = read_cards(
    """
[[cookers]]
name = "the old kettle"
kind = "kettle"
dial_offset_f = -10
vents = [
    { low_f = 225, high_f = 250, words = "top two fingers, bottom a quarter" },
    { low_f = 265, high_f = 285, words = "top open, bottom half" },
]
""",
    CATALOGUE.cookers,
)
CARD = CARDS.cookers[0].told(CATALOGUE.cookers)


def cook(cooker: CookerTold | None, *, pit_f: float = 275.0, **more: object) -> Logbook:
    """Return a planned cook on a cooker."""
    pit_c = c_from_f(pit_f)
    log = Logbook(planned(pit_low_c=pit_c, pit_high_c=pit_c, serving=dinner(900), **more))
    if cooker is not None:
        log.tell(cooker, 1)
    return log


def voice(minutes: float = 1) -> Voice:
    """Return a voice in Fahrenheit at a minute of the tests."""
    return Voice(zone="Etc/UTC", unit="F", now=at(minutes))


@pytest.mark.parametrize(
    ("pit_f", "said"),
    [
        (275.0, "Your mark for 265 to 285 F: top open, bottom half."),
        (240.0, "Your mark for 225 to 250 F: top two fingers, bottom a quarter."),
        (257.0, "Your mark for 225 to 250 F: top two fingers, bottom a quarter."),
        (325.0, ""),
    ],
)
def test_vents_are_told_by_the_mark_of_the_band(pit_f: float, said: str) -> None:
    """The band that holds the pit, else the nearest within a few degrees; far from every mark nothing is said."""
    assert vent_words(cook(CARD, pit_f=pit_f).state, voice()) == said
    assert vent_words(cook(CATALOGUE.cookers.of_kind(CookerKind.KETTLE), pit_f=pit_f).state, voice()) == ""


@pytest.mark.parametrize(
    ("kind", "part"),
    [
        (CookerKind.KETTLE, "lid up once"),
        (CookerKind.OFFSET, "firebox door; the chamber stays shut"),
        (CookerKind.CABINET, "through the door"),
        (CookerKind.DRUM, ""),
        (None, "Add a chunk of wood."),
    ],
)
def test_wood_is_told_as_it_gets_in(kind: CookerKind | None, part: str) -> None:
    """Lid, door or firebox; nothing where all of it was laid in before."""
    said = wood_words(cook(None if kind is None else CATALOGUE.cookers.of_kind(kind)).state)
    assert part in said
    assert (said == "") is (kind is CookerKind.DRUM)


def test_the_dial_is_told_as_it_will_look() -> None:
    """A dial that reads ten too high shows 285 when the grate is at 275; an unknown offset is not guessed."""
    assert dial_words(cook(CARD).state, voice()) == "The dial in the lid then shows about 285 F."
    assert dial_words(cook(CATALOGUE.cookers.of_kind(CookerKind.DRUM)).state, voice()) == ""


def test_steps_are_worded_for_this_cooker() -> None:
    """Vents and dial where the pit is read and vents close, wood where it is added, and nothing anywhere else."""
    state = cook(CARD).state
    assert at_this_cooker("vents_early", "Close.", state, voice()) == (
        "Close. Your mark for 265 to 285 F: top open, bottom half."
    )
    assert "285 F" in at_this_cooker("pit_check", "Read the pit.", state, voice())
    assert at_this_cooker("wood_add", "Add a chunk of wood.", state, voice()) == wood_words(state)
    assert at_this_cooker("spritz", "Spritz.", state, voice()) == "Spritz."
    assert at_this_cooker("pit_check", "Read the pit.", cook(None).state, voice()) == "Read the pit."


def test_fuel_until_is_told_while_it_matters() -> None:
    """From the fire on until the pull: a clock time, "enough" when it outlasts the cook, "look" when it is gone."""
    log = cook(CARD)
    log.tell(FuelTold(kg=2.0), 2)
    assert fuel_line(log.situation, voice()) == ""
    log.done("light", 5)
    log.done("meat_on", 50)
    assert fuel_line(log.situation, voice(60)).startswith("Fuel until about ")
    assert fuel_line(log.situation, voice(900)) == "Fuel: likely low by now, please look."
    log.tell(FuelTold(kg=12.0, added=True), 61)
    assert fuel_line(log.situation, voice(62)) == "Fuel: enough for this cook."
    log.done("pull", 400)
    assert fuel_line(log.situation, voice(401)) == ""


def test_charcoal_to_buy_counts_all_the_meat() -> None:
    """Half as much again as the estimate, in half kilograms; a second piece takes more; no cooker, no figure."""
    assert need_line(cook(None).situation) == ""
    one = need_line(cook(CARD).situation)
    assert one.startswith("Charcoal: about ")
    log = cook(CARD)
    log.tell(PieceAdded(cut="brisket_packer", mass_kg=6.0), 2)
    log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], piece="p2"))
    assert need_line(log.situation) != one


def test_without_a_thermometer_the_limit_is_told_kindly() -> None:
    """The safe minimum of the cut, and only then."""
    text = no_thermometer(cook(None, read_by=ReadBy.NONE).situation, voice())
    assert "145 F" in text
    assert "please" in text
    assert no_thermometer(cook(None, read_by=ReadBy.HAND).situation, voice()) == ""
