"""The parts of Telegram's updates that are read, as models at the border.

It must not know what an update means for a chat; `decode` does. Fields and their meaning: Bot API 10.1,
11 June 2026 (Update, Message, CallbackQuery, ChatMemberUpdated).
"""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

LAST_SECOND = 253_402_300_799  # 31 December 9999: what a datetime can hold

HEARD_BY = "slowbell_heard_by"
GAP = "slowbell_gap"

Seconds = Annotated[int, Field(ge=0, le=LAST_SECOND)]
"""Unix time."""
Id = Annotated[int, Field(ge=-(2**52), le=2**52)]
"""Ids of chats and people have at most 52 significant bits."""


class _Part(BaseModel):
    model_config = ConfigDict(frozen=True, extra="ignore", strict=True)


class User(_Part):
    """A person or a bot."""

    id: Id
    is_bot: bool = False
    first_name: str = ""
    last_name: str | None = None
    username: str | None = None
    language_code: str | None = None
    """IETF tag of the language of the person's app; not told by every app."""


class Chat(_Part):
    """A private chat, group, supergroup or channel."""

    id: Id
    type: str
    title: str | None = None


class PhotoSize(_Part):
    """One size of a photo."""

    file_id: str
    width: int
    height: int
    file_size: int | None = None


class Voice(_Part):
    """A voice note."""

    file_id: str
    mime_type: str | None = None
    file_size: int | None = None


class Document(_Part):
    """A file."""

    file_id: str
    mime_type: str | None = None
    file_size: int | None = None


class Quoted(_Part):
    """The message that another one is a reply to."""

    message_id: Id
    sender: User | None = Field(default=None, alias="from")


class Message(_Part):
    """A message, or one that the bot may no longer see (`date` 0)."""

    message_id: Id
    date: Seconds
    chat: Chat
    sender: User | None = Field(default=None, alias="from")
    sender_chat: Chat | None = None
    """Set when somebody writes as a group (anonymous administrators) or as a channel."""
    message_thread_id: Id | None = None
    """Also set on replies in groups without topics: a topic only when `is_topic_message`."""
    is_topic_message: bool = False
    is_automatic_forward: bool = False
    edit_date: Seconds | None = None
    text: str | None = None
    caption: str | None = None
    migrate_to_chat_id: Id | None = None
    migrate_from_chat_id: Id | None = None
    photo: list[PhotoSize] = Field(default_factory=list)
    """The same picture in several sizes."""
    voice: Voice | None = None
    document: Document | None = None
    reply_to_message: Quoted | None = None


class CallbackQuery(_Part):
    """A pressed button."""

    id: str
    sender: User = Field(alias="from")
    message: Message | None = None
    data: str | None = None


class Member(_Part):
    """What the bot may do in a chat."""

    status: str
    is_member: bool | None = None
    can_send_messages: bool | None = None
    can_pin_messages: bool | None = None


class ChatMemberUpdated(_Part):
    """The bot was added, removed, blocked, unblocked, restricted or promoted."""

    chat: Chat
    sender: User = Field(alias="from")
    date: Seconds
    old_chat_member: Member
    new_chat_member: Member


class HeardBy(_Part):
    """What the poller knew of the bot when an update came (not of the Bot API: it is put there before storing)."""

    username: str
    reads_all: bool


class Gap(_Part):
    """When nobody listened (not of the Bot API: the poller's process writes it into the inbox)."""

    since: Seconds
    until: Seconds


class Update(_Part):
    """One update: its id and at most one of the others."""

    update_id: int
    heard_by: HeardBy | None = Field(default=None, alias=HEARD_BY)
    gap: Gap | None = Field(default=None, alias=GAP)
    message: Message | None = None
    edited_message: Message | None = None
    callback_query: CallbackQuery | None = None
    my_chat_member: ChatMemberUpdated | None = None


CONTENT = frozenset(
    {
        "animation", "audio", "checklist", "contact", "dice", "document", "game", "gift", "giveaway",
        "invoice", "live_photo", "location", "paid_media", "photo", "poll", "rich_message", "sticker",
        "story", "unique_gift", "venue", "video", "video_note", "voice",
    }
)  # fmt: skip
"""Fields of a message that carry something a person sent other than text; all others are service messages."""
