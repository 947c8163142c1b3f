"""Plays a plan once, in this process: a kitchen of its own, a clock moved by hand, and one person who answers.

It must not decide anything for the program, nor write into anybody's data folder.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from pathlib import Path

from bot.application.kitchen import Kitchen
from bot.application.writing import cook_write
from bot.chat import Address, Sent
from bot.crew import Person as Member
from bot.crew import Role
from bot.messages.words import spoken
from bot.papers.issue import make_chart, make_paper
from bot.ports import Apply, RoomWrite
from bot.rehearsal.own.meat import Pace
from bot.rehearsal.own.person import BETWEEN, Person
from bot.store import SqlStore, open_store
from bot.transport.terminal.decode import SOURCE, chat_of, decode_terminal, make_raw
from scheduler.cook import Situation, assess
from scheduler.facts import Fact
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.prompts import Prompt
from scheduler.state import Stage

AFTER_DINNER = dt.timedelta(hours=2)
"""The rehearsal ends so long after the food came out."""

LONGEST = dt.timedelta(days=21)
"""A plan that has not ended by then is broken off."""

LOOK_AGAIN = dt.timedelta(minutes=10)
"""What had to wait is looked at again after so long."""

_LEASE = dt.timedelta(minutes=1)
_WHO = "Cook"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Shown:
    """A message on the screen; `own` is True when nobody's line brought it."""

    at: dt.datetime
    text: str
    own: bool


@dataclasses.dataclass(frozen=True, kw_only=True)
class Said:
    """A line that the cook typed."""

    at: dt.datetime
    text: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Performance:
    """What came of one piece: everything shown and typed in order, and the cook as it stood at the end."""

    pace: Pace
    told: tuple[Shown | Said, ...]
    after: Situation
    finished: bool
    """False when the plan did not come to the table in three weeks."""


def perform(
    facts: tuple[Fact, ...], *, pace: Pace, now: dt.datetime, folder: Path, catalogue: Catalogue
) -> Performance:
    """Play the cook that these facts plan, from `now` (UTC) on, on an empty folder."""
    stage = _Stage(facts, now=now, folder=folder, catalogue=catalogue)
    try:
        return stage.play(Person(pace))
    finally:
        stage.close()


class _Stage:
    def __init__(self, facts: tuple[Fact, ...], *, now: dt.datetime, folder: Path, catalogue: Catalogue) -> None:
        self._now, self._began_at, self._catalogue = now, now, catalogue
        self._cook = facts[0].cook
        self._store: SqlStore = open_store(folder)
        situation = assess(facts, catalogue, now)
        zone = situation.state.serving.zone
        self._kitchen = Kitchen(
            store=self._store,
            catalogue=catalogue,
            decoders={SOURCE: decode_terminal},
            zone=zone,
            papers=make_paper,
            charts=make_chart,
        )
        room = Address(transport=SOURCE, chat=chat_of(_WHO))
        member = Member(id=f"{SOURCE}:{chat_of(_WHO)}", name=_WHO, role=Role.OWNER)
        write = cook_write(situation, facts, version=0, add_rooms=(room,))
        self._store.apply(
            Apply(now=now, cooks=(write,), people=(member,), rooms=(RoomWrite(address=room, language=spoken()),))
        )
        self._told: list[Shown | Said] = []
        self._deeds: dict[str, dt.datetime] = {}
        """Prompt key -> when it is answered next."""

    def close(self) -> None:
        self._store.close()

    def play(self, person: Person) -> Performance:
        situation = self._situation()
        while not self._over(situation) and self._now - self._began_at < LONGEST:
            self._wait(situation)
            self._ring()
            situation = self._situation()
            for prompt in situation.waiting:
                if self._deeds.get(prompt.key, self._now + BETWEEN) <= self._now:
                    self._act(person, prompt, situation)
                    situation = self._situation()
                    break
        return Performance(
            pace=person.pace, told=tuple(self._told), after=situation, finished=situation.state.did("serve") is not None
        )

    def _over(self, situation: Situation) -> bool:
        served_at = situation.state.at("serve")
        return situation.state.stage is Stage.CLOSED or (
            served_at is not None and self._now - served_at >= AFTER_DINNER
        )

    def _situation(self) -> Situation:
        snapshot = self._store.cook(self._cook)
        assert snapshot is not None
        return assess(snapshot.facts, self._catalogue, self._now)

    def _wait(self, situation: Situation) -> None:
        """Let time pass to the next deed or the next bell, whichever comes first."""
        waiting = {prompt.key for prompt in situation.waiting}
        self._deeds = {key: at for key, at in self._deeds.items() if key in waiting}
        for number, prompt in enumerate(situation.waiting):
            self._deeds.setdefault(prompt.key, self._now + BETWEEN + number * dt.timedelta(minutes=1))
        moments = [*self._deeds.values(), self._now + LONGEST]
        wake_at = self._kitchen.next_wake_at()
        if wake_at is not None:
            moments.append(wake_at)
        served_at = situation.state.at("serve")
        if served_at is not None:
            moments.append(served_at + AFTER_DINNER)
        self._now = max(self._now, min(moments))

    def _act(self, person: Person, prompt: Prompt, situation: Situation) -> None:
        line = person.answer(prompt, situation, self._now)
        self._deeds[prompt.key] = self._now + LOOK_AGAIN
        if line is None:
            return
        self._told.append(Said(at=self._now, text=line))
        key, raw = make_raw(kind="text", name=_WHO, sent_at=self._now, text=line)
        self._store.accept(source=SOURCE, key=key, raw=raw, received_at=self._now)
        self._kitchen.take_in(self._now)
        self._read(own=False)
        person.done(prompt, self._situation(), self._now)

    def _ring(self) -> None:
        self._kitchen.ring(self._now)
        self._read(own=True)

    def _read(self, *, own: bool) -> None:
        while rows := self._store.claim(owner="own", now=self._now, transports=[SOURCE], limit=50, lease=_LEASE):
            for row in rows:
                self._told.append(Shown(at=self._now, text=row.outgoing.text, own=own))
                self._store.record(row, Sent(ref=str(row.id)), self._now)
