"""Wrong readings, gaps, a moved probe, late starts of reading and far too many: none of them wrecks the forecast."""

from __future__ import annotations

import numpy as np
import pytest

from scheduler.facts import Wrap
from scheduler.forecast import assimilate, forecast, model
from scheduler.forecast.inputs import MAX_READINGS, inputs
from tests.unit.scheduler.forecast.questions import STALLED, cut, hours, question, read

BRISKET = cut("brisket_packer")
LATE = (*STALLED, (8.0, 72.0), (9.0, 77.0), (10.0, 82.0))
Points = tuple[tuple[float, float], ...]

WRONG = {
    "bone": lambda c: c + 25.0,
    "shallow": lambda c: c - 25.0,
    "celsius meant": lambda c: (c - 32.0) / 1.8,
    "fahrenheit meant": lambda c: 1.8 * c + 32.0,
    "digit lost": lambda c: c / 10.0,
}


def _end_h(points: Points, p: float = 0.5) -> float:
    asked = question(BRISKET, wrap_plan=Wrap.PAPER, readings=read(*points))
    return hours(forecast(asked).crossing(93.0), p)


def _with_wrong(good: Points, index: int, wrong: str) -> Points:
    hour, core_c = good[index]
    return (*good[:index], (hour, WRONG[wrong](core_c)), *good[index + 1 :])


@pytest.mark.parametrize("wrong", WRONG)
@pytest.mark.parametrize("good", [STALLED[:4], STALLED, LATE], ids=["early", "in the stall", "late"])
def test_one_wild_earlier_reading_moves_the_median_by_less_than_twenty_minutes(good: Points, wrong: str) -> None:
    """Whichever of the earlier readings it is, the end stays where the others say."""
    told = _end_h(good)
    moved = [60 * abs(_end_h(_with_wrong(good, index, wrong)) - told) for index in range(len(good) - 1)]
    assert max(moved) < 20.0


@pytest.mark.parametrize("wrong", ["bone", "shallow"])
@pytest.mark.parametrize("good", [STALLED[:4], STALLED, LATE], ids=["early", "in the stall", "late"])
def test_a_wild_newest_reading_moves_it_less_than_half_as_far_as_if_believed(
    good: Points, wrong: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nobody can tell yet whether it is wrong; it is believed by less than half until a second spot is read."""
    without, wild = good[:-1], _with_wrong(good, len(good) - 1, wrong)
    seen = _end_h(wild)
    with monkeypatch.context() as changed:
        changed.setattr(assimilate, "_distrust", lambda _, told_c, __: np.ones(len(told_c)))
        model.forget()
        believed = _end_h(wild)
    model.forget()
    assert abs(seen - _end_h(without)) < 0.5 * abs(believed - _end_h(without))


def test_two_wild_readings_among_ten_are_both_left_out() -> None:
    """One against bone early, one in the wrong unit late: less than half an hour."""
    wild = _with_wrong(_with_wrong(LATE, 2, "bone"), 7, "celsius meant")
    assert _end_h(wild) == pytest.approx(_end_h(LATE), abs=0.5)


def test_a_second_reading_that_agrees_with_a_jump_is_believed() -> None:
    """A jump that a second spot confirms is no outlier: foil nobody told of, a fire that ran hot."""
    once, twice = _end_h((*STALLED, (8.0, 78.0))), _end_h((*STALLED, (8.0, 78.0), (8.1, 78.5)))
    assert twice < _end_h(STALLED) - 0.5
    assert twice < once + 0.1


def test_a_gap_of_five_hours_is_bridged() -> None:
    """Read at three hours and at eight: between what all readings say, a little wider, and no earlier than now."""
    gap, full = (*STALLED[:3], (8.0, 70.0)), (*STALLED, (8.0, 70.0))
    assert _end_h(gap) == pytest.approx(_end_h(full), abs=1.0)
    assert _end_h(gap, 0.9) - _end_h(gap, 0.1) > 0.9 * (_end_h(full, 0.9) - _end_h(full, 0.1))
    assert _end_h(gap, 0.01) > 8.0


@pytest.mark.parametrize("moved_c", [-4.0, 4.0])
def test_a_moved_probe_is_followed_but_not_at_once(moved_c: float) -> None:
    """All readings from the fifth hour on 4 C off: the end moves the way they point, by less than two hours."""
    moved = tuple((hour, core_c + (moved_c if hour >= 5 else 0.0)) for hour, core_c in LATE)
    shift = _end_h(moved) - _end_h(LATE)
    assert abs(shift) < 2.0
    assert shift * moved_c < 0.0


def test_readings_that_begin_after_six_hours_are_enough() -> None:
    """66 and 68 C at six and seven hours say nearly the same end as all seven readings, hardly less surely."""
    late = STALLED[5:]
    assert _end_h(late) == pytest.approx(_end_h(STALLED), abs=0.75)
    assert _end_h(late, 0.9) - _end_h(late, 0.1) < 2.0 * (_end_h(STALLED, 0.9) - _end_h(STALLED, 0.1))


def test_sixty_readings_are_thinned_to_the_same_answer() -> None:
    """Every six minutes on the same curve: the newest half stays whole, the end within half an hour of seven readings.

    More readings are never a reason for a wider answer.
    """
    hour = np.linspace(1.0, 7.0, 60)
    core_c = np.interp(hour, *np.array(STALLED).T)
    many = tuple(zip(hour.tolist(), core_c.tolist(), strict=True))
    kept = inputs(question(BRISKET, readings=read(*many))).readings
    assert len(kept) == MAX_READINGS
    assert [sample.value_c for sample in kept[-24:]] == core_c[-24:].tolist()
    assert _end_h(many) == pytest.approx(_end_h(STALLED), abs=0.5)
    assert _end_h(many, 0.9) - _end_h(many, 0.1) < 1.05 * (_end_h(STALLED, 0.9) - _end_h(STALLED, 0.1))
