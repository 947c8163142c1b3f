"""After the pull: the earlier answer is the cautious one, and everything that keeps heat in makes it later."""

from __future__ import annotations

import dataclasses
import datetime as dt
import subprocess
import sys
from typing import Any

import pytest

from scheduler.facts import Wrap
from scheduler.forecast import Air, AirWord, Wind
from scheduler.forecast.after import Held, Place, hold
from tests.unit.scheduler.logbook import cut

AT = dt.datetime(2026, 9, 12, 14, tzinfo=dt.UTC)
BOXED = Held(
    cut=cut("brisket_packer"), mass_kg=6.0, thickness_m=0.085, core_c=90.0, spread_c=0.0, at=AT, wrap=Wrap.PAPER,
    place=Place.BOX, pit_c=121.0,
)  # fmt: skip


def _minutes(held: Held, p: float = 0.5, floor_c: float = 63.0) -> float:
    """Return when the core falls to the floor [min], a very long time when not foreseen."""
    found = hold(held, floor_c).quantile(p)
    return 1e9 if found is None else (found - AT).total_seconds() / 60


def _with(**changed: Any) -> Held:  # noqa: ANN401 - any field of the value
    return dataclasses.replace(BOXED, **changed)


def test_quantiles_are_in_order_and_the_same_each_time() -> None:
    """One in ten falls early; the same question has the same answer; probability and quantile agree."""
    early, middle, late = (_minutes(BOXED, p) for p in (0.1, 0.5, 0.9))
    assert early < middle < late
    assert [_minutes(dataclasses.replace(BOXED), p) for p in (0.1, 0.5, 0.9)] == [early, middle, late]
    found = hold(BOXED)
    assert found.probability_by(AT + dt.timedelta(minutes=middle)) == pytest.approx(0.5, abs=0.03)
    assert found.probability_by(AT) == 0.0


@pytest.mark.parametrize(
    ("sooner", "later"),
    [
        (_with(place=Place.BOARD, wrap=Wrap.NONE), _with(place=Place.BOARD, wrap=Wrap.FOIL)),
        (_with(place=Place.BOARD, wrap=Wrap.FOIL), BOXED),
        (_with(air=Air(temp=AirWord.COLD)), _with(air=Air(temp=AirWord.HOT))),
        (_with(air=Air(temp=5.0)), _with(air=Air(temp=25.0))),
        (_with(place=Place.BOARD, air=Air(wind=Wind.WINDY)), _with(place=Place.BOARD, air=Air(wind=Wind.CALM))),
        (_with(thickness_m=0.065), _with(thickness_m=0.1)),
        (_with(core_c=75.0), _with(core_c=85.0)),
        (_with(vented=dt.timedelta(minutes=40)), _with(vented=dt.timedelta(minutes=10))),
        (_with(place=Place.BOARD, pit_c=None), _with(place=Place.BOARD)),
        (_with(place=Place.ICE_BATH), _with(place=Place.FRIDGE)),
        (_with(place=Place.BLAST), _with(place=Place.FRIDGE)),
    ],
)
def test_what_keeps_heat_in_makes_it_later(sooner: Held, later: Held) -> None:
    """Wrap, box, warm and calm air, thickness, a hotter core, the warm outside of meat just pulled; cold places not."""
    assert _minutes(sooner) < _minutes(later)
    assert _minutes(sooner, 0.1) <= _minutes(later, 0.1)


def test_a_warm_oven_holds_for_as_long_as_is_foreseen() -> None:
    """Set to 80 C the core never falls to 63; set to 50 C it does."""
    warm = hold(_with(place=Place.OVEN, oven_c=80.0, wrap=Wrap.FOIL))
    assert warm.quantile(0.5) is None
    assert warm.core_c(AT + dt.timedelta(hours=12)) > 63.0
    assert _minutes(_with(place=Place.OVEN, oven_c=50.0)) < 24 * 60


def test_a_reading_since_the_pull_counts_from_itself() -> None:
    """Read at 75 C two hours after the pull, towels already warm: later than the same core with cold towels."""
    since = _with(core_c=75.0, off_at=AT - dt.timedelta(hours=2))
    assert _minutes(since) > _minutes(_with(core_c=75.0, pit_c=None))
    assert hold(since).core_c(AT) == pytest.approx(75.0, abs=0.1)


def test_what_is_at_the_floor_already_has_fallen() -> None:
    """Told 62 C while cooling: now."""
    assert _minutes(_with(core_c=60.0, pit_c=None)) == 0.0


def test_leftovers_cool_by_thickness_and_place() -> None:
    """A piece of 7 cm, from 57 to 21 C: within the two hours of the rule in an ice bath, not in a fridge."""
    sliced = _with(core_c=57.0, thickness_m=0.07, mass_kg=2.0, pit_c=None, wrap=Wrap.NONE)
    bath = _minutes(dataclasses.replace(sliced, place=Place.ICE_BATH), 0.9, 21.0)
    fridge = _minutes(dataclasses.replace(sliced, place=Place.FRIDGE), 0.9, 21.0)
    assert bath < 100
    assert fridge > 120
    assert hold(dataclasses.replace(sliced, place=Place.FRIDGE)).fall(21.0).quantile(0.9) is not None


def test_one_box_is_asked_about_any_temperature() -> None:
    """Falling to 70 C comes before falling to 63."""
    found = hold(BOXED)
    first, second = found.fall(70.0).quantile(0.5), found.quantile(0.5)
    assert first is not None
    assert second is not None
    assert first < second


def test_asking_loads_numerics_and_importing_does_not() -> None:
    """The chat starts without numpy."""
    code = "import sys, scheduler.forecast.after as a; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
