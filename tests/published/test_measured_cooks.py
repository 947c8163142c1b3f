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

    In minutes and as a share of the time left; the name of the cook only changes the dice.
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
    """Over the twelve forecasts together the median error in minutes is well below that of the straight line."""
    found = [outcome(cook, stage) for cook in cooks() for stage in STAGES]
    ours = statistics.median(abs(one.error_min) for one in found)
    assert ours < statistics.median(abs(one.line_error_min) for one in found) * 2 / 3


def test_the_small_beef_piece_is_forecast_within_a_third_of_the_time_left() -> None:
    """Thirteen minutes in the oven are no other physics than thirteen hours."""
    beef = next(cook for cook in cooks() if cook.name == "beef_A_175C")
    assert all(abs(outcome(beef, stage).error_min) < outcome(beef, stage).left_min / 3 for stage in STAGES)


def test_the_cool_oven_roast_is_late_but_by_less_than_a_sixth_of_the_cook() -> None:
    """The rib roast at 93 C is where the model is poor: 20 to 30 min late of 226, kept in sight here."""
    rib = next(cook for cook in cooks() if cook.name == "prime_rib_93C_2019")
    errors = [outcome(rib, stage).error_min for stage in STAGES]
    assert all(0.0 < error < 226.0 / 6 for error in errors)
