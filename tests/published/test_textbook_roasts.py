"""Textbook roasts by conduction alone, and published rises after the oven against the model of rest.

Pure conduction is off from real roasts; how far is held here.
"""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import Wrap
from scheduler.forecast import Air
from scheduler.forecast.after import Held, Place, hold
from tests.published.heated import Heating, ball_radius_m, rows
from tests.published.measured import RIB_ROAST

AT = dt.datetime(2020, 1, 1, 12, tzinfo=dt.UTC)


def _rib(heat_w_m2k: float) -> Heating:
    """Return the 3.2 kg rib of Cengel (problem read): a sphere, 4.5 C, oven 163 C."""
    return Heating(
        exponent=2.0, half_thickness_m=ball_radius_m(3.2, 1200.0), heat_w_m2k=heat_w_m2k, conductivity_w_mk=0.45,
        diffusivity_m2_s=0.91e-7, start_c=4.5, medium_c=163.0,
    )  # fmt: skip


def test_the_rib_reaches_60_with_the_coefficient_of_the_series() -> None:
    """60 C at 2 h 45 min: h 93.4 by the full series (computed) gives 59.9; one term's 148 (Fo = 0.12) gives 63.4."""
    assert _rib(93.4).core_c(165 * 60) == pytest.approx(60.0, abs=0.1)
    assert _rib(148.2).core_c(165 * 60) > 63.0


def test_cookbook_times_are_longer_than_conduction_says() -> None:
    """60, 71, 77 C after 2 h 45, 3 h 20, 4 h 15 min (cookbook, read): with h 93 conduction says 2.75, 3.08, 3.27 h.

    0 %, 8 % and 23 % short: a real roast slows as it evaporates, and constant h cannot know it.
    """
    told = [float(row["time_low"]) / 60 for row in rows("roasting_times_published.csv") if "3.2 kg" in row["item"]]
    assert told == [2.75, pytest.approx(3.33, abs=0.01), 4.25]
    short = [_rib(93.4).seconds_to(core_c) / 3600 / hours - 1 for core_c, hours in zip((60, 71, 77), told, strict=True)]
    assert short == [pytest.approx(value, abs=0.01) for value in (0.0, -0.08, -0.23)]


def test_the_roast_of_1_5_kg_takes_133_minutes() -> None:
    """Kreith and Bohn: sphere, h 18, 20 to 77 C at 163 C: 134 min by one term (read), 132.8 by the series; ours 133.0.

    A cookbook's 27 to 30 min/lb (read) is 89 to 99 min: conduction with this h is a third slower than kitchens.
    """
    roast = Heating(
        exponent=2.0, half_thickness_m=ball_radius_m(1.5, 1000.0), heat_w_m2k=18.0, conductivity_w_mk=0.5,
        diffusivity_m2_s=1.25e-7, start_c=20.0, medium_c=163.0,
    )  # fmt: skip
    minutes = roast.seconds_to(77.0) / 60
    assert minutes == pytest.approx(132.8, abs=0.5)
    assert 1.3 < minutes / 99 < 1.4


def test_the_hot_dog_takes_seven_minutes() -> None:
    """Student project (read): 6 to 80 C in boiling water, exact 6.94 min (computed); measured 6.2: ours 12 % long."""
    sausage = Heating(
        exponent=1.0, half_thickness_m=0.01, heat_w_m2k=100.0, conductivity_w_mk=0.52,
        diffusivity_m2_s=0.52 / (880.0 * 3350.0), start_c=6.0, medium_c=100.0,
    )  # fmt: skip
    assert sausage.seconds_to(80.0) / 60 == pytest.approx(6.94, abs=0.02)


# --- after the oven ---------------------------------------------------------------------------------------------------


def _rise(*, core_c: float, pit_c: float, mass_kg: float, minutes: float) -> tuple[float, float, float]:
    """Return low, middle and high of the carry-over [K] of a rib-like roast that rests bare in a kitchen."""
    held = Held(
        cut=RIB_ROAST, mass_kg=mass_kg, thickness_m=None, core_c=core_c, spread_c=0.0, at=AT, wrap=Wrap.NONE,
        place=Place.BOARD, air=Air(temp=21.0), pit_c=pit_c, on_at=AT - dt.timedelta(minutes=minutes),
    )  # fmt: skip
    peak = hold(held).peak()
    return peak.low_c - core_c, peak.middle_c - core_c, peak.high_c - core_c


def test_the_rib_roast_from_a_93_c_oven_rises_as_measured() -> None:
    """Out at 51.9 C after 226 min, 57.2 C within an hour (prime_rib_93C_2019, read): +5.3 measured, +4.6 here.

    The dryness of the crust was chosen with this roast in sight. A second one (118 to 128 F, read): +5.6 and +5.6.
    """
    low, middle, high = _rise(core_c=51.9, pit_c=93.3, mass_kg=3.0, minutes=226)
    assert middle == pytest.approx(5.3, abs=1.0)
    assert low < 5.3 < high
    assert _rise(core_c=47.8, pit_c=93.3, mass_kg=3.46, minutes=270)[1] == pytest.approx(5.5, abs=1.0)


def test_lowes_rises_after_the_oven_are_met_within_three_degrees() -> None:
    """Six kinds of roast (Lowe, read; oven not told, 163 C taken; all shaped like a rib roast): +1 to +5 C measured.

    Here +2.5 to +6.2: 0.7 C too much in the middle, at worst 2.2. All but veal and lamb within a degree.
    """
    errors = []
    for row in rows("roasting_times_published.csv"):
        if not row["source"].startswith("Lowe") or not row["max_after_rest_C"]:
            continue
        pounds, core_c = float(row["mass_lb_low"]), float(row["end_C"])
        middle = _rise(
            core_c=core_c, pit_c=163.0, mass_kg=0.4536 * pounds, minutes=pounds * float(row["time_low"])
        )[1]  # fmt: skip
        errors.append(middle - (float(row["max_after_rest_C"]) - core_c))
    assert len(errors) == 6
    assert 0.0 < sorted(errors)[2] < 1.5
    assert max(abs(error) for error in errors) < 3.0


def test_a_hot_fan_oven_is_where_the_rise_is_poor() -> None:
    """1.15 kg out at 53 C of a 180 C oven after 49 min, 58 C 14 min later (home log, read): here about 62, too hot."""
    held = Held(
        cut=RIB_ROAST, mass_kg=1.15, thickness_m=0.08, core_c=53.0, spread_c=0.0, at=AT, wrap=Wrap.NONE,
        place=Place.BOARD, air=Air(temp=21.0), pit_c=180.0, on_at=AT - dt.timedelta(minutes=49),
    )  # fmt: skip
    after = AT + dt.timedelta(minutes=14)
    assert hold(held).core_c(after, 0.1) < 58.0 < hold(held).core_c(after) < 65.0
