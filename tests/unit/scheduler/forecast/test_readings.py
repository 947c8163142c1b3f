"""The forecast with readings: what is learned, what is passed, what is not believed."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from scheduler.facts import Wrap
from scheduler.forecast import Observation, WrapEvent, forecast
from tests.unit.scheduler.forecast.questions import ON_AT, STALLED, after, cut, hours, question, read

BRISKET = cut("brisket_packer")
LEVELS_C = (20.0, 45.0, 60.0, 66.0, 68.0, 71.0, 82.0, 93.0, 95.0, 97.0)


def test_a_slow_piece_is_forecast_later_and_a_fast_one_earlier() -> None:
    """Readings move the end the way they point."""
    slow, fast = read((2, 20), (4, 40), (6, 52)), read((2, 38), (4, 62), (5, 69))
    late, prior, early = (
        hours(forecast(question(BRISKET, wrap_plan=Wrap.PAPER, readings=readings)).crossing(93.0))
        for readings in (slow, (), fast)
    )
    assert early < prior - 1.0
    assert late > prior + 1.0


def test_readings_narrow_the_answer() -> None:
    """With seven readings the 80 % interval of the time left is clearly narrower than the prior's."""
    prior, later = (
        forecast(question(BRISKET, wrap_plan=Wrap.PAPER, readings=readings)).crossing(82.0)
        for readings in ((), read(*STALLED))
    )
    assert hours(later, 0.9) - hours(later, 0.1) < 0.8 * (hours(prior, 0.9) - hours(prior, 0.1))


def test_a_temperature_already_passed_gives_the_time_it_was_passed() -> None:
    """Between two readings the time lies on the line between them, within some minutes, at every quantile."""
    passed = forecast(question(BRISKET, readings=read(*STALLED))).crossing(59.0)
    for p in (0.1, 0.5, 0.9):
        assert hours(passed, p) == pytest.approx(4.5, abs=0.1)
    assert passed.probability_by(after(7)) == 1.0


def test_before_the_first_reading_a_passed_temperature_lies_before_it() -> None:
    """Started in the middle, 73.9 C after five hours: 60 C was passed between meat on and then."""
    started = forecast(question(BRISKET, readings=read((5, 73.9))))
    assert 2.0 < hours(started.crossing(60.0)) < 5.0
    assert hours(started.crossing(60.0), 0.99) <= 5.0
    assert 6.5 < hours(started.crossing(93.0)) < 14.0


def test_a_reading_above_the_target_makes_the_piece_ready_in_the_past() -> None:
    """At 98 C the target has been passed by all; readiness, which counts a dose, may be behind or still ahead.

    Poor: somebody reads 98 C, the median of readiness lies a quarter of an hour after that, and one in ten beyond an
    hour: what is believed of the core is 95 C, so fast a rise near boiling is not in the model.
    """
    done = forecast(question(BRISKET, readings=read((5, 73.9), (8, 90.0), (9.5, 98.0))))
    assert 8.0 < hours(done.ready()) <= 9.5 + 0.5
    assert hours(done.ready(), 0.25) <= 9.5
    assert hours(done.ready(), 0.9) <= 9.5 + 1.5
    assert done.crossing(95.0).probability_by(after(9.5)) == 1.0
    assert hours(done.crossing(95.0)) == pytest.approx(8.94, abs=0.1)


def test_quantiles_rise_with_probability_and_with_temperature() -> None:
    """Across what is passed and what is to come, no quantile runs backward."""
    outlook = forecast(question(BRISKET, readings=read(*STALLED)))
    ps = [0.01, *(0.05 * step for step in range(1, 20)), 0.99]
    table = [[hours(outlook.crossing(level_c), p) for p in ps] for level_c in LEVELS_C]
    assert all(row == sorted(row) for row in table)
    assert all(list(column) == sorted(column) for column in zip(*table, strict=True))


def test_what_is_to_come_is_not_in_the_past() -> None:
    """A temperature above the last reading is never forecast before it."""
    outlook = forecast(question(BRISKET, readings=read(*STALLED)))
    assert all(hours(outlook.crossing(level_c), 0.001) >= 7.0 for level_c in (69.0, 71.0, 95.0))


def test_the_time_left_is_never_narrower_than_some_minutes() -> None:
    """One degree before the end the 80 % interval still spans five minutes."""
    points = [(0.5 * step, 90.0 + step / 3) for step in range(14)]
    close = forecast(question(BRISKET, wrap_plan=Wrap.NONE, readings=read(*((8 + hour, c) for hour, c in points))))
    at = close.crossing(95.0)
    assert 60 * (hours(at, 0.9) - hours(at, 0.1)) > 5.0


def test_beyond_the_horizon_there_is_no_time() -> None:
    """In a pit of 75 C the core never reaches 95 C: None, and the horizon lies 30 h and more beyond the reading."""
    cold = forecast(question(BRISKET, pit_c=75, wrap_plan=Wrap.NONE, readings=read((2, 25), (4, 40))))
    assert cold.crossing(95.0).quantile(0.5) is None
    assert cold.crossing(95.0).probability_by(after(34)) < 0.5
    slow = forecast(question(BRISKET, pit_c=95, wrap_plan=Wrap.NONE, readings=read((2, 15), (4, 24))))
    reached = [at for p in range(1, 100) if (at := slow.crossing(88.0).quantile(p / 100)) is not None]
    assert max(reached) > after(30)


