"""Reads a raw update: what did who do, where and when. Pure; the same update always reads the same.

It must not understand words: commands, codes and numbers stay in the text for the conversation room.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re

from pydantic import ValidationError

from bot.chat import Address, Attachment, Incoming, IncomingKind
from bot.ports import Json
from bot.transport.telegram.errors import TRANSPORT
from bot.transport.telegram.names import plain_name
from bot.transport.telegram.posting import GENERAL_TOPIC
from bot.transport.telegram.shapes import MessageRef
from bot.transport.telegram.updates import (
    CONTENT,
    CallbackQuery,
    Chat,
    ChatMemberUpdated,
    Gap,
    HeardBy,
    Member,
    Message,
    Update,
    User,
)

_PRIVATE, _CHANNEL = "private", "channel"
# C0 controls without the newline, DEL and C1: nothing a person means, and dangerous to a terminal.
# Marks of writing direction stay in texts.
_CONTROLS = re.compile(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]")
_COMMAND = re.compile(r"/([A-Za-z0-9_]+)@([A-Za-z0-9_]+)")
_PICTURE = "image/"
_PHOTO, _VOICE = "image/jpeg", "audio/ogg"
"""Bot API: photos are JPEG; voice notes are OGG where nothing else is said."""


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
    envelope = _Envelope(source=source, key=key, received_at=received_at, heard_by=update.heard_by)
    if update.message is not None:
        return _message(update.message, _fields(raw, "message"), envelope)
    if update.edited_message is not None:
        return _edited(update.edited_message, envelope)
    if update.callback_query is not None:
        return _tap(update.callback_query, envelope)
    if update.my_chat_member is not None:
        return _membership(update.my_chat_member, envelope)
    return None if update.gap is None else _gap(update.gap, envelope)


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Envelope:
    source: str
    key: str
    received_at: dt.datetime
    heard_by: HeardBy | None = None

    @property
    def bot(self) -> str:
        """Return the id of the bot that the update is for."""
        return self.source.rpartition(":")[2]

    @property
    def reads_all(self) -> bool | None:
        """Return whether the bot hears everything in every group; None when it was not known."""
        return None if self.heard_by is None else self.heard_by.reads_all


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Sender:
    id: str
    name: str
    language: str | None = None


def _message(message: Message, fields: frozenset[str], envelope: _Envelope) -> Incoming | None:
    if message.migrate_to_chat_id is not None or message.migrate_from_chat_id is not None:
        return _moved(message, envelope)
    person = _sender(message)
    if person is None:
        return None
    if message.text is not None:
        return _from_message(message, person, IncomingKind.TEXT, envelope)
    if fields & CONTENT:
        kind, attachment = _attached(message)
        incoming = _from_message(message, person, kind, envelope)
        return None if incoming is None else dataclasses.replace(incoming, attachment=attachment)
    return None


def _moved(message: Message, envelope: _Envelope) -> Incoming:
    """Return that a group has a new id, whichever of its two messages says so: in the old group, in the new one."""
    here = message.chat.id
    old = message.migrate_from_chat_id if message.migrate_from_chat_id is not None else here
    new = message.migrate_to_chat_id if message.migrate_to_chat_id is not None else here
    sender = _sender(message) or _Sender(id=str(here), name=_chat_name(message.chat))
    return Incoming(
        source=envelope.source,
        key=envelope.key,
        address=Address(transport=TRANSPORT, chat=str(old)),
        sender=sender.id,
        sender_name=sender.name,
        kind=IncomingKind.MOVED,
        sent_at=_instant(message.date, envelope),
        group=True,
        moved_to=Address(transport=TRANSPORT, chat=str(new)),
    )


def _attached(message: Message) -> tuple[IncomingKind, Attachment | None]:
    """Return what kind of content a message holds, and the file of a picture (its largest size) or a voice note."""
    if message.photo:
        one = max(message.photo, key=lambda size: size.width * size.height)
        return IncomingKind.PHOTO, Attachment(file=one.file_id, media_type=_PHOTO, size_bytes=one.file_size)
    if message.voice is not None:
        note = message.voice
        media_type = note.mime_type or _VOICE
        return IncomingKind.VOICE, Attachment(file=note.file_id, media_type=media_type, size_bytes=note.file_size)
    file = message.document
    if file is not None and (file.mime_type or "").startswith(_PICTURE):  # a picture sent as a file
        attachment = Attachment(file=file.file_id, media_type=file.mime_type or _PHOTO, size_bytes=file.file_size)
        return IncomingKind.PHOTO, attachment
    return IncomingKind.OTHER, None


def _edited(message: Message, envelope: _Envelope) -> Incoming | None:
    """Return a changed text or caption; other changes (a moving location, a closed poll) concern nobody."""
    person = _sender(message)
    if person is None or (message.text is None and message.caption is None):
        return None
    return _from_message(message, person, IncomingKind.EDIT, envelope)


def _from_message(message: Message, person: _Sender, kind: IncomingKind, envelope: _Envelope) -> Incoming | None:
    stamp = message.edit_date if kind is IncomingKind.EDIT and message.edit_date else message.date
    text = _to_us(cleaned(message.text if message.text is not None else message.caption or ""), envelope)
    if text is None:
        return None
    group = message.chat.type != _PRIVATE
    return Incoming(
        source=envelope.source,
        key=envelope.key,
        address=_address(message),
        sender=person.id,
        sender_name=person.name,
        kind=kind,
        sent_at=_instant(stamp, envelope),
        text=text,
        message=str(MessageRef(chat_id=message.chat.id, message_id=message.message_id)),
        group=group,
        language=person.language,
        hears_all=_heard_all(message, text, envelope) if group else None,
        answers=_answered(message, envelope),
    )


def _heard_all(message: Message, text: str, envelope: _Envelope) -> bool | None:
    """Return True where a message could only be heard by a bot that hears all of them; None where that is not known."""
    plain = message.text is not None and not text.startswith("/") and message.reply_to_message is None
    return True if envelope.reads_all or (envelope.reads_all is not None and plain and "@" not in text) else None


def _to_us(text: str, envelope: _Envelope) -> str | None:
    """Return a text with the bot's own name taken off its command, None when the command is for another bot."""
    command = _COMMAND.match(text)
    if command is None or envelope.heard_by is None:
        return text
    if command.group(2).casefold() != envelope.heard_by.username.casefold():
        return None
    return f"/{command.group(1)}{text[command.end() :]}"


