"""The stall as readings show it, and what was told when it came or went."""

from __future__ import annotations

import dataclasses
import datetime as dt
import typing
from types import SimpleNamespace

import pytest

from scheduler.cook import Stalled
from scheduler.facts import Reading, Slot, Wrap
from scheduler.forecast import Forecast, StallOutlook, StallPhase
from scheduler.planning.outlook import Window
from scheduler.planning.stall import Stall, stall_of
from tests.unit.scheduler.logbook import Logbook, at, cooking, cut, dinner, planned

CLIMBING = StallOutlook(phase=StallPhase.AHEAD, share=0.9, begins=None, ends=None)
"""A forecast that expects a stall, but not now."""


@dataclasses.dataclass(frozen=True)
class _At:
    """A crossing known within half an hour each way."""

    minutes: float

    def quantile(self, p: float) -> dt.datetime:
        """Return the instant, half an hour earlier or later at the ends."""
        return at(self.minutes + 75 * (p - 0.5))

    def probability_by(self, when: dt.datetime) -> float:
        """Return whether it lies before `when`."""
        return float(at(self.minutes) <= when)


def _expected(phase: StallPhase, share: float = 0.9, begins: float = 290, ends: float = 420) -> StallOutlook:
    return StallOutlook(phase=phase, share=share, begins=_At(begins), ends=_At(ends))


def _foretold(foreseen: StallOutlook) -> Forecast:
    """Return a forecast that says this of the stall; nothing else is asked."""
    return typing.cast("Forecast", SimpleNamespace(stall=lambda: foreseen))


def _read(*points: tuple[float, float]) -> Logbook:
    log = cooking()
    for minutes, value_c in points:
        log.read(value_c, minutes)
    return log


def _stalled(*points: tuple[float, float], foreseen: StallOutlook = CLIMBING) -> bool:
    return _stall(_read(*points), foreseen) is not None


def _stall(log: Logbook, foreseen: StallOutlook = CLIMBING) -> Stall | None:
    stall = stall_of(log.state, cut(), _foretold(foreseen))
    return stall if stall.within else None


def test_hardly_rising_in_the_band_is_a_stall() -> None:
    """A degree in half an hour near 68 C: stalled since the first of the two, at the newest core."""
    stall = _stall(_read((300, 67.0), (330, 68.0)))
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
    stall = _stall(_read((240, 55.0), (270, 62.0), (300, 67.0), (330, 67.5), (360, 68.0)))
    assert stall is not None
    assert stall.since == at(300)


def test_a_start_that_readings_contradict_is_never_said() -> None:
    """Ten degrees Fahrenheit in the first hour are a climb, however slow the average has become since."""
    points = [(240, 61.1), (300, 66.7), (340, 67.2), (380, 67.8), (440, 68.3), (500, 68.9)]
    told = []
    for count in range(2, len(points) + 1):
        stall = _stall(_read(*points[:count]))
        told.append(None if stall is None else stall.since)
    assert told == [None, at(300), at(300), at(300), at(300)]


def test_readings_close_together_make_no_climb() -> None:
    """A degree in five minutes is how whole degrees are read, not a rise."""
    stall = _stall(_read((300, 67.0), (305, 68.0), (340, 68.0)))
    assert stall is not None
    assert stall.since == at(300)


def test_a_falling_core_is_a_stall_too() -> None:
    """Evaporation may cool the meat a little; it is nothing to chase."""
    assert _stalled((300, 68.0), (340, 67.0))


def test_doubtful_readings_and_those_before_the_meat_was_on_do_not_count() -> None:
    """A reading under question neither makes nor ends a stall; nor does the probe in the fridge."""
    log = _read((300, 67.0), (330, 68.0))
    log.read(90.0, 340, doubtful=True)
    assert _stall(log) is not None
    early = Logbook()
    early.read(66.0, 30)
    early.done("meat_on", 60)
    early.read(66.0, 70)
    assert _stall(early) is None


def test_it_is_told_once_when_it_begins_and_once_when_it_ends() -> None:
    """The reading that shows it brings the calm word; the next flat one brings none; the climb ends it."""
    log = cooking()
    told = []
    for minutes, value_c in ((270, 62.0), (300, 67.0), (330, 67.5), (360, 68.0), (390, 73.0)):
        changes = log.taken(Reading(slot=Slot.CORE, value_c=value_c), minutes=minutes)
        told += [(minutes, event.stall is not None) for event in changes.events if isinstance(event, Stalled)]
    assert told == [(330, True), (390, False)]


# --- readings and forecast together ---------------------------------------------------------------------------------


def test_where_readings_are_too_few_a_sure_forecast_is_believed() -> None:
    """One reading in the band, and the forecast is sure: in the stall, with its end; its beginning
    nobody has measured.
    """
    stall = _stall(_read((300, 68.0)), _expected(StallPhase.WITHIN))
    assert stall is not None
    assert (stall.since, stall.core_c) == (None, 68.0)
    assert stall.ends == Window(early=at(390), likely=at(420), late=at(450))


@pytest.mark.parametrize(
    ("points", "share", "phase"),
    [
        (((300, 68.0),), 0.5, StallPhase.AHEAD),
        (((270, 65.0), (300, 68.0)), 0.9, StallPhase.AHEAD),
        (((270, 70.0), (300, 74.0)), 0.9, StallPhase.BEHIND),
        (((300, 80.0),), 0.9, StallPhase.BEHIND),
        ((), 0.9, StallPhase.AHEAD),
    ],
    ids=["not sure", "a climb into the band", "a climb out of it", "above the band", "nothing read"],
)
def test_what_was_measured_outweighs_what_was_foreseen(
    points: tuple[tuple[float, float], ...], share: float, phase: StallPhase
) -> None:
    """A climb that was read, or a core outside the band, is no stall, however sure the forecast was."""
    stall = stall_of(_read(*points).state, cut(), _foretold(_expected(StallPhase.WITHIN, share)))
    assert stall.phase is phase
    assert stall.ends is not None


def test_an_end_lies_ahead_while_it_lasts() -> None:
    """Flat readings say that it goes on: an end that was thought to have passed is now at the earliest."""
    stall = _stall(_read((300, 67.0), (330, 67.5), (430, 68.0)), _expected(StallPhase.BEHIND, ends=420))
    assert stall is not None
    assert stall.ends == Window(early=at(430), likely=at(430), late=at(450))


def test_the_forecast_of_a_cook_knows_its_stall() -> None:
    """A brisket that has just gone on has its stall ahead, with a beginning and an end; the end moves with readings."""
    log = cooking(
        planned(cut="brisket_packer", wrap=Wrap.NONE, serving=dinner(1400), pit_low_c=121.0, pit_high_c=121.0)
    )
    ahead = log.situation.plateau
    assert (ahead.phase, ahead.within) == (StallPhase.AHEAD, False)
    assert ahead.begins is not None
    assert ahead.ends is not None
    assert ahead.begins.likely is not None
    assert ahead.ends.likely is not None
    assert at(120) < ahead.begins.likely < ahead.ends.likely
    for minutes, value_c in ((240, 48.0), (330, 62.0), (400, 67.0), (440, 67.5)):
        log.read(value_c, minutes)
    within = log.situation.stall
    assert within is not None
    assert within.ends is not None
    assert within.ends.likely is not None
    assert within.ends.likely > at(440)
