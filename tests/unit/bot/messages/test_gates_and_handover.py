"""Words before the meat goes on, of the handover, and of what happens when a step is forgotten."""

from __future__ import annotations

import dataclasses

import pytest

from bot.messages.figures import Voice
from bot.messages.gates import vents_line, waiting_line
from bot.messages.handover import handover_card
from bot.messages.steps import all_step_ids, caution_text, consequence, step_words
from bot.messages.trip import trip_message
from scheduler.facts import Slot, StepDone, Watch, WatchesTold, Wrap
from tests.unit.scheduler.logbook import WHEN_READY, Logbook, at, cooking, dinner, planned

ROOM = Voice(zone="Etc/UTC", unit="F", now=at(0))


def _voice(minutes: float) -> Voice:
    return dataclasses.replace(ROOM, now=at(minutes))


def _lit(*pits: tuple[float, float]) -> Logbook:
    log = Logbook(planned(serving=dinner(780)))
    log.done("light", 0)
    for minutes, value_c in pits:
        log.read(value_c, minutes, slot=Slot.PIT)
    return log


def test_what_waiting_costs_is_said_in_one_sentence() -> None:
    """First it may wait, then it costs rest until a time, then each minute moves dinner."""
    log = _lit()
    situation = log.situation
    early, late = waiting_line(situation, _voice(0)), waiting_line(situation, _voice(600))
    assert early.startswith(("It may wait until ", "Waiting costs rest until "))
    assert ", dinner after." in early
    assert late == "Each minute of waiting now moves dinner."
    assert waiting_line(Logbook(planned(serving=WHEN_READY)).situation, _voice(0)) == ""


def test_the_trip_of_the_meat_says_it() -> None:
    """Meat on, lid shut, and what waiting costs."""
    log = _lit()
    for step, minutes in (("smoke_clean", 40), ("pit_stable", 41), ("probe_in", 42)):
        log.done(step, minutes)
    trip = log.trip(42)
    assert trip is not None
    assert "dinner after" in trip_message(trip, log.situation, _voice(42)).text


def test_vents_are_told_beforehand_from_two_readings_on() -> None:
    """Begin to close the vents at 250 F for a pit of 275 F, and about when; with one reading nothing is promised."""
    assert vents_line(_lit((15, 60)).situation, _voice(15)) == ""
    said = vents_line(_lit((15, 60), (25, 90)).situation, _voice(25))
    assert said.startswith("Begin to close the vents at 250 F, about 06:")
    assert vents_line(_lit((15, 60), (25, 122)).situation, _voice(25)) == (
        "Begin to close the vents now: the pit has passed 250 F."
    )
    assert vents_line(cooking().situation, _voice(70)) == ""


def test_the_card_of_a_handover_says_what_the_next_one_must_know() -> None:
    """Pit, meat, wrap, what was done, what is due, and when to wake the lead."""
    log = cooking()
    wall = [at(minutes).replace(tzinfo=None) for minutes in (60, 300, 600)]
    wren, tomas = Watch(name="Wren", start=wall[0], end=wall[1]), Watch(name="Tomas", start=wall[1], end=wall[2])
    log.tell(WatchesTold(watches=(wren, tomas)), 61)
    log.read(135.0, 280, slot=Slot.PIT)
    log.read(74.0, 281)
    log.taken(StepDone(step="fuel_check", outcome="half"), minutes=282)
    log.wrapped(Wrap.PAPER, 285)
    card = handover_card(log.situation, _voice(290))
    for said in (
        "pit 275 F at 10:40", "meat 165 F at 10:41", "Wrapped in paper.", "look at the fuel 10:42", "Due next: ",
        "Wake Ines if: pit under 225 F or over 302 F for 20 min",
    ):  # fmt: skip
        assert said in card
    trip = log.trip(290)
    assert trip is not None
    text = trip_message(trip, log.situation, _voice(290)).text
    assert "Hand over the watch: Tomas takes over from Wren at 11:00." in text
    assert card.split("\n")[0] in text


@pytest.mark.parametrize("step", all_step_ids())
def test_every_step_says_what_happens_when_it_is_forgotten(step: str) -> None:
    """One short sentence for everybody who asks why, calm and without jargon."""
    text = consequence(step)
    assert text.startswith("If forgotten: ")
    assert text.endswith(".")
    assert len(text.split()) <= 24
    assert "!" not in text
    assert len(step_words(step).do.split()) <= 36


def test_what_is_no_step_has_no_consequence() -> None:
    """A name that the catalogue does not know is answered with nothing."""
    assert consequence("sing") == ""


@pytest.mark.parametrize(
    ("safety_class", "figure"),
    [
        ("intact_beef", "145 F (62.8 C)"), ("poultry", "165 F (73.9 C)"), ("ground", "160 F (71.1 C)"),
        ("fish", "145 F (62.8 C)"),
    ],
)  # fmt: skip
def test_the_caution_on_the_minimum_names_that_of_the_meat(safety_class: str, figure: str) -> None:
    """A bird is not safe at what is safe for beef."""
    text = caution_text("minimum", safety_class)
    assert figure in text
    assert len(text.split()) <= 20
