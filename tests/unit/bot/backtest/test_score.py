"""How forecasts are held against what came, and how that reads."""

from __future__ import annotations

import datetime as dt

import pytest

from bot.backtest.log import Trouble
from bot.backtest.replay import Answer, Asked
from bot.backtest.score import stages, when_reached
from bot.backtest.targets import BadTarget, read_targets
from bot.messages import backtest as words
from scheduler.units import c_from_f

TARGET_C = c_from_f(195.0)


def cook(*points: tuple[float, float], said: float | None = 400.0) -> list[Asked]:
    """Return a cook of (minute, core °F) where each forecast said the same, give or take 30 minutes."""
    answer = Answer(p10=None if said is None else said - 30, p50=said, p90=None if said is None else said + 30)
    return [Asked(minute=minute, core_c=c_from_f(core_f), answers=(answer,)) for minute, core_f in points]


RISE = ((0, 45), (60, 80), (120, 125), (200, 151), (260, 166), (330, 185), (360, 191), (400, 199))


def test_a_target_is_reached_on_the_line_between_two_readings() -> None:
    """From 191 to 199 F in 40 minutes: 195 F halfway."""
    reached = when_reached(cook(*RISE), TARGET_C, 0)
    assert reached is not None
    assert reached.minute == pytest.approx(380)
    assert (reached.before, reached.after) == (360, 400)


def test_a_cook_that_stays_below_reaches_nothing() -> None:
    """Without a reading at the target there is no time to score against."""
    assert when_reached(cook(*RISE[:-1]), TARGET_C, 0) is None


def test_a_slip_over_the_target_is_no_crossing() -> None:
    """A reading over the target that the next one contradicts does not count."""
    reached = when_reached(cook((0, 45), (60, 200), *RISE[2:]), TARGET_C, 0)
    assert reached is not None
    assert reached.after == 400


def test_a_fall_after_the_target_does_not_move_the_crossing() -> None:
    """The first crossing counts, on the line between the readings that were higher than all before."""
    reached = when_reached(cook((0, 40), (600, 190), (650, 188), (700, 200), (720, 194), (760, 201)), TARGET_C, 0)
    assert reached is not None
    assert reached.minute == pytest.approx(650)
    assert (reached.before, reached.after) == (600, 700)


def test_the_crossing_that_the_last_forecast_knows_is_the_one_told() -> None:
    """Summary and JSON cannot differ: three equal quantiles in the past are a crossing that was read."""
    told = cook(*RISE)
    told[-1] = Asked(minute=400, core_c=told[-1].core_c, answers=(Answer(p10=378.4, p50=378.4, p90=378.4),))
    reached = when_reached(told, TARGET_C, 0)
    assert reached is not None
    assert (reached.minute, reached.before, reached.after) == (378.4, 360, 400)


def test_errors_of_an_hour_and_more_are_hours_and_minutes() -> None:
    """Minutes below it; the sign says early or late."""
    assert [words.error(minutes) for minutes in (15.2, -59.4, -138.0, 60.0, 0.2, None)] == [
        "+15 min", "-59 min", "-2:18", "+1:00", "+0 min", "-",
    ]  # fmt: skip


def test_a_log_that_begins_above_the_target_has_no_reading_below() -> None:
    """It was reached at some time before; nothing can be scored."""
    reached = when_reached(cook((0, 197), (30, 199)), TARGET_C, 0)
    assert reached is not None
    assert reached.before is None


def test_errors_are_told_at_shares_of_the_rise_and_at_marks() -> None:
    """25, 50, 75 % of 45 to 195 F and past 150, 165 and 180 F, in time order; plus is a forecast that was too late."""
    told = cook(*RISE)
    reached = when_reached(told, TARGET_C, 0)
    assert reached is not None
    found = stages(told, reached, TARGET_C, 0)
    assert [(one.percent, one.mark_f, one.asked.minute) for one in found] == [
        (25, None, 120), (50, None, 120), (None, 150, 200), (75, None, 260), (None, 165, 260), (None, 180, 330),
    ]  # fmt: skip
    assert [one.error_min for one in found] == pytest.approx([20] * 6)
    assert all(one.inside for one in found)


def test_what_lies_outside_or_beyond_is_said_so() -> None:
    """A window that ended before, or a forecast that saw no end at all, is outside."""
    for said, error in ((300.0, pytest.approx(-80)), (None, None)):
        told = cook(*RISE, said=said)
        reached = when_reached(told, TARGET_C, 0)
        assert reached is not None
        (stage, *_) = stages(told, reached, TARGET_C, 0)
        assert (stage.error_min, stage.inside) == (error, False)


def test_marks_above_the_target_are_no_stages() -> None:
    """On the way to 155 F only 150 F is passed."""
    told = cook(*RISE)
    target_c = c_from_f(155.0)
    reached = when_reached(told, target_c, 0)
    assert reached is not None
    assert [one.mark_f for one in stages(told, reached, target_c, 0) if one.mark_f] == [150]


@pytest.mark.parametrize(
    ("given", "found"),
    [
        (None, [("195F", 90.56)]),
        (["195F"], [("195F", 90.56)]),
        ([" 195 f", "90c", "90 \u00b0C"], [("195F", 90.56), ("90C", 90.0)]),
        (["203.5F"], [("203.5F", 95.28)]),
    ],
)
def test_targets_keep_the_name_they_were_given(given: list[str] | None, found: list[tuple[str, float]]) -> None:
    """Case and spaces do not matter, a target given twice counts once, none at all is 195 F."""
    targets = read_targets(given)
    assert not isinstance(targets, BadTarget)
    assert [(target.name, round(target.temp_c, 2)) for target in targets] == found


@pytest.mark.parametrize("given", ["195", "hot", "", "500F", "101C", "0F", "-5C", "195K", "195F 200F", "nanF"])
def test_what_is_no_core_temperature_is_handed_back(given: str) -> None:
    """Without a unit, outside what meat can be, or no number: not guessed at."""
    assert read_targets(["195F", given]) == BadTarget(given=given)


def test_times_are_of_the_day_when_the_log_knows_it() -> None:
    """Else hours and minutes after meat on; the next day is told."""
    on_at = dt.datetime(2026, 9, 12, 21, 30)  # noqa: DTZ001 - wall time of a log without a zone
    assert words.moment(95.4, None) == "1:35"
    assert words.moment(95.4, on_at) == "23:05"
    assert words.moment(200, on_at) == "00:50 day 2"
    assert words.moment(None, on_at) == "-"


def test_every_trouble_has_its_words() -> None:
    """Whatever cannot be used in a log can be said."""
    for trouble in Trouble:
        assert words.notice("a.csv", trouble.value, 3, "x").startswith("a.csv, line 3: ")
