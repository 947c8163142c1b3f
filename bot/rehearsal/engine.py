"""The program under rehearsal, in a process of its own: kitchen, store, courier, and a clock moved from outside.

Started by `bot.rehearsal.process`; it must not know the meat, the crew or the story, nor read the real clock.

Each line on standard input is an instant (ISO 8601): the alarm moves there, ringing on the way, and whatever people
wrote meanwhile is taken in. The answer is one line: the next armed instant, or a dash.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TextIO

from bot.alarm.manual import ManualAlarm
from bot.application.kitchen import Kitchen
from bot.catalogue import texts
from bot.delivery.courier import Courier
from bot.papers.issue import make_chart, make_paper
from bot.store import EngineLock, SqlStore, open_store
from bot.transport.terminal.decode import SOURCE, decode_terminal
from bot.transport.terminal.outgoing import TerminalOutgoing
from scheduler.planning.catalogue import Catalogue, read_catalogue

NOTHING_ARMED = "-"


def catalogue() -> Catalogue:
    """Return what the engine knows of the trade."""
    return read_catalogue(texts())


class Engine:
    """One life of the program, from opening the database to being killed."""

    def __init__(
        self, store: SqlStore, zone: str, now: dt.datetime, runner: asyncio.Runner, owner: str, papers: Path
    ) -> None:
        self._store = store
        self._runner = runner
        self._alarm = ManualAlarm(now)
        self._kitchen = Kitchen(
            store=store,
            catalogue=catalogue(),
            decoders={SOURCE: decode_terminal},
            zone=zone,
            papers=make_paper,
            charts=make_chart,
        )
        self._courier = Courier(
            store, {SOURCE: TerminalOutgoing(store, now=self._alarm.now, folder=papers)}, owner, clock=self._alarm.now
        )
        self._seen = store.change_counter()
        self._alarm.start(self._look)

    def begin(self) -> dt.datetime | None:
        """Take in what was written while nobody was there; what fell due meanwhile rings next. Return now."""
        now = self._alarm.now()
        self._kitchen.take_in(now)
        self._runner.run(self._courier.work(now))
        self._alarm.arm(now)
        return now

    def go_on(self, to: dt.datetime) -> dt.datetime | None:
        """Move the clock, ringing on the way; take in what others wrote. Return the next armed instant."""
        self._alarm.advance_to(to)
        counter = self._store.change_counter()
        if counter != self._seen:
            self._seen = counter
            self._look()
        return self._alarm.armed_at

    def _look(self) -> None:
        """Take in, ring, deliver, arm: what the running program does whenever it wakes."""
        now = self._alarm.now()
        self._kitchen.take_in(now)
        self._kitchen.ring(now)
        self._runner.run(self._courier.work(now))
        self._alarm.arm(self._kitchen.next_wake_at())


def serve(data_dir: Path, zone: str, now: dt.datetime, orders: Iterable[str], answers: TextIO) -> int:
    """Run one life: hold the engine's lock, obey each line, end when the lines end."""
    store = open_store(data_dir)
    lock = EngineLock(data_dir)
    if not lock.try_acquire():
        return 1
    with asyncio.Runner() as runner:
        engine = Engine(store, zone, now, runner, owner=f"rehearsal-{now:%d%H%M}", papers=data_dir / "papers")
        _answer(answers, engine.begin())
        for line in orders:
            _answer(answers, engine.go_on(dt.datetime.fromisoformat(line.strip())))
    lock.release()
    store.close()
    return 0


def _answer(answers: TextIO, armed_at: dt.datetime | None) -> None:
    answers.write(f"{NOTHING_ARMED if armed_at is None else armed_at.isoformat()}\n")
    answers.flush()


if __name__ == "__main__":
    folder, zone_name, instant = sys.argv[1:]
    sys.exit(serve(Path(folder), zone_name, dt.datetime.fromisoformat(instant), sys.stdin, sys.stdout))
