"""A kitchen played by hand: people say, tap and edit, a clock is moved, and what each room was told is kept in order.

The kitchen, the store and the reader of texts are the real ones; only the clock and the way out are stand-ins. It
must not assert anything nor know what a good answer is.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import shutil
from pathlib import Path

from pydantic import TypeAdapter

from bot.application.kitchen import Kitchen
from bot.chat import Address, Incoming, IncomingKind, Outgoing, OutgoingKind, Sent
from bot.papers.issue import make_chart, make_paper
from bot.ports import Apply, ClaimedRow, CookSnapshot, InviteWrite, Json
from bot.store import SqlStore, open_store
from scheduler.cook import Situation, assess
from scheduler.cookers import Cards
from scheduler.cuts.own import Complaint
from scheduler.facts import Edition, Noted
from scheduler.planning.catalogue import Catalogue, read_catalogue
from tests.catalogue import TEXTS

CATALOGUE: Catalogue = read_catalogue(dict(TEXTS))

MINUTE = dt.timedelta(minutes=1)
DAY = dt.date(2026, 8, 15)
"""A Saturday."""

_INCOMING = TypeAdapter(Incoming)
_LEASE = dt.timedelta(minutes=1)
_AT_REST_WITHIN = 20


def on(clock: str, day: int = 0) -> dt.datetime:
    """Return the instant of a clock time (UTC) on the Saturday of these plays, or so many days later."""
    hour, minute = map(int, clock.split(":"))
    return dt.datetime.combine(DAY + dt.timedelta(days=day), dt.time(hour, minute), dt.UTC)


def window(name: str) -> Address:
    """Return somebody's window in the terminal."""
    return Address(transport="terminal", chat=name.casefold())


def chat(name: str) -> Address:
    """Return somebody's private chat in the messenger."""
    return Address(transport="telegram", chat=name.casefold())


def group(title: str) -> Address:
    """Return a group in the messenger."""
    return Address(transport="telegram", chat=f"-{title.casefold()}")


@dataclasses.dataclass(frozen=True, kw_only=True)
class Heard:
    """One message that a room was sent: when, what, with which buttons."""

    at: dt.datetime
    outgoing: Outgoing

    @property
    def text(self) -> str:
        """Return the words."""
        return self.outgoing.text

    @property
    def room(self) -> Address:
        """Return where it was sent."""
        return self.outgoing.address

    @property
    def sort(self) -> str:
        """Return what brought it: answer, echo, prompt, summary, board, tap."""
        return self.outgoing.key.split(":", 1)[0]

    @property
    def labels(self) -> tuple[str, ...]:
        """Return the labels of the buttons, in reading order."""
        return tuple(choice.label for row in self.outgoing.choices for choice in row)

    @property
    def lines(self) -> list[str]:
        """Return the lines of the text."""
        return self.outgoing.text.split("\n")

    @property
    def last(self) -> str:
        """Return the last line."""
        return self.lines[-1]


