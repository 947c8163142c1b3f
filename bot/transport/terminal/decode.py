"""Reads what a terminal window stored in the inbox, and makes what it stores.

It must not interpret the words.
"""

from __future__ import annotations

import datetime as dt
import unicodedata
import uuid
from typing import Annotated, Literal

from pydantic import AwareDatetime, BaseModel, ConfigDict, Field, StringConstraints

from bot.chat import Address, Attachment, Incoming, IncomingKind
from bot.ports import Json
from bot.transport.terminal.attach import Picture
from bot.transport.terminal.clean import clean, clean_line

SOURCE = "terminal"
LONGEST_TEXT = 4000
"""Characters of one line; about what a messenger takes in one message."""

_KINDS = {
    "hello": IncomingKind.ARRIVED,
    "text": IncomingKind.TEXT,
    "tap": IncomingKind.TAP,
    "photo": IncomingKind.PHOTO,
}


class _Raw(BaseModel):
    """One row as written by a window, of this or an older version."""

    model_config = ConfigDict(frozen=True, extra="ignore")

    kind: Literal["hello", "text", "tap", "photo", "bye"]
    chat: Annotated[str, StringConstraints(min_length=1)]
    sender: Annotated[str, StringConstraints(min_length=1)]
    text: str = ""
    token: str | None = None
    language: str | None = None
    file: str | None = None
    media_type: str = "image/jpeg"
    size_bytes: int | None = None
    sent_at: AwareDatetime
    message: Annotated[str, Field(min_length=1)]


def chat_of(name: str) -> str:
    """Return the chat of a named person: the same for `Ines` and `INES`."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", clean_line(name)).casefold())


def make_raw(
    *,
    kind: Literal["hello", "text", "tap", "photo", "bye"],
    name: str,
    sent_at: dt.datetime,
    text: str = "",
    language: str | None = None,
    picture: Picture | None = None,
) -> tuple[str, Json]:
    """Return the key and the raw row for what a person did in their window, whose language is `language` if told."""
    message = uuid.uuid4().hex
    told: dict[str, object] = {} if language is None else {"language": language}
    if picture is not None:
        told |= {"file": picture.path, "media_type": picture.media_type, "size_bytes": picture.size_bytes}
    return message, {
        **told,
        "kind": kind,
        "chat": clean_line(name),
        "sender": clean_line(name),
        "text": clean(text),
        "sent_at": sent_at.astimezone(dt.UTC).isoformat(),
        "message": message,
    }


def decode_terminal(raw: Json, *, source: str, key: str, received_at: dt.datetime) -> Incoming | None:
    """Return what the person did; None for leaving. Raises ValueError when the row cannot be read.

    `received_at` stands in for a `sent_at` that lies in the future (a clock that was set back).
    """
    row = _Raw.model_validate(dict(raw))
    kind = _KINDS.get(row.kind)
    if kind is None:
        return None
    sender = chat_of(row.sender)
    chat = chat_of(row.chat)
    if not sender or not chat:
        raise ValueError("a row of the terminal without a name")
    return Incoming(
        source=source,
        key=key,
        address=Address(transport=SOURCE, chat=chat),
        sender=sender,
        sender_name=clean_line(row.sender),
        kind=kind,
        sent_at=min(row.sent_at.astimezone(dt.UTC), received_at),
        text=clean(row.text),
        token=row.token,
        language=row.language,
        message=f"{SOURCE}:{row.message}",
        attachment=None
        if row.file is None
        else Attachment(file=row.file, media_type=row.media_type, size_bytes=row.size_bytes),
    )
