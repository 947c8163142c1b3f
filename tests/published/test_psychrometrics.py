"""Wet-bulb in hot pit air against a table and a library, and why it does not explain the stall.

Another published library gives the dry-bulb back where its search starts above boiling: shown, and ours is right there.
"""

from __future__ import annotations

import pytest
from CoolProp.HumidAirProp import HAPropsSI

from scheduler.thermal import psychrometrics
from tests.published.heated import rows

TABLE = [
    (float(row["dry_bulb_C"]), float(row["humidity_ratio_kg_kg"]), row)
    for row in rows("wet_bulb_high_dry_bulb.csv")
]  # fmt: skip


def test_wet_bulbs_of_hot_air_are_the_tabulated_ones() -> None:
    """93 to 149 C, humidity ratio 0.01 to 0.15 (computed): within 0.01 C of the same equation, 0.11 C of CoolProp's."""
    for dry_c, ratio, row in TABLE:
        found = psychrometrics.wet_bulb_c(dry_c, ratio)
        assert found == pytest.approx(float(row["own_ashrae_C"]), abs=0.01)
        assert found == pytest.approx(float(row["coolprop_C"]), abs=0.11)
    assert len(TABLE) == 30


@pytest.mark.parametrize("dry_c", [40.0, 93.0, 121.0, 149.0, 180.0])
@pytest.mark.parametrize("ratio", [0.005, 0.02, 0.04])
def test_wet_bulbs_agree_with_real_moist_air(dry_c: float, ratio: float) -> None:
    """Live against CoolProp (real-gas moist air): within 0.1 C."""
    theirs = HAPropsSI("B", "T", dry_c + 273.15, "P", psychrometrics.PRESSURE_PA, "W", ratio) - 273.15
    assert psychrometrics.wet_bulb_c(dry_c, ratio) == pytest.approx(theirs, abs=0.1)


@pytest.mark.parametrize("temp_c", [5.0, 20.0, 40.0, 60.0, 80.0, 95.0])
def test_saturation_pressure_is_that_of_real_water(temp_c: float) -> None:
    """Buck's equation against CoolProp's moist air at saturation (with its enhancement factor): within 0.8 %."""
    kelvin = temp_c + 273.15
    ratio = HAPropsSI("W", "T", kelvin, "P", psychrometrics.PRESSURE_PA, "R", 1.0)
    assert psychrometrics.saturation_pa(temp_c) == pytest.approx(psychrometrics.vapour_pa(ratio), rel=0.008)


def test_water_boils_at_100_and_the_dew_point_is_the_tabulated_one() -> None:
    """Boiling at 101,325 Pa within 0.01 C; dew points of the table (humid air is no ideal gas) within 0.15 C."""
    assert psychrometrics.boiling_c() == pytest.approx(100.0, abs=0.01)
    for _, ratio, row in TABLE:
        found = psychrometrics.dew_point_c(psychrometrics.vapour_pa(ratio))
        assert found == pytest.approx(float(row["dew_point_C"]), abs=0.15)


def _halving_from_the_middle(dry_c: float, ratio: float) -> float:
    """Return the wet-bulb by halving between dew point and dry-bulb, with no thought of the boiling point between."""
    low, high = psychrometrics.dew_point_c(psychrometrics.vapour_pa(ratio)), dry_c
    while high - low > 1e-3:
        middle = 0.5 * (low + high)
        saturated = psychrometrics.humidity_ratio(psychrometrics.saturation_pa(middle))
        tried = ((2501.0 - 2.326 * middle) * saturated - 1.006 * (dry_c - middle)) / (
            2501.0 + 1.86 * dry_c - 4.186 * middle
        )
        low, high = (low, middle) if tried > ratio else (middle, high)
    return 0.5 * (low + high)


def test_halving_that_starts_above_boiling_ends_at_the_dry_bulb_and_ours_does_not() -> None:
    """Above boiling W_s is negative, so that the search walks up to the dry-bulb without a word.

    That is the defect of psychrolib 2.5.0 recorded in the table (computed): wrong exactly where the middle between dew
    point and dry-bulb lies above 100 C. Ours and CoolProp say 59 and 64 C there.
    """
    wrong = [(dry_c, ratio, row) for dry_c, ratio, row in TABLE if row["psychrolib_flag"] != "ok"]
    assert [(dry_c, ratio) for dry_c, ratio, _ in wrong] == [(149.0, 0.10), (149.0, 0.15)]
    for dry_c, ratio, row in TABLE:
        above = 0.5 * (dry_c + float(row["dew_point_C"])) > 100.0
        assert above is (row["psychrolib_flag"] != "ok")
        assert _halving_from_the_middle(dry_c, ratio) == pytest.approx(float(row["psychrolib_C"]), abs=0.02)
        assert psychrometrics.wet_bulb_c(dry_c, ratio) < 65.0
    assert _halving_from_the_middle(149.0, 0.10) == pytest.approx(149.0, abs=0.01)


def test_a_plain_wet_bulb_does_not_explain_the_stall() -> None:
    """Ordinary pit air (0.01 to 0.06 kg/kg) at 93 to 121 C has its wet-bulb at 34 to 51 C; the stall is seen at 60 to
    77. At 107 to 121 C it would take 0.12 to 0.19 kg/kg.
    """
    found = [psychrometrics.wet_bulb_c(dry_c, ratio) for dry_c in (93.0, 107.0, 121.0) for ratio in (0.01, 0.06)]
    assert min(found) == pytest.approx(34.2, abs=0.1)
    assert max(found) == pytest.approx(51.3, abs=0.1)
    assert psychrometrics.wet_bulb_c(121.0, 0.12) < 60.0 < psychrometrics.wet_bulb_c(107.0, 0.14)
    assert psychrometrics.wet_bulb_c(121.0, 0.19) > 65.0


@pytest.mark.parametrize(("dry_c", "ratio"), [(20.0, 0.02), (20.0, -0.001)])
def test_air_that_cannot_be_is_refused(dry_c: float, ratio: float) -> None:
    """More than saturated, or less than dry."""
    with pytest.raises(ValueError, match="humidity ratio"):
        psychrometrics.wet_bulb_c(dry_c, ratio)


def test_saturated_air_is_its_own_wet_bulb() -> None:
    """At 60 C with the humidity ratio of saturation."""
    ratio = psychrometrics.humidity_ratio(psychrometrics.saturation_pa(60.0))
    assert psychrometrics.wet_bulb_c(60.0, ratio) == pytest.approx(60.0, abs=1e-6)
