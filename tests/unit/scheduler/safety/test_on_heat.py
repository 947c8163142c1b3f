"""Food served and put back on heat, reheated, or one piece of several: the clocks of held food, and what ends them."""

from __future__ import annotations

import dataclasses

from scheduler.facts import PieceAdded, Slot
from scheduler.safety import Eating, Finding, FindingLevel, findings, next_look, serving
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cut, minutes_of, resting


def _found(log: Logbook, minutes: float) -> dict[str, Finding]:
    return {f.rule: f for f in findings(log.state, cut(), CATALOGUE.cuts, at(minutes))}


def _stops(log: Logbook, minutes: float) -> set[str]:
    return {f.rule for f in _found(log, minutes).values() if f.level is FindingLevel.STOP}


def _held(*reads: tuple[float, float]) -> Logbook:
    """Return held meat with readings (minutes, °C) after the pull at 480."""
    log = resting()
    for minutes, value_c in reads:
        log.read(value_c, minutes)
    return log


def _on_heat(*reads: tuple[float, float]) -> Logbook:
    """Return food served at 780, put back on heat at 870, with readings (minutes, °C) of its core since."""
    log = _held((775, 70.0))
    log.done("serve", 780)
    log.done("two_hour", 870, "on_heat")
    for minutes, value_c in reads:
        log.read(value_c, minutes)
    return log


def test_food_back_on_heat_is_held_food_with_a_clock() -> None:
    """Nobody has read it for two hours: a stop that the bell wakes for and that a reading at the floor ends."""
    log = _on_heat()
    assert minutes_of(next_look(log.state, cut(), CATALOGUE.cuts)) == 990
    assert "two_hours_out" not in _stops(log, 989)
    stop = _found(log, 990)["two_hours_out"]
    assert (stop.since, stop.unread, stop.limit_c) == (at(870), True, 60.0)
    log.read(59.9, 1000)
    assert _stops(log, 1001) == {"held_under_floor", "two_hours_out"}
    hot = _on_heat((1000, 60.0))
    assert not _stops(hot, 1001)
    assert minutes_of(next_look(hot.state, cut(), CATALOGUE.cuts)) == 1120


def test_food_back_on_heat_and_read_under_the_floor_is_reheated_in_time_or_binned() -> None:
    """50 C an hour after: 165 F within two hours of when it was last known hot ends it, later or less does not."""
    for minutes, core_c, stopped in ((895, 73.9, False), (896, 73.9, True), (895, 73.8, True)):
        log = _on_heat((880, 50.0), (minutes, core_c))
        assert bool(_stops(log, minutes + 1)) is stopped


def test_food_back_on_heat_is_unknown_half_an_hour_after_it_was_read_last() -> None:
    """Safe while it only rests there, unknown without a reading of the last half hour, safe again with one."""
    log = _on_heat((960, 65.0))
    for minutes, eating in ((880, Eating.SAFE), (950, Eating.UNKNOWN), (961, Eating.SAFE), (991, Eating.UNKNOWN)):
        assert serving(log.state, cut(), CATALOGUE.cuts, at(minutes)).eating is eating, minutes


def test_putting_it_away_ends_the_time_on_heat() -> None:
    """Within two hours of heat nothing stands; a minute later it does, and no reading is asked for any more."""
    for minutes, stopped in ((990, False), (991, True)):
        log = _on_heat()
        log.done("leftovers", minutes)
        assert ("two_hours_out" in _stops(log, 1100)) is stopped
        assert not any(one.unread for one in _found(log, 1100).values())


def test_food_reheated_and_never_served_is_out_from_then_on() -> None:
    """Put away without dinner, reheated next day: two hours later the stop, and the bell before."""
    log = _held((485, 70.0))
    log.done("leftovers", 490)
    log.done("reheat_on", 1500)
    log.read(75.0, 1530, slot=Slot.LEFTOVERS)
    assert "two_hours_out" not in _stops(log, 1649)
    assert minutes_of(next_look(log.state, cut(), CATALOGUE.cuts)) == 1650
    assert _found(log, 1650)["two_hours_out"].since == at(1530)


def test_served_under_the_floor_and_reheated_in_time_may_be_eaten_again() -> None:
    """50 C as it was opened, 75 within the two hours: safe by that reading; 73 is not."""
    for core_c, eating in ((75.0, Eating.SAFE), (73.0, Eating.NOT_SAFE)):
        log = _held((700, 70.0), (760, 50.0))
        log.done("serve", 780)
        log.read(core_c, 800)
        verdict = serving(log.state, cut(), CATALOGUE.cuts, at(801))
        assert verdict.eating is eating
        if eating is Eating.SAFE:
            assert verdict.reading is not None
            assert verdict.reading.value_c == core_c


def test_leftovers_of_another_piece_end_no_stop() -> None:
    """The chicken in the fridge read at 75 C says nothing of ribs that are still held at 45."""
    log = resting()
    log.tell(PieceAdded(cut="whole_chicken"), 1)
    bird = dataclasses.replace(log.facts[-1], piece="p2")
    log.facts = (*log.facts[:1], bird, *log.facts[1:-1])
    log.read(45.0, 560)
    log.read(75.0, 570, slot=Slot.LEFTOVERS)
    assert "held_under_floor" in _stops(log, 571)
    log.read(75.0, 572)
    assert "held_under_floor" not in _stops(log, 573)
