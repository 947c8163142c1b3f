"""The forecast against measured cooks (read; sources in tests/data/time_temperature_meta.csv) and a straight line.

The agreement reached is printed in docs/explanation/forecast.md, also where it is poor.
"""

from __future__ import annotations

import statistics

import pytest

from tests.published.measured import STAGES, cooks, outcome


@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("named", ["measured", "another cook"])
def test_the_pooled_median_error_is_below_a_straight_line(stage: float, named: str) -> None:
    """At 25, 50 and 75 % of the rise the median error over four cooks beats the line through the last three readings.

    In minutes and as a share of the time left; the name of the cook only changes the dice. Reached: 7 against 18 min, 4
    against 16, 5 against 7; shares 0.11 against 0.29, 0.09 against 0.25, 0.14 against 0.44.
    """
    found = [outcome(cook, stage, named) for cook in cooks()]
    ours, line = (
        statistics.median(abs(one.error_min) for one in found),
        statistics.median(abs(one.line_error_min) for one in found),
    )
    assert ours < line
    assert statistics.median(abs(one.error_min) / one.left_min for one in found) < statistics.median(
        abs(one.line_error_min) / one.left_min for one in found
    )


def test_the_pooled_median_error_of_all_stages_is_less_than_two_thirds_of_the_line() -> None:
    """Over the twelve forecasts together the median error is well below that of the straight line: 5 min against 14."""
    found = [outcome(cook, stage) for cook in cooks() for stage in STAGES]
    ours = statistics.median(abs(one.error_min) for one in found)
    assert ours < statistics.median(abs(one.line_error_min) for one in found) * 2 / 3


def _errors(name: str) -> list[tuple[float, float]]:
    """Return (error, time left) at each stage [min] for one measured cook."""
    cook = next(cook for cook in cooks() if cook.name == name)
    return [(found.error_min, found.left_min) for found in (outcome(cook, stage) for stage in STAGES)]


def test_the_small_beef_piece_is_forecast_within_a_sixth_of_the_time_left() -> None:
    """Thirteen minutes in the oven are no other physics than thirteen hours. Reached: -0.8, -0.4, +0.3 min."""
    assert all(abs(error) < left / 6 for error, left in _errors("beef_A_175C"))


@pytest.mark.parametrize("name", ["turkey_breast_2015", "turkey_breast_2016"])
def test_the_turkeys_are_forecast_within_a_fifth_once_half_way(name: str) -> None:
    """Two birds in an oven turned down after 30 min. Reached: +13, -2, -4 min (2015), +12, +6, +6 (2016)."""
    early, *later = _errors(name)
    assert abs(early[0]) < early[1] / 3
    assert all(abs(error) < left / 5 for error, left in later)


def test_the_cool_oven_roast_is_late_but_by_less_than_a_tenth_of_the_cook() -> None:
    """The rib roast at 93 C is where the model is poor: it rises on a straight line, the engine sees it slow down.

    Reached: 2, 13 and 9 min late with 134, 86 and 46 min left, of 226; the straight line is 2 min off at the last.
    """
    errors = _errors("prime_rib_93C_2019")
    assert all(-5.0 < error < 226.0 / 10 for error, _ in errors)
    assert all(abs(error) < 0.35 * left for error, left in errors)


def test_half_and_more_of_the_eighty_per_cent_intervals_hold() -> None:
    """Twelve forecasts of four cooks: ten inside is what to expect. Reached: 12, so that they are rather wide."""
    inside = [outcome(cook, stage).inside_80 for cook in cooks() for stage in STAGES]
    assert sum(inside) >= 8
