"""A client for tests: starts the server, plays the people, asks for faults, looks at chats.

It must not be used by the program.
"""

from __future__ import annotations

import base64
import datetime as dt
import http.client
import json
import subprocess
import sys
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from tests.fakes.botapi.contract import Json
from tests.fakes.botapi.seen import Seen, seen

ROOT = Path(__file__).resolve().parents[3]
PATIENCE_S = 20.0
TOKEN = "7000001:TEST-token_of_nobody_0123456789abcde"


class FakeTelegram:
    """One server process. A context manager; also `start()` and `stop()`. People are named by first name."""

    def __init__(self, *, port: int = 0) -> None:
        """Prepare a server; `port` 0 takes any free one."""
        self.token = TOKEN
        self.port = port
        self._process: subprocess.Popen[str] | None = None

    @property
    def base_url(self) -> str:
        """The address that the program is given in place of the official server's."""
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> Self:
        """Start the process and learn its port. A second start after `stop()` takes the same port, empty."""
        command = [sys.executable, "-m", "tests.fakes.botapi", "--port", str(self.port), "--token", self.token]
        self._process = subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        assert self._process.stdout
        line = self._process.stdout.readline()
        if not line:
            raise RuntimeError("the server did not start")
        self.port = int(line)
        return self

    def stop(self) -> None:
        """End the process."""
        process, self._process = self._process, None
        if process is None:
            return
        try:
            process.communicate(timeout=PATIENCE_S)
        except subprocess.TimeoutExpired:
            process.kill()
            process.communicate()
            raise

    def reset(self) -> None:
        """Forget everything: chats, updates, calls, faults, violations."""
        self._order("reset")

    def __enter__(self) -> Self:
        return self.start()

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.stop()

    # --- people and chats

    def private(self, name: str) -> int:
        """Return the private chat of a person with the bot, started at need."""
        return int(self._order("private", name=name))

    def group(
        self, title: str, *, kind: str = "group", topics: tuple[int, ...] = (), admin: bool = False, by: str = "Ines"
    ) -> int:
        """Make a group or supergroup (with topics, with the bot as administrator) and add the bot."""
        return int(self._order("group", title=title, kind=kind, topics=list(topics), admin=admin, by=by))

    def block(self, chat: int, *, by: str = "Ines") -> None:
        """Block the bot in a private chat, or throw it out of a group."""
        self._order("close", chat=chat, by=by)

    def unblock(self, chat: int, *, by: str = "Ines") -> None:
        """Unblock the bot, or add it again."""
        self._order("reopen", chat=chat, by=by)

    def migrate(self, chat: int, *, by: str = "Ines") -> int:
        """Make a supergroup of a group; return the new id."""
        return int(self._order("migrate", chat=chat, by=by))

    # --- what people do

    def say(
        self,
        chat: int,
        user: str,
        text: str,
        *,
        at: dt.datetime | None = None,
        thread: int | None = None,
        reply: int | None = None,
    ) -> int:
        """Somebody writes, now or dated `at`; return the message id."""
        return self.put(chat, user, {"text": text}, at=at, thread=thread, reply=reply)

    def put(
        self,
        chat: int,
        user: str,
        content: Json,
        *,
        at: dt.datetime | None = None,
        thread: int | None = None,
        reply: int | None = None,
    ) -> int:
        """Somebody sends any other content, as the fields of a message: `{"voice": {...}}`."""
        return int(
            self._order("say", chat=chat, name=user, content=content, at_s=_seconds(at), thread=thread, reply=reply)
        )

    def photo(
        self, chat: int, user: str, data: bytes, *, caption: str = "", at: dt.datetime | None = None,
        thread: int | None = None, reply: int | None = None,
    ) -> int:  # fmt: skip
        """Somebody sends a picture; return the message id."""
        return int(
            self._order(
                "photo", chat=chat, name=user, base64_data=base64.b64encode(data).decode(), caption=caption,
                at_s=_seconds(at), thread=thread, reply=reply,
            )
        )  # fmt: skip

    def voice(self, chat: int, user: str, data: bytes = b"ogg") -> int:
        """Somebody sends a voice note; return the message id."""
        coded = base64.b64encode(data).decode()
        return int(self._order("voice", chat=chat, name=user, base64_data=coded, at_s=None, thread=None, reply=None))

    def edit(self, chat: int, message_id: int, text: str, *, at: dt.datetime | None = None) -> None:
        """Somebody changes an own message."""
        self._order("edit", chat=chat, message_id=message_id, text=text, at_s=_seconds(at))

    def tap(self, message: Seen, label: str, *, user: str = "Ines") -> str:
        """Somebody presses the button with this label; return the id of the query."""
        return str(self._order("tap", chat=message.chat, message_id=message.message_id, label=label, name=user))

    def press(self, chat: int, message_id: int, data: str, *, user: str = "Ines") -> str:
        """Somebody presses a button of a message that is too old to be seen."""
        return str(self._order("press", chat=chat, message_id=message_id, data=data, name=user))

    def delete(self, message: Seen) -> None:
        """Somebody deletes a message."""
        self._order("delete", chat=message.chat, message_id=message.message_id)

    def delete_topic(self, chat: int, thread: int) -> None:
        """Somebody deletes a topic."""
        self._order("delete_topic", chat=chat, thread=thread)

    def close_topic(self, chat: int, thread: int) -> None:
        """Somebody closes a topic."""
        self._order("close_topic", chat=chat, thread=thread)

    def promote(self, chat: int, *, by: str = "Ines", admin: bool = True, may_pin: bool = True) -> None:
        """Somebody makes the bot an administrator, or takes that away."""
        self._order("promote", chat=chat, by=by, admin=admin, may_pin=may_pin)

    def allow_reactions(self, chat: int, *, allowed: bool) -> None:
        """Somebody allows reactions in a group, or not."""
        self._order("allow_reactions", chat=chat, allowed=allowed)

    def unpin(self, message: Seen) -> None:
        """Somebody takes a message off the top."""
        self._order("unpin", chat=message.chat, message_id=message.message_id)

    # --- what the server does

    def freeze(self, message: Seen) -> None:
        """Let a message be edited no more."""
        self._order("freeze", chat=message.chat, message_id=message.message_id)

    def hide_files(self) -> None:
        """Go on naming files, but hand none out."""
        self._order("hide_files")

    def forget_files(self) -> None:
        """Keep no file any longer."""
        self._order("forget_files")

    def inject(self, kind: str, **how: Any) -> None:  # noqa: ANN401 - the fields of `Fault`
        """Let calls go wrong: see `faults.Fault` for kinds and fields (method, chat, skip, times, executed...)."""
        self._order("inject", kind=kind, **how)

    def calm(self) -> None:
        """Forget all faults that have not happened yet."""
        self._order("calm")

    def release(self) -> None:
        """Let go of every call that hangs or is held."""
        self._order("release")

    def slow_mode(self, chat: int, seconds: int) -> None:
        """Allow one message in so many seconds."""
        self._order("slow_mode", chat=chat, seconds=seconds)

    def see_all(self, *, sees_all: bool = True) -> None:
        """Switch privacy mode off: the bot sees all messages of groups."""
        self._order("see_all", sees_all=sees_all)

    def set_time(self, at: dt.datetime | None) -> None:
        """Stop the server's clock at an instant; None sets it going again."""
        self._order("set_time", at_s=_seconds(at))

    def revoke(self) -> None:
        """Make the token invalid."""
        self._order("set_token", token=None)

    def restore(self) -> None:
        """Make the token valid again."""
        self._order("set_token", token=self.token)

    def set_webhook(self, url: str) -> None:
        """Set a webhook, so that polling is refused; an empty address removes it."""
        self._order("set_webhook", url=url)

    def expire_taps(self) -> None:
        """Make all queries so far too old to be answered."""
        self._order("expire_taps")

    def push(self, update: Json) -> int:
        """Queue an update as it is, also a broken one; return its id."""
        return int(self._order("push", update=update))

    def again(self, update_id: int) -> None:
        """Hand out an update once more, although it was confirmed."""
        self._order("again", update_id=update_id)

    # --- what can be seen

    def messages(self, chat: int) -> list[Seen]:
        """Return what the bot wrote in a chat, oldest first, as it is now."""
        return [seen(one) for one in self._order("messages", chat=chat, by_bot=True)]

    def history(self, chat: int) -> list[Seen]:
        """Return everything in a chat, oldest first."""
        return [seen(one) for one in self._order("messages", chat=chat, by_bot=False)]

    def calls(self, method: str | None = None) -> list[Json]:
        """Return the calls so far: method, parameters, code (None when the connection was cut), executed."""
        return list(self._order("calls", method=method))

    def violations(self) -> list[Json]:
        """Return every call that broke the contract."""
        return list(self._order("violations"))

    def updates(self) -> list[Json]:
        """Return the updates that are not confirmed."""
        return list(self._order("updates"))

    def unconfirmed(self) -> list[int]:
        """Return the ids of updates that are not confirmed."""
        return list(self._order("unconfirmed"))

    def commands(self, scope: str = "default", language: str = "") -> list[Json]:
        """Return the menu of commands of a scope in a language."""
        return list(self._order("commands", scope=scope, language=language))

    def answered(self, query_id: str) -> bool:
        """Return whether a tap was answered."""
        return bool(self._order("answered", query_id=query_id))

    def wait(self, what: str, at_least: int, *, timeout_s: float = PATIENCE_S, **which: Any) -> None:  # noqa: ANN401 - chat or method
        """Wait until so many `messages` (chat=), `calls` (method=), `polls` or `held` calls are there.

        `wait("confirmed", 0)` waits until no update is left. Raises TimeoutError.
        """
        count = self._order("wait", what=what, at_least=at_least, timeout_s=timeout_s, **which)
        if count < at_least:
            raise TimeoutError(f"{count} {what} instead of {at_least} within {timeout_s} s")

    def _order(self, order: str, **given: Any) -> Any:  # noqa: ANN401 - JSON of any shape
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=2 * PATIENCE_S)
        try:
            connection.request("POST", f"/control/{order}", json.dumps(given))
            response = connection.getresponse()
            result = json.loads(response.read())
        finally:
            connection.close()
        if response.status != http.HTTPStatus.OK:
            raise ValueError(f"{order}: {result['error']}")
        return result


def _seconds(at: dt.datetime | None) -> float | None:
    return None if at is None else at.timestamp()
