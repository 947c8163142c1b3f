"""Puts the parts together that every process of the program has.

It must not import what only some processes need before they need it.
"""

from __future__ import annotations

import datetime as dt
import os
import uuid
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from bot.bootstrap.running import Troubles
from bot.chat import Document, Incoming
from bot.delivery.courier import Courier
from bot.makers import Paper, PaperKind
from bot.ports import Alarm, Album, Json
from bot.program import Kitchen, Listener, Program
from bot.settings import Settings
from bot.store import EngineLock, SqlStore
from bot.transport.folder import put_away
from bot.transport.terminal.decode import SOURCE, decode_terminal
from bot.transport.terminal.outgoing import TerminalOutgoing
from scheduler.facts import Fact

if TYPE_CHECKING:
    from bot.messages.figures import Voice
    from scheduler.cook import Situation  # named only: slow to import

TELEGRAM = "telegram"
PAPERS = "papers"
"""Folder in the data folder for files that somebody in a terminal asked for."""
PHOTOS = "photos"
"""Folder in the data folder for pictures that people sent, kept with their cooks."""
LINK = "messenger.link"
"""How a link for joining begins; written by `serve`, so that a chat window can make such links as well."""
SCREEN_LEASE = dt.timedelta(seconds=5)
"""Showing takes milliseconds, and a repeat shows nothing twice."""


def make_program(
    settings: Settings,
    store: SqlStore,
    alarm: Alarm,
    *,
    say: Callable[[str], None],
    own: Courier | None = None,
    locked: Callable[[str, str], None] = lambda _transport, _why: None,
    heard_out: Callable[[], bool] = lambda: True,
) -> Program:
    """Return the running program, not yet running. `say` prints a sentence about the program itself; `heard_out` tells
    whether what people said before the start has come in.
    """
    troubles = Troubles(settings.data_dir, say)
    screens = Courier(
        store,
        {
            SOURCE: TerminalOutgoing(
                store, now=alarm.now, folder=settings.data_dir / PAPERS, album=album(settings.data_dir)
            )
        },
        courier_name(),
        lease=SCREEN_LEASE,
        clock=alarm.now,
    )
    return Program(
        changes=store,
        lock=EngineLock(settings.data_dir),
        alarm=alarm,
        open_kitchen=lambda: become_engine(settings, store, alarm.now(), say),
        screens=screens,
        own=own,
        listener=Listener(trouble=troubles.began, recovered=troubles.ended, locked=locked),
        heard_out=heard_out,
    )


def become_engine(settings: Settings, store: SqlStore, now: dt.datetime, say: Callable[[str], None]) -> Kitchen:
    """Return what decides, for the new holder of the engine lock: whoever was showing messages before is gone."""
    store.end_leases([SOURCE], now)
    return open_kitchen(settings, store, say)


def open_kitchen(settings: Settings, store: SqlStore, say: Callable[[str], None]) -> Kitchen:
    """Return what decides. It computes forecasts and is slow to import, so only the engine does, in a thread.

    What is wrong with a person's own cuts and cookers is said, and all others count.
    """
    from bot.application import kitchen  # noqa: PLC0415 - slow to import
    from bot.catalogue import OWN_COOKERS, OWN_CUTS, open_cards, open_catalogue  # noqa: PLC0415 - slow to import
    from bot.messages import own_cuts  # noqa: PLC0415 - needed by the engine alone

    opened = open_catalogue(settings.data_dir)
    if opened.complaints:
        say(own_cuts.broken(opened.complaints, str(settings.data_dir / OWN_CUTS), every=True))
    cards, card_complaints = open_cards(settings.data_dir, opened.catalogue.cookers)
    if card_complaints:
        say(own_cuts.broken(card_complaints, str(settings.data_dir / OWN_COOKERS), every=True))
    return kitchen.Kitchen(
        store=store,
        catalogue=opened.catalogue,
        decoders={SOURCE: decode_terminal, TELEGRAM: decode_telegram},
        complaints=opened.complaints,
        cards=cards,
        card_complaints=card_complaints,
        zone=settings.zone,
        edition=settings.rules,
        papers=make_paper,
        charts=make_chart,
        link_prefix=read_link(settings.data_dir),
    )


def decode_telegram(raw: Json, *, source: str, key: str, received_at: dt.datetime) -> Incoming | None:
    """Read an update of Telegram; its room is imported when the first one comes."""
    from bot.transport.telegram.decode import decode  # noqa: PLC0415 - slow to import, often not needed

    return decode(raw, source=source, key=key, received_at=received_at)


def make_paper(
    paper: PaperKind, situation: Situation, *, now: dt.datetime, log: tuple[Fact, ...], unit: str | None = None
) -> Paper:
    """Print a plan or a record; the room that lays it out is imported when the first one is asked for."""
    from bot.papers.issue import make_paper as make  # noqa: PLC0415 - slow to import, often not needed

    return make(paper, situation, now=now, log=log, unit=unit)


def make_chart(situation: Situation, *, log: tuple[Fact, ...], voice: Voice, dark: bool | None) -> Document:
    """Draw a cook; the room that draws is imported when the first picture is wanted."""
    from bot.papers.issue import make_chart as make  # noqa: PLC0415 - slow to import, often not needed

    return make(situation, log=log, voice=voice, dark=dark)


def album(data_dir: Path) -> Album:
    """Return what puts away the pictures that people sent."""

    def keep(name: str, data: bytes) -> None:
        put_away(name, data, data_dir / PHOTOS)

    return keep


def courier_name() -> str:
    """Return a name for the leases of this process; one that is started again is somebody else."""
    return f"{os.getpid()}-{uuid.uuid4().hex[:8]}"


def read_link(data_dir: Path) -> str | None:
    """Return how a link for joining begins, None while no `serve` has found out."""
    try:
        return (data_dir / LINK).read_text("utf-8").strip() or None
    except OSError:
        return None


def write_link(data_dir: Path, link: str) -> None:
    """Remember how a link for joining begins."""
    fresh = data_dir / f"{LINK}.{os.getpid()}"
    fresh.write_text(f"{link}\n", "utf-8")
    fresh.replace(data_dir / LINK)
