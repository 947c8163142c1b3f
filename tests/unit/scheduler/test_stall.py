"""The stall as readings show it, and what was told when it came or went."""

from __future__ import annotations

import pytest

from scheduler.cook import Stalled
from scheduler.facts import Reading, Slot
from scheduler.planning.stall import stall_of
from tests.unit.scheduler.logbook import Logbook, at, cooking, cut


def _read(*points: tuple[float, float]) -> Logbook:
    log = cooking()
    for minutes, value_c in points:
        log.read(value_c, minutes)
    return log


def _stalled(*points: tuple[float, float]) -> bool:
    return stall_of(_read(*points).state, cut()) is not None


def test_hardly_rising_in_the_band_is_a_stall() -> None:
    """A degree in half an hour near 68 C: stalled since the first of the two, at the newest core."""
    stall = stall_of(_read((300, 67.0), (330, 68.0)).state, cut())
    assert stall is not None
    assert (stall.since, stall.core_c) == (at(300), 68.0)


@pytest.mark.parametrize(
    ("points", "why"),
    [
        (((300, 68.0),), "one reading shows no rise"),
        (((300, 67.0), (324, 67.0)), "24 minutes are too short to tell"),
        (((300, 66.0), (330, 68.0)), "two degrees in half an hour is a rise"),
        (((300, 50.0), (330, 50.5)), "below the band"),
        (((300, 85.0), (330, 85.0)), "above the band"),
        ((), "nothing was read"),
    ],
)
def test_what_is_no_stall(points: tuple[tuple[float, float], ...], why: str) -> None:
    """Too little to go by, or rising, or outside the band of the cut."""
    assert not _stalled(*points), why


def test_a_stall_is_counted_from_where_the_rise_ended() -> None:
    """Rising until 67 C and flat since: the stall began at 67 C, not at the first reading."""
    stall = stall_of(_read((240, 55.0), (270, 62.0), (300, 67.0), (330, 67.5), (360, 68.0)).state, cut())
    assert stall is not None
    assert stall.since == at(300)


def test_a_falling_core_is_a_stall_too() -> None:
    """Evaporation may cool the meat a little; it is nothing to chase."""
    assert _stalled((300, 68.0), (340, 67.0))


def test_doubtful_readings_and_those_before_the_meat_was_on_do_not_count() -> None:
    """A reading under question neither makes nor ends a stall; nor does the probe in the fridge."""
    log = _read((300, 67.0), (330, 68.0))
    log.read(90.0, 340, doubtful=True)
    assert stall_of(log.state, cut()) is not None
    early = Logbook()
    early.read(66.0, 30)
    early.done("meat_on", 60)
    early.read(66.0, 70)
    assert stall_of(early.state, cut()) is None


def test_it_is_told_once_when_it_begins_and_once_when_it_ends() -> None:
    """The reading that shows it brings the calm word; the next flat one brings none; the climb ends it."""
    log = cooking()
    told = []
    for minutes, value_c in ((270, 62.0), (300, 67.0), (330, 67.5), (360, 68.0), (390, 73.0)):
        changes = log.taken(Reading(slot=Slot.CORE, value_c=value_c), minutes=minutes)
        told += [(minutes, event.stall is not None) for event in changes.events if isinstance(event, Stalled)]
    assert told == [(330, True), (390, False)]
