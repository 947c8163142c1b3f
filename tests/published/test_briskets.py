"""The pair of briskets of Texas A&M (read, text only): bare 13 h and more, in foil from 4 h about 9 h, both to 90.6 C.

Brisket stall demonstrated during Camp Brisket, Texas A&M AgriLife Meat Science, 7 February 2013; pit 107 to 121 C,
masses not given: the usual one is taken.
"""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import Wrap
from scheduler.forecast import Observation, WrapEvent, forecast
from tests.unit.scheduler.forecast.questions import ON_AT, after, cut, hours, question

BRISKET = cut("brisket_packer")
END_C = 90.6


def test_the_bare_brisket_takes_thirteen_hours_and_more() -> None:
    """The prior's median without a wrap lies between 12.5 and 16 h, and 13 h inside its 80 %. Reached: 15.1 h."""
    bare = forecast(question(BRISKET, pit_c=(107, 121), wrap_plan=Wrap.NONE)).crossing(END_C)
    assert 12.5 < hours(bare) < 16.0
    assert hours(bare, 0.1) < 13.0 < hours(bare, 0.9)


def test_the_brisket_in_foil_from_four_hours_takes_about_nine() -> None:
    """The prior's median with foil from 4 h on lies within 10 % of 9 h. Reached: 8.5 h."""
    wraps = (WrapEvent(at=after(4), wrap=Wrap.FOIL),)
    foiled = forecast(question(BRISKET, pit_c=(107, 121), wraps=wraps)).crossing(END_C)
    assert hours(foiled) == pytest.approx(9.0, rel=0.10)


def test_the_stall_is_where_it_was_seen() -> None:
    """Level near 60 C at 6 h, 65.6 C near 8 h (an interpretation of the text): both inside the prior's 80 %.

    Reached: medians 5.4 and 6.9 h.
    """
    bare = forecast(question(BRISKET, pit_c=(107, 121), wrap_plan=Wrap.NONE))
    assert hours(bare.crossing(60.0), 0.1) < 6.0 < hours(bare.crossing(60.0), 0.9)
    assert hours(bare.crossing(65.56), 0.1) < 8.0 < hours(bare.crossing(65.56), 0.9)


def test_with_the_two_readings_of_the_stall_the_end_stays_within_three_and_a_half_hours() -> None:
    """From 60 C at 6 h and 65.6 C at 8 h the median for 90.6 C is later than told, 16.2 h for 13 and more: poor."""
    readings = tuple(
        Observation(at=ON_AT + dt.timedelta(hours=hour), value_c=temp_c) for hour, temp_c in ((6, 60.0), (8, 65.56))
    )
    told = forecast(question(BRISKET, pit_c=(107, 121), wrap_plan=Wrap.NONE, readings=readings)).crossing(END_C)
    assert 13.0 < hours(told) < 16.5
