"""What passes between a chat and the program, whatever the transport.

Values only: no wording is made here and nothing is sent.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum


@dataclasses.dataclass(frozen=True, kw_only=True, order=True)
class Address:
    """Where messages go: one private chat, group, topic, or the window of one named person in the terminal."""

    transport: str
    chat: str
    thread: int | None = None


class IncomingKind(StrEnum):
    """What a person did."""

    TEXT = "text"
    EDIT = "edit"
    """An earlier message was changed; `text` is the new text, `message` the reference of that message."""
    TAP = "tap"
    """A button was pressed; `token` says which."""
    ARRIVED = "arrived"
    """The program was added to a group, or unblocked in a private chat."""
    LEFT = "left"
    """The program was removed or blocked."""
    MOVED = "moved"
    """The chat has a new address (`moved_to`)."""
    RIGHTS = "rights"
    """What the program may hear or do in a group has changed: it was made an administrator, or no longer is one."""
    PHOTO = "photo"
    """A picture (`attachment`); `text` is what was written under it, often nothing."""
    VOICE = "voice"
    """A voice note (`attachment`)."""
    GAP = "gap"
    """Nobody did this: the transport was not listened to from `since` until `sent_at`, so something may be lost."""
    OTHER = "other"
    """Anything else that is not text."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Attachment:
    """A file that somebody sent, not yet fetched. Its bytes are asked for by `OutgoingKind.FETCH`."""

    file: str
    """The transport's own name of the file, for `Outgoing.target`."""
    media_type: str
    size_bytes: int | None = None
    """None where the transport does not say."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Incoming:
    """One thing that a person did in a chat. Instants are aware, UTC."""

    source: str
    key: str
    """Unique within the source: what makes a repeat of the same update visible."""
    address: Address
    sender: str
    """The transport's own stable id of the person."""
    sender_name: str
    kind: IncomingKind
    sent_at: dt.datetime
    """When the person sent (or edited) it: a reply is dated by this, not by arrival."""
    text: str = ""
    token: str | None = None
    message: str | None = None
    """Reference of the message itself, stable over edits, unique over all chats of the transport."""
    tap_id: str | None = None
    """What a transport needs to answer a pressed button."""
    group: bool = False
    language: str | None = None
    """Language of the sender's own device, a code such as "de", where the transport tells it: a first guess."""
    moved_to: Address | None = None
    attachment: Attachment | None = None
    hears_all: bool | None = None
    """Whether the program hears everything in this group, or only commands and replies to itself; None: not known."""
    since: dt.datetime | None = None
    answers: str | None = None
    """Reference of the message of ours that this one is a reply to."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Choice:
    """One button. The token is short, opaque and unique; what it means is kept in the database."""

    label: str
    token: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Document:
    """A file that goes with a message. The name holds nothing of anybody."""

    name: str
    media_type: str
    data: bytes = dataclasses.field(repr=False)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Asking:
    """A message wants an answer that is typed, as a reply to it: where a group lets the program hear nothing else.

    Buttons and this exclude one another; buttons win. With `to` or `person` only one person is asked.
    """

    to: str | None = None
    """Reference of the message of the person who is asked; the question is sent as a reply to it."""
    person: str | None = None
    """The transport's own id of the person who is asked; their `name` must stand in the text."""
    name: str = ""


class OutgoingKind(StrEnum):
    """What is to be done in a chat."""

    MESSAGE = "message"
    EDIT = "edit"
    """Change the text and buttons of the message that was sent under the outbox key `target`.

    Where that message can no longer be changed (deleted, too old, never sent, left behind in another chat) the outcome
    is `Declined(Lack.GONE)`, and from then on `Store.fate(target)` says `gone`. Whoever writes next posts the message
    anew under another key, pins that, and unpins the old one; `bot.application.posted` does so for boards.
    """
    PIN = "pin"
    """Pin the message that was sent under the outbox key `target`, without a sound; idempotent. Where the chat does not
    let the program pin, the outcome is `Declined(Lack.PIN)`: the message itself is as good as before.
    """
    UNPIN = "unpin"
    """Take the message that was sent under the outbox key `target` off the top; idempotent."""
    REACTION = "reaction"
    """Acknowledge the message with reference `target`; idempotent. A chat without reactions declines."""
    FETCH = "fetch"
    """Fetch the file of the attachment `target` and put it away under the name `text`; nobody sees anything."""
    TAP_ANSWER = "tap_answer"
    """End the waiting of a pressed button; `target` is the tap id. Never worth a retry."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Outgoing:
    """One thing to be done in a chat. The key is unique for ever: the same key is never stored twice."""

    key: str
    address: Address
    kind: OutgoingKind = OutgoingKind.MESSAGE
    text: str = ""
    choices: tuple[tuple[Choice, ...], ...] = ()
    """Rows of buttons."""
    silent: bool = False
    urgent: bool = False
    """Sent before everything else that waits (food safety)."""
    target: str | None = None
    useful_until: dt.datetime | None = None
    """After this it is dropped unsent (board edits, tap answers); None for whatever must arrive."""
    possible_repeat: bool = False
    """Set by the courier when an earlier attempt may have arrived."""
    document: Document | None = None
    """A file that goes with a message; the text is then its caption. A picture is shown as one."""
    wants_reply: Asking | None = None
    """Set for a question without buttons in a group that lets the program hear only replies."""


# --- delivery outcomes are values -----------------------------------------------------------------------------------


@dataclasses.dataclass(frozen=True, kw_only=True)
class Sent:
    """Delivered; `ref` is the transport's reference of the message (None where there is none)."""

    ref: str | None = None
    at: Address | None = None
    """Where it went, if not where it was sent to: the topic is closed or gone, and all that was there goes there."""


EDIT_PACE = "edits wait"
"""Reason of a `TryAgain` for an edit that waits for nothing but the pace of edits: nothing else waits for it."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class TryAgain:
    """Certainly not delivered; try again after this span. `costs_attempt` is False for a rate limit."""

    wait: dt.timedelta
    why: str
    costs_attempt: bool = True
    whole_transport: bool = False
    """True when every chat of the transport should pause, not only this one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Moved:
    """Not delivered: the chat has a new address."""

    to: Address


@dataclasses.dataclass(frozen=True, kw_only=True)
class Unreachable:
    """Not delivered: blocked, kicked or gone. The chat is paused until it comes back."""

    why: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Rejected:
    """Not delivered and never will be in this form; the row is parked for the operator."""

    why: str


class Lack(StrEnum):
    """What stood in the way of something that the chat itself does not need."""

    PIN = "pin"
    """The program has no right to pin here."""
    REACTION = "reaction"
    """No reactions here, or not to this message."""
    GONE = "gone"
    """The message can no longer be changed or pinned: deleted, too old, never sent, or in another chat."""
    FILE = "file"
    """The file cannot be had: too large, or no longer kept by the other side."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Declined:
    """Not done, and nothing is broken by it: never tried again, remembered under the key (`Store.fate`)."""

    lack: Lack
    why: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Unknown:
    """It may or may not have arrived (answer lost)."""

    why: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Locked:
    """Not delivered: the transport itself refuses us (token revoked). Everything of the transport waits."""

    why: str


Outcome = Sent | TryAgain | Moved | Unreachable | Rejected | Declined | Unknown | Locked
