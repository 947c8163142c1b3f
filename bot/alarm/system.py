"""The real alarm clock: APScheduler rings at the armed instant, a sweep rings anyway.

It holds one job in memory and must not be used as a calendar: each ring reads what is due from the database.

Why two timers. The scheduler sleeps on the monotonic clock, which stands still while a machine sleeps, and
it looks at the wall clock only when it wakes. After a sleep, or when the clock was set, the armed instant
would ring late; a scheduler job for the sweep would go silent as long as a clock that was set back needs to
catch up. The sweep therefore hangs on the event loop's own timer, and makes the scheduler look at the wall
clock.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import logging
from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from apscheduler.schedulers.asyncio import AsyncIOScheduler

log = logging.getLogger(__name__)

JOB = "ring"
SWEEP_FOR = dt.timedelta(seconds=20)
JUMP_FOR = dt.timedelta(seconds=2)
"""Wall and monotonic clock differing by more than this between sweeps: sleep, or the clock was set."""
MOST_RINGS_AT_ONCE = 100
"""A ring ends at once; a low limit would make the scheduler drop one that was armed during a ring."""


def utc_now() -> dt.datetime:
    """Return the present instant (aware, UTC)."""
    return dt.datetime.now(dt.UTC)


class SystemAlarm:
    """Rings on the running event loop. Start, arm and stop from that loop only."""

    def __init__(self, *, clock: Callable[[], dt.datetime] = utc_now, sweep_for: dt.timedelta = SWEEP_FOR) -> None:
        self._clock = clock
        self._sweep_for = sweep_for
        self._scheduler: AsyncIOScheduler | None = None
        self._sweep: asyncio.TimerHandle | None = None
        self._ring: Callable[[], None] = _nobody

    def now(self) -> dt.datetime:
        """Return the present instant (aware, UTC)."""
        return self._clock()

    def start(self, ring: Callable[[], None]) -> None:
        """Ring this at armed instants and at each sweep, until `stop`."""
        from apscheduler.schedulers.asyncio import AsyncIOScheduler  # noqa: PLC0415 - a window opens before it rings

        self._ring = ring
        self._scheduler = AsyncIOScheduler(timezone=dt.UTC)
        self._scheduler.start()
        self._plan_sweep()

    def arm(self, at: dt.datetime | None) -> None:
        """Ring at this instant instead of the one armed before; at once when it is past. None disarms."""
        if self._scheduler is None:
            return
        if at is None:
            if self._scheduler.get_job(JOB) is not None:
                self._scheduler.remove_job(JOB)
            return
        self._scheduler.add_job(
            self._armed_instant_came,
            "date",
            run_date=at.astimezone(dt.UTC),
            id=JOB,
            misfire_grace_time=None,
            coalesce=True,
            replace_existing=True,
            max_instances=MOST_RINGS_AT_ONCE,
        )

    def stop(self) -> None:
        """Stop ringing."""
        self._ring = _nobody
        if self._sweep is not None:
            self._sweep.cancel()
            self._sweep = None
        if self._scheduler is not None:
            self._scheduler.shutdown(wait=False)
            self._scheduler = None

    async def _armed_instant_came(self) -> None:
        # A coroutine, so that the scheduler runs it on the loop and not in a thread.
        self._ring()

    def _plan_sweep(self) -> None:
        loop = asyncio.get_running_loop()
        self._sweep = loop.call_later(self._sweep_for.total_seconds(), self._do_sweep, self._clock(), loop.time())

    def _do_sweep(self, began_at: dt.datetime, began_monotonic_s: float) -> None:
        self._plan_sweep()  # first: a ring that raises must not end the sweep
        passed = dt.timedelta(seconds=asyncio.get_running_loop().time() - began_monotonic_s)
        jumped = (self._clock() - began_at) - passed
        if abs(jumped) > JUMP_FOR:
            log.warning("the clock moved by %s: the machine slept, or its clock was set", jumped)
        if self._scheduler is not None:
            self._scheduler.wakeup()
        self._ring()


def _nobody() -> None:
    """Nobody is listening."""
