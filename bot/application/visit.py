"""One row of the inbox being worked on, and everything it will change, gathered for one write.

No decisions here: handlers fill in the work, the store applies it whole.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import hashlib

from bot.application.manners import PLAIN, Manner, voice_of
from bot.chat import Address, Attachment, Choice, Document, Incoming, Outgoing, OutgoingKind
from bot.commands import INTENT
from bot.crew import Person
from bot.makers import ChartMaker, PaperMaker
from bot.messages.figures import Voice
from bot.messages.message import Message, narrowed
from bot.ports import (
    Apply,
    CookWrite,
    InviteWrite,
    Json,
    OutboxWrite,
    RoomWrite,
    SessionWrite,
    Store,
    StoredChoice,
)
from scheduler.cook import Situation
from scheduler.cookers import Cards
from scheduler.cuts.own import Complaint
from scheduler.facts import Edition
from scheduler.planning.catalogue import Catalogue


@dataclasses.dataclass(frozen=True, kw_only=True)
class House:
    """What every handler needs of the program: store, catalogue, zone, how links begin."""

    store: Store
    catalogue: Catalogue
    zone: str
    papers: PaperMaker
    charts: ChartMaker
    link_prefix: str | None = None
    complaints: tuple[Complaint, ...] = ()
    """What is wrong with a person's own cuts, told where a cook is set up."""
    cards: Cards = dataclasses.field(default_factory=Cards)
    """The cookers that somebody owns."""
    card_complaints: tuple[Complaint, ...] = ()
    """What is wrong with the cards of cookers."""
    edition: Edition = Edition.STRICTER
    """Which published rules count for a cook where nobody says another."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Visit:
    """Somebody did something: who, what, when, and from where."""

    house: House
    row_id: int
    incoming: Incoming
    person: Person
    now: dt.datetime
    beside: bool = False
    """True while one more cook is set up beside another that runs."""
    manner: Manner = PLAIN
    """How the room is spoken to."""
    tapped: StoredChoice | None = None
    """The button that was pressed, None for what was typed."""

    @property
    def address(self) -> Address:
        """Return the room it came from."""
        return self.incoming.address

    @property
    def sets_up(self) -> str:
        """Return whose set-up is meant: a person's own in private, the one of all in a group."""
        return "" if self.incoming.group else self.person.id

    @property
    def seed(self) -> str:
        """Return what ids of facts written for this row begin with."""
        return f"i{self.row_id}"

    def voice(self, situation: Situation) -> Voice:
        """Return the voice in which a cook is spoken of in the room it came from."""
        return voice_of(situation, self.now, self.manner)

    def unit(self, situation: Situation) -> str:
        """Return the unit in which figures are typed in the room it came from."""
        return self.manner.unit or situation.state.planned.unit


