"""The running program: takes in, rings and delivers until told to stop, and takes over when another process
dies.

It knows no words, no commands and no concrete adapter.

Who does what, when several processes share one data folder:

- Whoever holds the engine lock takes in and rings, and delivers to the terminal's screens. All others try the
lock
  every half second; the operating system frees it when its holder dies, however it dies.
- A process that was started with a way out of its own (`serve` and its messenger) delivers to that one,
engine or
  not. So a `serve` started beside a chat window is heard at once: the window decides and writes the outbox,
  `serve` sends. Without a `serve` such messages wait in the outbox.
- Every process writes what it hears into the inbox, and notices the writing of others by the change counter.

A step that fails is logged, told once, and tried again after a growing pause; the other steps go on
meanwhile.
"""

from __future__ import annotations

import asyncio
import contextlib
import dataclasses
import datetime as dt
import logging
import math
from collections.abc import Awaitable, Callable, Iterable, Mapping
from typing import Protocol, TypeVar

from bot.ports import Alarm

T = TypeVar("T")
log = logging.getLogger(__name__)

TRY_LOCK_EVERY_S = 0.5
WATCH_EVERY_S = 0.15
LOOK_EVERY_S = 5.0
"""Every part looks at least this often, whether or not anybody nudged it."""
HEAR_OUT_FOR_S = 10.0
"""So long after the start nothing is rung while the messenger has not answered."""
SHORTEST_WAIT_S = 0.02
BACK_OFF_S = 0.5
LONGEST_BACK_OFF_S = 30.0
STOP_WITHIN_S = 10.0


class Kitchen(Protocol):
    """What decides. Its calls block, so each runs in a thread, one at a time."""

    def take_in(self, now: dt.datetime) -> int:
        """Work on what was accepted; return how many rows."""

    def ring(self, now: dt.datetime) -> int:
        """Send what is due; return how many messages were written."""

    def next_wake_at(self) -> dt.datetime | None:
        """Return when to ring next."""


class Courier(Protocol):
    """What delivers."""

    next_at: dt.datetime | None

    @property
    def locked(self) -> Mapping[str, str]:
        """Transports that refuse us, and why."""

    async def work(self, now: dt.datetime) -> int:
        """Send what may be sent now; return how many."""


class Lock(Protocol):
    """The right to be the engine of a data folder."""

    def try_acquire(self) -> bool:
        """Take the lock if it is free; return whether it is ours now."""


