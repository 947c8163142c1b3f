"""The real alarm clock, with a wall clock that the test can set."""

from __future__ import annotations

import asyncio
import datetime as dt
import logging

import pytest

from bot.alarm.system import SystemAlarm, utc_now
from bot.ports import Alarm

PATIENCE_S = 5.0
SOON = dt.timedelta(milliseconds=30)


class Bell:
    """Counts rings and lets a test wait for the next one."""

    def __init__(self) -> None:
        self.rings = 0
        self._rung = asyncio.Event()

    def ring(self) -> None:
        self.rings += 1
        self._rung.set()

    async def wait(self) -> None:
        await asyncio.wait_for(self._rung.wait(), PATIENCE_S)
        self._rung.clear()


@pytest.mark.asyncio
async def test_it_rings_at_the_armed_instant() -> None:
    """An armed instant rings once, at or after that instant, and the port is kept."""
    alarm: Alarm = SystemAlarm()
    bell = Bell()
    alarm.start(bell.ring)
    armed_at = utc_now() + SOON
    alarm.arm(armed_at)
    await bell.wait()
    assert alarm.now() >= armed_at
    assert bell.rings == 1
    alarm.stop()


@pytest.mark.asyncio
async def test_a_wake_that_was_missed_rings_at_once() -> None:
    """An instant hours ago is not dropped as a misfire."""
    alarm = SystemAlarm()
    bell = Bell()
    alarm.start(bell.ring)
    alarm.arm(utc_now() - dt.timedelta(hours=9))
    await bell.wait()
    alarm.stop()


@pytest.mark.asyncio
async def test_arming_replaces_what_was_armed() -> None:
    """Only the newest armed instant counts: there is one job and no more."""
    alarm = SystemAlarm()
    bell = Bell()
    alarm.start(bell.ring)
    alarm.arm(utc_now() + SOON)
    alarm.arm(utc_now() + dt.timedelta(hours=1))
    await asyncio.sleep(3 * SOON.total_seconds())
    assert bell.rings == 0
    alarm.arm(utc_now() + SOON)
    alarm.arm(None)
    await asyncio.sleep(3 * SOON.total_seconds())
    assert bell.rings == 0
    alarm.stop()


@pytest.mark.asyncio
async def test_arming_the_past_during_a_ring_rings_again() -> None:
    """Whoever is rung may arm an instant that is already due, many times in a row, and none is dropped."""
    alarm = SystemAlarm()
    rung = asyncio.Event()
    left = 20

    def ring() -> None:
        nonlocal left
        left -= 1
        if left:
            alarm.arm(utc_now())
        else:
            rung.set()

    alarm.start(ring)
    alarm.arm(utc_now())
    await asyncio.wait_for(rung.wait(), PATIENCE_S)
    alarm.stop()


@pytest.mark.asyncio
async def test_the_sweep_rings_with_nothing_armed() -> None:
    """A ring comes at each sweep even when nobody armed anything, and none after stopping."""
    alarm = SystemAlarm(sweep_for=SOON)
    bell = Bell()
    alarm.start(bell.ring)
    await bell.wait()
    await bell.wait()
    alarm.stop()
    heard = bell.rings
    await asyncio.sleep(3 * SOON.total_seconds())
    assert bell.rings == heard


@pytest.mark.asyncio
@pytest.mark.parametrize("hours", [8, -8])
async def test_a_clock_jump_is_noticed_and_the_sweep_goes_on(hours: int, caplog: pytest.LogCaptureFixture) -> None:
    """A machine that slept, or whose clock was set, rings at the next sweep and says so in the log."""
    moved = dt.timedelta()
    alarm = SystemAlarm(clock=lambda: utc_now() + moved, sweep_for=SOON)
    bell = Bell()
    alarm.start(bell.ring)
    with caplog.at_level(logging.WARNING, logger="bot.alarm.system"):
        await bell.wait()
        assert caplog.records == []
        moved = dt.timedelta(hours=hours)
        await bell.wait()
    assert ["the clock moved" in record.getMessage() for record in caplog.records] == [True]
    await bell.wait()
    alarm.stop()


@pytest.mark.asyncio
async def test_a_ring_that_fails_does_not_end_the_sweep() -> None:
    """An error in whoever is rung costs that ring only."""
    alarm = SystemAlarm(sweep_for=SOON)
    bell = Bell()
    loop = asyncio.get_running_loop()
    faults: list[object] = []
    loop.set_exception_handler(lambda _, context: faults.append(context.get("exception")))

    def ring() -> None:
        bell.ring()
        if bell.rings == 1:
            message = "a fault in the ring"
            raise ValueError(message)

    alarm.start(ring)
    await bell.wait()
    await bell.wait()
    alarm.stop()
    assert len(faults) == 1
