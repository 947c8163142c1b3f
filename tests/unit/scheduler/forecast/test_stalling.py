"""Where a piece stands with its stall: told from readings, expected before them, absent where nothing stalls."""

from __future__ import annotations

import pytest

from scheduler.facts import Wrap
from scheduler.forecast import StallOutlook, StallPhase, WrapEvent, forecast
from tests.unit.scheduler.forecast.questions import STALLED, after, cut, hours, question, read

BRISKET = cut("brisket_packer")
OUT_OF_IT = (*STALLED, (8.0, 71.0), (9.0, 76.0), (10.0, 81.5), (11.0, 87.0))


def _bare(points: tuple[tuple[float, float], ...]) -> StallOutlook:
    return forecast(question(BRISKET, wrap_plan=Wrap.NONE, readings=read(*points))).stall()


@pytest.mark.parametrize("name", ["brisket_packer", "pork_butt"])
def test_before_any_reading_a_big_piece_has_its_stall_ahead(name: str) -> None:
    """Bare: most members stall, it begins after hours and lasts one or more."""
    stall = forecast(question(cut(name), wrap_plan=Wrap.NONE)).stall()
    assert stall.phase is StallPhase.AHEAD
    assert stall.share > 0.5
    assert stall.begins is not None
    assert stall.ends is not None
    assert 3.0 < hours(stall.begins) < 8.0
    assert hours(stall.ends) > hours(stall.begins) + 1.0


def test_warming_meat_has_not_begun_to_stall() -> None:
    """At 46 C after three hours it is ahead."""
    assert _bare(STALLED[:3]).phase is StallPhase.AHEAD


def test_a_slow_rise_near_67_is_within() -> None:
    """66 to 68 C in an hour: in it since some hour that has passed, with an end that has not."""
    stall = _bare(STALLED)
    assert stall.phase is StallPhase.WITHIN
    assert stall.share > 0.6
    assert stall.begins is not None
    assert stall.ends is not None
    assert 4.0 < hours(stall.begins) <= 7.0 < hours(stall.ends) < 16.0


def test_rising_again_it_is_behind() -> None:
    """After five degrees an hour up to 87 C nobody waits for the end of a stall."""
    stall = _bare(OUT_OF_IT)
    assert stall.phase is StallPhase.BEHIND
    assert stall.share > 0.8
    assert stall.ends is not None
    assert hours(stall.ends) < 11.0


def test_the_phases_come_in_their_order() -> None:
    """As readings come in: ahead, within, behind, and never back."""
    order = [StallPhase.AHEAD, StallPhase.WITHIN, StallPhase.BEHIND]
    seen = [order.index(_bare(OUT_OF_IT[:count]).phase) for count in range(len(OUT_OF_IT) + 1)]
    assert seen == sorted(seen)
    assert set(seen) == {0, 1, 2}


@pytest.mark.parametrize("name", ["brisket_packer", "pork_butt", "beef_chuck_ribs"])
def test_in_foil_from_the_first_hour_no_stall_is_expected(name: str) -> None:
    """Wrapped before it could dry, nothing cools the surface: unlikely, and neither beginning nor end."""
    stall = forecast(question(cut(name), wraps=(WrapEvent(at=after(1), wrap=Wrap.FOIL),))).stall()
    assert stall.phase is StallPhase.UNLIKELY
    assert stall.share > 0.75
    assert stall.begins is None
    assert stall.ends is None


def test_a_fast_cook_in_foil_is_not_in_a_stall() -> None:
    """83 C after four hours in foil: unlikely or behind, four times in five."""
    fast = read((0.5, 20), (1, 34), (2, 55), (3, 72), (3.5, 78), (4, 83))
    asked = question(BRISKET, pit_c=150, wraps=(WrapEvent(at=after(1), wrap=Wrap.FOIL),), readings=fast)
    stall = forecast(asked).stall()
    assert stall.phase in {StallPhase.UNLIKELY, StallPhase.BEHIND}
    assert stall.share > 0.75


def test_foil_in_the_stall_ends_it_sooner() -> None:
    """Foil at seven hours: the expected end is earlier than bare."""
    asked = question(BRISKET, readings=read(*STALLED), wraps=(WrapEvent(at=after(7), wrap=Wrap.FOIL),))
    foiled, bare = forecast(asked).stall().ends, _bare(STALLED).ends
    assert foiled is not None
    assert bare is not None
    assert hours(foiled) < hours(bare) - 1.0


def test_a_share_is_a_probability() -> None:
    """Between the share of an even guess among four and one."""
    for count in range(len(OUT_OF_IT) + 1):
        assert 0.25 <= _bare(OUT_OF_IT[:count]).share <= 1.0 + 1e-9
