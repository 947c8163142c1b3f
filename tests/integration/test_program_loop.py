"""The running program with a kitchen and couriers that do as the test says, and a clock that the test moves."""

from __future__ import annotations

import asyncio
import contextlib
import datetime as dt
from collections.abc import AsyncIterator, Callable

import pytest

from bot import program as program_module
from bot.alarm.manual import ManualAlarm
from bot.alarm.system import SystemAlarm, utc_now
from bot.program import Listener, Program

NOON = dt.datetime(2026, 9, 5, 12, 0, tzinfo=dt.UTC)
MINUTE = dt.timedelta(minutes=1)
PATIENCE_S = 5.0


class Stove:
    """A kitchen: counts what it is asked, fails when told to."""

    def __init__(self) -> None:
        self.waiting = 0
        self.due: list[dt.datetime] = []
        self.rung: list[dt.datetime] = []
        self.taken: list[int] = []
        self.failing: Exception | None = None
        self.asked: list[dt.datetime] = []

    @property
    def attempts(self) -> int:
        return len(self.asked)

    def take_in(self, now: dt.datetime) -> int:
        self.asked.append(now)
        if self.failing is not None:
            raise self.failing
        took, self.waiting = self.waiting, 0
        if took:
            self.taken.append(took)
        return took

    def ring(self, now: dt.datetime) -> int:
        self.rung.append(now)
        past = [at for at in self.due if at <= now]
        self.due = [at for at in self.due if at > now]
        return len(past)

    def next_wake_at(self) -> dt.datetime | None:
        return min(self.due, default=None)


class Van:
    """A courier that notes when it was called."""

    def __init__(self) -> None:
        self.next_at: dt.datetime | None = None
        self.locked: dict[str, str] = {}
        self.called: list[dt.datetime] = []

    @property
    def calls(self) -> int:
        return len(self.called)

    async def work(self, now: dt.datetime) -> int:
        self.called.append(now)
        return 0


class Door:
    """The engine lock, and the change counter of the database."""

    def __init__(self) -> None:
        self.free = True
        self.counter = 0

    def try_acquire(self) -> bool:
        return self.free

    def change_counter(self) -> int:
        return self.counter


class House:
    """A program with everything around it."""

    def __init__(self, alarm: ManualAlarm | SystemAlarm | None = None) -> None:
        self.stove, self.screens, self.own, self.door = Stove(), Van(), Van(), Door()
        self.alarm = alarm or ManualAlarm(NOON)
        self.troubles: list[str] = []
        self.recovered: list[str] = []
        self.locked: list[str] = []
        self.heard_out = True
        self.program = Program(
            changes=self.door,
            lock=self.door,
            alarm=self.alarm,
            open_kitchen=lambda: self.stove,
            screens=self.screens,
            own=self.own,
            listener=Listener(
                trouble=lambda step, _: self.troubles.append(step),
                recovered=self.recovered.append,
                locked=lambda transport, _: self.locked.append(transport),
            ),
            heard_out=lambda: self.heard_out,
        )

    async def until(self, holds: Callable[[], bool]) -> None:
        """Wait until something holds."""
        async with asyncio.timeout(PATIENCE_S):
            while not holds():  # noqa: ASYNC110 - what is waited for is plain data of other parts
                await asyncio.sleep(0.005)

    def write(self, rows: int = 1) -> None:
        """Do as another process that puts rows in the inbox."""
        self.stove.waiting += rows
        self.door.counter += 1


