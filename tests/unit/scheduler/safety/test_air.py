"""Hot air shortens the time that food may be out; air told later changes nothing that has passed. Every oven counts."""

from __future__ import annotations

import pytest

from scheduler.facts import AirTold, MovedToOven, Slot
from scheduler.safety import FindingLevel, findings
from scheduler.safety.air import hot_between
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, resting

HOT, COOL = AirTold(temp_c=34.0), AirTold(temp_c=25.0)


def _stops(log: Logbook, minutes: float) -> dict[str, float | None]:
    """Return the stops that stand with their limits [min]."""
    found = findings(log.state, cut(), CATALOGUE.cuts, at(minutes))
    return {f.rule: f.limit_min for f in found if f.level is FindingLevel.STOP}


@pytest.mark.parametrize(
    ("told", "hot"),
    [
        ((), False),
        (((10, HOT),), True),
        (((10, HOT), (90, COOL)), False),
        (((10, HOT), (150, COOL)), True),
        (((10, COOL), (150, HOT)), True),
        (((10, COOL), (150, HOT), (151, COOL)), True),
        (((201, HOT),), False),
        (((150, AirTold(word="hot")), (160, AirTold(wind="windy"))), True),
        (((10, HOT), (20, AirTold(wind="calm"))), True),
    ],
)
def test_air_counts_over_the_interval(told: tuple[tuple[float, AirTold], ...], hot: bool) -> None:
    """From 100 to 200: as told last before it, and anything told during it; wind says nothing of heat."""
    log = cooking()
    for minutes, air in told:
        log.tell(air, minutes)
    assert hot_between(log.state, at(100), at(200)) is hot


def test_cooler_air_told_later_ends_no_stop_of_food_out() -> None:
    """34 C as it was served: out after an hour. 25 C at sunset changes nothing of that; so late it was put away."""
    log = resting()
    log.tell(HOT, 470)
    log.read(70.0, 489)
    log.done("serve", 490)
    assert _stops(log, 551) == {"two_hours_out": 60.0}
    log.tell(COOL, 552)
    assert _stops(log, 553) == {"two_hours_out": 60.0}
    log.done("leftovers", 560)
    assert _stops(log, 561) == {"two_hours_out": 60.0}


def test_hot_air_told_after_it_was_put_away_begins_no_stop() -> None:
    """Kept after 100 minutes of mild air: the heat of the next day is of the next day."""
    log = resting()
    log.read(70.0, 489)
    log.done("serve", 490)
    log.done("leftovers", 590)
    log.tell(HOT, 1200)
    assert "two_hours_out" not in _stops(log, 1201)


def test_cooler_air_told_later_ends_no_stop_of_raw_meat() -> None:
    """90 minutes out in hot air, then a cool morning: one hour was the limit."""
    log = Logbook()
    log.tell(HOT, 0)
    log.done("raw_out", 10)
    log.done("raw_out", 100, "back")
    assert _stops(log, 101) == {"raw_left_out": 60.0}
    log.tell(COOL, 102)
    assert _stops(log, 103) == {"raw_left_out": 60.0}


def test_cooler_air_told_later_ends_no_stop_of_a_dead_pit() -> None:
    """A dead hour in hot air stays one."""
    log = cooking()
    log.tell(HOT, 90)
    log.read(40.0, 100, slot=Slot.PIT)
    assert _stops(log, 161) == {"pit_dead": 60.0}
    log.tell(COOL, 162)
    assert _stops(log, 163) == {"pit_dead": 60.0}


def test_hot_air_leaves_an_hour_to_reheat_held_meat() -> None:
    """50 C in hot air and 76 C ninety minutes later: too late, also when cooler air is told between."""
    for air, stopped in ((HOT, True), (COOL, False)):
        log = resting()
        log.tell(air, 490)
        log.read(70.0, 588)
        log.read(50.0, 600)
        log.tell(COOL, 640)
        log.read(76.0, 690)
        assert ("held_under_floor" in _stops(log, 691)) is stopped


def test_a_hot_oven_told_later_ends_no_stop_of_a_cold_one() -> None:
    """An oven of 50 C for two hours is a dead pit; at 150 C from then on it was one all the same."""
    log = cooking()
    log.tell(MovedToOven(oven_c=50.0), 65)
    assert "pit_dead" in _stops(log, 186)
    log.tell(MovedToOven(oven_c=150.0), 301)
    assert "pit_dead" in _stops(log, 302)


def test_an_oven_set_anew_was_hot_before() -> None:
    """The pit died, the oven took over after 40 minutes and was set lower hours later: never dead for two hours."""
    log = cooking()
    log.read(40.0, 60, slot=Slot.PIT)
    log.tell(MovedToOven(oven_c=150.0), 100)
    log.tell(MovedToOven(oven_c=130.0), 400)
    assert "pit_dead" not in _stops(log, 401)
