"""Protocols between the rooms of the program: store, outgoing transport, screen, alarm; and the values they carry.

Nothing concrete lives here; adapters are chosen in `bot.bootstrap` alone.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from typing import Literal, Protocol

from bot.chat import Address, Choice, Incoming, Lack, Outcome, Outgoing, OutgoingKind
from bot.crew import Person
from scheduler.facts import Fact

Json = Mapping[str, object]


# --- rows read ------------------------------------------------------------------------------------------------------


@dataclasses.dataclass(frozen=True, kw_only=True)
class InboxRow:
    """One raw update that was accepted and not yet worked on, in order of acceptance."""

    id: int
    source: str
    key: str
    raw: Json
    received_at: dt.datetime


@dataclasses.dataclass(frozen=True, kw_only=True)
class CookSnapshot:
    """One cook as of one version: its log (in order of writing) and the rooms that follow it."""

    id: str
    version: int
    """Number of the last write; a write names the version it was decided on."""
    open: bool
    rooms: tuple[Address, ...]
    """Where its prompts go; the first is the room it was started in."""
    facts: tuple[Fact, ...]


@dataclasses.dataclass(frozen=True, kw_only=True)
class StoredChoice:
    """What a button means: `meaning` is an intent of `bot.commands` as JSON."""

    token: str
    label: str
    outbox_key: str
    address: Address
    cook: str | None
    meaning: Json


@dataclasses.dataclass(frozen=True, kw_only=True)
class DueRow:
    """Cache of one scheduled prompt: enough to know when to wake, nothing else is read from it."""

    prompt: str
    due_at: dt.datetime
    """Instant at which the cook must be looked at (due, re-ask, or the end of its lateness)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class ClaimedRow:
    """An outbox row that this courier may send now; `attempt` is the fence that recording checks."""

    id: int
    attempt: int
    outgoing: Outgoing
    target_ref: str | None
    """For an EDIT, PIN or UNPIN: the transport's reference under which the target was sent (None: it never was)."""
    target_file: bool = False
    """For an EDIT: its target went with a file, so that what is changed is a caption."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class ShownMessage:
    """A message as it stands in its room now."""

    text: str
    choices: tuple[tuple[Choice, ...], ...]
    captioned: bool
    """A file goes with it: the text is a caption."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Fate:
    """What has become of a message so far."""

    sent: bool
    """It has left and is where it was sent."""
    over: bool
    """It will never be sent: dropped, withdrawn, overtaken, or parked for the operator."""
    lack: Lack | None = None
    """What stood in its way. GONE on a message: it can no longer be changed, another takes its place."""

    @property
    def gone(self) -> bool:
        """Return whether nobody can change it any more."""
        return self.over or self.lack is Lack.GONE


@dataclasses.dataclass(frozen=True, kw_only=True)
class WaitingRow:
    """A message that waits in the outbox; `created_at` is when it was written."""

    outgoing: Outgoing
    cook: str | None
    created_at: dt.datetime
    has_file: bool = False

    @property
    def key(self) -> str:
        """Return its key."""
        return self.outgoing.key

    @property
    def is_message(self) -> bool:
        """Return whether people would see a new message."""
        return self.outgoing.kind is OutgoingKind.MESSAGE


@dataclasses.dataclass(frozen=True, kw_only=True)
class ScreenRow:
    """A message shown in somebody's terminal window."""

    id: int
    text: str
    choices: tuple[tuple[str, str], ...]
    """(label, token) in order."""
    at: dt.datetime
    shown: bool


# --- writes ---------------------------------------------------------------------------------------------------------