def _answered(message: Message, envelope: _Envelope) -> str | None:
    quoted = message.reply_to_message
    if quoted is None or quoted.sender is None or str(quoted.sender.id) != envelope.bot:
        return None
    return str(MessageRef(chat_id=message.chat.id, message_id=quoted.message_id))


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
        language=person.language,
    )


def _membership(change: ChatMemberUpdated, envelope: _Envelope) -> Incoming | None:
    old, new = change.old_chat_member, change.new_chat_member
    could, can = _may_write(old), _may_write(new)
    group = change.chat.type != _PRIVATE
    other_rights = group and can and (_is_admin(old), old.can_pin_messages) != (_is_admin(new), new.can_pin_messages)
    if change.chat.type == _CHANNEL or (could == can and not other_rights):
        return None
    person = _user(change.sender)
    come_or_gone = IncomingKind.ARRIVED if can else IncomingKind.LEFT
    return Incoming(
        source=envelope.source,
        key=envelope.key,
        address=Address(transport=TRANSPORT, chat=str(change.chat.id)),
        sender=person.id,
        sender_name=person.name,
        kind=IncomingKind.RIGHTS if could == can else come_or_gone,
        sent_at=_instant(change.date, envelope),
        group=group,
        language=person.language,
        hears_all=(_is_admin(new) or envelope.reads_all) if group and can else None,
    )


def _gap(gap: Gap, envelope: _Envelope) -> Incoming:
    return Incoming(
        source=envelope.source,
        key=envelope.key,
        address=Address(transport=TRANSPORT, chat=envelope.bot),
        sender=envelope.bot,
        sender_name=envelope.bot,
        kind=IncomingKind.GAP,
        sent_at=_instant(gap.until, envelope),
        since=_instant(gap.since, envelope),
    )


def _is_admin(member: Member) -> bool:
    return member.status in {"creator", "administrator"}


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
    full = plain_name(cleaned(f"{user.first_name} {user.last_name or ''}"))
    name = full or plain_name(cleaned(user.username or "")) or str(user.id)
    return _Sender(id=str(user.id), name=name, language=user.language_code)


def _chat_name(chat: Chat) -> str:
    return plain_name(cleaned(chat.title or "")) or str(chat.id)


def cleaned(text: str) -> str:
    """Return the text with line ends as newlines, tabs as spaces and other control characters left out."""
    return _CONTROLS.sub("", text.replace("\r\n", "\n").replace("\r", "\n").replace("\t", " "))


def _address(message: Message) -> Address:
    thread = message.message_thread_id if message.is_topic_message else None
    if thread in {0, GENERAL_TOPIC}:  # the general topic is the group itself
        thread = None
    return Address(transport=TRANSPORT, chat=str(message.chat.id), thread=thread)


def _instant(seconds: int, envelope: _Envelope) -> dt.datetime:
    """Return the instant of a Unix time; 0 stands for a message that can no longer be seen."""
    return dt.datetime.fromtimestamp(seconds, dt.UTC) if seconds else envelope.received_at


def _fields(raw: Json, part: str) -> frozenset[str]:
    inside = raw.get(part)
    return frozenset(inside) if isinstance(inside, dict) else frozenset()
