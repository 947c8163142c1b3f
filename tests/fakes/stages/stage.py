"""What every stage has: the real kitchen, store and courier, and a clock moved by hand.

Only how people reach the program, and how their screens are looked at, differs from stage to stage.
"""

from __future__ import annotations

import abc
import asyncio
import datetime as dt
from collections.abc import Mapping
from pathlib import Path
from typing import Self

from bot.application.kitchen import Kitchen
from bot.delivery.courier import Courier
from bot.papers.issue import make_chart, make_paper
from bot.ports import Apply, CookSnapshot, Decoder, InviteWrite, OutgoingTransport
from bot.store import SqlStore, open_store
from scheduler.cook import Situation, assess
from tests.fakes.kitchen import CATALOGUE, on

_AT_REST_WITHIN = 40
_CODE_FOR = dt.timedelta(days=30)


class NoSuchButton(AssertionError):
    """Nobody can see a button with this label."""


class Stage(abc.ABC):
    """One kitchen on one folder, its people, and a clock moved by hand. A context manager."""

    name: str
    """What the stage is called in the titles of tests."""
    changes_messages: bool
    """Whether what was sent can be changed: boards, edited questions, signs under a message."""
    has_group: bool
    """Whether there is a room in which all hear one another; else everybody sits in a room of their own."""

    def __init__(self, folder: Path, at: dt.datetime | None = None, *, zone: str = "UTC") -> None:
        self.now = at or on("06:00")
        self.folder, self.zone = folder, zone
        self.runner = asyncio.Runner()
        self.store: SqlStore = open_store(folder)
        self._transport = self.make_transport()
        self._people: list[str] = []
        self._open()

    def _open(self) -> None:
        self.kitchen = Kitchen(
            store=self.store,
            catalogue=CATALOGUE,
            decoders=self.decoders(),
            zone=self.zone,
            papers=make_paper,
            charts=make_chart,
            link_prefix="https://t.me/slowbell_test_bot?start=",
        )
        self.courier = Courier(self.store, {self._transport.name: self._transport}, "stage", clock=lambda: self.now)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Close everything."""
        self.drop_connections()
        self.store.close()
        self.runner.close()

    # --- what differs -------------------------------------------------------------------------------------------------

    @abc.abstractmethod
    def make_transport(self) -> OutgoingTransport:
        """Return the way out."""

    @abc.abstractmethod
    def decoders(self) -> Mapping[str, Decoder]:
        """Return what reads the updates of this stage."""

    @abc.abstractmethod
    def enter(self, name: str, code: str | None) -> None:
        """Let somebody come to the program, with a code where one is needed."""

    @abc.abstractmethod
    def put(self, name: str, text: str, *, group: bool) -> None:
        """Let somebody's text arrive."""

    @abc.abstractmethod
    def put_edit(self, name: str, text: str, *, group: bool) -> None:
        """Let somebody change the last text they wrote there; where that cannot be, say the right thing anew."""

    @abc.abstractmethod
    def put_tap(self, name: str, label: str, *, group: bool) -> None:
        """Let somebody press the newest button with this label. Raises `NoSuchButton`."""

    @abc.abstractmethod
    def gather(self, *names: str) -> None:
        """Open the room in which these people hear one another, where the stage has one."""

    @abc.abstractmethod
    def screen(self, name: str, *, group: bool = False) -> list[str]:
        """Return what somebody sees now in their own room, or in the group: the messages of the program in order."""

    @abc.abstractmethod
    def labels(self, name: str, *, group: bool = False) -> tuple[str, ...]:
        """Return the labels of the buttons that can be pressed on the newest message that has any."""

    # --- what people do -----------------------------------------------------------------------------------------------

    def comes(self, name: str, role: str = "watch") -> None:
        """Let somebody come; the first one is the owner."""
        role = "owner" if not self._people else role
        code = f"code-of-{name.casefold()}-{len(self._people)}"
        expires_at = self.now + _CODE_FOR
        assert self.store.apply(
            Apply(now=self.now, invites=(InviteWrite(code=code, role=role, expires_at=expires_at),))
        )
        self._people.append(name)
        self.enter(name, code)
        self.settle()

    def says(self, name: str, text: str, *, group: bool = False) -> None:
        """Let somebody write, and the program work until nothing is left to do now."""
        self.put(name, text, group=group and self.has_group)
        self.settle()

    def changes(self, name: str, text: str, *, group: bool = False) -> None:
        """Let somebody change the last text they wrote."""
        self.put_edit(name, text, group=group and self.has_group)
        self.settle()

    def taps(self, name: str, label: str, *, group: bool = False) -> None:
        """Let somebody press a button."""
        self.put_tap(name, label, group=group and self.has_group)
        self.settle()

    # --- time ---------------------------------------------------------------------------------------------------------

    def until(self, at: dt.datetime) -> None:
        """Let time pass, ringing whenever the kitchen asks for it."""
        while (wake := self.kitchen.next_wake_at()) is not None and wake <= at:
            self.now = max(wake, self.now)
            self.settle()
        self.now = at
        self.settle()

    def away_until(self, at: dt.datetime) -> None:
        """Be killed, stay away until an instant, and begin anew on the same folder."""
        self.drop_connections()
        self.store.close()
        self.now = at
        self.store = open_store(self.folder)
        self._transport = self.make_transport()
        self._open()
        self.settle()

    def settle(self) -> None:
        """Do what the running program does when it wakes, until nothing is due."""
        for _round in range(_AT_REST_WITHIN):
            self.hear()
            self.kitchen.take_in(self.now)
            self.runner.run(self.courier.work(self.now))
            wake = self.kitchen.next_wake_at()
            if wake is None or wake > self.now:
                return
            self.kitchen.ring(self.now)
            self.runner.run(self.courier.work(self.now))
        raise AssertionError("the bell does not come to rest")

    def hear(self) -> None:  # noqa: B027 - most stages put what people do straight into the inbox
        """Bring in what waits outside."""

    def drop_connections(self) -> None:  # noqa: B027 - most stages have none
        """Close what leads outside."""

    # --- looking ------------------------------------------------------------------------------------------------------

    @property
    def cook(self) -> CookSnapshot:
        """Return the newest open cook."""
        found = self.store.cook(self.store.open_cooks()[0])
        assert found is not None
        return found

    @property
    def situation(self) -> Situation:
        """Return how the newest open cook stands now."""
        return assess(self.cook.facts, CATALOGUE, self.now)

    def all_seen(self, name: str) -> str:
        """Return everything that somebody sees now, in their own room and in the group."""
        texts = self.screen(name)
        if self.has_group:
            texts = [*texts, *self.screen(name, group=True)]
        return "\n\n".join(texts)
