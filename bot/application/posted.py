"""The one pinned message of a cook in a room: posted and pinned, then edited; posted anew where no edit is possible.

It makes no words but the explanation, once per room, of what a chat does not let it do.

A board is a series of outbox keys: the first, and after each that is gone another. What became of the newest is asked
of the store (`Store.fate`), which learns it from the outcomes of edits and pins; so a board that somebody deleted, that
grew too old, or that stayed behind in a group that moved is replaced by the next write, whenever that comes.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.application.visit import Work
from bot.chat import Address, Lack, Outgoing, OutgoingKind
from bot.messages import telegram_words
from bot.messages.message import Message
from bot.ports import OutboxWrite, Store

BOARD_FOR = dt.timedelta(minutes=30)
"""An edit of the board that could not be sent within this is dropped: a newer one follows."""
MOST_BOARDS = 40
"""So often it is posted anew in one room; whoever takes it away that often does not want it (house rule)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Standing:
    """Which message is the board of a room now."""

    key: str
    """Outbox key of the newest board."""
    posts: bool
    """It is still to be posted."""
    old: str | None = None
    """Key of the board that it replaces."""


def key_of(cook: str, room: Address) -> str:
    """Return the outbox key of the first board of a cook in a room."""
    return f"board:{cook}:{where(room)}"


def where(room: Address) -> str:
    """Return a room as a part of an outbox key."""
    return f"{room.transport}:{room.chat}" + ("" if room.thread is None else f":{room.thread}")


def standing(store: Store, first: str) -> Standing:
    """Return which of a series of boards counts now."""
    key, old = first, None
    for number in range(2, MOST_BOARDS + 1):
        fate = store.fate(key)
        if fate is None:
            return Standing(key=key, posts=True, old=old)
        if not fate.gone:
            break
        key, old = f"{first}.{number}", key
    return Standing(key=key, posts=False)


def post_board(store: Store, work: Work, text: str, *, to: Address, cook: str, version: int) -> None:
    """Post and pin the board of a cook in a room, or edit the one that is there; `version` is of the cook."""
    now = standing(store, key_of(cook, to))
    if not now.posts:
        _edit(work, now.key, text, to=to, cook=cook, version=version)
        _explain_once(store, work, now.key, to)
        return
    board = Outgoing(key=now.key, address=to, text=text, silent=True)
    work.outbox.append(OutboxWrite(outgoing=board, cook=cook))
    pin(work, now.key, to=to, cook=cook)
    if now.old is not None:
        off = Outgoing(key=f"{now.old}:off", address=to, kind=OutgoingKind.UNPIN, target=now.old)
        work.outbox.append(OutboxWrite(outgoing=off, cook=cook))


def take_off(store: Store, work: Work, *, to: Address, cook: str) -> None:
    """Unpin the board of a cook that is over; what it says stays readable."""
    now = standing(store, key_of(cook, to))
    if not now.posts:
        off = Outgoing(key=f"{now.key}:off", address=to, kind=OutgoingKind.UNPIN, target=now.key)
        work.outbox.append(OutboxWrite(outgoing=off, cook=cook))


def pin(work: Work, key: str, *, to: Address, cook: str, again: str = "") -> None:
    """Pin a board; `again` tells one attempt from another, after the program was given the right to."""
    up = Outgoing(key=f"{key}:pin{again}", address=to, kind=OutgoingKind.PIN, target=key, silent=True)
    work.outbox.append(OutboxWrite(outgoing=up, cook=cook))


def _edit(work: Work, key: str, text: str, *, to: Address, cook: str, version: int) -> None:
    change = Outgoing(
        key=f"{key}:{version}",
        address=to,
        kind=OutgoingKind.EDIT,
        text=text,
        silent=True,
        target=key,
        useful_until=work.now + BOARD_FOR,
    )
    work.outbox.append(OutboxWrite(outgoing=change, cook=cook))


def _explain_once(store: Store, work: Work, key: str, room: Address) -> None:
    """Say once in a room, ever, that its boards cannot be pinned, and what to do about it."""
    fate = store.fate(f"{key}:pin")
    if fate is not None and fate.lack is Lack.PIN:  # the key is stored once, so it is said once
        work.say(Message(text=telegram_words.cannot_pin()), to=room, key="cannot-pin", silent=True)
