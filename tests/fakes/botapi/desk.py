"""The server without HTTP: takes calls of the bot and orders of a test, under one lock.

It must not read requests or write answers.
"""

from __future__ import annotations

import base64
import threading
from collections.abc import Callable
from typing import Any

from tests.fakes.botapi.contract import Contract, Json
from tests.fakes.botapi.faults import Fault, FaultKind
from tests.fakes.botapi.methods import Result, call, flood
from tests.fakes.botapi.updates import ApiError
from tests.fakes.botapi.world import Entry, World


class Cut(Exception):
    """The connection is to be cut without an answer."""


class Page(Exception):
    """An error page of somebody in between is to be shown, with this status."""

    def __init__(self, code: int) -> None:
        super().__init__(str(code))
        self.code = code


class Desk:
    """One bot's server."""

    def __init__(self, token: str) -> None:
        self._lock = threading.RLock()
        self._changed = threading.Condition(self._lock)
        self._contract = Contract()
        self._first_token = token
        self._held = 0
        self._released = 0
        self._begin()

    def _begin(self) -> None:
        self._world = World(self._changed)
        self._token: str | None = self._first_token
        self._faults: list[Fault] = []
        self._calls: list[Json] = []
        self._violations: list[Json] = []

    # --- calls of the bot

    def serve(self, token: str, method: str, sent: Json, *, as_text: bool) -> Result:
        """Carry out a call; raise `ApiError`, `Cut` or `Page` for everything but a result."""
        with self._changed:
            checked = self._contract.check(method, sent, as_text=as_text)
            entry: Json = {"method": method, "parameters": checked.parameters, "code": None, "executed": False}
            self._calls.append(entry)
            self._changed.notify_all()
            if token != self._token:
                entry["code"] = 401
                raise ApiError(401, "Unauthorized")
            if checked.problems:
                entry["code"] = 400
                self._violations.append(
                    {"method": method, "problems": list(checked.problems), "parameters": checked.parameters}
                )
                raise ApiError(400, f"Bad Request: contract: {'; '.join(checked.problems)}")
            fault = next((one for one in self._faults if one.takes(method, checked.parameters)), None)
            return self._carry_out(entry, fault)

    def _carry_out(self, entry: Json, fault: Fault | None) -> Result:
        if fault is None:
            return self._execute(entry)
        result: Result = True
        if fault.executed:
            result = self._execute(entry)
        match fault.kind:
            case FaultKind.FLOOD:
                entry["code"] = 429
                raise flood(fault.retry_after)
            case FaultKind.STATUS:
                entry["code"] = fault.code
                raise ApiError(fault.code, fault.description)
            case FaultKind.PAGE:
                entry["code"] = fault.code
                raise Page(fault.code)
            case FaultKind.DROP:
                raise Cut
            case FaultKind.HANG:
                self._wait_for_release()
                raise Cut
            case FaultKind.HOLD:
                self._wait_for_release()
                return result if fault.executed else self._execute(entry)

    def _execute(self, entry: Json) -> Result:
        try:
            result = call(self._world, entry["method"], entry["parameters"])
        except ApiError as error:
            entry["code"] = error.code
            raise
        finally:
            self._changed.notify_all()
        entry["code"], entry["executed"] = 200, True
        return result

    def _wait_for_release(self) -> None:
        self._held += 1
        mine = self._released
        self._changed.notify_all()
        self._changed.wait_for(lambda: self._released > mine)
        self._held -= 1

    # --- orders of a test

    def order(self, name: str, given: Json) -> Any:  # noqa: ANN401 - JSON of any shape, one for each order
        """Carry out an order of a test; KeyError or TypeError when it cannot be."""
        with self._changed:
            result = getattr(self, f"do_{name}")(**given)
            self._changed.notify_all()
            return result

    def do_private(self, name: str) -> int:
        return self._world.private(name)

    def do_group(self, **given: Any) -> int:  # noqa: ANN401 - passed on as it is
        return self._world.group(**given)

    def do_say(self, **given: Any) -> int:  # noqa: ANN401 - passed on as it is
        return self._world.say(**given)

    def do_edit(self, **given: Any) -> None:  # noqa: ANN401 - passed on as it is
        self._world.edit(**given)

    def do_tap(self, **given: Any) -> str:  # noqa: ANN401 - passed on as it is
        return self._world.tap(**given)

    def do_press(self, **given: Any) -> str:  # noqa: ANN401 - passed on as it is
        return self._world.press(**given)

    def do_close(self, chat: int, by: str) -> None:
        self._world.close(chat, by)

    def do_reopen(self, chat: int, by: str) -> None:
        self._world.reopen(chat, by)

    def do_migrate(self, chat: int, by: str) -> int:
        return self._world.migrate(chat, by)

    def do_delete(self, chat: int, message_id: int) -> None:
        del self._world.rooms[chat].entries[message_id]

    def do_delete_topic(self, chat: int, thread: int) -> None:
        self._world.rooms[chat].topics.discard(thread)

    def do_close_topic(self, chat: int, thread: int) -> None:
        self._world.rooms[chat].closed_topics.add(thread)

    def do_promote(self, **given: Any) -> None:  # noqa: ANN401 - passed on as it is
        self._world.promote(**given)

    def do_allow_reactions(self, chat: int, allowed: bool) -> None:
        self._world.rooms[chat].reactions = allowed

    def do_freeze(self, chat: int, message_id: int) -> None:
        self._world.rooms[chat].entries[message_id].frozen = True

    def do_unpin(self, chat: int, message_id: int) -> None:
        self._world.rooms[chat].entries[message_id].pinned = False

    def do_photo(self, base64_data: str, caption: str, **given: Any) -> int:  # noqa: ANN401 - passed on as it is
        content: Json = {"photo": self._world.keep_photo(base64.b64decode(base64_data))}
        return self._world.say(content=content | ({"caption": caption} if caption else {}), **given)

    def do_voice(self, base64_data: str, **given: Any) -> int:  # noqa: ANN401 - passed on as it is
        return self._world.say(content={"voice": self._world.keep_voice(base64.b64decode(base64_data))}, **given)

    def do_hide_files(self) -> None:
        self._world.hidden = True

    def do_updates(self) -> list[Json]:
        return self._world.queue.waiting()

    def do_forget_files(self) -> None:
        self._world.files.clear()

    def file(self, token: str, file_id: str) -> bytes | None:
        """Return the bytes of a kept file, None when there is none or the token is wrong."""
        with self._changed:
            known = token == self._token and not self._world.hidden
            return self._world.files.get(file_id) if known else None

    def do_slow_mode(self, chat: int, seconds: int) -> None:
        self._world.rooms[chat].slow_s = seconds

    def do_see_all(self, sees_all: bool) -> None:
        self._world.sees_all = sees_all

    def do_set_time(self, at_s: float | None) -> None:
        self._world.set_time(at_s)

    def do_set_token(self, token: str | None) -> None:
        self._token = token

    def do_set_webhook(self, url: str) -> None:
        self._world.queue.webhook = url

    def do_expire_taps(self) -> None:
        self._world.expired.update(self._world.taps)

    def do_push(self, update: Json) -> int:
        return self._world.queue.put_raw(update, self._world.now_s())

    def do_again(self, update_id: int) -> None:
        self._world.queue.again(update_id)

    def do_inject(self, **given: Any) -> None:  # noqa: ANN401 - passed on as it is
        self._faults.append(Fault(**given))

    def do_calm(self) -> None:
        self._faults.clear()

    def do_release(self) -> None:
        self._released += 1

    def do_stop(self) -> None:
        self._world.queue.open = False
        self._released += 1

    def do_reset(self) -> None:
        self.do_stop()
        self._begin()

    # --- what a test sees

    def do_messages(self, chat: int, by_bot: bool) -> list[Json]:
        room = self._world.rooms[chat]
        return [_seen(entry) for entry in room.entries.values() if entry.by_bot or not by_bot]

    def do_calls(self, method: str | None = None) -> list[Json]:
        return [one for one in self._calls if method in {None, one["method"]}]

    def do_violations(self) -> list[Json]:
        return self._violations

    def do_unconfirmed(self) -> list[int]:
        return self._world.queue.unconfirmed()

    def do_commands(self, scope: str, language: str) -> list[Json]:
        return self._world.commands.get((scope, language), [])

    def do_answered(self, query_id: str) -> bool:
        return self._world.taps[query_id]

    def do_wait(self, what: str, at_least: int, timeout_s: float, **given: Any) -> int:  # noqa: ANN401 - passed on as it is
        """Wait until so many messages, calls, polls or held calls are there; return how many are."""
        counts: dict[str, Callable[[], int]] = {
            "messages": lambda: len(self.do_messages(by_bot=True, **given)),
            "calls": lambda: len(self.do_calls(**given)),
            "polls": lambda: self._world.queue.polls,
            "held": lambda: self._held,
            "confirmed": lambda: -len(self.do_unconfirmed()),
        }
        count = counts[what]
        self._changed.wait_for(lambda: count() >= at_least, timeout=timeout_s)
        return count()


def _seen(entry: Entry) -> Json:
    message = entry.message
    rows = message.get("reply_markup", {}).get("inline_keyboard", [])
    return {
        "chat": message["chat"]["id"],
        "message_id": message["message_id"],
        "text": message.get("text", message.get("caption", "")),
        "sender": message["from"]["first_name"],
        "by_bot": entry.by_bot,
        "date": message["date"],
        "buttons": [[button["text"] for button in row] for row in rows],
        "reactions": entry.reactions,
        "edits": entry.edits,
        "pinned": entry.pinned,
        "silent": entry.silent,
        "thread": message.get("message_thread_id"),
        "file": message.get("document", {}).get("file_name"),
        "photo": "photo" in message,
        "force_reply": entry.force_reply is not None,
        "selective": bool((entry.force_reply or {}).get("selective")),
        "reply_to": message.get("reply_to_message", {}).get("message_id"),
    }
