"""Plays the cook: moves the clock, lets people read and act, kills the program once, and keeps a record of it all.

It must not decide anything for the program: it only does what clock, windows and fate do in real use.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import heapq
from pathlib import Path
from typing import Protocol

from bot.rehearsal import scene
from bot.rehearsal.crew import Deed, Ines, Member, Tomas
from bot.rehearsal.process import Process
from bot.rehearsal.record import Forecast, Outage, Record, Seen, Typed
from bot.rehearsal.tally import prints
from bot.rehearsal.world import World
from bot.store import SqlStore, open_store
from bot.transport.terminal.decode import SOURCE, chat_of, make_raw
from scheduler.facts import Fact


class Watcher(Protocol):
    """Whoever tells the story."""

    def typed(self, typed: Typed) -> None:
        """Somebody typed a line."""

    def shown(self, seen: list[Seen]) -> None:
        """Messages appeared on screens, all at one instant."""

    def killed(self, at: dt.datetime, code: int) -> None:
        """The program was killed."""

    def restarted(self, outage: Outage) -> None:
        """The program was started again."""


class Play:
    """One performance on one data folder."""

    def __init__(self, data_dir: Path, watcher: Watcher) -> None:
        self._data_dir = data_dir
        self._watcher = watcher
        self._store: SqlStore = open_store(data_dir)  # as the windows have it open
        self._world = World(scene.BEGINS_AT)
        self._crew: tuple[Member, ...] = (Ines(), Tomas())
        self._deeds: list[tuple[dt.datetime, int, Deed]] = []
        self._numbers = 0
        self._read_up_to = dict.fromkeys(scene.CREW, 0)
        self._process: Process | None = None
        self.record = Record()

    def close(self) -> None:
        """End the program if it still runs, and let go of the database."""
        if self._process is not None:
            self._process.kill()
            self._process = None
        self._store.close()

    def perform(self) -> Record:
        """Play from the first hello to the end of the cook."""
        self._process = Process(self._data_dir, scene.ZONE, self._world.now)
        for member in self._crew:
            self._type(member.name, "", kind="hello")
        while not self._over():
            self._next()
        self.record.facts = self.facts()
        self.record.outbox = self._store.outbox_counts()
        return self.record

    def facts(self) -> tuple[Fact, ...]:
        """Return the log of the cook as it is on disk."""
        cook = self._store.cook(self.record.cook) if self.record.cook else None
        return () if cook is None else cook.facts

    # --- time -------------------------------------------------------------------------------------------------------

    def _over(self) -> bool:
        if self._world.now >= scene.ENDS_AT:
            return True
        return bool(self.record.cook) and self.record.outage is not None and not self._store.open_cooks()

    def _next(self) -> None:
        """Go on to whatever comes first: a deed of the crew, the program's alarm, or fate."""
        moments = [scene.ENDS_AT]
        if self._deeds:
            moments.append(self._deeds[0][0])
        if self._process is not None and self._process.armed_at is not None:
            moments.append(self._process.armed_at)
        moments += self._fate()
        to = max(min(moments), self._world.now)
        self._world.go_on(to)
        if self._process is not None:
            self._process.go_on(to)
            self._look_at_screens(caused_by=None)
        self._kill_or_restart()
        while self._deeds and self._deeds[0][0] <= to:
            self._do(heapq.heappop(self._deeds)[2])

    def _fate(self) -> list[dt.datetime]:
        outage = self.record.outage
        if outage is None:
            return [scene.KILLED_AT]
        return [outage.restarted_at] if self._process is None else []

    def _kill_or_restart(self) -> None:
        now = self._world.now
        if self.record.outage is None and now >= scene.KILLED_AT and self._process is not None:
            code = self._process.kill()
            self._process = None
            self.record.outage = Outage(
                killed_at=now, restarted_at=now + scene.OUTAGE_FOR, exit_code=code, facts_before=prints(self.facts())
            )
            self._watcher.killed(now, code)
        elif self._process is None and self.record.outage is not None and now >= self.record.outage.restarted_at:
            self._store.close()
            self._store = open_store(self._data_dir)
            self._process = Process(self._data_dir, scene.ZONE, now)
            self._watcher.restarted(self.record.outage)
            unheard = [typed for typed in self.record.typed if not typed.heard]
            self._look_at_screens(caused_by=unheard[-1] if unheard else None)
            self._process.go_on(now)
            self._look_at_screens(caused_by=None)

    def _note_forecast(self) -> None:
        """Keep when the meat is now expected off the fire, from the program's own cache."""
        pull = (self._store.outlook(self.record.cook) or {}).get("pull")
        likely = pull.get("likely") if isinstance(pull, dict) else None
        if isinstance(likely, str):
            forecast = Forecast(made_at=self._world.now, pull_at=dt.datetime.fromisoformat(likely))
            self.record.forecasts.append(forecast)

    # --- people -----------------------------------------------------------------------------------------------------

    def _plan(self, deed: Deed) -> None:
        self._numbers += 1
        heapq.heappush(self._deeds, (deed.at, self._numbers, deed))

    def _do(self, deed: Deed) -> None:
        line = deed.act(self._world)
        if line is None:
            if deed.again_min is not None:
                self._plan(dataclasses.replace(deed, at=self._world.now + dt.timedelta(minutes=deed.again_min)))
            return
        self._type(deed.who, line)
        for member in self._crew:
            slip = member.rereads(self._world.now) if member.name == deed.who else None
            if slip is not None:
                self._plan(slip)

    def _type(self, who: str, line: str, *, kind: str = "text") -> None:
        """Put a line in the inbox, as a window does; the program takes it in if it lives."""
        now = self._world.now
        key, raw = make_raw(kind="hello" if kind == "hello" else "text", name=who, sent_at=now, text=line)
        typed = Typed(at=now, who=who, line=line, heard=self._process is not None)
        self.record.typed.append(typed)
        self._watcher.typed(typed)
        self._store.accept(source=SOURCE, key=key, raw=raw, received_at=now)
        if self._process is not None:
            self._process.go_on(now)
            self._look_at_screens(caused_by=typed)

    def _look_at_screens(self, caused_by: Typed | None) -> None:
        """Everybody looks at what is new on their own screen, and makes up their mind."""
        now = self._world.now
        new: list[Seen] = []
        for member in self._crew:
            chat = chat_of(member.name)
            rows = self._store.screen(chat, self._read_up_to[member.name])
            for row in rows:
                self._read_up_to[member.name] = row.id
                new.append(
                    Seen(at=now, who=member.name, row=row, caused_by=None if caused_by is None else caused_by.who)
                )
            if rows:
                self._store.mark_shown(chat, rows[-1].id, now)
        if not new:
            return
        self.record.seen += new
        self.record.cook = self.record.cook or next(iter(self._store.open_cooks()), "")
        self._note_forecast()
        self._watcher.shown(new)
        for member in self._crew:
            for seen in new:
                if seen.who == member.name:
                    labels = tuple(label for label, _ in seen.row.choices)
                    for deed in member.reads(seen.row.text, labels, now):
                        self._plan(deed)
