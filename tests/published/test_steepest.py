"""How fast the core of measured pieces changed: what the lowest core between two readings may do at most."""

from __future__ import annotations

import csv

from scheduler.safety.lethality import STEEPEST_C_PER_MIN, THIN_C_PER_MIN, THIN_M, steepest_c_per_min
from tests.published.measured import SERIES, cooks

HOT_C = 50.0
"""Below it nothing counts for lethality, and cores rise as they like [°C]."""


def _steps(points: tuple[tuple[float, float], ...], apart_min: float) -> list[float]:
    """Return the changes between readings at least so far apart that end above `HOT_C` [°C/min]."""
    found = []
    for place, (start_min, start_c) in enumerate(points):
        later = [(minutes, c) for minutes, c in points[place + 1 :] if minutes - start_min >= apart_min - 0.01]
        if later and later[0][1] >= HOT_C:
            found.append(abs(later[0][1] - start_c) / (later[0][0] - start_min))
    return found


def test_no_whole_piece_changed_faster() -> None:
    """Rib roast and turkeys, between readings of three minutes and more: the steepest is the figure, rounded up."""
    found = {cook.name: max(_steps(cook.points, 3.0)) for cook in cooks() if cook.mass_kg > 1.0}
    assert set(found) == {"prime_rib_93C_2019", "turkey_breast_2015", "turkey_breast_2016"}
    assert max(found.values()) <= STEEPEST_C_PER_MIN
    assert max(found.values()) > STEEPEST_C_PER_MIN - 0.1
    assert found["prime_rib_93C_2019"] < 0.4


def test_a_thin_piece_changed_as_fast_as_stated() -> None:
    """Beef 26 mm thick, read every ten seconds in whole degrees: 4 C in a minute at most above 50 C."""
    (thin,) = [cook for cook in cooks() if cook.mass_kg < 1.0]
    assert max(_steps(thin.points, 1.0)) <= THIN_C_PER_MIN + 0.1
    assert max(_steps(thin.points, 1.0)) > THIN_C_PER_MIN - 1.1
    assert steepest_c_per_min(THIN_M) == THIN_C_PER_MIN


def test_joints_cool_slower_in_air_and_water() -> None:
    """Mean cooling of 37 measured joints while they were hot: under the figure but for those in a vacuum cooler."""
    with (SERIES.parent / "cooling_times_cooked_joints.csv").open() as lines:
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    rates = {
        (number, row["cooling_regime"]): (float(row["start_C"]) - to_c) / float(row[column]) / 60.0
        for number, row in enumerate(rows)
        for column, to_c in (("h_70_50", 50.0), ("h_start_50", 50.0), ("h_70_10", 10.0))
        if row["start_C"] and row[column]
    }
    in_vacuum = {rate for (_, regime), rate in rates.items() if regime == "vacuum"}
    others = {(regime, rate) for (_, regime), rate in rates.items() if regime != "vacuum"}
    assert max(rate for _, rate in others) < STEEPEST_C_PER_MIN - 0.4
    assert max(rate for regime, rate in others if "air" in regime and "water" not in regime) < 0.5
    assert max(in_vacuum) > STEEPEST_C_PER_MIN
