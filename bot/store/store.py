"""The store of the program: every method of `bot.ports.Store` and `Screen` as one short transaction.

What is in a transaction is in `repositories`; nothing is computed here.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from sqlalchemy import Engine

from bot.chat import Address, Outcome
from bot.crew import Person
from bot.ports import (
    Apply,
    ClaimedRow,
    CookSnapshot,
    Fate,
    InboxRow,
    InviteWrite,
    Json,
    RoomWrite,
    Screen,
    ScreenRow,
    ShownMessage,
    Store,
    StoredChoice,
    WaitingRow,
)
from bot.store.engine import ChangeCounter, reading, writing
from bot.store.repositories import cooks, decisions, delivery, inbox, outbox, people, rooms, screen


class SqlStore(Store, Screen):
    """The database behind the ports. Safe over threads; errors are those of `bot.store.errors`."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._changes = ChangeCounter(engine)

    # --- inbox ------------------------------------------------------------------------------------------------------

    def accept(self, *, source: str, key: str, raw: Json, received_at: dt.datetime) -> bool:
        """Store a raw update; False when it was stored before."""
        with writing(self._engine) as connection:
            return inbox.accept(connection, source=source, key=key, raw=raw, received_at=received_at)

    def inbox_waiting(self, limit: int = 50) -> tuple[InboxRow, ...]:
        """Return accepted rows not yet worked on, oldest first."""
        with reading(self._engine) as connection:
            return inbox.waiting(connection, limit)

    def last_received_at(self, source: str) -> dt.datetime | None:
        """Return when the newest row of a source was accepted."""
        with reading(self._engine) as connection:
            return inbox.last_received_at(connection, source)

    # --- cooks ------------------------------------------------------------------------------------------------------

    def cook(self, cook_id: str) -> CookSnapshot | None:
        """Return a cook with its whole log; raises `UnknownFact`."""
        with reading(self._engine) as connection:
            return cooks.load(connection, cook_id)

    def open_cooks(self, address: Address | None = None) -> tuple[str, ...]:
        """Return ids of open cooks (followed by this room), newest first."""
        with reading(self._engine) as connection:
            return cooks.open_ids(connection, address)

    def recent_cooks(self, address: Address, limit: int) -> tuple[str, ...]:
        """Return ids of cooks that this room follows or followed, open or over, newest first."""
        with reading(self._engine) as connection:
            return cooks.recent_ids(connection, address, limit)

    def newest_cooks(self, limit: int) -> tuple[str, ...]:
        """Return ids of cooks, open or over, newest first."""
        with reading(self._engine) as connection:
            return cooks.newest_ids(connection, limit)

    def due_cooks(self, now: dt.datetime) -> tuple[str, ...]:
        """Return ids of open cooks with something due, the longest due first."""
        with reading(self._engine) as connection:
            return cooks.due_ids(connection, now)

    def next_due_at(self) -> dt.datetime | None:
        """Return the earliest cached due instant over all open cooks."""
        with reading(self._engine) as connection:
            return cooks.next_due_at(connection)

    def uncached_cooks(self, engine: str) -> tuple[str, ...]:
        """Return open cooks whose caches are missing or stale."""
        with reading(self._engine) as connection:
            return cooks.uncached_ids(connection, engine)

    def drop_caches(self) -> None:
        """Delete every cached due row and outlook."""
        with writing(self._engine) as connection:
            cooks.drop_caches(connection)

    def outlook(self, cook_id: str) -> Json | None:
        """Return the cached forecast quantiles of a cook."""
        with reading(self._engine) as connection:
            return cooks.outlook(connection, cook_id)

    # --- people and rooms -------------------------------------------------------------------------------------------

    def session(self, address: Address, person: str) -> Json | None:
        """Return the half-finished conversation of a person in a room."""
        with reading(self._engine) as connection:
            return people.conversation(connection, address, person)

    def person(self, person_id: str) -> Person | None:
        """Return a known person."""
        with reading(self._engine) as connection:
            return people.known(connection, person_id)

    def people(self) -> tuple[Person, ...]:
        """Return everyone known, in order of joining."""
        with reading(self._engine) as connection:
            return people.everyone(connection)

    def rooms(self) -> tuple[RoomWrite, ...]:
        """Return every room ever registered, oldest first."""
        with reading(self._engine) as connection:
            return rooms.every(connection)

    def invite(self, code: str, now: dt.datetime) -> InviteWrite | None:
        """Return an unspent, unexpired invitation for this code."""
        with reading(self._engine) as connection:
            return people.find_invite(connection, code, now)

    def choice(self, token: str) -> StoredChoice | None:
        """Return what a button means."""
        with reading(self._engine) as connection:
            return outbox.meaning(connection, token)

    def fate(self, key: str) -> Fate | None:
        """Return what has become of the message of an outbox key; None when it was never written."""
        with reading(self._engine) as connection:
            return outbox.fate(connection, key)

    def waiting(self, address: Address | None = None) -> tuple[WaitingRow, ...]:
        """Return messages that wait (for a room), oldest first, without their files."""
        with reading(self._engine) as connection:
            return outbox.waiting(connection, address)

    def open_choices(self, address: Address) -> tuple[StoredChoice, ...]:
        """Return the choices of the newest message with choices in a room, in order."""
        with reading(self._engine) as connection:
            return outbox.open_choices(connection, address)

    def refuses_signs(self, address: Address) -> bool:
        """Return whether a sign was refused in the chat of a room: there everything is said in words."""
        with reading(self._engine) as connection:
            return outbox.refuses_signs(connection, address)

    def shown(self, key: str) -> ShownMessage | None:
        """Return a message as it is shown now: as it was written, or as its newest edit made it."""
        with reading(self._engine) as connection:
            return outbox.shown(connection, key)

    # --- the one write of a decision --------------------------------------------------------------------------------

    def apply(self, write: Apply) -> bool:
        """Write everything or nothing; False on a conflict. Raises `BrokenWrite` for a fact that is there already."""
        try:
            with writing(self._engine) as connection:
                decisions.apply(connection, write)
        except decisions.Conflict:
            return False
        return True

    # --- delivery ---------------------------------------------------------------------------------------------------

    def claim(
        self, *, owner: str, now: dt.datetime, transports: Sequence[str], limit: int, lease: dt.timedelta
    ) -> tuple[ClaimedRow, ...]:
        """Move waiting rows to sending and return them, urgent ones first, at most one per address."""
        with writing(self._engine) as connection:
            return delivery.claim(connection, owner=owner, now=now, transports=transports, limit=limit, lease=lease)

    def record(self, row: ClaimedRow, outcome: Outcome, now: dt.datetime) -> bool:
        """Record what became of a claimed row; False when its attempt is no longer current."""
        with writing(self._engine) as connection:
            return delivery.record(connection, row, outcome, now)

    def next_send_at(self, transports: Sequence[str]) -> dt.datetime | None:
        """Return the earliest instant at which a waiting row of these transports may be sent."""
        with reading(self._engine) as connection:
            return delivery.next_send_at(connection, transports)

    def end_leases(self, transports: Sequence[str], now: dt.datetime) -> None:
        """Give up every attempt of these transports: for whoever knows that their couriers are dead, so as not to wait.

        Messages among them come back as possible repeats at once instead of at the end of their leases.
        """
        with writing(self._engine) as connection:
            delivery.end_leases(connection, now, ended=delivery.of(transports))

    def clear_pause(self, transport: str) -> None:
        """Let a transport that had refused us (`Locked`) try again."""
        with writing(self._engine) as connection:
            delivery.clear_pause(connection, transport)

    def outbox_counts(self) -> dict[str, int]:
        """Return the number of outbox rows by state (all states), and of `possible_repeat`."""
        with reading(self._engine) as connection:
            return outbox.counts(connection)

    # --- screen -----------------------------------------------------------------------------------------------------

    def show(
        self, *, chat: str, outbox_key: str, text: str, choices: tuple[tuple[str, str], ...], at: dt.datetime
    ) -> int:
        """Put a message on somebody's screen once per outbox key; return its row id."""
        with writing(self._engine) as connection:
            return screen.show(connection, chat=chat, outbox_key=outbox_key, text=text, choices=choices, at=at)

    def screen(self, chat: str, after: int = 0) -> tuple[ScreenRow, ...]:
        """Return what is on somebody's screen after a row id, oldest first."""
        with reading(self._engine) as connection:
            return screen.after(connection, chat, after)

    def mark_shown(self, chat: str, up_to: int, at: dt.datetime) -> None:
        """Remember that rows up to this id were printed."""
        with writing(self._engine) as connection:
            screen.mark_shown(connection, chat, up_to, at)

    # --- life -------------------------------------------------------------------------------------------------------

    def change_counter(self) -> int:
        """Return a number that changes whenever somebody else has written (this store's own writes count as well)."""
        return self._changes.read()

    def close(self) -> None:
        """Release the database."""
        self._changes.close()
        self._engine.dispose()
