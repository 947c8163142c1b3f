"""The judge is judged: scores against known values, rivals on plain cases, questions that cannot look ahead."""

from __future__ import annotations

import datetime as dt
import math

import pytest

from bot.backtest.replay import ON_AT
from scheduler.facts import Wrap
from tests.skill.cooks import all_cooks, as_log, fixed_forty, read, stages
from tests.skill.rivals import LONGEST_MIN, exponential, line, per_pound
from tests.skill.scores import LEVELS, band, crps

RISING = ((60.0, 80.0), (120.0, 110.0), (180.0, 140.0))


def test_crps_of_a_certain_forecast_is_its_error() -> None:
    """When all quantiles are one number, CRPS is the absolute error."""
    assert crps([100.0] * len(LEVELS), 130.0) == pytest.approx(30.0)
    assert crps([100.0] * len(LEVELS), 70.0) == pytest.approx(30.0)


def test_crps_of_a_uniform_forecast() -> None:
    """For a uniform distribution over (0, 1) and the truth in its middle CRPS is 1/12, but for 20 levels."""
    assert crps(LEVELS, 0.5) == pytest.approx(1 / 12, abs=2e-3)


def test_the_band_of_forty_fair_intervals() -> None:
    """Of 40 intervals that hold with 80 %, 27 to 37 hold in 95 % of samples (exact binomial, computed by hand)."""
    assert band(0.8, 40) == (27 / 40, 36 / 40) or band(0.8, 40) == (27 / 40, 37 / 40)


def test_more_cooks_make_a_narrower_band() -> None:
    """The band narrows about the share and always holds it."""
    widths = []
    for count in (10, 40, 160, 640):
        low, high = band(0.8, count)
        assert low <= 0.8 <= high
        widths.append(high - low)
    assert widths == sorted(widths, reverse=True)


def test_the_line_goes_on_as_it_went() -> None:
    """Half a degree a minute goes on: 55 more degrees take 110 minutes; flat readings never get there."""
    assert line.foretell(RISING, 195.0) == pytest.approx(290.0)
    assert line.foretell(((60.0, 150.0), (120.0, 150.0), (180.0, 149.0)), 195.0) == LONGEST_MIN
    assert line.foretell(((100.0, 90.0),), 190.0) == pytest.approx(300.0)


def test_the_exponential_knows_newton() -> None:
    """On readings that follow an exponential approach to the pit, the fitted time is exact."""
    pit, rate = 250.0, 0.005
    points = tuple((minute, pit - 210.0 * math.exp(-rate * (minute - 30.0))) for minute in (90.0, 150.0, 210.0))
    truth = 30.0 + math.log(210.0 / 55.0) / rate
    assert exponential.foretell(points, 195.0, pit) == pytest.approx(truth)


def test_minutes_per_pound_scales_with_mass() -> None:
    """Twice the told mass takes twice as long; without a mass the usual one is meant."""
    cut = all_cooks()[0].cut
    assert per_pound.foretell(cut, 4.0) == pytest.approx(2 * per_pound.foretell(cut, 2.0))
    assert per_pound.foretell(cut, None) == pytest.approx(per_pound.foretell(cut, cut.mass_kg.typical))


def test_forty_cooks_from_every_family() -> None:
    """The forty that are replayed come from all twelve families and hold each wrap."""
    forty = fixed_forty()
    assert len({cook.id for cook in forty}) == 40
    assert {cook.family for cook in forty} == {cook.family for cook in all_cooks()}
    assert {cook.wrap for cook in forty} == set(Wrap)


def test_every_cook_is_a_readable_log() -> None:
    """Every cook can be written as a log for the backtest and is read back with all its rows, none malformed."""
    for cook in all_cooks():
        log = read(cook)
        assert len(log.rows) == len(cook.rows)
        assert {notice.line for notice in log.notices} <= _slipped_lines(cook.id)
        assert log.head.cut == cook.told["said"]


def _slipped_lines(name: str) -> set[int | None]:
    """Return the lines of a cook's log in which the pen slipped: such a core may be no temperature at all."""
    cook = next(one for one in all_cooks() if one.id == name)
    top = len(as_log(cook).splitlines()) - len(cook.rows)
    return {top + place for place, row in enumerate(cook.rows, start=1) if row.slip}


def test_a_question_holds_nothing_of_what_came_later() -> None:
    """No reading, wrap, change of pit or opening in a question is later than its stage; the first reading at or over
    the stage is its newest.
    """
    for cook in fixed_forty():
        for stage in stages(cook):
            now = ON_AT + dt.timedelta(minutes=stage.minute)
            asked = stage.question
            happened = [one.at for one in (*asked.readings, *asked.pit_readings)]
            happened += [one.at for one in asked.wraps] + [one.at for one in asked.pit]
            assert max(happened + [one.at for one in asked.openings]) <= now
            assert asked.readings[-1].at == now
            assert asked.readings[-1].value_c * 1.8 + 32 >= cook.stages_f[stage.place]


def test_an_undecided_wrap_is_told_to_nobody() -> None:
    """The question of a cook without a wrap plan leaves it open, also when it was wrapped in the end."""
    undecided = [cook for cook in all_cooks() if not cook.told["told_wrap"] and cook.wrap != "none"]
    assert undecided
    assert all(stage.question.wrap_plan is None for cook in undecided for stage in stages(cook))
