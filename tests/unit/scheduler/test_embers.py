"""What is left in the fire: from the charcoal told, the pit, and every "low", "half" or "plenty"."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import CookerKind, CookerTold, FuelTold, PitMoved, Slot, Troubled
from scheduler.planning.embers import FuelLeft, fuel_left
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cut, planned

KETTLE = CATALOGUE.cookers.of_kind(CookerKind.KETTLE)


def burning(*, kg: float | None = 3.0, cooker: CookerTold | None = KETTLE) -> Logbook:
    """Return a cook lit at 60 min with the meat on at 105 min."""
    log = Logbook(planned(pit_low_c=118.0, pit_high_c=118.0))
    if cooker is not None:
        log.tell(cooker, 1)
    if kg is not None:
        log.tell(FuelTold(kg=kg), 50)
    log.done("light", 60)
    log.done("meat_on", 105)
    return log


def left(log: Logbook, minutes: float) -> FuelLeft | None:
    """Return what is left as of a minute."""
    return fuel_left(log.state, cut(), CATALOGUE.cookers, at(minutes))


def known(log: Logbook, minutes: float) -> FuelLeft:
    """Return what is left, which must be known."""
    found = left(log, minutes)
    assert found is not None
    return found


def likely_h(log: Logbook, minutes: float) -> float:
    """Return until when the fire likely carries the pit, in hours after the meat went on."""
    until = known(log, minutes).until.likely
    assert until is not None
    return (until - at(105)) / dt.timedelta(hours=1)


def test_three_kilograms_in_a_kettle_last_an_afternoon() -> None:
    """Three kilograms at a third of a kilogram an hour: five to nine hours, with a wide window."""
    log = burning()
    assert 5.0 < likely_h(log, 110) < 9.0
    until = known(log, 110).until
    assert until.early is not None
    assert until.late is not None
    assert until.late - until.early > dt.timedelta(hours=2)


def test_the_end_stays_where_it_is_while_nothing_is_told() -> None:
    """Looking at it later moves nothing but the charcoal that is left."""
    log = burning()
    assert likely_h(log, 110) == pytest.approx(likely_h(log, 300), abs=0.02)
    assert known(log, 300).left_kg.typical < known(log, 110).left_kg.typical


def test_low_brings_the_end_nearer_and_plenty_moves_it_away() -> None:
    """After two and a half hours each answer corrects the clock, and makes it surer."""
    ends, widths = {}, {}
    for answer in ("low", "half", "plenty"):
        log = burning()
        log.done("fuel_check", 255, answer)
        until = known(log, 260).until
        assert until.early is not None
        assert until.late is not None
        ends[answer], widths[answer] = likely_h(log, 260), until.late - until.early
    assert ends["low"] < ends["half"] < ends["plenty"]
    assert widths["low"] < known(burning(), 260).until.late - known(burning(), 260).until.early  # type: ignore[operator]  # both ends are there
    assert ends["low"] < 5.0


def test_added_charcoal_moves_the_end_away() -> None:
    """A kilogram and a half more is some hours more; a refuel without a number counts as a share of a filling."""
    before = likely_h(burning(), 300)
    log = burning()
    log.tell(FuelTold(kg=1.5, added=True), 290)
    told = likely_h(log, 300)
    assert 2.5 < told - before < 6.0
    log = burning()
    log.done("refuel", 290)
    assert before + 1.0 < likely_h(log, 300) < told
    log.tell(FuelTold(kg=1.5, added=True), 295)
    assert likely_h(log, 300) == pytest.approx(told, abs=0.02)  # the same refuel, now with its number


def test_a_hotter_pit_burns_faster() -> None:
    """A pit that is raised shortens what is left."""
    log = burning()
    before = likely_h(log, 200)
    log.tell(PitMoved(pit_low_c=150.0, pit_high_c=150.0), 190)
    assert likely_h(log, 200) < before - 0.3


def test_a_hot_pit_says_that_there_is_a_fire() -> None:
    """Long after it should be out, a pit at its set point moves the end behind that reading."""
    log = burning()
    over = 105 + 60 * (likely_h(log, 110) + 2.0)
    assert likely_h(log, over) < (over - 105) / 60
    log.read(117.0, over, slot=Slot.PIT)
    assert likely_h(log, over) > (over - 105) / 60 - 1.0
    assert known(log, over).left_kg.typical > 0.0


def test_nothing_is_said_of_what_nobody_knows() -> None:
    """No cooker, no charcoal told or seen, no fire yet, a fire that is out or shut: no end is given."""
    assert left(burning(cooker=None), 200) is None
    assert left(burning(kg=None), 200) is None
    log = Logbook()
    log.tell(KETTLE, 1)
    log.tell(FuelTold(kg=3.0), 2)
    assert left(log, 10) is None
    out = burning()
    out.tell(Troubled(problem="fire_out"), 150)
    assert left(out, 160) is None
    shut = burning()
    shut.done("pull", 500)
    assert left(shut, 501) is not None
    shut.done("shutdown", 505, "closed")
    assert left(shut, 510) is None


def test_a_filling_that_was_only_looked_at_counts() -> None:
    """Half of a usual filling, without any kilogram told, is enough for a wide answer."""
    log = burning(kg=None)
    log.done("fuel_check", 200, "half")
    assert 2.0 < likely_h(log, 205) < 7.0
    assert 0.3 < known(log, 205).share < 0.7


def test_a_cook_begun_in_the_middle_counts_from_what_was_told() -> None:
    """Nobody knows when that fire was lit: two kilograms told now are two kilograms now."""
    log = Logbook(planned(from_middle=True, pit_low_c=118.0, pit_high_c=118.0))
    log.done("meat_on", -200)
    log.tell(KETTLE, 1)
    log.tell(FuelTold(kg=2.0), 5)
    assert known(log, 5).left_kg.typical == pytest.approx(2.0, rel=0.05)