class Changes(Protocol):
    """The part of the store that tells whether others have written."""

    def change_counter(self) -> int:
        """Return a number that changes whenever another process has written."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Listener:
    """Who wants to know how the program itself fares. Called on the loop; must not block."""

    trouble: Callable[[str, Exception], None] = lambda _step, _error: None
    """A step failed, for the first time in a row."""
    recovered: Callable[[str], None] = lambda _step: None
    locked: Callable[[str, str], None] = lambda _transport, _why: None
    """A transport refuses us, and why."""
    leading: Callable[[], None] = lambda: None
    """This process became the engine."""


class Program:
    """One process of the program: `run` it once, inside a running event loop."""

    def __init__(
        self,
        *,
        changes: Changes,
        lock: Lock,
        alarm: Alarm,
        open_kitchen: Callable[[], Kitchen],
        screens: Courier,
        own: Courier | None = None,
        listener: Listener | None = None,
        heard_out: Callable[[], bool] = lambda: True,
    ) -> None:
        """Make a program.

        `open_kitchen` is called in a thread when the lock is ours. `screens` works while this process is the
        engine, `own` always. `heard_out` tells whether what people said before the start has come in: until then,
        or for a few seconds, nothing is rung that they may have answered.
        """
        self._changes = changes
        self._lock = lock
        self._alarm = alarm
        self._open_kitchen = open_kitchen
        self._screens = screens
        self._own = own
        self._heard_out = heard_out
        self._leading_since_s = 0.0
        self._listener = listener or Listener()
        self._stopping = asyncio.Event()
        self._nudges = {part: asyncio.Event() for part in ("engine", "screens", "own")}
        self._steps = _Steps(self._listener)
        self._rung = True
        """Due at once on becoming the engine: whatever fell due while nobody was."""
        self._early_wakes = 0
        self._leading = False

    def stop(self) -> None:
        """End `run` after the steps now running."""
        self._stopping.set()
        self.nudge()

    def nudge(self) -> None:
        """Make every part look again: somebody wrote."""
        for event in self._nudges.values():
            event.set()

    async def run(self, front: Callable[[], Awaitable[None]]) -> None:
        """Work until `front` (a window, a poller) returns, or `stop`. An error of `front` is raised."""
        parts = [self._lead(), self._watch(), self._deliver("screens", self._screens)]
        if self._own is not None:
            parts.append(self._deliver("own", self._own))
        tasks = [asyncio.create_task(part) for part in parts]
        shown = asyncio.ensure_future(front())
        stopped = asyncio.create_task(self._stopping.wait())
        try:
            await asyncio.wait([shown, stopped, *tasks], return_when=asyncio.FIRST_COMPLETED)
        finally:
            self.stop()
            shown.cancel()
            stopped.cancel()
            self._alarm.stop()
            await _end([shown, *tasks])
        for done in (shown, *tasks):
            if not done.cancelled() and (error := done.exception()) is not None:
                raise error

    # --- the engine: intake and ring
    # --------------------------------------------------------------------------------

    async def _lead(self) -> None:
        kitchen = await self._become_engine()
        if kitchen is None:
            return
        self._leading = True
        self._leading_since_s = _monotonic_s()
        self._listener.leading()
        self._alarm.start(self._on_ring)
        self.nudge()
        while not self._stopping.is_set():
            self._nudges["engine"].clear()
            took = await self._steps.do("intake", lambda: self._take_in(kitchen))
            rings = self._rung and self._may_ring()
            rang = await self._steps.do("ring", lambda: self._ring(kitchen)) if rings else None
            if took or rang is not None:
                await self._steps.do("arm", lambda: self._arm(kitchen))
            if took or rang:
                self.nudge()
            await self._rest("engine", SHORTEST_WAIT_S if took else LOOK_EVERY_S, ("intake", "ring", "arm"))

    def _may_ring(self) -> bool:
        """Return whether what was said before the start is known, or was waited for long enough."""
        return self._heard_out() or _monotonic_s() - self._leading_since_s > HEAR_OUT_FOR_S

    async def _become_engine(self) -> Kitchen | None:
        """Return the kitchen once the lock is ours; None when the program stops before that."""
        while not self._stopping.is_set():
            if await self._steps.do("lock", lambda: asyncio.to_thread(self._lock.try_acquire)):
                kitchen = await self._steps.do("open", lambda: asyncio.to_thread(self._open_kitchen))
                if kitchen is not None:
                    return kitchen
            await self._rest(None, TRY_LOCK_EVERY_S, ("lock", "open"))
        return None

    async def _take_in(self, kitchen: Kitchen) -> int:
        return await asyncio.to_thread(kitchen.take_in, self._alarm.now())

    async def _ring(self, kitchen: Kitchen) -> int:
        self._rung = False
        try:
            rang = await asyncio.to_thread(kitchen.ring, self._alarm.now())
        except Exception:
            self._rung = True
            raise
        return rang

    async def _arm(self, kitchen: Kitchen) -> int:
        """Arm the alarm; what is still due after a ring is looked at again after a growing pause."""
        wake_at = await asyncio.to_thread(kitchen.next_wake_at)
        now = self._alarm.now()
        if wake_at is None or wake_at > now:
            self._early_wakes = 0
        else:
            self._early_wakes += 1
            if self._early_wakes > 1:
                wake_at = now + dt.timedelta(seconds=_back_off_s(self._early_wakes - 1))
        self._alarm.arm(wake_at)
        return 1

    def _on_ring(self) -> None:
        self._rung = True
        self._nudges["engine"].set()

    # --- the other parts
    # --------------------------------------------------------------------------------------------

    async def _watch(self) -> None:
        """Nudge everybody whenever the database was written by somebody else."""
        seen: int | None = None
        while not self._stopping.is_set():
            counter = await self._steps.do("watch", lambda: asyncio.to_thread(self._changes.change_counter))
            if counter is not None and counter != seen:
                seen = counter
                self.nudge()
            await self._rest(None, WATCH_EVERY_S, ("watch",))

    async def _deliver(self, part: str, courier: Courier) -> None:
        told: set[str] = set()
        while not self._stopping.is_set():
            self._nudges[part].clear()
            sent: int | None = None
            if part == "own" or self._leading:
                sent = await self._steps.do(part, lambda: courier.work(self._alarm.now()))
            for transport, why in courier.locked.items():
                if transport not in told:
                    told.add(transport)
                    self._listener.locked(transport, why)
            wait_s = LOOK_EVERY_S
            if sent is not None and courier.next_at is not None:
                due_s = (courier.next_at - self._alarm.now()).total_seconds()
                wait_s = min(wait_s, due_s if sent else max(due_s, WATCH_EVERY_S))
            await self._rest(part, wait_s, (part,))

    async def _rest(self, part: str | None, seconds: float, steps: tuple[str, ...]) -> None:
        """Wait until nudged, stopped, or for so long; not past the end of a step's pause."""
        event = self._stopping if part is None else self._nudges[part]
        wait_s = max(SHORTEST_WAIT_S, min(seconds, self._steps.longest_rest_s(steps)))
        with contextlib.suppress(TimeoutError):
            await asyncio.wait_for(event.wait(), wait_s)


class _Steps:
    """Does steps by name: logs one that fails, tells it once, and lets it pause, longer each time."""

    def __init__(self, listener: Listener) -> None:
        self._listener = listener
        self._failures: dict[str, int] = {}
        self._pausing_until_s: dict[str, float] = {}

    async def do(self, name: str, act: Callable[[], Awaitable[T]]) -> T | None:
        """Return what the step returns; None when it failed or still pauses."""
        if self._pausing_until_s.get(name, 0.0) > _monotonic_s():
            return None
        try:
            result = await act()
        except Exception as error:  # whatever it is, the other steps must go on
            log.exception("step %s failed", name)
            failures = self._failures[name] = self._failures.get(name, 0) + 1
            self._pausing_until_s[name] = _monotonic_s() + _back_off_s(failures)
            if failures == 1:
                self._listener.trouble(name, error)
            return None
        if self._failures.pop(name, 0):
            self._listener.recovered(name)
        return result

    def longest_rest_s(self, names: Iterable[str]) -> float:
        """Return how long one may rest without keeping a pausing step waiting; infinite when none pauses."""
        ends_s = [self._pausing_until_s[name] for name in names if name in self._failures]
        return min(ends_s, default=math.inf) - _monotonic_s()


def _back_off_s(failures: int) -> float:
    return float(min(LONGEST_BACK_OFF_S, BACK_OFF_S * 2 ** min(failures - 1, 16)))


def _monotonic_s() -> float:
    return asyncio.get_running_loop().time()


async def _end(tasks: list[asyncio.Future[None]]) -> None:
    """Let tasks finish what they are doing, then cancel those that do not."""
    _, slow = await asyncio.wait(tasks, timeout=STOP_WITHIN_S)
    for task in slow:
        task.cancel()
    if slow:
        log.warning("%s parts of the program did not stop within %s s", len(slow), STOP_WITHIN_S)
        await asyncio.wait(slow, timeout=1)
