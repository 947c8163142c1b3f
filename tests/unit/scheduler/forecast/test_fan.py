"""The fan of core temperature from meat on to the plate."""

from __future__ import annotations

import datetime as dt
from itertools import pairwise

import pytest

from scheduler.facts import Wrap
from scheduler.forecast import FanPoint, Question, forecast
from tests.calibration.trade import cuts
from tests.unit.scheduler.forecast.questions import ON_AT, STALLED, after, cut, hours, question, read

BRISKET = cut("brisket_packer")
TOUGH = {
    "prior": question(BRISKET, wrap_plan=Wrap.PAPER),
    "undecided": question(BRISKET),
    "in the stall": question(BRISKET, wrap_plan=Wrap.NONE, readings=read(*STALLED)),
    "ribs": question(cut("beef_chuck_ribs")),
}


def _fan(asked: Question, rested_h: float = 6.0, every_min: float = 30.0) -> tuple[tuple[FanPoint, ...], float]:
    """Return the fan to some hours after the median of readiness, and that median [h]."""
    outlook = forecast(asked)
    ready_h = hours(outlook.ready())
    return outlook.fan(after(ready_h + rested_h), every=dt.timedelta(minutes=every_min)), ready_h


@pytest.mark.parametrize("asked", TOUGH.values(), ids=TOUGH)
def test_it_begins_at_meat_on_and_ends_where_it_was_asked_to(asked: Question) -> None:
    """Even steps from meat on, the last one shorter; it starts out of the fridge."""
    points, ready_h = _fan(asked)
    assert points[0].at == ON_AT
    assert points[-1].at == pytest.approx(after(ready_h + 6.0), abs=dt.timedelta(seconds=1))
    steps = [(later.at - sooner.at) / dt.timedelta(minutes=1) for sooner, later in pairwise(points)]
    assert set(steps[:-1]) == {30.0}
    assert 0.0 < steps[-1] <= 30.0
    assert -3.0 < points[0].middle_c < 12.0


@pytest.mark.parametrize("asked", TOUGH.values(), ids=TOUGH)
def test_its_quantiles_are_in_order(asked: Question) -> None:
    """Low, middle, high at every instant, and none outside ice and boiling."""
    for point in _fan(asked)[0]:
        assert -5.0 < point.low_c <= point.middle_c <= point.high_c < 100.0


def test_on_the_fire_it_is_the_forecast_of_the_core() -> None:
    """Before the first member is done, the fan is the quantiles of the core."""
    outlook = forecast(TOUGH["prior"])
    for point in outlook.fan(after(6.0)):
        assert point.middle_c == outlook.core_c(point.at)
        assert point.low_c == outlook.core_c(point.at, 0.1)


def test_it_passes_through_the_readings() -> None:
    """At the hour of each reading the middle is within two degrees of it, and the fan is narrow."""
    points = {point.at: point for point in _fan(TOUGH["in the stall"])[0]}
    for hour, core_c in STALLED:
        point = points[after(hour)]
        assert point.middle_c == pytest.approx(core_c, abs=2.0)
        assert point.high_c - point.low_c < 5.0


@pytest.mark.parametrize("asked", TOUGH.values(), ids=TOUGH)
def test_after_the_pull_tough_meat_falls_to_the_plate(asked: Question) -> None:
    """Vented and boxed, every quantile has fallen by hours after the pull; it never jumps, nor falls below the room."""
    points, ready_h = _fan(asked, rested_h=12.0, every_min=15.0)
    middle = [point.middle_c for point in points]
    at_pull = middle[round(ready_h * 4)]
    assert max(middle) < at_pull + 8.0
    assert 30.0 < middle[-1] < at_pull - 8.0
    assert points[-1].high_c < 95.0
    assert max(abs(later - sooner) for sooner, later in pairwise(middle)) < 10.0


@pytest.mark.parametrize("name", ["prime_rib", "whole_turkey"])
def test_a_roast_carries_over_before_it_falls(name: str) -> None:
    """The middle of a tender roast still rises after the pull, by 0.5 to 10 C, and then falls."""
    of = cuts().get(name)
    points, ready_h = _fan(question(of), rested_h=8.0, every_min=10.0)
    pulled_c = points[round(ready_h * 6)].middle_c
    peak_c = max(point.middle_c for point in points)
    assert pulled_c + 0.5 < peak_c < pulled_c + 10.0
    assert points[-1].middle_c < peak_c - 3.0


def test_a_later_question_has_the_same_past() -> None:
    """The fan to another end, or in other steps, says the same of the instants both have."""
    outlook = forecast(TOUGH["prior"])
    short = {point.at: point for point in outlook.fan(after(10.0))}
    long = {point.at: point for point in outlook.fan(after(20.0), every=dt.timedelta(minutes=30))}
    shared = sorted(set(short) & set(long))
    assert len(shared) > 15
    assert all(abs(short[at].middle_c - long[at].middle_c) < 0.01 for at in shared)


def test_an_end_before_meat_on_is_one_point() -> None:
    """Nothing is invented for a time before the meat is on."""
    assert [point.at for point in forecast(TOUGH["prior"]).fan(after(-2.0))] == [ON_AT]
