"""One life of the program, by hand and without waiting: it opens the data, listens, decides and delivers until idle.

It must not know when it is to die: `boundaries` does. A clean start after a kill is just another life.
"""

from __future__ import annotations

import asyncio
import dataclasses
import datetime as dt
import functools
import json
import os
import ssl
from pathlib import Path
from unittest import mock

from bot.alarm.manual import ManualAlarm
from bot.application.kitchen import Kitchen
from bot.delivery.courier import Courier
from bot.delivery.pace import BOT_API_PACE, UNHURRIED
from bot.messages import console
from bot.papers.issue import make_chart, make_paper
from bot.ports import Json, OutgoingTransport
from bot.store import SqlStore, open_store
from bot.transport.telegram.calls import BotApi
from bot.transport.telegram.decode import decode
from bot.transport.telegram.outgoing import TelegramTransport
from bot.transport.telegram.poller import Polled, Poller
from bot.transport.telegram.redact import Token
from bot.transport.terminal.decode import SOURCE as TERMINAL
from bot.transport.terminal.decode import decode_terminal
from bot.transport.terminal.outgoing import TerminalOutgoing
from scheduler.planning.catalogue import read_catalogue
from tests.acceptance.kills.boundaries import Boundaries, CountedApi, CountedWayOut, watch_database
from tests.catalogue import TEXTS
from tests.fakes.botapi.client import TOKEN

TELEGRAM = "telegram"
BOT = "telegram:7000001"
ZONE = "Europe/London"
MOST_TURNS = 200

_read_certificates_once = functools.cache(ssl.create_default_context)
"""Each client of the messenger reads the machine's certificates, which takes longer than all the rest of a life."""

CATALOGUE = read_catalogue(dict(TEXTS))


@dataclasses.dataclass(frozen=True, kw_only=True)
class Order:
    """What a life is to do. `server` is the messenger's address, None for a terminal."""

    data: str
    now: str
    """When it begins, ISO 8601 with zone."""
    report: str
    """File for the names of the boundaries, a line each."""
    server: str | None = None
    typed: Json | None = None
    """What a window puts in the inbox; its `message` is the key."""
    kill_at: int | None = None
    stop_at: int | None = None

    def as_json(self) -> str:
        return json.dumps(dataclasses.asdict(self))


class NeverIdle(AssertionError):
    """The program still had something to do after very many turns."""


def live_watched(order: Order) -> None:
    """Live one life, counted and watched, in a process of its own."""
    boundaries = Boundaries(order.report, kill_at=order.kill_at, stop_at=order.stop_at)
    watch_database(boundaries)
    with mock.patch.object(ssl, "create_default_context", _read_certificates_once):
        asyncio.run(live(order, boundaries))


def live_unwatched(order: Order) -> None:
    """Live one life, neither counted nor watched."""
    with mock.patch.object(ssl, "create_default_context", _read_certificates_once):
        asyncio.run(live(order, Boundaries(os.devnull, kill_at=None, stop_at=None)))


async def live(order: Order, boundaries: Boundaries) -> None:
    """Live until nothing is left to do, or until the ordered boundary."""
    alarm = ManualAlarm(dt.datetime.fromisoformat(order.now))
    store = open_store(Path(order.data))
    boundaries.begin()
    if order.typed is not None:
        store.accept(source=TERMINAL, key=str(order.typed["message"]), raw=order.typed, received_at=alarm.now())
    if order.server is None:
        await _work(
            store, TerminalOutgoing(store, now=alarm.now, folder=Path(order.data) / "papers"), alarm, boundaries
        )
    else:
        await _with_messenger(store, order.server, alarm, boundaries)
    store.close()


async def _with_messenger(store: SqlStore, server: str, alarm: ManualAlarm, boundaries: Boundaries) -> None:
    token = Token(TOKEN)
    api = CountedApi(token=token, base_url=server)
    api.boundaries = boundaries
    way_out = TelegramTransport(token=token, repeat_mark=console.possible_repeat, clock=alarm.now, base_url=server)
    try:
        await _listen(store, api, alarm)
        await _work(store, way_out, alarm, boundaries)
    finally:
        await way_out.close()
        await api.close()


async def _listen(store: SqlStore, api: BotApi, alarm: ManualAlarm) -> None:
    """Poll until there is nothing more: the last call confirms what the ones before brought."""
    poller = Poller(api=api, source=BOT, accept=store.accept, clock=alarm.now, long_poll_s=0)
    while True:
        poll = await poller.once()
        assert isinstance(poll, Polled), poll
        if not poll.updates:
            return


async def _work(store: SqlStore, way_out: OutgoingTransport, alarm: ManualAlarm, boundaries: Boundaries) -> None:
    """Decide and deliver until idle; time moves only where a message must wait for its pace or a lease."""
    kitchen = Kitchen(
        store=store,
        catalogue=CATALOGUE,
        decoders={TERMINAL: decode_terminal, TELEGRAM: decode},
        zone=ZONE,
        papers=make_paper,
        charts=make_chart,
    )
    courier = Courier(
        store,
        {way_out.name: CountedWayOut(way_out, boundaries)},
        f"life-{os.getpid()}",
        paces={way_out.name: BOT_API_PACE if way_out.name == TELEGRAM else UNHURRIED},
        clock=alarm.now,
    )
    for _turn in range(MOST_TURNS):
        decided = kitchen.take_in(alarm.now()) + kitchen.ring(alarm.now())
        await courier.work(alarm.now())
        if courier.next_at is not None:
            alarm.advance_to(max(courier.next_at, alarm.now()))
        elif not decided:
            return
    raise NeverIdle
