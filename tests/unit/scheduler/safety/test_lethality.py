"""Lethality of a history: a core taken at its lowest between readings, nothing before the first or after the last."""

from __future__ import annotations

import math

import pytest

from scheduler.errors import ImpossibleTemperature
from scheduler.safety.lethality import (
    STEEPEST_C_PER_MIN,
    Point,
    dwell_at_s,
    dwell_s,
    exposure,
    steepest_c_per_min,
)
from scheduler.safety.tables import MEAT_7_LOG, ROAST, Table
from scheduler.units import c_from_f

LEVEL = 0.0
"""Slope of a core that is known to lie on a straight line between readings."""


def _history(*told: tuple[float, float]) -> list[Point]:
    return [Point(minutes=minutes, low_c=low_c) for minutes, low_c in told]


def test_time_is_summed_over_temperatures() -> None:
    """Six of twelve minutes at 60 C and the other half of 240 s at 62.8 C are a whole."""
    parts = [exposure(ROAST, _history(*told), LEVEL).share for told in (((0, 60.0), (6, 60.0)), ((0, 62.8), (2, 62.8)))]
    assert parts == pytest.approx([0.5, 0.5])


def test_between_readings_the_core_is_taken_as_low_as_it_can_have_been() -> None:
    """60 and 60 ten minutes apart: in between it may have fallen by 7 C, so they count for a third of level."""
    level = exposure(ROAST, _history((0, 60.0), (10, 60.0)), LEVEL).share
    lowest = exposure(ROAST, _history((0, 60.0), (10, 60.0)), STEEPEST_C_PER_MIN).share
    assert level == pytest.approx(10 / 12)
    assert lowest == pytest.approx(level / 3, rel=0.03)


def test_the_sum_is_that_of_small_steps() -> None:
    """The integral along each straight part, against ten thousand small steps of the same lowest core."""
    history = _history((0, 55.0), (6, 59.0), (11, 61.5), (20, 58.0), (33, 69.6))
    slope = 0.8
    permitted = [min(p.low_c + slope * abs(p.minutes - q.minutes) for p in history) for q in history]
    steps, summed = 10_000, 0.0
    for n in range(steps):
        minutes = 33.0 * (n + 0.5) / steps
        core_c = max(c - slope * abs(minutes - q.minutes) for c, q in zip(permitted, history, strict=True))
        summed += 60.0 * 33.0 / steps / dwell_at_s(ROAST, core_c)
    assert exposure(ROAST, history, slope).share == pytest.approx(summed, rel=0.002)


def test_nothing_counts_before_the_first_or_after_the_last_reading() -> None:
    """One reading has lasted no time, however long ago it was; two of one instant neither."""
    assert exposure(ROAST, _history((30, 66.0)), 1.3).share == 0.0
    assert exposure(ROAST, _history((30, 66.0), (30, 66.0)), 1.3).share == 0.0
    assert exposure(ROAST, [], 1.3).share == 0.0


def test_a_long_silence_counts_for_nothing_and_breaks_nothing() -> None:
    """Two readings twelve hours apart: in between the core may have been as cold as you like."""
    near = exposure(MEAT_7_LOG, _history((0, 60.0), (60, 60.0)), 1.4)
    assert exposure(MEAT_7_LOG, _history((0, 60.0), (720, 60.0)), 1.4).share == pytest.approx(near.share)


def test_nothing_counts_under_130_f() -> None:
    """A night at 54.3 C is nothing; 54.4 C is the first row."""
    assert exposure(MEAT_7_LOG, _history((0, 54.3), (600, 54.3)), LEVEL).share == 0.0
    assert exposure(MEAT_7_LOG, _history((0, 54.4), (121, 54.4)), LEVEL).reached_min == pytest.approx(121)


@pytest.mark.parametrize(("core_c", "at_once"), [(70.0, True), (c_from_f(158), True), (69.9, False)])
def test_158_f_is_at_once(core_c: float, at_once: bool) -> None:
    """70.0 C read once is all of it; 69.9 C is not."""
    found = exposure(MEAT_7_LOG, _history((40, core_c)), 1.3)
    assert (found.reached_min == 40.0) is at_once
    assert math.isinf(found.share) is at_once


def test_of_two_that_contradict_one_another_the_lower_counts() -> None:
    """69 and 55 of one minute, held an hour by one more of 55: as if 69 had never been read; in any order."""
    honest = exposure(MEAT_7_LOG, _history((0, 55.0), (5, 55.0)), 1.3)
    assert exposure(MEAT_7_LOG, _history((0, 55.0), (0, 69.0), (5, 55.0)), 1.3) == honest
    assert exposure(MEAT_7_LOG, _history((0, 69.0), (5, 55.0), (0, 55.0)), 1.3) == honest


def test_a_reading_counts_no_higher_than_its_neighbours_permit() -> None:
    """69 two minutes after 57: the core can have come to 59.6 at most, and counts for that."""
    spike = exposure(MEAT_7_LOG, _history((0, 57.0), (2, 69.0), (4, 57.0)), 1.3)
    bent = exposure(MEAT_7_LOG, _history((0, 57.0), (2, 59.6), (4, 57.0)), 1.3)
    assert spike.share == pytest.approx(bent.share)


def test_thin_pieces_are_taken_to_change_faster() -> None:
    """A roast of 75 mm by 1.4 C a minute, a strip of 26 mm by 4, a slice of 13 mm by 16."""
    assert steepest_c_per_min(0.075) == 1.4
    assert steepest_c_per_min(0.026) == pytest.approx(4.0)
    assert steepest_c_per_min(0.013) == pytest.approx(16.0)


@pytest.mark.parametrize("core_c", [math.nan, math.inf, -math.inf, -273.2, -459.7])
def test_what_is_no_temperature_is_refused(core_c: float) -> None:
    """No number, infinite, or colder than anything can be: a clear error, never a share."""
    for ask in (
        lambda: dwell_at_s(ROAST, core_c),
        lambda: dwell_s(ROAST, core_c * 1.8 + 32.0),
        lambda: exposure(ROAST, _history((0, 60.0), (5, core_c)), 1.3),
    ):
        with pytest.raises(ImpossibleTemperature, match="is no temperature"):
            ask()


@pytest.mark.parametrize("rows", [((131, 60), (130, 30), (158, 0)), ((130, 30), (131, 60), (158, 0)), ((130, 30),)])
def test_a_table_out_of_order_is_refused(rows: tuple[tuple[float, float], ...]) -> None:
    """Rows that go down, times that go up, or none that is at once."""
    with pytest.raises(ValueError, match="not in order"):
        Table(id="wrong", source="none", log_reduction=None, dwell_s=rows)
