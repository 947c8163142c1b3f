"""The committed evenings of a pit on its way up: the clock time ten minutes ahead, and how sure it may be called."""

from __future__ import annotations

from tests.skill.rising import Foretold, evenings, foretell
from tests.skill.scores import band, middle


def foretold(*, kind_known: bool) -> list[Foretold]:
    """Return every forecast ten minutes ahead that has two readings or more."""
    return [one for row in evenings() if (one := foretell(row, kind_known=kind_known)) is not None]


def test_ten_minutes_ahead_the_clock_time_is_right_to_four_minutes() -> None:
    """Half of the forecasts of a rising pit are at most 4 min off, whether the kind of cooker is known or not."""
    for kind_known in (True, False):
        found = foretold(kind_known=kind_known)
        assert len(found) > 100
        assert middle([abs(one.error_min) for one in found]) <= 4.0
        assert abs(middle([one.error_min for one in found])) <= 2.5


def test_eight_of_ten_truths_lie_in_the_middle_eighty_percent() -> None:
    """The 80 % window holds as many truths as chance allows, and is narrow enough to be worth saying."""
    found = foretold(kind_known=True)
    low, high = band(0.8, len(found))
    assert low <= sum(one.in_80 for one in found) / len(found) <= high
    assert middle([one.width_min for one in found]) < 20.0


def test_every_kind_is_foretold() -> None:
    """No kind of cooker is more than six minutes off in the middle: five of them stand in the table."""
    found = foretold(kind_known=True)
    kinds = {one.kind for one in found}
    assert len(kinds) == 5
    for kind in kinds:
        assert middle([abs(one.error_min) for one in found if one.kind == kind]) <= 6.0