class PlayedKitchen:
    """One kitchen on one folder, with a clock moved by hand."""

    def __init__(
        self,
        folder: Path,
        at: dt.datetime,
        *,
        zone: str = "UTC",
        link_prefix: str | None = None,
        catalogue: Catalogue = CATALOGUE,
        complaints: tuple[Complaint, ...] = (),
        cards: Cards | None = None,
        edition: Edition = Edition.STRICTER,
    ) -> None:
        """Open the kitchen; nobody has said anything yet."""
        self._catalogue, self._complaints = catalogue, complaints
        self.now = at
        self.folder, self._zone, self._link_prefix = folder, zone, link_prefix
        self._cards, self._edition = cards or Cards(), edition
        self.heard: list[Heard] = []
        self.new: list[Heard] = []
        """What was sent since the last thing that somebody did, or since time was last moved."""
        self._said = 0
        self.store: SqlStore = open_store(folder)
        self.kitchen = self._open()

    def _open(self) -> Kitchen:
        return Kitchen(
            store=self.store,
            catalogue=self._catalogue,
            complaints=self._complaints,
            decoders={"terminal": _decoded, "telegram": _decoded},
            zone=self._zone,
            papers=make_paper,
            charts=make_chart,
            link_prefix=self._link_prefix,
            cards=self._cards,
            edition=self._edition,
        )

    def close(self) -> None:
        """Close the store."""
        self.store.close()

    def continued(self, folder: Path) -> PlayedKitchen:
        """Return a kitchen of its own that goes on from here, on a copy of the folder; this one must be closed."""
        shutil.copytree(self.folder, folder, dirs_exist_ok=True)
        played = PlayedKitchen(folder, self.now, zone=self._zone, link_prefix=self._link_prefix, cards=self._cards)
        played.heard, played._said = list(self.heard), self._said
        return played

    def reopen(self) -> None:
        """Begin anew on the same folder, as after a kill: nothing but the store is left."""
        self.store.close()
        self.store = open_store(self.folder)
        self.kitchen = self._open()

    # --- what people do -----------------------------------------------------------------------------------------------

    def opens(self, name: str) -> Heard:
        """Somebody opens a window in the terminal."""
        return self._done(self.incoming(name, window(name), IncomingKind.ARRIVED))

    def say(self, name: str, text: str, *, room: Address | None = None, at: dt.datetime | None = None) -> Heard:
        """Somebody types into their window, or a room; return the answer. Raises AssertionError when there is none."""
        return self._done(self.incoming(name, room or window(name), IncomingKind.TEXT, text=text, at=at))

    def mutter(self, name: str, text: str, *, room: Address | None = None) -> list[Heard]:
        """Somebody says what may stay without an answer; return everything that was sent."""
        return self.does(self.incoming(name, room or window(name), IncomingKind.TEXT, text=text))

    def edit(self, message: str, name: str, text: str, *, room: Address | None = None) -> list[Heard]:
        """Somebody changes an own message; return everything that was sent."""
        return self.does(self.incoming(name, room or window(name), IncomingKind.EDIT, text=text, message=message))

    def tap(self, name: str, label: str, *, room: Address | None = None) -> Heard:
        """Somebody presses the newest button with this label in a room; return the answer."""
        return self._done(self.tapped(name, self.token(label, room or window(name)), room=room))

    def tapped(self, name: str, token: str, *, room: Address | None = None) -> Incoming:
        """Return the pressing of a button."""
        address = room or window(name)
        return dataclasses.replace(
            self.incoming(name, address, IncomingKind.TAP), token=token, tap_id=f"tap{self._said}"
        )

    def token(self, label: str, room: Address) -> str:
        """Return the token of the newest button with this label in a room."""
        return next(
            choice.token
            for heard in reversed(self.heard)
            if heard.room == room
            for row in heard.outgoing.choices
            for choice in row
            if choice.label == label
        )

    def incoming(
        self, name: str, room: Address, kind: IncomingKind, *, text: str = "", at: dt.datetime | None = None,
        message: str | None = None,
    ) -> Incoming:  # fmt: skip
        """Return something that somebody does now, not yet done."""
        self._said += 1
        return Incoming(
            source=room.transport,
            key=str(self._said),
            address=room,
            sender=name.casefold(),
            sender_name=name,
            kind=kind,
            sent_at=at or self.now,
            text=text,
            message=message or f"m{self._said}",
            group=room.chat.startswith("-"),
        )

    @property
    def last_message(self) -> str:
        """Return the reference of the message that was said last."""
        return f"m{self._said}"

    def does(self, *incoming: Incoming) -> list[Heard]:
        """Let things happen at one instant; return everything that was sent."""
        self.accept(*incoming)
        self.new = []
        self._work()
        return self.new

    def accept(self, *incoming: Incoming) -> None:
        """Put things into the inbox without working on them."""
        for one in incoming:
            raw = _INCOMING.dump_python(one, mode="json")
            assert self.store.accept(source=one.source, key=one.key, raw=raw, received_at=self.now)

    def _done(self, incoming: Incoming) -> Heard:
        sent = [heard for heard in self.does(incoming) if heard.room == incoming.address and heard.sort == "answer"]
        assert sent, f"no answer to {incoming.text or incoming.token!r}"
        return sent[-1]

    # --- time ---------------------------------------------------------------------------------------------------------

    def until(self, at: dt.datetime) -> list[Heard]:
        """Let time pass, ringing whenever the kitchen asks for it; return what was sent."""
        sent: list[Heard] = []
        while (wake := self.kitchen.next_wake_at()) is not None and wake <= at:
            self.now = max(wake, self.now)
            self.new = []
            self._work()
            sent += self.new
        self.now = at
        self.new = sent
        return sent

    def later(self, minutes: float) -> list[Heard]:
        """Let so many minutes pass; return what was sent."""
        return self.until(self.now + minutes * MINUTE)

    def away_until(self, at: dt.datetime) -> list[Heard]:
        """Be switched off until an instant, then begin anew; return what was sent."""
        self.now = at
        self.reopen()
        self.new = []
        self._work()
        return self.new

    def _work(self) -> None:
        self.kitchen.take_in(self.now)
        for _round in range(_AT_REST_WITHIN):
            self.deliver()
            wake = self.kitchen.next_wake_at()
            if wake is None or wake > self.now:
                return
            self.kitchen.ring(self.now)
        raise AssertionError("the bell does not come to rest")

    def deliver(self) -> None:
        while rows := self.store.claim(
            owner="hand", now=self.now, transports=["terminal", "telegram"], limit=50, lease=_LEASE
        ):
            for row in rows:
                self.sent(row)

    def sent(self, row: ClaimedRow) -> None:
        """Let one message arrive."""
        one = Heard(at=self.now, outgoing=row.outgoing)
        self.heard.append(one)
        self.new.append(one)
        assert self.store.record(row, Sent(ref=str(row.id)), self.now)

    # --- looking ------------------------------------------------------------------------------------------------------

    def told(self, room: Address | str, *sorts: str) -> list[Heard]:
        """Return what a room (or somebody's window) was sent since the last action, boards and taps left out."""
        address = window(room) if isinstance(room, str) else room
        return [
            heard
            for heard in self.new
            if heard.room == address
            and heard.outgoing.kind is OutgoingKind.MESSAGE
            and (heard.sort in sorts if sorts else heard.sort != "board")
        ]

    @property
    def notes(self) -> list[str]:
        """Return the words that are kept as notes with the newest open cook."""
        return [fact.body.text for fact in self.cook.facts if isinstance(fact.body, Noted)]

    def said_last(self, name: str) -> str:
        """Return the text that somebody's window was sent last."""
        return next(heard.text for heard in reversed(self.heard) if heard.room == window(name))

    @property
    def cook(self) -> CookSnapshot:
        """Return the newest open cook."""
        found = self.store.cook(self.store.open_cooks()[0])
        assert found is not None
        return found

    @property
    def situation(self) -> Situation:
        """Return how the newest open cook stands now."""
        return assess(self.cook.facts, CATALOGUE, self.now)

    def invite(self, code: str, role: str, *, hours: float = 24) -> None:
        """Make a single-use code, as the console does for the owner."""
        expires_at = self.now + dt.timedelta(hours=hours)
        assert self.store.apply(
            Apply(now=self.now, invites=(InviteWrite(code=code, role=role, expires_at=expires_at),))
        )


def _decoded(raw: Json, *, source: str, key: str, received_at: dt.datetime) -> Incoming | None:
    return _INCOMING.validate_python(dict(raw))
