"""Any interleaving of writing, claiming, recording, crashing and waiting leaves no message without an end.

A model chat takes what is sent, whether or not the answer comes back; the store must make the best of what it hears.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import shutil
import tempfile
from collections import Counter
from pathlib import Path

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)
from sqlalchemy import Row, select

from bot.chat import Address, Locked, Outcome, OutgoingKind, Rejected, Sent, TryAgain, Unknown, Unreachable
from bot.ports import Apply, ClaimedRow, OutboxWrite, RoomWrite
from bot.store import SqlStore, open_store
from bot.store.engine import reading
from bot.store.tables import OutboxState, outbox
from tests.contract.written import LEASE, NOON, edit, message

CHATS = tuple(Address(transport="memory", chat=name) for name in ("ines", "tomas", "wren"))
ENDS_WITH_A_REASON = {
    OutboxState.PARKED,
    OutboxState.DROPPED,
    OutboxState.WITHDRAWN,
    OutboxState.SUPERSEDED,
}
NOT_SENT: tuple[Outcome, ...] = (
    TryAgain(wait=dt.timedelta(seconds=20), why="busy"),
    TryAgain(wait=dt.timedelta(seconds=5), why="slow down", costs_attempt=False, whole_transport=True),
    Unreachable(why="blocked"),
    Locked(why="refused"),
    Rejected(why="too long"),
)


@dataclasses.dataclass
class Arrived:
    """What the other side got."""

    key: str
    address: Address
    urgent: bool
    marked: bool


class Deliveries(RuleBasedStateMachine):
    """One courier that may die at any point, its successors, and a chat that keeps what it gets."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.store: SqlStore = open_store(self.folder)
        self.now = NOON
        self.written = 0
        self.in_hand: list[ClaimedRow] = []
        self.lost: list[ClaimedRow] = []
        self.arrived: list[Arrived] = []
        self.refused = False
        """Whether the transport has refused us since we last cleared it."""
        self.may_mark = 0
        """How many marks crashes and lost answers account for."""
        self.deaths: Counter[str] = Counter()
        """How often a courier died with a message in hand."""
        self.unheard: Counter[str] = Counter()
        """How often an answer for a message was lost."""

    # --- writing ----------------------------------------------------------------------------------------------------

    @initialize()
    def begin(self) -> None:
        """Begin with one message, so that there is something to do."""
        self.write(CHATS[0], urgent=False, useful=False)

    @rule(address=st.sampled_from(CHATS), urgent=st.booleans(), useful=st.booleans())
    def write(self, address: Address, *, urgent: bool, useful: bool) -> None:
        """Write a message, perhaps one that is of use for half a minute only."""
        until = self.now + dt.timedelta(seconds=30) if useful else None
        self._put(message(self._key(), address, urgent=urgent, useful_until=until))

    @rule(at=st.integers(0, 30), address=st.sampled_from(CHATS))
    def change(self, at: int, address: Address) -> None:
        """Edit some message."""
        self._put(edit(self._key(), f"m{at % self.written}", address))

    @rule(at=st.integers(0, 30))
    def withdraw(self, at: int) -> None:
        """Take back some message, if it still waits."""
        self.store.apply(Apply(now=self.now, withdraw_outbox=(f"m{at % self.written}",)))

    # --- sending ----------------------------------------------------------------------------------------------------

    @rule(limit=st.integers(1, 3))
    def claim(self, limit: int) -> None:
        """Claim one to three."""
        rows = self.store.claim(owner="c", now=self.now, transports=["memory"], limit=limit, lease=LEASE)
        addresses = [row.outgoing.address for row in self.in_hand + list(rows)]
        live = [row for row in self.in_hand if row.id not in {one.id for one in rows}]
        self.lost += [row for row in self.in_hand if row not in live]
        self.in_hand = [*live, *rows]
        assert len({row.outgoing.address for row in rows}) == len(rows)
        assert len({row.outgoing.address for row in self.in_hand}) == len(self.in_hand), addresses

    @precondition(lambda self: self.in_hand)
    @rule(arrives=st.booleans(), heard=st.booleans(), refusal=st.sampled_from(NOT_SENT))
    def send(self, *, arrives: bool, heard: bool, refusal: Outcome) -> None:
        """Send the first in hand: it arrives or not, and we hear of it or not."""
        row = self.in_hand.pop(0)
        if arrives:
            self._arrive(row)
        heard_of: Outcome = Sent(ref=row.outgoing.key) if arrives else refusal
        outcome = heard_of if heard else Unknown(why="answer lost")
        recorded = self.store.record(row, outcome, self.now)
        if recorded:
            self.may_mark += not heard
            self.unheard[row.outgoing.key] += not heard
            self.refused |= isinstance(outcome, Locked)
        if not recorded:
            self.lost.append(row)

    @precondition(lambda self: self.in_hand)
    @rule(arrives=st.integers(0, 3), restarts=st.booleans())
    def crash(self, arrives: int, *, restarts: bool) -> None:
        """Die with what is in hand, some of it sent; the successor either knows or waits for the leases."""
        for row in self.in_hand[:arrives]:
            self._arrive(row)
        self._die()
        self.lost += self.in_hand
        self.in_hand = []
        self.store.close()
        self.store = open_store(self.folder)
        if restarts:
            self.store.end_leases(["memory"], self.now)
        else:
            self.now += LEASE

    @precondition(lambda self: self.lost)
    @rule()
    def speak_too_late(self) -> None:
        """A record of an attempt that was given up changes nothing, once another has begun or ended it."""
        before = self._rows()
        current = {(row.id, row.attempt) for row in before if row.state == OutboxState.SENDING}
        late = self.lost.pop()
        if (late.id, late.attempt) not in current:
            assert not self.store.record(late, Rejected(why="late"), self.now)
            assert self._rows() == before

    # --- the world --------------------------------------------------------------------------------------------------

    @rule(seconds=st.sampled_from([1, 10, 40]))
    def wait(self, seconds: int) -> None:
        """Let time pass, less than a lease for what is in hand (a longer wait is a crash)."""
        if not self.in_hand:
            self.now += dt.timedelta(seconds=seconds)

    @rule(address=st.sampled_from(CHATS))
    def come_back(self, address: Address) -> None:
        """A chat unblocks us, and the transport takes us again."""
        self.store.apply(Apply(now=self.now, rooms=(RoomWrite(address=address),)))
        self.store.clear_pause("memory")
        self.refused = False

    # --- what must hold ---------------------------------------------------------------------------------------------

    @invariant()
    def every_row_is_somewhere(self) -> None:
        """Nothing vanishes; whatever has ended unsent says why; marks are accounted for."""
        rows = self._rows()
        assert len(rows) == self.written
        assert all(row.why for row in rows if row.state in ENDS_WITH_A_REASON)
        assert sum(row.possible_repeat for row in rows) <= self.may_mark

    @invariant()
    def a_courier_is_told_when_to_come(self) -> None:
        """There is a next instant exactly while something unfinished is held by neither its chat nor the transport."""
        away = {room.address for room in self.store.rooms() if not room.active}
        unfinished = (OutboxState.WAITING, OutboxState.SENDING)
        free = [row for row in self._rows() if row.state in unfinished and _address(row) not in away]
        assert (self.store.next_send_at(["memory"]) is not None) == (bool(free) and not self.refused)

    def teardown(self) -> None:
        """Let everything work again, and drain: every message reaches an end, and the chat has seen them in order."""
        try:
            self._drain()
            self._judge()
        finally:
            self.store.close()
            shutil.rmtree(self.folder)

    def _drain(self) -> None:
        self.store.end_leases(["memory"], self.now)
        self._die()
        for address in CHATS:
            self.store.apply(Apply(now=self.now, rooms=(RoomWrite(address=address),)))
        self.store.clear_pause("memory")
        while (at := self.store.next_send_at(["memory"])) is not None:
            self.now = max(self.now, at)
            before = self._rows()
            rows = self.store.claim(owner="d", now=self.now, transports=["memory"], limit=5, lease=LEASE)
            assert rows or self._rows() != before, "told to come for nothing"
            for row in rows:
                self._arrive(row)
                assert self.store.record(row, Sent(ref=row.outgoing.key), self.now)

    def _judge(self) -> None:
        got = {key: [one for one in self.arrived if one.key == key] for key in (f"m{at}" for at in range(self.written))}
        for row in self._rows():
            assert row.state in ENDS_WITH_A_REASON | {OutboxState.SENT}
            copies = got[row.key]
            if row.state == OutboxState.SENT:
                assert copies or (self.unheard[row.key] > 1 and row.why)
            if row.kind == OutgoingKind.MESSAGE:
                assert len(copies) <= 1 + self.deaths[row.key] + (self.unheard[row.key] > 0)
                assert all(copy.marked for copy in copies[1:])
        self._judge_order()

    def _judge_order(self) -> None:
        """Within an address and an urgency, first copies come in order of writing."""
        for address in CHATS:
            for urgent in (False, True):
                keys = [one.key for one in self.arrived if one.address == address and one.urgent == urgent]
                firsts = [int(key[1:]) for key in dict.fromkeys(keys)]
                assert firsts == sorted(firsts)

    # --- hands ------------------------------------------------------------------------------------------------------

    def _die(self) -> None:
        self.may_mark += len(self.in_hand)
        self.deaths.update(row.outgoing.key for row in self.in_hand)

    def _key(self) -> str:
        self.written += 1
        return f"m{self.written - 1}"

    def _put(self, *messages: OutboxWrite) -> None:
        assert self.store.apply(Apply(now=self.now, outbox=messages))

    def _arrive(self, row: ClaimedRow) -> None:
        out = row.outgoing
        self.arrived.append(Arrived(key=out.key, address=out.address, urgent=out.urgent, marked=out.possible_repeat))

    def _rows(self) -> list[Row[tuple[object, ...]]]:
        with reading(self.store._engine) as connection:  # noqa: SLF001 -- the test looks behind the port
            return list(connection.execute(select(outbox).order_by(outbox.c.id)).all())


def _address(row: Row[tuple[object, ...]]) -> Address:
    return Address(transport=row.transport, chat=row.chat)


def test_every_history_has_an_end() -> None:
    """Sent once, once more for each death or lost answer, or ended with a reason; in order; marked for those alone."""
    run_state_machine_as_test(Deliveries, settings=settings(max_examples=40, stateful_step_count=30))