@dataclasses.dataclass
class Work:
    """Everything one decision will write."""

    now: dt.datetime
    inbox_done: int | None = None
    result: str = "done"
    cooks: list[CookWrite] = dataclasses.field(default_factory=list)
    outbox: list[OutboxWrite] = dataclasses.field(default_factory=list)
    sessions: list[SessionWrite] = dataclasses.field(default_factory=list)
    people: list[Person] = dataclasses.field(default_factory=list)
    rooms: list[RoomWrite] = dataclasses.field(default_factory=list)
    invites: list[InviteWrite] = dataclasses.field(default_factory=list)
    moved_room: tuple[Address, Address] | None = None
    spend_code: str | None = None
    cancel_invites: bool = False
    withdrawn: tuple[str, ...] = ()
    """Keys of waiting messages that no longer matter."""
    titles: dict[tuple[str, Address], str] = dataclasses.field(default_factory=dict)
    """(cook, room) -> what its messages begin with, where several cooks run in one room."""

    def say(
        self,
        message: Message,
        *,
        to: Address,
        key: str,
        cook: str | None = None,
        silent: bool = False,
        urgent: bool = False,
        document: Document | None = None,
    ) -> None:
        """Write a message for a room, with a file or without; its key makes sure it is stored once."""
        full_key = f"{key}:{to.transport}:{to.chat}" + ("" if to.thread is None else f":{to.thread}")
        title = None if cook is None else self.titles.get((cook, to))
        if title is not None and message.text:
            message = dataclasses.replace(message, text=f"{title}:\n{message.text}")
        rows, meanings = _choices(message, full_key)
        outgoing = Outgoing(
            key=full_key,
            address=to,
            text=message.text,
            choices=rows,
            silent=silent,
            urgent=urgent,
            document=document,
        )
        self.outbox.append(OutboxWrite(outgoing=outgoing, cook=cook, meanings=meanings))

    def append_to_answer(self, more: Message, room: Address) -> None:
        """Add something to the answer that is written for a room already, its buttons last."""
        for number, row in enumerate(self.outbox):
            answers = row.outgoing.address == room and row.outgoing.key.startswith("answer:")
            if not answers:
                continue
            rows, meanings = _choices(more, f"{row.outgoing.key}+")
            text = f"{row.outgoing.text}\n\n{more.text}"
            whole = dataclasses.replace(row.outgoing, text=text, choices=(*row.outgoing.choices, *rows))
            self.outbox[number] = OutboxWrite(outgoing=whole, cook=row.cook, meanings=(*row.meanings, *meanings))
            return

    def change(
        self,
        target: str,
        text: str,
        *,
        to: Address,
        row: int,
        choices: tuple[tuple[Choice, ...], ...],
        meanings: tuple[Json, ...],
    ) -> None:
        """Change a message that was sent under an outbox key, because of an inbox row."""
        outgoing = Outgoing(
            key=f"change:{target}:{row}",
            address=to,
            kind=OutgoingKind.EDIT,
            text=text,
            choices=choices,
            silent=True,
            target=target,
        )
        self.outbox.append(OutboxWrite(outgoing=outgoing, meanings=meanings))

    def fetch(self, attachment: Attachment, name: str, *, of: Address) -> None:
        """Ask for the bytes of a file that somebody sent, to be put away under a name."""
        outgoing = Outgoing(
            key=f"fetch:{name}", address=of, kind=OutgoingKind.FETCH, text=name, target=attachment.file, silent=True
        )
        self.outbox.append(OutboxWrite(outgoing=outgoing))

    def react(self, incoming: Incoming, sign: str) -> None:
        """Acknowledge what somebody typed by a sign under it, without a message."""
        outgoing = Outgoing(
            key=f"sign:{incoming.source}:{incoming.key}",
            address=incoming.address,
            kind=OutgoingKind.REACTION,
            text=sign,
            target=incoming.message,
            silent=True,
        )
        self.outbox.append(OutboxWrite(outgoing=outgoing))

    def answer_tap(self, incoming: Incoming, text: str = "") -> None:
        """End the waiting of a pressed button."""
        if incoming.tap_id is None:
            return
        outgoing = Outgoing(
            key=f"tap:{incoming.source}:{incoming.key}",
            address=incoming.address,
            kind=OutgoingKind.TAP_ANSWER,
            text=text,
            target=incoming.tap_id,
            urgent=True,
            useful_until=self.now + dt.timedelta(minutes=2),
        )
        self.outbox.append(OutboxWrite(outgoing=outgoing))

    def apply(self) -> Apply:
        """Return the write."""
        return Apply(
            now=self.now,
            inbox_done=self.inbox_done,
            inbox_result=self.result,
            cooks=tuple(self.cooks),
            outbox=tuple(self.outbox),
            withdraw_outbox=self.withdrawn,
            sessions=tuple(self.sessions),
            people=tuple(self.people),
            rooms=tuple(self.rooms),
            moved_room=self.moved_room,
            invites=tuple(self.invites),
            spend_code=self.spend_code,
            cancel_invites=self.cancel_invites,
        )


def _choices(message: Message, key: str) -> tuple[tuple[tuple[Choice, ...], ...], tuple[Json, ...]]:
    """Return rows of buttons with tokens, and what each means, in order."""
    rows: list[tuple[Choice, ...]] = []
    meanings: list[Json] = []
    for row in narrowed(message.choices):
        buttons = []
        for label, meaning in row:
            token = hashlib.sha256(f"{key}#{len(meanings)}".encode()).hexdigest()[:16]
            buttons.append(Choice(label=label, token=token))
            meanings.append(INTENT.dump_python(meaning, mode="json"))
        rows.append(tuple(buttons))
    return tuple(rows), tuple(meanings)
