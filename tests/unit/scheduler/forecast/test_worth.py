"""What a reading would bring, and how far a new one is to be believed."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import Wrap
from scheduler.forecast import Forecast, Observation, forecast
from tests.unit.scheduler.forecast.questions import STALLED, after, cut, hours, question, read

BRISKET = cut("brisket_packer")


def _bare(*points: tuple[float, float]) -> Forecast:
    return forecast(question(BRISKET, wrap_plan=Wrap.NONE, readings=read(*points)))


def _minutes(of: Forecast, at_h: float) -> float:
    return of.worth_reading(after(at_h)).narrows / dt.timedelta(minutes=1)


def _wrong(of: Forecast, off_c: float, at_h: float = 7.5) -> float:
    """Return the outlier probability of a reading so far above the expected one."""
    return of.outlier_probability(Observation(at=after(at_h), value_c=of.core_c(after(at_h)) + off_c))


def test_the_longer_ago_the_last_reading_the_more_the_next_is_worth() -> None:
    """A minute after one next to nothing; after an hour a quarter of one; after three hours more than an hour.

    Reached: 1, 3, 6, 18, 51 and 86 min.
    """
    seven = _bare(*STALLED)
    worth = [_minutes(seven, 7.0 + later) for later in (0.02, 0.25, 0.5, 1.0, 2.0, 3.0)]
    assert worth == sorted(worth)
    assert worth[0] < 2.0
    assert worth[3] > 5.0
    assert worth[5] > 30.0


def test_after_two_readings_just_now_another_brings_nothing() -> None:
    """Three and six minutes ago somebody read: about a minute to be gained. Reached: 0.8."""
    assert _minutes(_bare(*STALLED, (7.05, 68.1), (7.1, 68.2)), 7.15) < 1.5


def test_a_reading_is_worth_more_where_less_is_known() -> None:
    """At ten hours: much after no reading at all and after five, little after one of a quarter of an hour before."""
    none, five = _minutes(_bare(), 10.0), _minutes(_bare(*STALLED[:5]), 10.0)
    fresh = _minutes(_bare(*STALLED, (8, 70.5), (9, 74.0), (9.75, 77.0)), 10.0)
    assert none > 20.0
    assert five > 20.0
    assert fresh < 0.25 * min(none, five)


def test_early_readings_say_little_of_the_end() -> None:
    """Before any reading, one at two hours narrows the end by less than half of what one at ten does."""
    assert _minutes(_bare(), 2.0) < 0.5 * _minutes(_bare(), 10.0)


def test_a_reading_turns_a_verdict_only_when_there_is_one() -> None:
    """Without a time to meet it turns nothing; with one near the middle often; with one far off never."""
    seven = _bare(*STALLED)
    middle = seven.ready().quantile(0.5)
    assert middle is not None
    assert seven.worth_reading(after(9)).turns == 0.0
    assert seven.worth_reading(after(9), by=middle).turns > 0.2
    for far_h in (9.0, 30.0):
        assert seven.worth_reading(after(9), by=after(far_h)).turns < 0.02
    assert seven.worth_reading(after(7.01), by=middle).turns < seven.worth_reading(after(9), by=middle).turns


def test_turning_is_a_probability_and_narrowing_no_more_than_there_is() -> None:
    """Between nothing and the width of the 80 % window."""
    seven = _bare(*STALLED)
    width = 60 * (hours(seven.ready(), 0.9) - hours(seven.ready(), 0.1))
    for at_h in (7.5, 9.0, 12.0, 16.0):
        assert 0.0 <= _minutes(seven, at_h) <= width
        assert 0.0 <= seven.worth_reading(after(at_h), by=after(14)).turns <= 1.0


def test_the_expected_reading_is_no_outlier() -> None:
    """At the median, and within the members, below the 6 % above which a second spot is asked for."""
    seven = _bare(*STALLED)
    assert _wrong(seven, 0.0) < 0.03
    assert max(_wrong(seven, off_c) for off_c in (-2.0, -1.0, 1.0, 2.0)) < 0.06
    assert _wrong(_bare(), 0.0, 3.0) < 0.03


@pytest.mark.parametrize("slip_c", [(68.0 - 32.0) / 1.8, 68.0 * 1.8 + 32.0, 6.8, 158.0])
def test_a_slip_of_units_or_keys_is_one(slip_c: float) -> None:
    """68 C taken for Fahrenheit, or the other way round, or a digit lost: nearly certain."""
    assert _bare(*STALLED).outlier_probability(Observation(at=after(7.5), value_c=slip_c)) > 0.9


def test_the_farther_off_the_likelier_wrong() -> None:
    """Above and below alike, and a dial with a doubt of 10 C is forgiven more."""
    seven = _bare(*STALLED)
    for sign in (1.0, -1.0):
        chances = [_wrong(seven, sign * off_c) for off_c in (0.0, 3.0, 6.0, 12.0, 25.0, 50.0)]
        assert chances == sorted(chances)
        assert chances[3] > 0.3
    at, value_c = after(7.5), seven.core_c(after(7.5)) + 10.0
    sharp, blunt = (seven.outlier_probability(Observation(at=at, value_c=value_c, spread_c=c)) for c in (0.0, 10.0))
    assert blunt < 0.5 * sharp


def test_where_little_is_known_little_surprises() -> None:
    """Eight degrees off: enough to ask for a second spot (6 %) after seven readings, not before the first.

    Reached: 8 and 2 %; twelve degrees off 38 %.
    """
    assert _wrong(_bare(*STALLED), 8.0) > 0.06
    assert _wrong(_bare(), 8.0, 6.0) < 0.06


def test_surprise_counts_deviations_with_their_sign() -> None:
    """Twice as far is about twice the surprise; below is negative."""
    seven = _bare(*STALLED)
    core_c = seven.core_c(after(7.5))
    low, near, far = (seven.surprise(Observation(at=after(7.5), value_c=core_c + off_c)) for off_c in (-6.0, 3.0, 6.0))
    assert low < -2.0
    assert far > 2.0
    assert near - low == pytest.approx(3.0 * near, rel=0.2)
    assert far == pytest.approx(2.0 * near, rel=0.2)
