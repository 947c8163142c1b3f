"""The alarm clock that is moved by hand."""

from __future__ import annotations

import datetime as dt

import pytest

from bot.alarm.manual import AlarmStuck, ManualAlarm
from bot.ports import Alarm

NOON = dt.datetime(2026, 9, 5, 12, 0, tzinfo=dt.UTC)
MINUTE = dt.timedelta(minutes=1)


def test_it_is_an_alarm() -> None:
    """It fits the port, so the program cannot tell it from the real one."""
    alarm: Alarm = ManualAlarm(NOON)
    assert alarm.now() == NOON


def test_it_rings_at_each_armed_instant_in_order() -> None:
    """Moving over several instants rings at each of them, with `now` being that instant."""
    alarm = ManualAlarm(NOON)
    plan = [NOON + 5 * MINUTE, NOON + 7 * MINUTE, NOON + 30 * MINUTE]
    heard: list[dt.datetime] = []

    def ring() -> None:
        heard.append(alarm.now())
        alarm.arm(plan[len(heard)] if len(heard) < len(plan) else None)

    alarm.start(ring)
    alarm.arm(plan[0])
    assert alarm.advance_to(NOON + 10 * MINUTE) == 2
    assert heard == plan[:2]
    assert alarm.now() == NOON + 10 * MINUTE
    assert alarm.armed_at == plan[2]


def test_an_instant_already_past_rings_once_at_the_present() -> None:
    """What was armed for the past rings at the next advance, without moving time back."""
    alarm = ManualAlarm(NOON)
    heard: list[dt.datetime] = []
    alarm.start(lambda: heard.append(alarm.now()))
    alarm.arm(NOON - MINUTE)
    alarm.advance_to(NOON + MINUTE)
    assert heard == [NOON]


def test_time_does_not_go_back() -> None:
    """An earlier instant is refused and time stays where it was."""
    alarm = ManualAlarm(NOON)
    with pytest.raises(ValueError, match="backwards"):
        alarm.advance_to(NOON - MINUTE)
    assert alarm.now() == NOON


def test_disarmed_or_stopped_it_is_silent() -> None:
    """Neither after disarming nor after stopping does it ring."""
    alarm = ManualAlarm(NOON)
    heard: list[dt.datetime] = []
    alarm.start(lambda: heard.append(alarm.now()))
    alarm.arm(NOON + MINUTE)
    alarm.arm(None)
    alarm.advance_to(NOON + 2 * MINUTE)
    alarm.arm(NOON + 3 * MINUTE)
    alarm.stop()
    alarm.advance_to(NOON + 4 * MINUTE)
    assert heard == []


def test_a_plan_that_never_settles_is_a_fault() -> None:
    """Arming the present again and again ends in an error and not in an endless loop."""
    alarm = ManualAlarm(NOON)
    alarm.start(lambda: alarm.arm(NOON))
    alarm.arm(NOON)
    with pytest.raises(AlarmStuck):
        alarm.advance_to(NOON + MINUTE)
