"""Cooling of cooked joints in air and water (James and James 2002, read), and rests in a box against the trade.

Nothing was fitted to the cooling runs; the box was checked against holding times that are common practice, no source.
"""

from __future__ import annotations

import datetime as dt
import statistics

import pytest

from scheduler.facts import Wrap
from scheduler.forecast.after import Held, Place, hold
from scheduler.thermal import geometry
from tests.catalogue import CUTS
from tests.published.cooled import predicted_h, runs

AT = dt.datetime(2020, 1, 1, 12, tzinfo=dt.UTC)


def _ratios(medium: str, end_effect: float = 1.0) -> list[float]:
    return [
        predicted_h(run, from_c, to_c, end_effect) / hours
        for run in runs()
        if run.medium == medium
        for from_c, to_c, hours in run.spans
    ]


def test_joints_cool_in_air_as_measured() -> None:
    """22 spans of 15 runs, -2 to 16 C, 0 to 2 m/s: predicted over measured has median 1.07, range 0.87 to 1.83.

    Fifteen lie within 20 %. Poor: a vacuum-packed joint whose first fall to 50 C took 1.2 and 1.5 h, here 2.2 and 2.4
    (its other spans: 1.13 to 1.40). h after Churchill and Bernstein or Churchill and Chu, with radiation; unpacked
    meat is taken as wet.
    """
    found = _ratios("air")
    assert len(found) == 22
    assert 0.95 < statistics.median(found) < 1.15
    assert min(found) > 0.8
    assert max(found) < 1.9
    assert sum(0.8 < ratio < 1.2 for ratio in found) >= 15


def test_joints_cool_in_ice_water_as_measured() -> None:
    """Six spans of four runs: median 0.90, range 0.81 to 1.06; the model is rather fast in water."""
    found = _ratios("water")
    assert len(found) == 6
    assert 0.85 < statistics.median(found) < 1.0
    assert min(found) > 0.75
    assert max(found) < 1.15


def test_with_the_shapes_of_the_engine_they_cool_a_little_slower() -> None:
    """Further axes count 0.65 in the engine, which the fire asks for: here that is 4 % worse in air, better in water.

    Air: median 1.11, range 0.90 to 2.02 (the vacuum-packed joint again), twelve of 22 within 20 %. Water: 1.01, 0.86 to
    1.21. Rather long in air: a hold said so would be too hopeful, which is why the cautious tenth is what is told.
    """
    air, water = (_ratios(medium, geometry.END_EFFECT) for medium in ("air", "water"))
    assert 0.95 < statistics.median(air) < 1.2
    assert min(air) > 0.8
    assert sum(0.8 < ratio < 1.2 for ratio in air) >= 12
    assert 0.9 < statistics.median(water) < 1.1
    assert max(water) < 1.3


@pytest.mark.parametrize("cut_id", ["beef_chuck_ribs", "beef_plate_ribs", "brisket_packer", "pork_butt"])
def test_a_box_holds_as_long_as_the_trade_says(cut_id: str) -> None:
    """From 95 C, vented 20 min: the median time to 60 C is near the trade's longest unheated rest, within a tenth.

    205, 259, 284 min for chuck ribs, plate ribs, brisket against 210, 240, 300 (common practice, no source). Poor: the
    shoulder, a nearly round piece of 13 cm, 352 against 300, a sixth long. The cautious tenth lies at 0.56 to 0.72 of
    it: the longest rest is no promise.
    """
    cut = CUTS.get(cut_id)
    held = Held(
        cut=cut, mass_kg=None, thickness_m=None, core_c=95.0, spread_c=0.0, at=AT, wrap=Wrap.PAPER, place=Place.BOX,
        pit_c=cut.duration_pit_c, vented=dt.timedelta(minutes=20),
    )  # fmt: skip
    low, middle = (hold(held, 60.0).quantile(p) for p in (0.1, 0.5))
    assert low is not None
    assert middle is not None
    assert (middle - AT).total_seconds() / 60 == pytest.approx(
        cut.rest_max_unheated_min, rel=0.2 if cut_id == "pork_butt" else 0.12
    )
    assert 0.45 < (low - AT).total_seconds() / 60 / cut.rest_max_unheated_min < 0.75


def test_big_tough_cuts_rise_by_a_few_degrees() -> None:
    """Brisket and shoulder pulled wrapped at 91 C into a box rise 1 to 4 C (common practice, no source): 1.4, 1.7."""
    for cut_id in ("brisket_packer", "pork_butt"):
        cut = CUTS.get(cut_id)
        held = Held(
            cut=cut, mass_kg=None, thickness_m=None, core_c=91.0, spread_c=0.0, at=AT, wrap=Wrap.PAPER,
            place=Place.BOX, pit_c=121.0,
        )  # fmt: skip
        assert 1.0 < hold(held).peak().middle_c - 91.0 < 4.0
