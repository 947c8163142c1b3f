"""Brings raw updates in by long polling: stored first, confirmed after, none lost, none in the way of others.

It must not read what an update says, compute gaps between update ids, or keep an offset beyond one call.

An update is confirmed by the next call with a higher offset (Bot API 10.1, getUpdates), so the offset rises
only when every update of the batch is on disk. A repeat is dropped by the store, by its (source, key). Ids
may jump anywhere after a quiet week (Bot API 10.1, Update.update_id), so after an empty answer the offset is
forgotten.
"""

from __future__ import annotations

import asyncio
import dataclasses
import datetime as dt
import hashlib
import json
import logging
from collections.abc import Awaitable, Callable, Mapping
from enum import StrEnum
from typing import Protocol

from bot.ports import Json
from bot.transport.telegram.calls import Answer, Answered, BotApi, NoAnswer, Refused

log = logging.getLogger(__name__)

ALLOWED_UPDATES = ("message", "edited_message", "callback_query", "my_chat_member")
LONG_POLL_S = 50
"""The longest the official server waits (tdlib/telegram-bot-api, LONG_POLL_MAX_TIMEOUT)."""
ANSWER_MARGIN_S = 15.0
FIRST_WAIT_S, LONGEST_WAIT_S = 1.0, 60.0

_CONFLICT, _FLOOD = 409, 429


class Accept(Protocol):
    """Stores a raw update; True when it is new, False for a repeat. On return it is on disk."""

    def __call__(self, *, source: str, key: str, raw: Json, received_at: dt.datetime) -> bool:
        """Store one update, in a thread of its own."""


