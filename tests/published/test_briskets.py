"""The pair of briskets of Texas A&M (read, text only): bare 13 h and more, in foil from 4 h about 9 h, both to 90.6 C.

Brisket stall demonstrated during Camp Brisket, Texas A&M AgriLife Meat Science, 7 February 2013; pit 107 to 121 C.
Masses are not given: a trimmed brisket of 5 kg is taken, for which the trade's durations are stated too.
"""

from __future__ import annotations

import pytest

from scheduler.facts import Wrap
from scheduler.forecast import Forecast, WrapEvent, forecast
from tests.unit.scheduler.forecast.questions import after, cut, hours, question, read

END_C = 90.6
LEVEL = (6.0, 60.0)
"""Level near 60 C; the hour is an interpretation of the text."""
LATER = (8.0, 65.56)


def _brisket(*points: tuple[float, float], mass_kg: float = 5.0, foil: bool = False) -> Forecast:
    wraps = (WrapEvent(at=after(4), wrap=Wrap.FOIL),) if foil else ()
    asked = question(
        cut("brisket_packer"),
        mass_kg=mass_kg,
        pit_c=(107, 121),
        wraps=wraps,
        wrap_plan=Wrap.NONE,
        readings=read(*points),
    )
    return forecast(asked)


def test_the_bare_brisket_takes_thirteen_hours_and_more() -> None:
    """The prior's median without a wrap lies between 12.5 and 16 h, and 13 h inside its 80 %.

    Reached: 14.7 h, 80 % 10.5 to 21.0. At the cut's typical 6 kg: 15.8 h.
    """
    bare = _brisket().crossing(END_C)
    assert 12.5 < hours(bare) < 16.0
    assert hours(bare, 0.1) < 13.0 < hours(bare, 0.9)
    assert hours(_brisket(mass_kg=6.0).crossing(END_C)) > hours(bare)


def test_the_brisket_in_foil_from_four_hours_takes_about_nine() -> None:
    """The prior's median with foil from 4 h on lies within 15 % of 9 h. Reached: 9.4 h, at 6 kg 10.1."""
    foiled = _brisket(foil=True).crossing(END_C)
    assert hours(foiled) == pytest.approx(9.0, rel=0.15)
    assert hours(foiled, 0.1) < 9.0 < hours(foiled, 0.9)


def test_foil_saves_what_it_saved_on_the_pair() -> None:
    """13 h and more against 9: four hours or a little more. Reached: 5.2 h."""
    assert 3.0 < hours(_brisket().crossing(END_C)) - hours(_brisket(foil=True).crossing(END_C)) < 6.0


def test_the_stall_is_where_it_was_seen() -> None:
    """Level near 60 C at 6 h, 65.6 C near 8 h (an interpretation of the text): both inside the prior's 80 %.

    Reached: medians 5.7 and 7.1 h.
    """
    for hour, core_c in (LEVEL, LATER):
        passes = _brisket().crossing(core_c)
        assert hours(passes, 0.1) < hour < hours(passes, 0.9)


def test_with_the_two_readings_of_the_stall_the_end_stays_near() -> None:
    """From 60 C at 6 h and 65.6 C at 8 h the median for 90.6 C is between 13 and 16.5 h, and 13 h is not ruled out.

    Reached: 15.6 h, one in ten before 12.7. Only "13 and more" is told, so that nothing finer can be shown.
    """
    told = _brisket(LEVEL, LATER).crossing(END_C)
    assert 13.0 < hours(told) < 16.5
    assert hours(told, 0.1) < 13.5
