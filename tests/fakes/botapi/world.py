"""Chats, people and messages as the server keeps them, and what people do in them.

It must not know HTTP, nor check forms. Every method is called with the server's lock held.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import threading

from tests.fakes.botapi.contract import Json
from tests.fakes.botapi.updates import UpdateQueue

BOT_ID, BOT_NAME = 7000001, "Bell"
BOT: Json = {"id": BOT_ID, "is_bot": True, "first_name": BOT_NAME, "username": "slowbell_test_bot"}


@dataclasses.dataclass(kw_only=True)
class Entry:
    """One message: its JSON as the server hands it out, and what happened to it."""

    message: Json
    reactions: list[str] = dataclasses.field(default_factory=list)
    edits: int = 0
    pinned: bool = False
    silent: bool = False
    force_reply: Json | None = None
    frozen: bool = False
    """The server no longer lets it be edited."""

    @property
    def by_bot(self) -> bool:
        return bool(self.message["from"]["id"] == BOT_ID)


@dataclasses.dataclass(kw_only=True)
class Room:
    """One chat."""

    chat: Json
    entries: dict[int, Entry] = dataclasses.field(default_factory=dict)
    last_id: int = 0
    closed: str | None = None
    """Why the bot may not write (error 403), None when it may."""
    moved_to: int | None = None
    admin: bool = False
    may_pin: bool = True
    """Where it is an administrator."""
    reactions: bool = True
    topics: set[int] = dataclasses.field(default_factory=set)
    closed_topics: set[int] = dataclasses.field(default_factory=set)
    slow_s: int = 0
    last_by_bot_s: float = float("-inf")

    @property
    def private(self) -> bool:
        return bool(self.chat["type"] == "private")


class World:
    """All that the server knows."""

    def __init__(self, changed: threading.Condition) -> None:
        self._fixed_s: float | None = None
        self.queue = UpdateQueue(changed, self.now_s)
        self.rooms: dict[int, Room] = {}
        self.people: dict[str, Json] = {}
        self.taps: dict[str, bool] = {}
        """Query id: answered."""
        self.expired: set[str] = set()
        self.commands: dict[tuple[str, str], list[Json]] = {}
        """By scope and language."""
        self.files: dict[str, bytes] = {}
        self.hidden = False
        """`getFile` still names files that are not handed out."""
        self.sees_all = False
        self._next_room = 0

    # --- the clock of the server

    def now_s(self) -> float:
        """Return Unix time: what a test set, or that of the machine."""
        if self._fixed_s is not None:
            return self._fixed_s
        return dt.datetime.now(dt.UTC).timestamp()  # noqa: TID251 - the server has a clock of its own

    def set_time(self, at_s: float | None) -> None:
        self._fixed_s = at_s

    # --- people and chats

    def person(self, name: str) -> Json:
        """Return the person of this first name, made up at need."""
        if name not in self.people:
            self.people[name] = {"id": 5_000_001 + len(self.people), "is_bot": False, "first_name": name}
        return self.people[name]

    def private(self, name: str) -> int:
        """Return the private chat of a person with the bot, started at need."""
        person = self.person(name)
        chat_id = int(person["id"])
        if chat_id not in self.rooms:
            self.rooms[chat_id] = Room(chat={"id": chat_id, "type": "private", "first_name": name})
        return chat_id

    def group(self, *, title: str, kind: str, topics: list[int], admin: bool, by: str) -> int:
        """Make a group that the bot was just added to."""
        self._next_room += 1
        chat_id = -4_000_000 - self._next_room if kind == "group" else -1_002_000_000_000 - self._next_room
        chat: Json = {"id": chat_id, "type": kind, "title": title} | ({"is_forum": True} if topics else {})
        self.rooms[chat_id] = Room(chat=chat, topics=set(topics), admin=admin)
        self._member(self.rooms[chat_id], by, "left", "administrator" if admin else "member")
        return chat_id

    def close(self, chat: int, by: str) -> None:
        """Block the bot in a private chat, or throw it out of a group."""
        room = self.rooms[chat]
        room.closed = (
            "Forbidden: bot was blocked by the user"
            if room.private
            else "Forbidden: bot was kicked from the group chat"
        )
        self._member(room, by, "member", "kicked")

    def reopen(self, chat: int, by: str) -> None:
        """Unblock the bot, or add it again."""
        room = self.rooms[chat]
        room.closed = None
        self._member(room, by, "kicked" if room.private else "left", "member")

    def migrate(self, chat: int, by: str) -> int:
        """Make a supergroup of a group: a new id, two service messages, no old messages."""
        old = self.rooms[chat]
        self._next_room += 1
        new_id = -1_002_000_000_000 - self._next_room
        self.rooms[new_id] = Room(chat={"id": new_id, "type": "supergroup", "title": old.chat["title"]})
        self.rooms[new_id].admin = old.admin
        self._tell(chat, by, {"migrate_to_chat_id": new_id})
        self._tell(new_id, by, {"migrate_from_chat_id": chat})
        old.moved_to = new_id
        return new_id

    # --- what people do

    def say(
        self, chat: int, name: str, content: Json, *, at_s: float | None, thread: int | None, reply: int | None
    ) -> int:
        """Somebody writes (`content` is text, or a photo with caption, or any other part of a message)."""
        return self._tell(chat, name, content, at_s=at_s, thread=thread, reply=reply)

    def edit(self, chat: int, message_id: int, text: str, at_s: float | None) -> None:
        """Somebody changes an own message."""
        room = self.rooms[chat]
        entry = room.entries[message_id]
        when = self._when(at_s)
        field = "text" if "text" in entry.message else "caption"
        entry.message = {**entry.message, field: text, "edit_date": when}
        entry.edits += 1
        if self._bot_sees(room, entry.message):
            self.queue.put("edited_message", entry.message, when)

    def tap(self, chat: int, message_id: int, label: str, name: str) -> str:
        """Somebody presses a button; return the id of the query."""
        message = self.rooms[chat].entries[message_id].message
        rows = message.get("reply_markup", {}).get("inline_keyboard", [])
        data = next((button["callback_data"] for row in rows for button in row if button["text"] == label), None)
        if data is None:
            raise KeyError(f"no button {label!r} on {message['text']!r}")
        return self.press(chat, message_id, data, name, message)

    def press(self, chat: int, message_id: int, data: str, name: str, message: Json | None = None) -> str:
        """Somebody presses a button that may be long gone (then the message is an inaccessible one)."""
        query_id = f"{40_000_000 + len(self.taps)}"
        self.taps[query_id] = False
        seen = message or {"chat": self.rooms[chat].chat, "message_id": message_id, "date": 0}
        query = {"id": query_id, "from": self.person(name), "message": seen, "chat_instance": str(chat), "data": data}
        self.queue.put("callback_query", query, self.now_s())
        return query_id

    def promote(self, chat: int, by: str, *, admin: bool, may_pin: bool) -> None:
        """Make the bot an administrator of a group, or take that away."""
        room = self.rooms[chat]
        was = "administrator" if room.admin else "member"
        room.admin, room.may_pin = admin, may_pin
        self._member(room, by, was, "administrator" if admin else "member")

    def keep_photo(self, data: bytes) -> list[Json]:
        """Keep a picture as the server does: in several sizes, the largest last."""
        told = []
        for width in (90, 1280):
            file_id = f"photo-{len(self.files)}-{width}"
            self.files[file_id] = data if width == 1280 else data[:32]
            size = {"width": width, "height": width, "file_size": len(self.files[file_id])}
            told.append({"file_id": file_id, "file_unique_id": f"u-{file_id}", **size})
        return told

    def keep_voice(self, data: bytes) -> Json:
        """Keep a voice note."""
        file_id = f"voice-{len(self.files)}"
        self.files[file_id] = data
        told: Json = {"file_id": file_id, "file_unique_id": f"u-{file_id}", "duration": 4, "mime_type": "audio/ogg"}
        return told | {"file_size": len(data)}

    def member(self, room: Room, status: str) -> Json:
        """Return what the bot is in a chat."""
        rights = {"can_be_edited": False, "can_pin_messages": room.may_pin} if status == "administrator" else {}
        return {"user": BOT, "status": status, **rights}

    # --- inside

    def add(self, room: Room, sender: Json, content: Json, at_s: float | None = None) -> Entry:
        """Put a message into a chat."""
        room.last_id += 1
        message = {
            "message_id": room.last_id,
            "from": sender,
            "chat": room.chat,
            "date": self._when(at_s),
            **content,
        }
        room.entries[room.last_id] = Entry(message=message)
        return room.entries[room.last_id]

    def _tell(
        self,
        chat: int,
        name: str,
        content: Json,
        *,
        at_s: float | None = None,
        thread: int | None = None,
        reply: int | None = None,
    ) -> int:
        room = self.rooms[chat]
        extra: Json = {"message_thread_id": thread, "is_topic_message": True} if thread else {}
        if reply:
            extra["reply_to_message"] = room.entries[reply].message
        message = self.add(room, self.person(name), {**extra, **content}, at_s).message
        if self._bot_sees(room, message):
            self.queue.put("message", message, message["date"])
        return int(message["message_id"])

    def _bot_sees(self, room: Room, message: Json) -> bool:
        """Privacy mode (Bot features): in groups commands, replies to the bot and service messages only."""
        if room.private or room.admin or self.sees_all or str(message.get("text", "")).startswith("/"):
            return True
        if not {"text", "caption", "photo", "voice"} & message.keys():
            return True
        return bool(message.get("reply_to_message", {}).get("from", {}).get("id") == BOT_ID)

    def _member(self, room: Room, by: str, old: str, new: str) -> None:
        change = {
            "chat": room.chat,
            "from": self.person(by),
            "date": self._when(None),
            "old_chat_member": self.member(room, old),
            "new_chat_member": self.member(room, new),
        }
        self.queue.put("my_chat_member", change, self.now_s())

    def _when(self, at_s: float | None) -> int:
        return int(self.now_s() if at_s is None else at_s)
