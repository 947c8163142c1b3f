"""When the meat is read next: as usual when a reading tells something, later when it does not."""

from __future__ import annotations

import dataclasses
import datetime as dt
import typing
from collections.abc import Callable
from types import SimpleNamespace

import pytest

from scheduler.facts import PutOff, Wrap
from scheduler.forecast import Forecast, Worth
from scheduler.planning.outlook import Outlook, Window
from scheduler.planning.worth import LATER, worth_reading_at
from tests.unit.scheduler.logbook import Logbook, at, cooking, cut, dinner, minutes_of, planned

NOTHING = Worth(narrows=dt.timedelta(minutes=14), turns=0.09)


class _Foretold:
    """A forecast that gives readings this worth and expects the first feel at a time; nothing else is asked."""

    def __init__(self, worth: Callable[[dt.datetime], Worth], testing: float) -> None:
        self._worth, self._testing = worth, testing

    def worth_reading(self, when: dt.datetime, *, by: dt.datetime | None = None) -> Worth:
        """Return what a reading then would bring; dinner is far away."""
        assert by is not None
        return self._worth(when)

    def crossing(self, core_temp_c: float) -> SimpleNamespace:
        """Return when the first feel is due, without doubt."""
        assert core_temp_c == cut().start_testing_c
        return SimpleNamespace(quantile=lambda _p: at(self._testing))


def _foretold(log: Logbook, worth: Callable[[dt.datetime], Worth], *, early: float, testing: float = 2000) -> Outlook:
    """Return the outlook of a cook with such a forecast, and with a pull from `early` on."""
    forecast = typing.cast("Forecast", _Foretold(worth, testing))
    pull = Window(early=at(early), likely=at(early + 60), late=at(early + 120))
    return dataclasses.replace(log.situation.outlook, forecast=forecast, pull=pull)


def _next(worth: Callable[[dt.datetime], Worth], *, early: float = 1000, testing: float = 2000) -> float | None:
    log = cooking()
    return minutes_of(worth_reading_at(at(300), log.state, _foretold(log, worth, early=early, testing=testing), cut()))


@pytest.mark.parametrize(
    "worth",
    [Worth(narrows=dt.timedelta(minutes=15), turns=0.0), Worth(narrows=dt.timedelta(), turns=0.1)],
    ids=["narrower", "may turn dinner"],
)
def test_a_reading_that_tells_something_is_asked_for_as_usual(worth: Worth) -> None:
    """A window narrower by a quarter of an hour, or one chance in ten of another verdict: the usual time stands."""
    assert _next(lambda _when: worth) == 300


def test_a_reading_that_tells_nothing_yet_waits_for_the_first_that_does() -> None:
    """Looked at by quarters of an hour."""
    telling = Worth(narrows=dt.timedelta(minutes=40), turns=0.0)
    assert _next(lambda when: telling if when >= at(320) else NOTHING) == 330


def test_nothing_is_put_off_for_longer_than_an_hour() -> None:
    """However little it tells: the meat is seen every two hours."""
    assert _next(lambda _when: NOTHING) == 300 + LATER / dt.timedelta(minutes=1)


@pytest.mark.parametrize(
    ("early", "testing", "due"),
    [(350, 2000, 300), (380, 2000, 320), (1000, 325, 325), (1000, 290, 300)],
    ids=["last hour", "until the last hour", "until the first feel", "after it"],
)
def test_near_the_end_nothing_is_put_off(early: float, testing: float, due: float) -> None:
    """In the last hour before the earliest pull, and from the first feel on, the usual time stands."""
    assert _next(lambda _when: NOTHING, early=early, testing=testing) == due


def test_what_was_told_since_is_judged_from_then_on() -> None:
    """The fire was read after the usual time and made a reading worthwhile: from then on, never in hindsight."""
    log = cooking()
    log.tell(PutOff(step="spritz", until=at(900)), 320)
    telling = Worth(narrows=dt.timedelta(minutes=40), turns=0.0)
    assert worth_reading_at(at(300), log.state, _foretold(log, lambda _when: telling, early=1000), cut()) == at(320)


# --- in the schedule --------------------------------------------------------------------------------------------------


def _brisket() -> Logbook:
    """Return a bare brisket, read at 150 and at 215 as asked, with dinner far away."""
    plan = planned(cut="brisket_packer", wrap=Wrap.NONE, serving=dinner(1440), pit_low_c=121.0, pit_high_c=121.0)
    log = cooking(plan)
    for number, (minutes, value_c) in enumerate(((150, 25.0), (215, 40.0)), start=1):
        log.read(value_c, minutes)
        log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], answers=(f"p1/core_read/{number}",)))
    return log


def test_in_a_cook_the_reading_comes_within_an_hour_of_its_usual_time() -> None:
    """Never before its rhythm, never more than two hours after the last."""
    due = _brisket().due("core_read")
    assert due is not None
    assert 275 <= due <= 335


def test_two_readings_come_in_their_rhythm() -> None:
    """The first and the second show that the meat rises at all: they are not put off."""
    log = cooking(planned(cut="brisket_packer", serving=dinner(1440), pit_low_c=121.0, pit_high_c=121.0))
    assert log.due("core_read") == 150
    log.read(25.0, 150)
    log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], answers=("p1/core_read/1",)))
    assert log.due("core_read") == 210


def test_what_a_person_asked_for_comes_then() -> None:
    """Asked again in twenty minutes means then, whatever a reading then would tell."""
    log = _brisket()
    log.tell(PutOff(step="core_read", until=at(295)), 275)
    assert log.due("core_read") == 295


def test_steps_of_safety_stay_where_they_are() -> None:
    """The four-hour check is due at four hours."""
    assert _brisket().due("come_up_check") == 300
