"""Readings go together: one walk to the cooker, and never the same number asked twice."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import Feel, Felt, Reading, Slot, StepDone
from tests.unit.scheduler.logbook import Logbook, cooking, dinner, planned, resting, steps_of


def _asked(log: Logbook) -> set[str]:
    return {prompt.step.id for prompt in log.situation.prompts}


def test_pit_and_fuel_wait_for_the_reading_of_the_meat() -> None:
    """A pit check due at 160 is drawn to the reading at 150, the next one and the fuel at 210 to the next at 215."""
    log = cooking()
    log.done("raw_cleanup", 70)
    log.tell(Reading(slot=Slot.PIT, value_c=135.0), 100, answers=("p1/pit_check/1",))
    assert (log.due("pit_check"), log.due("core_read")) == (150, 150)
    assert steps_of(log.trip(150)) == ("pit_check", "core_read")
    log.taken(Reading(slot=Slot.PIT, value_c=135.0), Reading(slot=Slot.CORE, value_c=30.0), minutes=155)
    assert (log.due("fuel_check"), log.due("pit_check"), log.due("core_read")) == (215, 215, 215)


@pytest.mark.parametrize(("answered_at", "joins"), [(61, True), (89, True), (119, True), (121, False)])
def test_half_an_hour_either_way_joins(answered_at: float, joins: bool) -> None:
    """A pit check up to half an hour before or after the reading of the meat moves to it; farther off it stays."""
    log = cooking()
    log.tell(Reading(slot=Slot.PIT, value_c=135.0), answered_at, answers=("p1/pit_check/1",))
    assert log.due("pit_check") == (150 if joins else answered_at + 60)


def test_a_pit_that_is_off_does_not_wait_for_the_meat() -> None:
    """Looked at sooner because it is out of its band: that time stands."""
    log = cooking()
    log.tell(Reading(slot=Slot.PIT, value_c=150.0), 100, answers=("p1/pit_check/1",))
    assert log.due("pit_check") == 130


def test_the_feel_takes_the_place_of_a_reading() -> None:
    """Shortly before the first feel and from then on the meat is not asked for by itself: the feel asks for it."""
    log = cooking()
    log.read(84.0, 330)
    log.read(88.0, 360)
    feel_at = log.due("tender_test")
    assert feel_at is not None
    log.tell(Reading(slot=Slot.CORE, value_c=89.0), feel_at - 45, answers=("p1/core_read/1",))
    assert "core_read" not in _asked(log)
    log = cooking()
    log.read(91.0, 400)
    log.ring(400)
    log.taken(Felt(feel=Feel.TIGHT), minutes=402)
    assert not {"core_read", "pit_check"} & _asked(log)


def test_a_question_that_is_open_is_not_taken_away() -> None:
    """A reading that was asked for stays, even when the feel comes near."""
    log = cooking()
    log.ring(150)
    log.read(91.0, 160)
    prompt = log.prompt("core_read")
    assert prompt is not None
    assert (prompt.key, prompt.asked) == ("p1/core_read/1", 1)


def test_the_feel_is_one_number_and_one_choice() -> None:
    """Feel and reading are one prompt with one number and three choices."""
    log = cooking()
    log.read(91.0, 400)
    trip = log.trip(400)
    assert trip is not None
    feel = next(prompt for prompt in trip.prompts if prompt.step.id == "tender_test")
    assert (feel.step.slots, feel.step.outcomes) == ((Slot.CORE,), ("tight", "almost", "tender"))
    assert "core_read" not in steps_of(trip)


def test_the_last_reading_knife_and_plate_are_one_message() -> None:
    """Fifteen minutes before dinner: clean board, read and slice; the plate is asked for by itself, when it is time."""
    log = resting(planned(serving=dinner(640)), pulled=520)
    for step in ("vent_meat", "box_meat"):
        log.done(step, 540)
    log.done("shutdown", 541, "closed")
    log.tell(StepDone(step="t_minus", outcome="go"), 560)
    assert steps_of(log.trip(625)) == ("board_ready", "serve_reading", "slice")


def test_two_readings_of_the_meat_are_never_asked_for_within_one_trip() -> None:
    """Through a whole cook with a reading every half hour: the plain reading keeps twenty minutes from the feel."""
    log = cooking()
    for minutes, value_c in zip(range(90, 500, 30), range(20, 104, 6), strict=True):
        log.ring(minutes)
        log.taken(Reading(slot=Slot.CORE, value_c=min(96.0, value_c)), minutes=minutes)
        plain, feel = log.prompt("core_read"), log.prompt("tender_test")
        assert feel is not None
        if plain is not None and not plain.asked:
            assert feel.due_at - plain.due_at > dt.timedelta(minutes=20)