class Rival(StrEnum):
    """Who else takes the updates of this bot."""

    POLLER = "poller"
    """Another program polls with the same token."""
    WEBHOOK = "webhook"
    """A webhook is set: polling is refused until it is removed."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Polled:
    """All went well: so many updates, so many of them new."""

    updates: int
    new: int


@dataclasses.dataclass(frozen=True, kw_only=True)
class Conflict:
    """The server refuses to hand out updates because of a rival."""

    rival: Rival
    why: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class TokenRefused:
    """The token is revoked or mistyped: polling cannot go on."""

    why: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Outage:
    """No network, or a server in trouble; it is tried again, after `wait_s` if the server asked for that."""

    why: str
    wait_s: float | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class StoreTrouble:
    """Updates came but could not be stored; they are not confirmed and will come again."""

    why: str


Poll = Polled | Conflict | TokenRefused | Outage | StoreTrouble


async def _nothing() -> None:
    return None


class Poller:
    """Polls one bot. `run()` goes on until it is cancelled or the token is refused."""

    def __init__(
        self,
        *,
        api: BotApi,
        source: str,
        accept: Accept,
        clock: Callable[[], dt.datetime],
        nudge: Callable[[], None] = lambda: None,
        report: Callable[[Poll], None] = lambda _: None,
        pause: Callable[[float], Awaitable[None]] = asyncio.sleep,
        long_poll_s: int = LONG_POLL_S,
        heard_by: Callable[[], Json] = dict,
        heard: Callable[[dt.datetime], None] = lambda _: None,
        look_again: Callable[[], Awaitable[None]] = _nothing,
    ) -> None:
        """Prepare a poller; nothing is asked yet.

        `source` is `telegram:<bot id>`. `nudge` is called after new updates were stored. `report` is called,
        on the event loop, whenever the state changes from one kind to another (well, conflict, outage, store
        trouble). `pause` waits so many seconds. `heard_by` says what is known of the bot itself: it is stored with
        each update, for whoever reads it may be another process. `heard` is told the instant of every good answer.
        `look_again` is awaited before updates are stored that say that the bot came, went or got other rights: what is
        known of it may have changed with them.
        """
        self._api = api
        self._source = source
        self._accept = accept
        self._clock = clock
        self._nudge = nudge
        self._report = report
        self._pause = pause
        self._long_poll_s = long_poll_s
        self._heard_by = heard_by
        self._heard = heard
        self._look_again = look_again
        self._offset: int | None = None

    async def run(self) -> TokenRefused:
        """Poll until the token is refused. Cancelling stops at once; what was stored is stored."""
        told: object = None
        failures = 0
        while True:
            poll = await self.once()
            if _state(poll) != told:
                told = _state(poll)
                self._report(poll)
            if isinstance(poll, TokenRefused):
                return poll
            if isinstance(poll, Polled) and (poll.new or not poll.updates):
                failures = 0
                continue
            # A batch without anything new is an ordinary repeat once; more than once, something is wrong.
            if failures or not isinstance(poll, Polled):
                await self._pause(_wait_s(poll, failures))
            failures += 1

    async def once(self) -> Poll:
        """Ask once, store what came, and raise the offset if all of it was stored."""
        parameters: dict[str, object] = {
            "timeout": self._long_poll_s,
            "allowed_updates": list(ALLOWED_UPDATES),
        }
        if self._offset is not None:
            parameters["offset"] = self._offset
        answer = await self._api.call("getUpdates", parameters, read_s=self._long_poll_s + ANSWER_MARGIN_S)
        if not isinstance(answer, Answered):
            return _trouble(answer)
        if not isinstance(answer.result, list):
            return Outage(why="unreadable answer")
        return await self._take_in(answer.result)

    async def _take_in(self, batch: list[object]) -> Poll:
        received_at, new = self._clock(), 0
        if any(isinstance(raw, Mapping) and "my_chat_member" in raw for raw in batch):
            await self._look_again()
        for raw in batch:
            try:
                new += await self._store(raw, received_at)
            except Exception as error:  # noqa: BLE001 - whatever the store says: all of it comes again
                return StoreTrouble(why=_first_line(error))
        ids = [_update_id(raw) for raw in batch]
        self._offset = max((one + 1 for one in ids if one is not None), default=None)
        self._heard(received_at)
        if new:
            self._nudge()
        return Polled(updates=len(batch), new=new)

    async def _store(self, raw: object, received_at: dt.datetime) -> bool:
        """Store one update as it is, with what is known of the bot; one that cannot be stored so, in a wrapping."""
        key = _key(raw)
        whole = {**raw, **self._heard_by()} if isinstance(raw, Mapping) else _wrapped(raw)
        try:
            return await asyncio.to_thread(
                self._accept, source=self._source, key=key, raw=whole, received_at=received_at
            )
        except Exception as error:  # noqa: BLE001 - one bad update must not hold up the others
            new = await asyncio.to_thread(
                self._accept, source=self._source, key=key, raw=_wrapped(raw), received_at=received_at
            )
            log.warning("telegram: update %s was stored as text only: %s", key, _first_line(error))
            return new


def _key(raw: object) -> str:
    """Return the update id, or a digest of an update that has none."""
    number = _update_id(raw)
    if number is not None:
        return str(number)
    digest = hashlib.sha256(json.dumps(raw, sort_keys=True).encode("ascii")).hexdigest()
    return f"unnumbered-{digest[:32]}"


def _update_id(raw: object) -> int | None:
    number = raw.get("update_id") if isinstance(raw, Mapping) else None
    return number if isinstance(number, int) and not isinstance(number, bool) else None


def _wrapped(raw: object) -> Json:
    """Return an update as one harmless text, which the decoder finds unreadable: it is parked, not lost."""
    return {"unreadable": json.dumps(raw)}


def _first_line(error: Exception) -> str:
    """Return what an error says, without what a database appends to it (statements and what people wrote)."""
    return f"{type(error).__name__}: {str(error).partition(chr(10))[0]}"


def _trouble(answer: Answer) -> Poll:
    if isinstance(answer, NoAnswer):
        return Outage(why=answer.why)
    if isinstance(answer, Refused) and answer.token_refused:
        return TokenRefused(why=answer.description)
    if isinstance(answer, Refused) and answer.code == _CONFLICT:
        rival = Rival.WEBHOOK if "webhook" in answer.description.lower() else Rival.POLLER
        return Conflict(rival=rival, why=answer.description)
    if isinstance(answer, Refused):
        wait_s = answer.retry_after_s if answer.code == _FLOOD else None
        return Outage(why=f"{answer.code} {answer.description}", wait_s=wait_s)
    return Outage(why="unreadable answer")


def _state(poll: Poll) -> object:
    return (type(poll), poll.rival) if isinstance(poll, Conflict) else type(poll)


def _wait_s(poll: Poll, failures: int) -> float:
    if isinstance(poll, Outage) and poll.wait_s is not None:
        return poll.wait_s
    return float(min(LONGEST_WAIT_S, FIRST_WAIT_S * 2 ** min(failures, 10)))
