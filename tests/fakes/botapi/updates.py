"""The queue of updates: kept until confirmed by a higher offset, handed out again until then, 24 hours at most.

It must not know what is inside an update.

How the official server does it: Bot API 10.1, getUpdates, and tdlib/telegram-bot-api (commit 01a3679c).
"""

from __future__ import annotations

import dataclasses
import threading
from collections.abc import Callable

from tests.fakes.botapi.contract import Json

KEPT_FOR_S = 86_400
BY_DEFAULT = ("message", "edited_message", "callback_query", "my_chat_member")


class ApiError(Exception):
    """The server refuses a call."""

    def __init__(self, code: int, description: str, parameters: Json | None = None) -> None:
        super().__init__(description)
        self.code = code
        self.description = description
        self.parameters = parameters


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Waiting:
    update: Json
    born_s: float


class UpdateQueue:
    """Updates of one bot. Every method is called with the server's lock held; `changed` belongs to that lock."""

    def __init__(self, changed: threading.Condition, now_s: Callable[[], float]) -> None:
        self._changed = changed
        self._now_s = now_s
        self._waiting: list[_Waiting] = []
        self._handed_out: dict[int, Json] = {}
        self._next_id = 700_000_001
        self._allowed: tuple[str, ...] = BY_DEFAULT
        self._poller = 0
        self.polls = 0
        self.webhook = ""
        self.open = True

    def put(self, kind: str, content: Json, born_s: float) -> int | None:
        """Queue an update; None when the bot did not ask for this kind."""
        if kind not in self._allowed:
            return None
        update_id, self._next_id = self._next_id, self._next_id + 1
        return self.put_raw({"update_id": update_id, kind: content}, born_s)

    def put_raw(self, update: Json, born_s: float) -> int:
        """Queue an update as it is, also a broken one. An id is given where there is none."""
        if not isinstance(update.get("update_id"), int):
            update = {**update, "update_id": self._next_id}
        self._next_id = max(self._next_id, update["update_id"] + 1)
        self._waiting.append(_Waiting(update=update, born_s=born_s))
        self._changed.notify_all()
        return int(update["update_id"])

    def again(self, update_id: int) -> None:
        """Queue an update once more that was handed out before: a duplicate."""
        self._waiting.append(_Waiting(update=self._handed_out[update_id], born_s=self._now_s()))
        self._changed.notify_all()

    def unconfirmed(self) -> list[int]:
        """Return the ids that would be handed out to a poller without an offset."""
        return [waiting.update["update_id"] for waiting in self._waiting]

    def waiting(self) -> list[Json]:
        """Return the updates that are not confirmed, as they would be handed out."""
        return [waiting.update for waiting in self._waiting]

    def poll(self, *, offset: int | None, limit: int, timeout_s: int, allowed: list[str] | None) -> list[Json]:
        """Confirm what is below the offset, then wait for updates; a later poller ends the wait of this one."""
        if self.webhook:
            raise ApiError(
                409,
                "Conflict: can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook"
                " first",
            )
        self._poller += 1
        self.polls += 1
        mine = self._poller
        if offset is not None:
            self._waiting = [one for one in self._waiting if one.update["update_id"] >= offset]
        if allowed is not None:
            self._allowed = tuple(allowed) or BY_DEFAULT
        self._changed.notify_all()
        if timeout_s:
            self._changed.wait_for(
                lambda: bool(self._fresh()) or self._poller != mine or not self.open, timeout=timeout_s
            )
        if self._poller != mine:
            raise ApiError(
                409,
                "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running",
            )
        batch = self._fresh()[:limit]
        self._handed_out.update({update["update_id"]: update for update in batch})
        return batch

    def _fresh(self) -> list[Json]:
        oldest = self._now_s() - KEPT_FOR_S
        self._waiting = [one for one in self._waiting if one.born_s >= oldest]
        return [one.update for one in self._waiting]
