"""Meat that went back on the heat: the pull is over, the time off the heat counts, and no word takes it away."""

from __future__ import annotations

import pytest

from scheduler.cook import StopOver
from scheduler.facts import Corrected, Feel, PutBack, Reading, Slot, StepDone, Undone
from scheduler.safety import FindingLevel, findings, safe_gate
from scheduler.state import OffHeat, Stage
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, planned, resting


def _stops(log: Logbook, minutes: float) -> dict[str, float | None]:
    """Return the stops that stand with how long each lasted [min]."""
    own = cut(log.state.planned.cut)
    found = findings(log.state, own, CATALOGUE.cuts, at(minutes))
    return {f.rule: f.found_min for f in found if f.level is FindingLevel.STOP}


def _chicken(*, off: float = 20, core_c: float = 60.0) -> Logbook:
    """Return a bird pulled under its minimum at 150 and back on so many minutes later."""
    log = cooking(planned(cut="whole_chicken"))
    log.read(core_c, 145)
    log.felt(Feel.TENDER, 149)
    log.done("pull", 150)
    log.done("box_meat", 151)
    log.tell(PutBack(), 150 + off)
    return log


def test_it_looks_as_on_the_fire_and_the_time_off_stays() -> None:
    """Pull, box and feel before it count no more; the time off and the readings stay; it can be pulled again."""
    log = _chicken()
    state = log.state
    assert (state.stage, state.did("pull"), state.did("box_meat"), state.feels) == (Stage.COOKING, None, None, ())
    assert state.off_spells == (OffHeat(pulled_at=at(150), back_at=at(170)),)
    assert len(state.readings) == 1
    log.done("pull", 200)
    assert log.state.stage is Stage.RESTING
    assert log.state.at("pull") == at(200)
    assert log.state.off_at == at(150)


def test_back_on_without_a_pull_says_nothing() -> None:
    """A word too many is no time off the heat, whatever the order in which it was told."""
    log = cooking()
    log.tell(PutBack(), 100)
    assert (log.state.off_spells, log.state.stage) == ((), Stage.COOKING)


@pytest.mark.parametrize(("off", "stopped"), [(20, False), (120, False), (121, True)])
def test_off_the_heat_for_two_hours_is_too_long(off: float, stopped: bool) -> None:
    """Pulled at 140 F (60 C is the floor; 59 is under it): two hours at most; hotter numbers later change nothing."""
    log = _chicken(off=off, core_c=59.0)
    assert "pulled_under_minimum" not in _stops(log, 300)
    log.read(80.0, 300)
    log.done("pull", 302)
    log.done("serve", 310)
    assert _stops(log, 311) == ({"two_hours_out": off} if stopped else {})


def test_what_the_first_number_after_it_shows_counts() -> None:
    """Pulled hot, unread for three hours, 40 C as it went back on: cold off the heat for nobody knows how long."""
    log = resting()
    log.tell(PutBack(), 660)
    assert _stops(log, 661) == {}
    log.read(40.0, 665)
    assert _stops(log, 670) == {"two_hours_out": 180.0}


def test_held_food_under_the_floor_stands_until_it_is_hot_in_time() -> None:
    """Done, held, 50 C: back on the heat it is mended by 165 F within two hours, by nothing else."""
    for hot_c, minutes, stopped in ((76.0, 590, False), (70.0, 590, True), (76.0, 610, True)):
        log = resting()
        log.read(50.0, 540)
        log.tell(PutBack(), 545)
        assert "held_under_floor" in _stops(log, 546)
        log.read(hot_c, minutes)
        assert ("held_under_floor" in _stops(log, minutes + 1)) is stopped


def test_time_off_the_heat_heats_nothing() -> None:
    """52 without a name, ten minutes on the heat, forty off, ten on: point 75 is not half an hour of heat later."""
    log = cooking()
    log.read(52.0, 300)
    log.done("pull", 310)
    log.tell(PutBack(), 350)
    log.read(75.0, 360, spot="point")
    assert safe_gate(log.state, cut(), CATALOGUE.cuts).open_at is None
    log.read(75.0, 371, spot="point")
    assert safe_gate(log.state, cut(), CATALOGUE.cuts).open_at is not None


def test_it_is_taken_only_of_meat_that_is_off_and_ends_the_stop() -> None:
    """On the fire, or served: refused. Pulled under the minimum: taken, the stop is over by what was done."""
    log = cooking(planned(cut="whole_chicken"))
    assert log.refused(PutBack(), minutes=100).reason == "not_off"
    log.taken(Reading(slot=Slot.CORE, value_c=60.0), minutes=145, sure=True)
    log.taken(StepDone(step="pull"), minutes=150)
    log.ring(151)
    log.taken(PutBack(), minutes=155)
    over = [e for e in log.ring(156).events if isinstance(e, StopOver)]
    assert [(e.rule, e.how) for e in over] == [("pulled_under_minimum", "done")]
    log.taken(Reading(slot=Slot.CORE, value_c=56.0), minutes=157)
    assert not log.state.readings[-1].doubtful, "the first number after it was off may be lower"
    log.taken(Reading(slot=Slot.CORE, value_c=80.0), minutes=200, sure=True)
    log.taken(StepDone(step="pull"), minutes=205)
    log.taken(StepDone(step="serve"), minutes=230)
    assert log.refused(PutBack(), minutes=240).reason == "not_off"


def test_a_pull_is_not_taken_back_when_a_number_shows_that_it_was_off() -> None:
    """40 C in the box: the pull was; its stop does not go with an undo. Without such a number it can be a slip."""
    log = resting()
    pulled = log.facts[-1].id
    log.read(40.0, 700)
    assert log.refused(Undone(of=pulled), minutes=701).reason == "was_off"
    log.tell(Corrected(of=log.facts[-1].id, body=Reading(slot=Slot.CORE, value_c=95.0)), 702)
    log.taken(Undone(of=pulled), minutes=703)
    assert log.state.stage is Stage.COOKING


def test_the_forecast_takes_no_number_from_off_the_heat() -> None:
    """What was read in between is of the rest; the pull is forecast anew and asked for again."""
    log = cooking(planned(cut="whole_chicken"))
    log.read(60.0, 120)
    log.done("pull", 121)
    log.read(50.0, 135)
    log.tell(PutBack(), 140)
    log.read(52.0, 145)
    outlook = log.situation.outlook
    assert outlook.pull.likely is not None
    assert outlook.pull.likely > at(145)
    assert "pull" in {step.id for _at, step in log.situation.itinerary()}
