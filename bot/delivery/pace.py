"""How fast a transport may be used: per chat, per group, and over all.

A calculation on instants that are passed in: it sends nothing, waits for nothing and reads no clock.
"""

from __future__ import annotations

import collections
import dataclasses
import datetime as dt
from collections.abc import Callable

from bot.chat import Address


@dataclasses.dataclass(frozen=True, kw_only=True)
class Rate:
    """At most `count` in any span of length `per`."""

    count: int
    per: dt.timedelta


@dataclasses.dataclass(frozen=True, kw_only=True)
class Pace:
    """Limits of one transport; None is no limit."""

    chat: Rate | None = None
    group: Rate | None = None
    """A second limit for group chats, on top of `chat`."""
    overall: Rate | None = None
    edits: Rate | None = None
    """Of changes to messages in one chat, on top of `chat`: a board need not be newer than that."""
    is_group: Callable[[Address], bool] = lambda _: False


UNHURRIED = Pace()
"""No limits: a screen takes whatever comes."""

BOT_API_PACE = Pace(
    chat=Rate(count=1, per=dt.timedelta(seconds=1)),
    group=Rate(count=20, per=dt.timedelta(minutes=1)),
    overall=Rate(count=25, per=dt.timedelta(seconds=1)),
    edits=Rate(count=1, per=dt.timedelta(seconds=15)),
    is_group=lambda address: address.chat.startswith("-"),
)
"""Limits of the Bot API: about one message a second in a chat, 20 a minute in a group, 30 a second over all
(the messenger's own FAQ for bots); 25 leaves room for answers to buttons. Group ids are negative numbers (Bot
API). Edits of a group meet a limit at about 20 a minute (not published; other programs tell so); one in 15 s is house
rule: edits wait without holding up anything, and the newest takes the place of those before it."""


class Limiter:
    """Remembers when a transport was used and says when it may be used again."""

    def __init__(self, pace: Pace) -> None:
        self._pace = pace
        self._overall: collections.deque[dt.datetime] = collections.deque()
        self._chats: dict[str, collections.deque[dt.datetime]] = {}
        self._edits: dict[str, collections.deque[dt.datetime]] = {}

    def overall_ready_at(self, now: dt.datetime) -> dt.datetime:
        """Return the earliest instant (from `now` on) at which anything at all may be sent."""
        return _ready_at(self._pace.overall, self._overall, now)

    def allowance(self, now: dt.datetime) -> int | None:
        """Return how many may be sent now over all chats; None is unlimited."""
        rate = self._pace.overall
        if rate is None:
            return None
        return rate.count - sum(1 for used_at in self._overall if used_at > now - rate.per)

    def ready_at(self, address: Address, now: dt.datetime) -> dt.datetime:
        """Return the earliest instant (from `now` on) at which a message may go to this chat."""
        used = self._chats.get(address.chat, collections.deque())
        ready_at = max(self.overall_ready_at(now), _ready_at(self._pace.chat, used, now))
        if self._pace.is_group(address):
            ready_at = max(ready_at, _ready_at(self._pace.group, used, now))
        return ready_at

    def edit_ready_at(self, address: Address, now: dt.datetime) -> dt.datetime:
        """Return the earliest instant (from `now` on) at which a message of this chat may be changed."""
        return _ready_at(self._pace.edits, self._edits.get(address.chat, collections.deque()), now)

    def use_edit(self, address: Address, now: dt.datetime) -> None:
        """Remember that a message of this chat was changed now."""
        if self._pace.edits is None:
            return
        before = now - self._pace.edits.per
        self._edits = {chat: used for chat, used in self._edits.items() if used[-1] > before}
        self._edits.setdefault(address.chat, collections.deque(maxlen=self._pace.edits.count)).append(now)

    def use(self, address: Address, now: dt.datetime, *, counts_in_chat: bool = True) -> None:
        """Remember that something was sent to this chat now."""
        pace = self._pace
        if pace.overall is not None:
            self._overall.append(now)
            while len(self._overall) > pace.overall.count:
                self._overall.popleft()
        rates = [rate for rate in (pace.chat, pace.group) if rate is not None]
        if counts_in_chat and rates:
            self._forget_old(now - max(rate.per for rate in rates))
            used = self._chats.setdefault(address.chat, collections.deque())
            used.append(now)
            while len(used) > max(rate.count for rate in rates):
                used.popleft()

    def _forget_old(self, before: dt.datetime) -> None:
        for chat in [chat for chat, used in self._chats.items() if used[-1] <= before]:
            del self._chats[chat]


def _ready_at(rate: Rate | None, used: collections.deque[dt.datetime], now: dt.datetime) -> dt.datetime:
    """Return when one more use keeps the rate, given the uses so far, oldest first."""
    if rate is None or len(used) < rate.count:
        return now
    return max(now, used[-rate.count] + rate.per)