@dataclasses.dataclass(frozen=True, kw_only=True)
class CookWrite:
    """What is written of one cook. `expected_version` 0 makes a new cook."""

    cook: str
    expected_version: int
    facts: tuple[Fact, ...] = ()
    add_rooms: tuple[Address, ...] = ()
    open: bool = True
    due: tuple[DueRow, ...] | None = None
    """Replaces the cached schedule; None leaves it."""
    outlook: Json | None = None
    """Replaces the cached forecast quantiles; None leaves them."""
    engine: str = ""
    """Engine version that computed the caches."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class OutboxWrite:
    """A message to be stored for the courier, with what its buttons mean (one entry per choice, in order)."""

    outgoing: Outgoing
    cook: str | None = None
    meanings: tuple[Json, ...] = ()
    held_until: dt.datetime | None = None
    """Not sent before this, so that something better may take its place; everything behind it in its chat waits."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class SessionWrite:
    """What the program remembers of a half-finished conversation; None forgets it."""

    address: Address
    person: str
    data: Json | None


@dataclasses.dataclass(frozen=True, kw_only=True)
class RoomWrite:
    """A room that the program may use, or no longer."""

    address: Address
    title: str = ""
    active: bool = True
    group: bool = False
    language: str | None = None
    """Spoken there; None when written leaves what is known, when read means that nobody said."""
    unit: Literal["C", "F"] | None = None
    """Of temperatures there; None as above."""
    hears_all: bool | None = None
    """False where the program hears only commands and replies to itself; None as above."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class InviteWrite:
    """A single-use code: stored hashed, spent by `spend_code`."""

    code: str
    role: str
    expires_at: dt.datetime
    cook: str | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Apply:
    """Everything one decision changes, written in ONE transaction or not at all."""

    now: dt.datetime
    inbox_done: int | None = None
    inbox_result: str = ""
    """One word about what became of the row: done, parked, refused."""
    cooks: tuple[CookWrite, ...] = ()
    outbox: tuple[OutboxWrite, ...] = ()
    withdraw_outbox: tuple[str, ...] = ()
    """Keys of waiting messages that no longer matter."""
    sessions: tuple[SessionWrite, ...] = ()
    people: tuple[Person, ...] = ()
    rooms: tuple[RoomWrite, ...] = ()
    moved_room: tuple[Address, Address] | None = None
    invites: tuple[InviteWrite, ...] = ()
    spend_code: str | None = None
    """Code to be spent; a code already spent or expired makes the whole write a conflict."""
    cancel_invites: bool = False
    """Makes every code useless that nobody has used yet, but for that of an owner."""


# --- protocols ------------------------------------------------------------------------------------------------------


class Store(Protocol):
    """The database. Every method is one short transaction; nothing is computed inside one."""

    def accept(self, *, source: str, key: str, raw: Json, received_at: dt.datetime) -> bool:
        """Store a raw update; False when this (source, key) was stored before. After return it is on disk."""

    def inbox_waiting(self, limit: int = 50) -> tuple[InboxRow, ...]:
        """Return accepted rows not yet worked on, oldest first."""

    def last_received_at(self, source: str) -> dt.datetime | None:
        """Return when the newest row of a source was accepted."""

    def cook(self, cook_id: str) -> CookSnapshot | None:
        """Return a cook with its whole log."""

    def open_cooks(self, address: Address | None = None) -> tuple[str, ...]:
        """Return ids of open cooks (followed by this room), newest first."""

    def recent_cooks(self, address: Address, limit: int) -> tuple[str, ...]:
        """Return ids of cooks that this room follows or followed, open or over, newest first."""

    def due_cooks(self, now: dt.datetime) -> tuple[str, ...]:
        """Return ids of open cooks with a cached due row at or before `now`, earliest first."""

    def next_due_at(self) -> dt.datetime | None:
        """Return the earliest cached due instant over all open cooks."""

    def uncached_cooks(self, engine: str) -> tuple[str, ...]:
        """Return open cooks whose caches are missing or belong to another log length or engine version."""

    def drop_caches(self) -> None:
        """Delete every cached due row and outlook (they can be computed again from the log)."""

    def outlook(self, cook_id: str) -> Json | None:
        """Return the cached forecast quantiles of a cook."""

    def session(self, address: Address, person: str) -> Json | None:
        """Return the half-finished conversation of a person in a room."""

    def person(self, person_id: str) -> Person | None:
        """Return a known person."""

    def people(self) -> tuple[Person, ...]:
        """Return everyone known, in order of joining."""

    def rooms(self) -> tuple[RoomWrite, ...]:
        """Return every room ever registered."""

    def invite(self, code: str, now: dt.datetime) -> InviteWrite | None:
        """Return an unspent, unexpired invitation for this code."""

    def choice(self, token: str) -> StoredChoice | None:
        """Return what a button means."""

    def fate(self, key: str) -> Fate | None:
        """Return what has become of the message of an outbox key; None when it was never written."""

    def waiting(self, address: Address | None = None) -> tuple[WaitingRow, ...]:
        """Return messages that wait (for a room), oldest first."""

    def open_choices(self, address: Address) -> tuple[StoredChoice, ...]:
        """Return the choices of the newest message with choices in a room, in order."""

    def refuses_signs(self, address: Address) -> bool:
        """Return whether a sign was refused in the chat of a room: there everything is said in words."""

    def shown(self, key: str) -> ShownMessage | None:
        """Return the message with an outbox key as it is shown now, its newest edit counted; None: there is none."""

    def apply(self, write: Apply) -> bool:
        """Write everything or nothing; False on a version conflict, a spent code or an inbox row already done.

        An outbox key that is already stored is left as it is (the same message is never stored twice).
        """

    def claim(
        self, *, owner: str, now: dt.datetime, transports: Sequence[str], limit: int, lease: dt.timedelta
    ) -> tuple[ClaimedRow, ...]:
        """Move waiting rows (and rows whose lease ran out) to sending and return them, urgent ones first.

        At most one row per address, in order of writing. A row found in sending with an expired lease comes back as
        `possible_repeat`. Rows past `useful_until` are dropped.
        """

    def record(self, row: ClaimedRow, outcome: Outcome, now: dt.datetime) -> bool:
        """Record what became of a claimed row; False (and nothing changed) when its attempt is no longer current."""

    def next_send_at(self, transports: Sequence[str]) -> dt.datetime | None:
        """Return the earliest instant at which a waiting row of these transports may be sent."""

    def outbox_counts(self) -> dict[str, int]:
        """Return the number of outbox rows by state, and of possible repeats under `possible_repeat`."""

    def change_counter(self) -> int:
        """Return a number that changes whenever another process has written."""

    def close(self) -> None:
        """Release the database."""


class Screen(Protocol):
    """The terminal's side of the store: what each named person's window shows."""

    def show(
        self, *, chat: str, outbox_key: str, text: str, choices: tuple[tuple[str, str], ...], at: dt.datetime
    ) -> int:
        """Put a message on somebody's screen once per outbox key; return its row id."""

    def screen(self, chat: str, after: int = 0) -> tuple[ScreenRow, ...]:
        """Return what is on somebody's screen after a row id, oldest first."""

    def mark_shown(self, chat: str, up_to: int, at: dt.datetime) -> None:
        """Remember that rows up to this id were printed."""


class Album(Protocol):
    """Where the bytes of what people sent are put away."""

    def __call__(self, name: str, data: bytes, /) -> None:
        """Write one file under a name; the same name is replaced. Raises OSError."""


class OutgoingTransport(Protocol):
    """One way out. A transport is one method: an outgoing in, an outcome back."""

    name: str

    async def send(self, row: ClaimedRow) -> Outcome:
        """Try once. Never raises for what the other side does: every error is an outcome."""


class Decoder(Protocol):
    """Turns a raw update of one source into what a person did."""

    def __call__(self, raw: Json, *, source: str, key: str, received_at: dt.datetime) -> Incoming | None:
        """Return the incoming, None when the update concerns nobody; raise ValueError when it cannot be read."""


class Alarm(Protocol):
    """The clock and the alarm clock. The only way in which the program learns the time."""

    def now(self) -> dt.datetime:
        """Return the present instant (aware, UTC)."""

    def start(self, ring: Callable[[], None]) -> None:
        """Call `ring` whenever the armed instant has come, at every safety sweep, and after a missed wake."""

    def arm(self, at: dt.datetime | None) -> None:
        """Replace the armed instant; None disarms (the sweep goes on)."""

    def stop(self) -> None:
        """Stop ringing."""
