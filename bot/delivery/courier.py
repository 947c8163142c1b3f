"""The courier: claims what waits in the outbox, sends it, and records what became of it.

It must not decide what is said or when it is due; it never imports the listening half.

At least once: a row is claimed (committed) before it is sent and recorded after. Dying in between leaves it
claimed; when its lease has run out it is claimed again, marked as a possible repeat. One row is in hand at a
time, so that a death can make one message come twice and no more (docs/explanation/delivery.md). A claimed row
whose chat has been sent to too recently is put back with the instant at which it may go, at no cost of an attempt.
"""

from __future__ import annotations

import asyncio
import dataclasses
import datetime as dt
import logging
from collections.abc import Callable, Mapping

from bot.chat import EDIT_PACE, Address, Locked, Outcome, OutgoingKind, Sent, TryAgain
from bot.delivery.pace import UNHURRIED, Limiter, Pace
from bot.messages.words import speaking
from bot.ports import ClaimedRow, OutgoingTransport, Store

log = logging.getLogger(__name__)

LEASE = dt.timedelta(seconds=60)
"""Longer than any attempt to send may take."""
AFTER_FAULT = dt.timedelta(seconds=5)
MOST_ROUNDS = 200
"""Claims in one call of `work`; what is left then is due at once."""
COUNTED_IN_CHAT = frozenset({OutgoingKind.MESSAGE, OutgoingKind.EDIT, OutgoingKind.PIN, OutgoingKind.UNPIN})
"""Reactions, answers to buttons and files that are fetched are no messages and do not wait for the chat's pace."""


class Courier:
    """Delivers for some transports. One task at a time may call `work`."""

    def __init__(
        self,
        store: Store,
        transports: Mapping[str, OutgoingTransport],
        owner: str,
        *,
        paces: Mapping[str, Pace] | None = None,
        lease: dt.timedelta = LEASE,
        clock: Callable[[], dt.datetime] | None = None,
    ) -> None:
        """Make a courier.

        `owner` names this courier in the leases. `clock` is asked again after each attempt, which may take
        seconds; without it the `now` of `work` counts.
        """
        self._store = store
        self._transports = dict(transports)
        self._owner = owner
        self._lease = lease
        self._clock = clock
        self._limiters = {name: Limiter((paces or {}).get(name, UNHURRIED)) for name in self._transports}
        self._unrecorded: list[tuple[ClaimedRow, Outcome]] = []
        self.next_at: dt.datetime | None = None
        """When the next attempt is due, as of the last `work`; None when nothing waits."""
        self.locked: dict[str, str] = {}
        """Transports that refused us in this process (token revoked), and why."""

    async def work(self, now: dt.datetime) -> int:
        """Send what may be sent now; return how many rows were sent. Afterwards `next_at` says when to come
        again.

        Errors of the store pass through; outcomes that could not be recorded are recorded at the next call.
        """
        await self._record_what_was_left(now)
        sent = 0
        self.next_at = None
        for name in self._transports:
            sent += await self._work_on(name, now)
        return sent

    async def _work_on(self, name: str, now: dt.datetime) -> int:
        limiter = self._limiters[name]
        sent = 0
        for _ in range(MOST_ROUNDS):
            allowance = limiter.allowance(now)
            if allowance is not None and allowance <= 0:
                break
            row = await self._claim(name, now)
            if row is None:
                break
            sent += isinstance(await self._deliver(row, now), Sent)
        await self._look_ahead(name, now)
        return sent

    async def _claim(self, name: str, now: dt.datetime) -> ClaimedRow | None:
        # Only whether anything waits counts here: after a clock was set back, its instant means little.
        if await asyncio.to_thread(self._store.next_send_at, [name]) is None:
            return None
        rows = await asyncio.to_thread(
            self._store.claim, owner=self._owner, now=now, transports=[name], limit=1, lease=self._lease
        )
        return rows[0] if rows else None

    async def _deliver(self, row: ClaimedRow, now: dt.datetime) -> Outcome:
        address = row.outgoing.address
        limiter = self._limiters[address.transport]
        counts_in_chat = row.outgoing.kind in COUNTED_IN_CHAT
        ready_at = limiter.ready_at(address, now) if counts_in_chat else limiter.overall_ready_at(now)
        outcome: Outcome
        edits = row.outgoing.kind is OutgoingKind.EDIT
        if edits and (edit_at := limiter.edit_ready_at(address, now)) > now:
            outcome = TryAgain(wait=edit_at - now, why=EDIT_PACE, costs_attempt=False)
            await self._record(row, outcome, now)
            return outcome
        if ready_at > now:
            outcome = TryAgain(wait=ready_at - now, why="pace", costs_attempt=False)
            await self._record(row, outcome, now)
            return outcome
        limiter.use(address, now, counts_in_chat=counts_in_chat)
        if edits:
            limiter.use_edit(address, now)
        outcome = await self._send(row)
        if isinstance(outcome, Locked):
            self.locked[address.transport] = outcome.why
        await self._record(row, outcome, self._clock() if self._clock else now)
        return outcome

    async def _send(self, row: ClaimedRow) -> Outcome:
        address = row.outgoing.address
        try:
            with speaking(self._language(address)):  # what a transport adds is in the language of the room, too
                outcome = await self._transports[address.transport].send(row)
        except Exception as error:  # ours (a full disk under the screens), so nothing was sent: see the port
            log.exception("transport %s failed on row %s", address.transport, row.id)
            return TryAgain(wait=AFTER_FAULT, why=type(error).__name__, costs_attempt=False)
        if not isinstance(outcome, Sent):
            log.warning("row %s, attempt %s: %s", row.id, row.attempt, outcome)
        return outcome

    def _language(self, address: Address) -> str | None:
        """Return the language of a room, or of the whole chat; None where nobody said."""
        said = {room.address: room.language for room in self._store.rooms() if room.language}
        return said.get(address) or said.get(dataclasses.replace(address, thread=None))

    async def _record(self, row: ClaimedRow, outcome: Outcome, now: dt.datetime) -> None:
        self._unrecorded.append((row, outcome))
        await self._write_down(row, outcome, now)

    async def _record_what_was_left(self, now: dt.datetime) -> None:
        for row, outcome in tuple(self._unrecorded):
            await self._write_down(row, outcome, now)

    async def _write_down(self, row: ClaimedRow, outcome: Outcome, now: dt.datetime) -> None:
        current = await asyncio.to_thread(self._store.record, row, outcome, now)
        self._unrecorded.remove((row, outcome))
        if not current:
            log.warning("row %s: attempt %s came too late to be recorded", row.id, row.attempt)

    async def _look_ahead(self, name: str, now: dt.datetime) -> None:
        due_at = await asyncio.to_thread(self._store.next_send_at, [name])
        if due_at is None:
            return
        due_at = max(due_at, self._limiters[name].overall_ready_at(now))
        self.next_at = due_at if self.next_at is None else min(self.next_at, due_at)
