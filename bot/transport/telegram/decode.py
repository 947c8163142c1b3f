"""Reads a raw update: what did who do, where and when. Pure; the same update always reads the same.

It must not understand words: commands, codes and numbers stay in the text for the conversation room.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re

from pydantic import ValidationError

from bot.chat import Address, Incoming, IncomingKind
from bot.ports import Json
from bot.transport.telegram.errors import TRANSPORT
from bot.transport.telegram.shapes import MessageRef
from bot.transport.telegram.updates import (
    CONTENT,
    CallbackQuery,
    Chat,
    ChatMemberUpdated,
    Member,
    Message,
    Update,
    User,
)

_PRIVATE, _CHANNEL = "private", "channel"
# C0 controls without the newline, DEL and C1: nothing a person means, and dangerous to a terminal.
# Marks of writing direction stay in texts.
_CONTROLS = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]")
# Marks of writing direction and line ends: a name with them could pose as part of a message.
_NOT_IN_NAMES = re.compile(r"[\n\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]+")


def decode(raw: Json, *, source: str, key: str, received_at: dt.datetime) -> Incoming | None:
    """Return what a person did; None when it concerns nobody (service messages, channels, other bots).

    Instants come from the update (when it was sent or edited), not from `received_at`, except for taps,
    which carry none. Raises ValueError, with a short reason that holds nothing of the content, when the
    update cannot be read.
    """
    try:
        update = Update.model_validate(dict(raw))
    except ValidationError as error:
        first = error.errors(include_input=False, include_url=False, include_context=False)[0]
        where = ".".join(str(part) for part in first["loc"])
        raise ValueError(f"update cannot be read: {where}: {first['msg']}") from None
    envelope = _Envelope(source=source, key=key, received_at=received_at)
    if update.message is not None:
        return _message(update.message, _fields(raw, "message"), envelope)
    if update.edited_message is not None:
        return _edited(update.edited_message, envelope)
    if update.callback_query is not None:
        return _tap(update.callback_query, envelope)
    if update.my_chat_member is not None:
        return _membership(update.my_chat_member, envelope)
    return None


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Envelope:
    source: str
    key: str
    received_at: dt.datetime


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Sender:
    id: str
    name: str


def _message(message: Message, fields: frozenset[str], envelope: _Envelope) -> Incoming | None:
    if message.migrate_to_chat_id is not None:
        moved_to = Address(transport=TRANSPORT, chat=str(message.migrate_to_chat_id))
        sender = _sender(message) or _Sender(id=str(message.chat.id), name=_chat_name(message.chat))
        return dataclasses.replace(
            _from_message(message, sender, IncomingKind.MOVED, envelope), moved_to=moved_to, message=None
        )
    person = _sender(message)
    if person is None:
        return None
    if message.text is not None:
        return _from_message(message, person, IncomingKind.TEXT, envelope)
    if fields & CONTENT:
        return _from_message(message, person, IncomingKind.OTHER, envelope)
    return None


def _edited(message: Message, envelope: _Envelope) -> Incoming | None:
    """Return a changed text or caption; other changes (a moving location, a closed poll) concern nobody."""
    person = _sender(message)
    if person is None or (message.text is None and message.caption is None):
        return None
    return _from_message(message, person, IncomingKind.EDIT, envelope)


def _from_message(message: Message, person: _Sender, kind: IncomingKind, envelope: _Envelope) -> Incoming:
    stamp = message.edit_date if kind is IncomingKind.EDIT and message.edit_date else message.date
    return Incoming(
        source=envelope.source,
        key=envelope.key,
        address=_address(message),
        sender=person.id,
        sender_name=person.name,
        kind=kind,
        sent_at=_instant(stamp, envelope),
        text=cleaned(message.text if message.text is not None else message.caption or ""),
        message=str(MessageRef(chat_id=message.chat.id, message_id=message.message_id)),
        group=message.chat.type != _PRIVATE,
    )


def _tap(query: CallbackQuery, envelope: _Envelope) -> Incoming | None:
    message = query.message
    if message is None or query.data is None or message.chat.type == _CHANNEL:
        return None
    person = _user(query.sender)
    return Incoming(
        source=envelope.source,
        key=envelope.key,
        address=_address(message),
        sender=person.id,
        sender_name=person.name,
        kind=IncomingKind.TAP,
        sent_at=envelope.received_at,
        token=query.data,
        message=str(MessageRef(chat_id=message.chat.id, message_id=message.message_id)),
        tap_id=query.id,
        group=message.chat.type != _PRIVATE,
    )


def _membership(change: ChatMemberUpdated, envelope: _Envelope) -> Incoming | None:
    could, can = _may_write(change.old_chat_member), _may_write(change.new_chat_member)
    if could == can or change.chat.type == _CHANNEL:
        return None
    person = _user(change.sender)
    return Incoming(
        source=envelope.source,
        key=envelope.key,
        address=Address(transport=TRANSPORT, chat=str(change.chat.id)),
        sender=person.id,
        sender_name=person.name,
        kind=IncomingKind.ARRIVED if can else IncomingKind.LEFT,
        sent_at=_instant(change.date, envelope),
        group=change.chat.type != _PRIVATE,
    )


def _may_write(member: Member) -> bool:
    if member.status == "restricted":
        return member.is_member is not False and member.can_send_messages is not False
    return member.status in {"creator", "administrator", "member"}


def _sender(message: Message) -> _Sender | None:
    """Return who wrote: a person, or the group or channel in whose name they wrote; None for bots."""
    if message.chat.type == _CHANNEL or message.is_automatic_forward:
        return None
    if message.sender_chat is not None:
        return _Sender(id=str(message.sender_chat.id), name=_chat_name(message.sender_chat))
    if message.sender is None or message.sender.is_bot:
        return None
    return _user(message.sender)


def _user(user: User) -> _Sender:
    full = _clean_name(f"{user.first_name} {user.last_name or ''}")
    return _Sender(id=str(user.id), name=full or _clean_name(user.username or "") or str(user.id))


def _chat_name(chat: Chat) -> str:
    return _clean_name(chat.title or "") or str(chat.id)


def _clean_name(name: str) -> str:
    return " ".join(_NOT_IN_NAMES.sub(" ", cleaned(name)).split())


def cleaned(text: str) -> str:
    """Return the text with line ends as newlines, tabs as spaces and other control characters left out."""
    return _CONTROLS.sub("", text.replace("\r\n", "\n").replace("\r", "\n").replace("\t", " "))


def _address(message: Message) -> Address:
    thread = message.message_thread_id if message.is_topic_message else None
    return Address(transport=TRANSPORT, chat=str(message.chat.id), thread=thread)


def _instant(seconds: int, envelope: _Envelope) -> dt.datetime:
    """Return the instant of a Unix time; 0 stands for a message that can no longer be seen."""
    return dt.datetime.fromtimestamp(seconds, dt.UTC) if seconds else envelope.received_at


def _fields(raw: Json, part: str) -> frozenset[str]:
    inside = raw.get(part)
    return frozenset(inside) if isinstance(inside, dict) else frozenset()