def test_one_wrong_reading_among_good_ones_hardly_matters() -> None:
    """A probe against bone, 20 degrees high for once, moves the end by less than 40 min of seven hours."""
    good = hours(forecast(question(BRISKET, wrap_plan=Wrap.PAPER, readings=read(*STALLED))).crossing(93.0))
    wrong = sorted([*STALLED, (5.5, 84.0)])
    seen = forecast(question(BRISKET, wrap_plan=Wrap.PAPER, readings=read(*wrong)))
    assert hours(seen.crossing(93.0)) == pytest.approx(good, abs=0.67)
    assert hours(seen.crossing(82.0)) > 7.0


def test_a_wild_newest_reading_surprises_the_forecast_made_without_it() -> None:
    """A reading near the forecast is no surprise; one 17 degrees above it is more than four deviations off."""
    before = forecast(question(BRISKET, wrap_plan=Wrap.NONE, readings=read(*STALLED)))
    assert abs(before.surprise(Observation(at=after(7.5), value_c=before.core_c(after(7.5))))) < 0.5
    assert before.surprise(Observation(at=after(7.5), value_c=86.0)) > 4.0
    assert before.surprise(Observation(at=after(7.5), value_c=50.0)) < -4.0
    assert before.surprise(Observation(at=after(7.5), value_c=86.0, spread_c=20.0)) < 1.5


def test_order_and_doubles_do_not_matter() -> None:
    """Readings typed out of order, or twice in the same minute, give the same forecast."""
    asked = question(BRISKET, readings=read(*STALLED))
    shuffled = dataclasses.replace(asked, readings=asked.readings[::-1])
    doubled = dataclasses.replace(asked, readings=(*asked.readings, asked.readings[3]))
    expected = [forecast(asked).crossing(93.0).quantile(p / 20) for p in range(1, 20)]
    for other in (shuffled, doubled):
        assert [forecast(other).crossing(93.0).quantile(p / 20) for p in range(1, 20)] == expected


def test_a_reading_from_before_meat_on_is_left_out() -> None:
    """After a corrected start, readings that now lie before it change nothing."""
    asked = question(BRISKET, readings=read(*STALLED))
    early = dataclasses.replace(asked, readings=(*read((-0.5, 40.0)), *asked.readings))
    assert forecast(early).crossing(93.0).quantile(0.5) == forecast(asked).crossing(93.0).quantile(0.5)


@pytest.mark.parametrize(
    "points",
    [
        ((0.33, 73.9),),
        ((0.0, 4.0),),
        ((3, 60), (4, 58), (5, 55)),
        tuple((hour, 5.0) for hour in range(1, 9)),
        ((1, 12), (13, 72)),
        ((26, 80), (30, 88)),
        tuple((0.02 * step, 6.0 + step / 50) for step in range(300)),
    ],
    ids=["absurdly hot", "at once", "falling", "frozen", "long gap", "endless", "every minute"],
)
def test_odd_readings_still_get_an_answer(points: tuple[tuple[float, float], ...]) -> None:
    """Whatever is typed, the median is in order and later than the last reading for what is above it."""
    outlook = forecast(question(BRISKET, readings=read(*points)))
    times = [hours(outlook.crossing(level_c)) for level_c in (50.0, 70.0, 89.0, 95.0)]
    assert times == sorted(times)
    assert times[-1] >= points[-1][0]
    assert -5.0 < outlook.core_c(after(points[-1][0])) < 100.0


def test_rounding_to_five_degrees_moves_little() -> None:
    """A coarse dial, read as "about" with its doubt, leaves the end within an hour and a half."""
    exact = hours(forecast(question(BRISKET, wrap_plan=Wrap.PAPER, readings=read(*STALLED))).crossing(93.0))
    coarse = tuple(Observation(at=after(hour), value_c=5 * round(c / 5), spread_c=2.5) for hour, c in STALLED)
    seen = hours(forecast(question(BRISKET, wrap_plan=Wrap.PAPER, readings=coarse)).crossing(93.0))
    assert seen == pytest.approx(exact, abs=1.5)


def test_pit_readings_correct_mildly() -> None:
    """Three readings 14 degrees under the set point make it later, but by less than setting the pit there does."""
    asked = question(BRISKET, wrap_plan=Wrap.PAPER, readings=read(*STALLED))
    cold = dataclasses.replace(asked, pit_readings=read((2, 107), (4, 107), (6, 107)))
    wild = dataclasses.replace(asked, pit_readings=read((6, 250)))
    believed, told, one_wild = (hours(forecast(one).crossing(93.0)) for one in (asked, cold, wild))
    assert believed < told < believed + 4.0
    assert believed - 3.0 < one_wild < believed


def test_a_wrap_that_happened_is_used_from_then_on() -> None:
    """Foil put on at seven hours ends the cook sooner than a decision to stay bare."""
    asked = question(BRISKET, readings=read(*STALLED))
    foiled, bare = (
        hours(forecast(dataclasses.replace(asked, wraps=(WrapEvent(at=after(7), wrap=wrap),))).crossing(93.0))
        for wrap in (Wrap.FOIL, Wrap.NONE)
    )
    assert foiled < bare - 1.0


def test_moving_the_start_moves_the_prior_with_it() -> None:
    """A plan for another day is the same plan: times after meat on do not depend on when it goes on."""
    asked = question(BRISKET)
    later = dataclasses.replace(
        asked,
        on_at=ON_AT + dt.timedelta(days=3),
        pit=tuple(dataclasses.replace(event, at=ON_AT) for event in asked.pit),
    )
    shift = forecast(later).crossing(93.0).quantile(0.3), forecast(asked).crossing(93.0).quantile(0.3)
    assert shift[0] is not None
    assert shift[1] is not None
    assert shift[0] - shift[1] == dt.timedelta(days=3)
