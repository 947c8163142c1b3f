"""The clock time at which a rising pit reaches a temperature."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import CookerKind
from scheduler.forecast import Observation, reaches
from scheduler.forecast.rising import closing

LIT_AT = dt.datetime(2026, 8, 1, 12, tzinfo=dt.UTC)
MINUTE = dt.timedelta(minutes=1)


def read(*pairs: tuple[float, float]) -> tuple[Observation, ...]:
    """Return readings from (minutes since lighting, °C)."""
    return tuple(Observation(at=LIT_AT + minute * MINUTE, value_c=value_c) for minute, value_c in pairs)


def likely_min(target_c: float, *readings: tuple[float, float], kind: CookerKind | None = CookerKind.KETTLE) -> float:
    """Return the likely minutes from lighting to a temperature."""
    at = reaches(target_c, lit_at=LIT_AT, readings=read(*readings), kind=kind, set_c=121.0).quantile(0.5)
    assert at is not None
    return (at - LIT_AT) / MINUTE


def test_two_readings_on_a_line_are_carried_on() -> None:
    """60 °C after twenty minutes and 80 °C after twenty-five: 108 °C comes some seven to twelve minutes later."""
    assert 31.0 < likely_min(108.0, (20, 60.0), (25, 80.0)) < 38.0


def test_a_slower_pit_comes_later() -> None:
    """The lower the second reading, the later the mark."""
    times = [likely_min(108.0, (20, 60.0), (30, second)) for second in (100.0, 90.0, 80.0, 70.0)]
    assert times == sorted(times)


def test_hotter_is_later_and_surer_is_later() -> None:
    """Higher targets and higher quantiles lie later; chances rise with the clock."""
    crossing = reaches(108.0, lit_at=LIT_AT, readings=read((20, 60.0), (25, 80.0)), kind=None, set_c=121.0)
    early, late = crossing.quantile(0.1), crossing.quantile(0.9)
    assert early is not None
    assert late is not None
    assert early < late
    assert crossing.probability_by(early) == pytest.approx(0.1, abs=0.02)
    assert crossing.probability_by(LIT_AT - MINUTE) == 0.0
    assert likely_min(100.0, (20, 60.0), (25, 80.0)) < likely_min(108.0, (20, 60.0), (25, 80.0))


def test_without_a_reading_it_says_what_is_usual() -> None:
    """A kettle is up in well under an hour, ceramic takes longer; an unknown cooker lies about them."""
    kettle, ceramic = likely_min(108.0), likely_min(108.0, kind=CookerKind.CERAMIC)
    assert 20.0 < kettle < 40.0
    assert kettle < ceramic < 75.0
    assert kettle < likely_min(108.0, kind=None) < ceramic + 10.0


def test_what_has_been_read_above_is_past() -> None:
    """A mark that the newest reading has passed lies before that reading."""
    assert likely_min(90.0, (20, 60.0), (25, 80.0), (30, 100.0)) < 30.0


def test_a_pit_that_does_not_rise_gets_no_time() -> None:
    """Three low readings over two hours: nine in ten say nothing within five hours."""
    crossing = reaches(108.0, lit_at=LIT_AT, readings=read((40, 40.0), (80, 41.0), (120, 40.0)), set_c=121.0)
    assert crossing.quantile(0.9) is None


def test_closing_begins_eleven_to_fourteen_degrees_before() -> None:
    """Vents begin to close between 14 and 11 °C before the set point, and the set point itself comes later."""
    assert closing(121.0) == (107.0, 110.0)
    pairs = ((20, 60.0), (25, 80.0))
    assert likely_min(110.0, *pairs) + 3.0 < likely_min(121.0, *pairs)


def test_the_same_question_has_the_same_answer() -> None:
    """There is no chance in it."""
    assert likely_min(108.0, (20, 60.0)) == likely_min(108.0, (20, 60.0))