@pytest.fixture(autouse=True)
def _in_a_hurry(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(program_module, "TRY_LOCK_EVERY_S", 0.02)
    monkeypatch.setattr(program_module, "WATCH_EVERY_S", 0.01)
    monkeypatch.setattr(program_module, "BACK_OFF_S", 0.02)
    monkeypatch.setattr(program_module, "LOOK_EVERY_S", 0.2)
    monkeypatch.setattr(program_module, "SHORTEST_WAIT_S", 0.005)


@contextlib.asynccontextmanager
async def running(house: House) -> AsyncIterator[House]:
    """Run a program until the block ends; it must then stop by itself."""
    task = asyncio.create_task(house.program.run(lambda: asyncio.sleep(2 * PATIENCE_S)))
    try:
        yield house
    finally:
        house.program.stop()
        await asyncio.wait_for(task, PATIENCE_S)


@pytest.mark.asyncio
async def test_it_rings_on_becoming_the_engine_and_at_each_armed_instant() -> None:
    """What fell due while nobody was the engine is looked at first; then each instant as it comes."""
    alarm = ManualAlarm(NOON)
    house = House(alarm)
    house.stove.due = [NOON - MINUTE, NOON + 10 * MINUTE]
    async with running(house):
        await house.until(lambda: alarm.armed_at == NOON + 10 * MINUTE)
        assert house.stove.rung == [NOON]
        alarm.advance_to(NOON + 9 * MINUTE)
        await asyncio.sleep(0.03)
        assert house.stove.rung == [NOON]
        alarm.advance_to(NOON + 10 * MINUTE)
        await house.until(lambda: len(house.stove.rung) == 2)
    assert house.stove.rung == [NOON, NOON + 10 * MINUTE]


@pytest.mark.asyncio
async def test_nothing_is_rung_before_what_people_said_meanwhile_has_come_in() -> None:
    """At the start a prompt waits for the messenger's first answer: it may have been answered long ago."""
    house = House()
    house.stove.due = [NOON - MINUTE]
    house.heard_out = False
    async with running(house):
        await house.until(lambda: house.stove.attempts >= 2)
        assert house.stove.rung == []
        house.heard_out = True
        house.write()
        await house.until(lambda: house.stove.rung == [NOON])
    assert house.stove.taken == [1]


@pytest.mark.asyncio
async def test_a_messenger_that_does_not_answer_holds_up_nothing_for_long(monkeypatch: pytest.MonkeyPatch) -> None:
    """After a few seconds without an answer what is due is rung all the same."""
    monkeypatch.setattr(program_module, "HEAR_OUT_FOR_S", 0.05)
    house = House()
    house.heard_out = False
    async with running(house):
        await house.until(lambda: house.stove.rung == [NOON])


@pytest.mark.asyncio
async def test_what_others_write_is_taken_in_and_the_alarm_set_anew() -> None:
    """A row from another process is noticed, worked on, the alarm re-armed and the couriers nudged."""
    alarm = ManualAlarm(NOON)
    house = House(alarm)
    async with running(house):
        await house.until(lambda: len(house.stove.rung) == 1)
        calls = house.screens.calls
        house.stove.due = [NOON + MINUTE]
        house.write(3)
        await house.until(lambda: alarm.armed_at == NOON + MINUTE)
        await house.until(lambda: house.screens.calls > calls)
    assert house.stove.taken == [3]


@pytest.mark.asyncio
async def test_another_engine_is_left_alone_and_replaced_when_it_dies() -> None:
    """Without the lock nothing is taken in, rung or shown, but the own way out works; with it, all begins."""
    house = House()
    house.door.free = False
    house.write()
    async with running(house):
        await house.until(lambda: house.own.calls >= 2)
        assert (house.stove.attempts, house.stove.rung, house.screens.calls) == (0, [], 0)
        house.door.free = True
        await house.until(lambda: house.stove.taken == [1] and house.stove.rung == [NOON])
        await house.until(lambda: house.screens.calls > 0)


@pytest.mark.asyncio
async def test_a_failing_step_is_told_once_and_tried_again_ever_more_slowly() -> None:
    """Others go on; the failing step is not repeated without pause; when it works again that is told."""
    alarm = ManualAlarm(NOON)
    house = House(alarm)
    house.stove.failing = RuntimeError("the disk is full")
    house.write()
    async with running(house):
        await house.until(lambda: house.stove.attempts >= 3)
        assert house.stove.rung == [NOON]
        assert house.troubles == ["intake"]
        attempts = house.stove.attempts
        for _ in range(20):
            house.door.counter += 1
            await asyncio.sleep(0.002)
        assert house.stove.attempts <= attempts + 2
        house.stove.failing = None
        await house.until(lambda: house.stove.taken == [1])
        await house.until(lambda: house.recovered == ["intake"])
    assert house.troubles == ["intake"]


@pytest.mark.asyncio
async def test_an_instant_that_stays_due_does_not_spin() -> None:
    """A due time that ringing does not clear is rung again after growing pauses, not without end."""
    house = House(SystemAlarm())
    stuck_at = utc_now() - MINUTE
    house.stove.next_wake_at = lambda: stuck_at  # type: ignore[method-assign]  # the fault that is tested
    async with running(house):
        await house.until(lambda: len(house.stove.rung) >= 3)
        await asyncio.sleep(0.3)
    assert len(house.stove.rung) <= 9  # pauses of 0.02 s, doubling


@pytest.mark.asyncio
async def test_a_courier_that_cannot_send_does_not_spin() -> None:
    """A message that is due but stays unsent is looked at in the rhythm of the watch, not without pause."""
    house = House()
    house.own.next_at = NOON - MINUTE
    async with running(house):
        await asyncio.sleep(0.2)
    assert house.own.calls <= 25


@pytest.mark.asyncio
async def test_a_refusing_messenger_is_told_once() -> None:
    """A revoked token is told once, however often the courier looks."""
    house = House()
    house.own.locked = {"telegram": "unauthorized"}
    async with running(house):
        await house.until(lambda: house.own.calls >= 2)
        house.program.nudge()
        await asyncio.sleep(0.03)
    assert house.locked == ["telegram"]


@pytest.mark.asyncio
async def test_it_ends_with_its_window() -> None:
    """When the window closes the program ends and its alarm is silent; an error of the window is raised."""
    house = House()

    async def window() -> None:
        await asyncio.sleep(0.02)

    await asyncio.wait_for(house.program.run(window), PATIENCE_S)

    async def broken() -> None:
        await asyncio.sleep(0)
        message = "the window broke"
        raise ValueError(message)

    with pytest.raises(ValueError, match="broke"):
        await asyncio.wait_for(House().program.run(broken), PATIENCE_S)
