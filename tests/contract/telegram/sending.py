"""Rows to be sent, and a transport to send them with.

It must not assert anything.
"""

from __future__ import annotations

import contextlib
import datetime as dt
from collections.abc import AsyncIterator

from bot.chat import Address, Asking, Choice, Document, Outgoing, OutgoingKind
from bot.ports import Album, ClaimedRow
from bot.transport.telegram.outgoing import TelegramTransport, Timeouts
from bot.transport.telegram.redact import Token
from tests.fakes.botapi import FakeTelegram

NOON = dt.datetime(2026, 9, 12, 12, tzinfo=dt.UTC)
JITTER = dt.timedelta(seconds=2)
TOPIC_MARK = "(topic closed)"
REPEAT_MARK = "(may have come before)"
DONE = ((Choice(label="Done", token="t-done"), Choice(label="Not yet", token="t-later")),)


def row(
    chat: int | str,
    text: str = "Spritz the ribs.",
    *,
    kind: OutgoingKind = OutgoingKind.MESSAGE,
    choices: tuple[tuple[Choice, ...], ...] = (),
    silent: bool = False,
    target: str | None = None,
    target_ref: str | None = None,
    possible_repeat: bool = False,
    thread: int | None = None,
    document: Document | None = None,
    wants_reply: Asking | None = None,
    target_file: bool = False,
) -> ClaimedRow:
    """Return a claimed row; `thread` is the topic."""
    outgoing = Outgoing(
        key="prompt-1",
        address=Address(transport="telegram", chat=str(chat), thread=thread),
        kind=kind,
        text=text,
        choices=choices,
        silent=silent,
        target=target,
        possible_repeat=possible_repeat,
        document=document,
        wants_reply=wants_reply,
    )
    return ClaimedRow(id=1, attempt=1, outgoing=outgoing, target_ref=target_ref, target_file=target_file)


def edit(
    chat: int,
    ref: str | None,
    text: str,
    *,
    choices: tuple[tuple[Choice, ...], ...] = (),
    possible_repeat: bool = False,
    target_file: bool = False,
) -> ClaimedRow:
    """Return a row that changes a message; `target_file`: one that went with a file."""
    return row(
        chat,
        text,
        kind=OutgoingKind.EDIT,
        target="prompt-1",
        target_ref=ref,
        choices=choices,
        possible_repeat=possible_repeat,
        target_file=target_file,
    )


@contextlib.asynccontextmanager
async def transport(
    fake: FakeTelegram,
    *,
    base_url: str | None = None,
    read_s: float = 20.0,
    whole_s: float = 45.0,
    album: Album | None = None,
) -> AsyncIterator[TelegramTransport]:
    """A transport whose clock stands at noon."""
    made = TelegramTransport(
        token=Token(fake.token),
        repeat_mark=lambda: REPEAT_MARK,
        clock=lambda: NOON,
        base_url=base_url or fake.base_url,
        timeouts=Timeouts(read_s=read_s, whole_s=whole_s),
        jitter=lambda: JITTER,
        topic_mark=lambda: TOPIC_MARK,
        album=album,
    )
    try:
        yield made
    finally:
        await made.close()
