"""Readings that differ: the lower stands until a third one agrees with either."""

from __future__ import annotations

import itertools

import pytest

from scheduler.facts import Corrected, Reading, Slot
from scheduler.safety.contested import contests, standing_readings
from tests.unit.scheduler.logbook import Logbook, at, cooking

Told = tuple[float, float] | tuple[float, float, str | None]


def _log(*told: Told, doubtful: tuple[int, ...] = ()) -> Logbook:
    """Return a cook with readings (minute, °C, spot), those of the given places doubted."""
    log = cooking()
    for place, (minutes, value_c, *spot) in enumerate(told):
        log.read(value_c, minutes, spot=spot[0] if spot else None, doubtful=place in doubtful)
    return log


def _stands(log: Logbook) -> list[float]:
    return [reading.value_c for reading in standing_readings(log.state)]


@pytest.mark.parametrize(
    ("told", "stands"),
    [
        (((300, 64.0), (305, 60.0)), [60.0]),
        (((300, 60.0), (305, 64.0)), [60.0]),
        (((300, 64.0), (310, 60.9)), [60.9]),
        (((300, 64.0), (310, 61.0)), [64.0, 61.0]),
        (((300, 64.0), (310.5, 50.0)), [64.0, 50.0]),
        (((300, 64.0, "flat"), (305, 50.0, "point")), [64.0, 50.0]),
        (((300, 64.0, "flat"), (305, 50.0, "Flat")), [50.0]),
        (((300, 64.0, "flat"), (305, 50.0)), [50.0]),
    ],
)
def test_of_two_that_differ_the_lower_stands(told: tuple[Told, ...], stands: list[float]) -> None:
    """More than 3 C apart within ten minutes at what may be one spot: only the lower counts, in whatever order."""
    assert _stands(_log(*told)) == stands


@pytest.mark.parametrize(
    ("third", "stands"),
    [
        ((308, 65.0), [64.0, 57.0, 65.0]),
        ((308, 58.0), [57.0, 58.0]),
        ((308, 60.5), [57.0]),
        ((308, 50.0), [50.0]),
        ((308, 75.0), [57.0]),
        ((340, 64.0), [57.0, 64.0]),
    ],
)
def test_a_third_settles_it_or_leaves_the_lowest(third: Told, stands: list[float]) -> None:
    """64 and 57: a third near 64 lets it stand; near 57, near neither or half an hour later it does not."""
    assert _stands(_log((300, 64.0), (305, 57.0), third)) == stands


def test_a_third_that_agrees_with_both_settles_nothing() -> None:
    """60 and 56.5, then 58.5 that may be either: 60 does not stand."""
    assert _stands(_log((300, 60.0), (302, 56.5), (304, 58.5))) == [56.5, 58.5]


def test_a_low_reading_after_two_high_ones_contests_both() -> None:
    """The third has to come last: what was agreed on before is no answer to a new low reading."""
    assert _stands(_log((300, 64.0), (302, 64.5), (305, 57.0))) == [57.0]


def test_the_one_that_settles_may_be_the_higher_itself() -> None:
    """64, then 57, then 64.5: both high ones stand, for each is the other's third."""
    assert _stands(_log((300, 64.0), (305, 57.0), (306, 64.5))) == [64.0, 57.0, 64.5]


def test_a_doubted_reading_counts_where_it_is_the_lower() -> None:
    """58 was doubted because 64 was read before: for safety it stands. Doubted and higher, or alone, it does not."""
    assert _stands(_log((300, 64.0), (305, 58.0), doubtful=(1,))) == [58.0]
    assert _stands(_log((300, 58.0), (305, 64.0), doubtful=(1,))) == [58.0]
    assert _stands(_log((300, 95.0), doubtful=(0,))) == []
    assert _stands(_log((300, 95.0), (305, 60.0), doubtful=(0, 1))) == []


def test_a_doubted_reading_settles_nothing() -> None:
    """A third that is itself doubted agrees with nobody."""
    assert _stands(_log((300, 64.0), (305, 57.0), (308, 64.5), doubtful=(2,))) == [57.0]


def test_the_edges_of_ranges_count_in_their_favour() -> None:
    """About 64, give or take 2, does not differ from 60; a plain 64 does."""
    log = cooking()
    log.read(64.0, 300, spread_c=2.0)
    log.read(60.0, 302)
    assert _stands(log) == [64.0, 60.0]


def test_a_mistyped_reading_ends_with_its_correction() -> None:
    """46 was meant as 64: corrected, nothing is contested any more."""
    log = _log((300, 64.0))
    slip = log.read(46.0, 303)
    assert _stands(log) == [46.0]
    log.tell(Corrected(of=slip, body=Reading(slot=Slot.CORE, value_c=64.2)), 304)
    assert _stands(log) == [64.0, 64.2]


def test_only_what_was_read_since_an_instant_is_compared() -> None:
    """Held meat is compared with held meat: a reading from before the pull contests nothing."""
    log = _log((300, 95.0), (305, 70.0))
    assert [r.value_c for r in standing_readings(log.state, since=at(301))] == [70.0]
    assert standing_readings(log.state, Slot.PIT) == ()


def test_the_order_in_which_readings_arrive_does_not_matter() -> None:
    """All orders of the same five readings: the same ones stand."""
    readings = _log((300, 64.0), (300, 57.0), (304, 64.5), (304, 70.0), (312, 61.0)).state.readings
    found = {
        frozenset((c.higher.fact, c.lower.fact) for c in contests(order)) for order in itertools.permutations(readings)
    }
    assert len(found) == 1
