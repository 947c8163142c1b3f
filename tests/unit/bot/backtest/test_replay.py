"""What the forecast is told at each row of a log, and that it is never told what came later."""

from __future__ import annotations

import datetime as dt

import pytest

from bot.backtest.kinds import all_cuts
from bot.backtest.log import Log
from bot.backtest.reading import read_log
from bot.backtest.replay import ON_AT, Asked, on_the_fire, question, replay
from scheduler.facts import Wrap
from scheduler.forecast import Opening, Question
from scheduler.units import c_from_f

HEAD = "# cut: pork butt\n# mass: 3.8 kg\n"
COLUMNS = "minute,core_f,pit_f,event\n"
ROWS = (
    "-30,38,240,\n", "0,40,,\n", "60,75,260,lid\n", "120,110,250,\n", "200,140,,spritz; pit 275F\n",
    "260,155,280,wrap foil\n", "330,172,,\n", "390,190,270,unwrap\n", "450,203,,pull\n", "480,195,,wrap paper\n",
)  # fmt: skip
CUTS = all_cuts()
BUTT = CUTS.get("pork_butt")
TARGET_C = c_from_f(195.0)


def log_of(*rows: str, head: str = HEAD) -> Log:
    """Return the log with these rows."""
    log = read_log(head + COLUMNS + "".join(rows))
    assert isinstance(log, Log)
    return log


def asked_at(place: int, *rows: str, head: str = HEAD) -> Question:
    """Return what is known at a row of a log."""
    log = log_of(*(rows or ROWS), head=head)
    return question(log, BUTT, log.rows[: place + 1])


def minutes(at: dt.datetime) -> float:
    """Return an instant in minutes since meat on."""
    return (at - ON_AT) / dt.timedelta(minutes=1)


def pit_of(asked: Question) -> list[tuple[float, float, float]]:
    """Return the pit as (minute, low, high in whole Fahrenheit)."""
    return [
        (minutes(one.at), round(one.low_c * 1.8 + 32), round(one.high_c * 1.8 + 32)) for one in asked.pit
    ]  # fmt: skip


def test_a_question_holds_the_row_and_the_earlier_ones() -> None:
    """Readings, wraps, openings and pit so far; how cold the meat was before; nothing that came later."""
    asked = asked_at(5)
    assert [minutes(one.at) for one in asked.readings] == [0, 60, 120, 200, 260]
    assert [minutes(one.at) for one in asked.pit_readings] == [60, 120, 260]
    assert [(minutes(one.at), one.wrap) for one in asked.wraps] == [(260, Wrap.FOIL)]
    assert [(minutes(one.at), one.kind) for one in asked.openings] == [(60, Opening.LID), (200, Opening.SPRITZ)]
    assert asked.start_c == pytest.approx(c_from_f(38))
    assert (asked.mass_kg, asked.thickness_m, asked.wrap_plan) == (3.8, None, None)


@pytest.mark.parametrize("place", range(1, len(ROWS)))
def test_a_log_cut_off_after_a_row_asks_the_same_question_there(place: int) -> None:
    """Neither a later wrap, nor a later pit, pull or reading leaks into what is asked at a row."""
    assert asked_at(place) == asked_at(place, *ROWS[: place + 1])


def test_a_log_cut_off_after_a_row_gives_the_same_forecasts_up_to_it() -> None:
    """The engine answers bit for bit the same for the rows that are there."""
    whole = list(replay(log_of(*ROWS), BUTT, (TARGET_C,)))
    for count in (3, 5, 7):
        cut_off = list(replay(log_of(*ROWS[:count]), BUTT, (TARGET_C,)))
        assert cut_off == whole[: len(cut_off)]
        assert len(cut_off) == count - 1


def test_a_row_from_before_meat_on_is_known_to_every_forecast_wherever_it_was_written() -> None:
    """It only tells how warm the meat was: it is no reading on the fire, and none of the forecasts is asked there."""
    late = (*ROWS[1:4], ROWS[0])
    for place in (1, 2, 3):
        asked = asked_at(place, *late)
        assert asked == asked_at(place, *ROWS[:4])
        assert asked.start_c == pytest.approx(c_from_f(38))
        assert min(minutes(one.at) for one in asked.readings) == 0


def test_the_order_in_which_rows_were_written_does_not_matter() -> None:
    """What was noted down late is known at its own time."""
    assert asked_at(5, *reversed(ROWS)) == asked_at(5)


def test_only_rows_on_the_fire_are_forecast() -> None:
    """Not before meat on, not after the pull; the reading at the pull is the last one used."""
    log = log_of(*ROWS)
    assert [row.minute for row in on_the_fire(log)] == [-30, 0, 60, 120, 200, 260, 330, 390, 450]
    assert [one.minute for one in replay(log, BUTT, (TARGET_C,))] == [0, 60, 120, 200, 260, 330, 390, 450]


def test_the_pit_is_that_of_the_head_until_an_event_moves_it() -> None:
    """A band stays a band; an event at meat on takes its place at once."""
    head = HEAD + "# pit: 250-275 F\n"
    assert pit_of(asked_at(3, head=head)) == [(0, 250, 275)]
    assert pit_of(asked_at(4, head=head)) == [(0, 250, 275), (200, 275, 275)]
    assert pit_of(asked_at(0, "0,40,,pit 300F\n", head=head)) == [(0, 300, 300)]


def test_without_a_pit_in_the_head_the_middle_of_the_readings_so_far_stands() -> None:
    """First the reading before meat on, then the median since, and none from after the pit was moved."""
    assert pit_of(asked_at(0)) == [(0, 240, 240)]
    assert pit_of(asked_at(2)) == [(0, 260, 260)]
    assert pit_of(asked_at(3)) == [(0, 255, 255)]
    assert pit_of(asked_at(7)) == [(0, 255, 255), (200, 275, 275)]


def test_without_any_pit_the_usual_one_of_the_cut_stands() -> None:
    """Somebody who never wrote the pit down ran it as most people do."""
    (pit,) = asked_at(1, "0,40,,\n", "60,75,,\n").pit
    assert (pit.low_c, pit.high_c) == (BUTT.pit_c.typical, BUTT.pit_c.typical)


def test_the_intended_wrap_is_known_from_the_start() -> None:
    """The head of the log tells what was meant; without it the wrap is open."""
    assert asked_at(1, head=HEAD + "# wrap: boat\n").wrap_plan is Wrap.BOAT
    assert asked_at(1).wrap_plan is None


def test_a_target_that_is_reached_gives_the_time_it_was() -> None:
    """After the crossing all quantiles lie between the readings around it."""
    last = list(replay(log_of(*ROWS), BUTT, (TARGET_C,)))[-1]
    (answer,) = last.answers
    for minute in (answer.p10, answer.p50, answer.p90):
        assert minute is not None
        assert 390 <= minute <= 450


def test_quantiles_are_in_order_and_to_a_tenth_of_a_minute() -> None:
    """Ten, fifty and ninety per cent, in minutes since meat on; a higher target is never sooner."""
    targets = (c_from_f(165.0), TARGET_C)
    found: list[Asked] = list(replay(log_of(*ROWS[:5]), BUTT, targets))
    for asked in found:
        for answer in asked.answers:
            assert answer.p10 is not None
            assert answer.p50 is not None
            assert answer.p10 <= answer.p50 <= (answer.p90 or 1e9)
            assert round(answer.p50, 1) == answer.p50
        low, high = (answer.p50 or 1e9 for answer in asked.answers)
        assert low <= high
