"""When held meat is read, and when a cut that goes by the hand: as seldom as safety allows, and never unread."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable

import pytest

from scheduler.facts import Feel, Felt, ReadBy, Reading, RestPlace, RestTold, ServingMoved, Slot, StepDone
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, cooking, dinner, planned, resting, steps_of

PULLED, BOXED = 480, 500

ASK_A_CORE = {step.id for step in CATALOGUE.steps.steps if Slot.CORE in step.slots}


def _falling(tau_min: float) -> Callable[[float], float]:
    """Return a core [°C] by minutes after the pull that cools towards 20 C from 92."""
    return lambda minutes: 20.0 + 72.0 * math.exp(-minutes / tau_min)


def _held(
    name: str, hours: float, core_c: Callable[[float], float], *, rest: RestTold | None = None, by: ReadBy | None = None
) -> list[tuple[float, float]]:
    """Play a hold in which whoever is asked for the core answers; return (minutes in the box, °C) of each asking."""
    served = BOXED + hours * 60
    log = resting(planned(cut=name, serving=dinner(served), read_by=by), pulled=PULLED)
    if rest is not None:
        log.tell(rest, PULLED)
    log.done("vent_meat", PULLED + 1)
    log.done("shutdown", PULLED + 2, "closed")
    log.done("box_meat", BOXED)
    log.tell(StepDone(step="t_minus", outcome="go"), BOXED)
    asked: list[tuple[float, float]] = []
    for minutes in range(BOXED + 1, int(served) + 1):
        if set(steps_of(log.trip(minutes))) & ASK_A_CORE:
            value_c = round(core_c(minutes - PULLED), 1)
            asked.append((minutes - BOXED, value_c))
            log.taken(Reading(slot=Slot.CORE, value_c=value_c), minutes=minutes)
    return asked


@pytest.mark.parametrize(
    ("name", "hours", "tau_min"), [("pork_butt", 4, 700.0), ("brisket_packer", 4, 800.0), ("beef_chuck_ribs", 3, 500.0)]
)
def test_a_long_hold_without_heat_is_opened_once_and_at_the_end(name: str, hours: float, tau_min: float) -> None:
    """Four hours in a closed box: one reading when the careful estimate reaches 63 C, one at opening; not hourly."""
    asked = _held(name, hours, _falling(tau_min))
    assert len(asked) == 2
    assert asked[0][1] > 63.0
    assert hours * 60 - 30 <= asked[1][0] <= hours * 60


@pytest.mark.parametrize("by", [ReadBy.WIRE, ReadBy.HAND])
def test_six_hours_in_a_warm_oven_are_three_readings(by: ReadBy) -> None:
    """The oven is believed only once two looks have shown how slowly it falls: never within an hour, three in all."""
    oven = RestTold(place=RestPlace.OVEN, oven_c=70.0)
    asked = _held("brisket_packer", 6, lambda minutes: 70.0 + 22.0 * math.exp(-minutes / 300.0), rest=oven, by=by)
    times = [at for at, _ in asked]
    assert len(times) <= 3
    assert times[-1] >= 330
    assert all(after - before >= 45 for before, after in itertools.pairwise(times))


def test_meat_read_low_enough_to_act_is_read_again_in_half_an_hour() -> None:
    """At 62 C: act, and one reading after half an hour shows whether it helped."""
    log = resting(planned(cut="pork_butt", serving=dinner(1400)))
    log.done("box_meat", BOXED)
    due = log.due("hold_check")
    assert due is not None
    log.ring(due)
    log.taken(Reading(slot=Slot.CORE, value_c=62.0), minutes=due)
    assert log.due("hold_check") == due + 30


@pytest.mark.parametrize(("before", "closed"), [(45, False), (31, False), (29, True)])
def test_only_a_fresh_number_is_the_one_before_serving(before: float, closed: bool) -> None:
    """A number told more than half an hour before the plate does not stand for the one at opening."""
    log = resting(planned(serving=dinner(780)))
    log.done("box_meat", BOXED)
    log.taken(Reading(slot=Slot.CORE, value_c=75.0), minutes=780 - before)
    assert (log.prompt("serve_reading") is None) is closed


@pytest.mark.parametrize(("slips", "again"), [(10, False), (15, False), (16, True), (60, True)])
def test_the_reading_at_opening_is_asked_anew_when_dinner_slips(slips: float, again: bool) -> None:
    """Read a quarter of an hour before the plate, then dinner moves: it counts for half an hour, no longer."""
    log = resting(planned(serving=dinner(780)))
    log.done("box_meat", BOXED)
    log.ring(765)
    log.taken(Reading(slot=Slot.CORE, value_c=75.0), minutes=765)
    assert log.prompt("serve_reading") is None
    log.taken(ServingMoved(serving=dinner(780 + slips)), minutes=770)
    assert (log.prompt("serve_reading") is not None) is again
    if again:
        assert log.due("serve_reading") == 780 + slips - 15
        log.taken(Reading(slot=Slot.CORE, value_c=74.0), minutes=780 + slips - 15)
        assert log.prompt("serve_reading") is None


def test_read_again_with_the_call_to_the_table_when_it_is_sliced() -> None:
    """Nothing else is to be done before the plate: both stand in one message."""
    log = resting(planned(serving=dinner(780)))
    log.done("box_meat", BOXED)
    log.ring(765)
    log.taken(Reading(slot=Slot.CORE, value_c=75.0), minutes=765)
    log.taken(StepDone(step="slice"), minutes=768)
    log.taken(ServingMoved(serving=dinner(840)), minutes=770)
    assert (log.due("serve_reading"), log.due("serve")) == (840, 840)


# --- by the hand ------------------------------------------------------------------------------------------------------


def _felt(number_c: float | None, feel: Feel) -> Logbook:
    """Return chuck ribs that were felt at 400, with or without a number."""
    log = cooking()
    log.ring(400)
    if number_c is not None:
        log.taken(Reading(slot=Slot.CORE, value_c=number_c), minutes=401, sure=True)
    log.taken(Felt(feel=feel), minutes=401)
    return log


def test_the_first_feel_takes_the_number_that_opens_the_gate() -> None:
    """One prompt asks for feel and number; the number is a core reading, and no other one is asked before the pull."""
    log = cooking()
    log.read(60.0, 300)
    due = log.due("tender_test")
    assert due is not None
    trip = log.trip(due)
    assert "tender_test" in steps_of(trip)
    assert not set(steps_of(trip)) & (ASK_A_CORE - {"tender_test"})
    log.taken(Reading(slot=Slot.CORE, value_c=95.0), Felt(feel=Feel.ALMOST), minutes=due, sure=True)
    assert log.situation.gate.open_at is not None
    between = {p.step.id for p in log.situation.prompts if p.step.id in ASK_A_CORE and p.step.phase == "cooking"}
    assert between == {"tender_test"}


def test_without_a_number_the_gate_stays_shut_and_the_next_feel_asks() -> None:
    """Felt tight and told no number: the next trip to the meat asks for it again."""
    log = _felt(None, Feel.TIGHT)
    assert log.situation.gate.open_at is None
    feel = log.prompt("tender_test")
    assert feel is not None
    assert feel.step.slots == (Slot.CORE,)


def test_pulled_unread_is_read_as_it_is_boxed() -> None:
    """Tender without any number: the reading of held meat is asked when it is boxed, not hours later."""
    for number_c, soon in ((None, True), (95.0, False)):
        log = _felt(number_c, Feel.TENDER)
        log.taken(StepDone(step="pull"), minutes=410)
        due = log.due("hold_check")
        assert due is not None
        assert (due <= 430) is soon
