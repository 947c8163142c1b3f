"""A four-bone plate of beef chuck ribs at 130 to 150 C against what the trade says of it.

Common practice, no source: 82 C between 4 and 5.5 h, tender between 5.5 and 8 h.
"""

from __future__ import annotations

import pytest

from scheduler.facts import Wrap
from scheduler.forecast import Forecast, forecast
from tests.unit.scheduler.forecast.questions import cut, hours, question

MINUTES_H = 0.06
"""Leave for the fit: four minutes."""

PITS = pytest.mark.parametrize("pit_c", [130, 135, 140, 145, 150])
PLANS = pytest.mark.parametrize("plan", [None, Wrap.NONE], ids=["undecided", "bare"])


def _plate(pit_c: float, plan: Wrap | None = None) -> Forecast:
    return forecast(question(cut("beef_chuck_ribs"), pit_c=pit_c, wrap_plan=plan))


@PITS
@PLANS
def test_a_plate_passes_82_c_when_the_trade_says(pit_c: float, plan: Wrap | None) -> None:
    """The median lies between 4 and 5.5 h. Reached bare: 5.4 h at 130, 4.8 at 140, 4.2 at 150 C.

    Undecided, a wrap that may come takes two or three minutes off.
    """
    assert 4.0 - MINUTES_H <= hours(_plate(pit_c, plan).crossing(82.0)) <= 5.5 + MINUTES_H


@PITS
@PLANS
def test_a_plate_is_tender_when_the_trade_says(pit_c: float, plan: Wrap | None) -> None:
    """The median lies between 5.5 and 8 h. Reached bare: 7.1 h at 130, 6.4 at 140, 5.7 at 150 C; undecided 5.6."""
    assert 5.5 - MINUTES_H <= hours(_plate(pit_c, plan).ready()) <= 8.0


def test_one_in_ten_may_still_be_as_slow_as_people_say() -> None:
    """At 135 C the 80 % of tenderness reach from about five hours to beyond eight: no plate is like another.

    Reached: 4.7 to 8.9 h.
    """
    ready = _plate(135).ready()
    assert 4.5 < hours(ready, 0.1) < 5.5
    assert 8.0 < hours(ready, 0.9) < 9.5
