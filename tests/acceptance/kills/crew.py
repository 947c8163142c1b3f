"""Ines and Tomas, who cook short ribs for the harvest supper of the Harrow Lane allotment club: what they say and see.

In the terminal their screens are in the database; on the messenger they have chats on the Bot API server. It must
not run the program.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import http.client
import json
from collections.abc import Iterator, Mapping
from pathlib import Path

from bot.ports import Apply, InviteWrite, Json
from bot.store import open_store
from tests.acceptance.kills.written import Written
from tests.fakes.botapi import FakeTelegram, Seen

CREW = ("Ines", "Tomas")
DAY = dt.timedelta(days=1)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Said:
    """Something that was said, or nothing."""

    ref: str = ""
    """Its reference as it stands in facts."""
    key: str = ""
    """Its key in the inbox."""
    typed: Json | None = None
    """What a window puts in the inbox; None on the messenger, which brings it."""


NOTHING = Said()


@dataclasses.dataclass(frozen=True, kw_only=True)
class Got:
    """What came during a run."""

    messages: tuple[Seen, ...] = ()
    """New messages, by chat and in order."""
    boards: Mapping[str, str] = dataclasses.field(default_factory=dict)
    """What the boards of the cook show in the end, by outbox key."""


class AtTheTerminal:
    """Two windows on one machine."""

    server: str | None = None

    def __init__(self) -> None:
        self._lines = 0

    def joins(self, data: Path, at: dt.datetime, name: str) -> Said:  # noqa: ARG002 - the messenger's crew needs it
        """Open a window: whoever sits at this machine belongs."""
        return self.says(at, name, "hello")

    def says(self, at: dt.datetime, name: str, text: str) -> Said:
        """Type a line, at an instant."""
        self._lines += 1
        key = f"line-{self._lines}"
        typed = {"kind": "text", "chat": name, "sender": name, "text": text, "message": key, "sent_at": at.isoformat()}
        return Said(ref=f"terminal:{key}", key=key, typed=typed)

    def unconfirmed(self) -> tuple[str, ...]:
        """Return keys of what would come again by itself: nothing does."""
        return ()

    def forget(self, before: Written) -> None:
        """Begin a run: each has a database, and so a screen, of its own."""

    def got(self) -> Got:
        """Return what came outside of the database: nothing does."""
        return Got()


@dataclasses.dataclass(frozen=True, kw_only=True)
class Board:
    """The board of the cook in one chat, as it was at the beginning."""

    key: str
    chat: int
    number: int
    text: str


class OnTheMessenger:
    """Two private chats with the bot. They grow over many runs; what a run brought is taken away after it."""

    def __init__(self, fake: FakeTelegram) -> None:
        self._fake = fake
        self.server: str | None = fake.base_url
        self._chats = {name: fake.private(name) for name in CREW}
        self._last: dict[int, int] = {}
        self._boards: tuple[Board, ...] = ()

    def joins(self, data: Path, at: dt.datetime, name: str) -> Said:
        """Come in by a single-use code."""
        store = open_store(data)
        store.apply(Apply(now=at, invites=(InviteWrite(code=f"code-{name}", role="owner", expires_at=at + DAY),)))
        store.close()
        return self.says(at, name, f"/start code-{name}")

    def says(self, at: dt.datetime, name: str, text: str) -> Said:
        """Write to the bot, at an instant."""
        chat = self._chats[name]
        self._fake.set_time(at)
        number = self._fake.say(chat, name, text, at=at)
        (update_id,) = self._fake.unconfirmed()
        return Said(ref=f"telegram:{chat}:{number}", key=str(update_id))

    def unconfirmed(self) -> tuple[str, ...]:
        """Return keys of what the server would hand out again."""
        return tuple(str(one) for one in self._fake.unconfirmed())

    def forget(self, before: Written) -> None:
        """Begin a run: note what is there, and let the boards show what they did before it."""
        seen = self._seen()
        self._last = {chat: max((one.message_id for one in there), default=0) for chat, there in seen.items()}
        self._boards = tuple(_boards(before))
        shown = {(one.chat, one.message_id): one.text for there in seen.values() for one in there}
        for board in self._boards:
            if shown[board.chat, board.number] != board.text:
                _edit(self._fake, chat_id=board.chat, message_id=board.number, text=board.text)

    def got(self) -> Got:
        """Return what came since the run began, and take it away."""
        seen = self._seen()
        new = [one for chat, there in seen.items() for one in there if one.message_id > self._last.get(chat, 0)]
        shown = {(one.chat, one.message_id): one.text for there in seen.values() for one in there}
        boards = {board.key: shown[board.chat, board.number] for board in self._boards}
        for one in new:
            self._fake.delete(one)
        return Got(messages=tuple(new), boards=boards)

    def _seen(self) -> dict[int, list[Seen]]:
        return {chat: self._fake.messages(chat) for chat in self._chats.values()}


Crew = AtTheTerminal | OnTheMessenger


def _boards(written: Written) -> Iterator[Board]:
    """Yield the boards of a cook with the newest text that they were given."""
    for row in written.tables["outbox"]:
        edits = written.rows("outbox", kind="edit", target=row["key"], state="sent")
        if row["key"].startswith("board:") and row["kind"] == "message":
            _, chat, number = row["ref"].split(":")
            newest = edits[-1] if edits else row
            yield Board(key=row["key"], chat=int(chat), number=int(number), text=newest["text"].strip())


def _edit(fake: FakeTelegram, **parameters: int | str) -> None:
    """Edit a message as the bot would."""
    connection = http.client.HTTPConnection("127.0.0.1", fake.port)
    headers = {"Content-Type": "application/json"}
    connection.request("POST", f"/bot{fake.token}/editMessageText", json.dumps(parameters), headers)
    assert connection.getresponse().status == http.HTTPStatus.OK
    connection.close()
