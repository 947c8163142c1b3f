"""Answers to a backlog, held back and told together: one summary for each room.

It decides on nothing that was written; facts, boards and everything urgent go their usual way.

Each answer is stored, held back for a minute, by the write of its own row; the summary takes their place in one more
write. So a death in between loses no answer: they are then sent one by one.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.application.backlog import HELD_FOR, summary_lines
from bot.application.manners import manner_of
from bot.chat import Address, Choice, Incoming, Outgoing, OutgoingKind
from bot.messages import backlog as words
from bot.messages.figures import Voice
from bot.messages.message import lines
from bot.messages.words import speaking
from bot.ports import Apply, OutboxWrite, Store


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Held:
    sent_at: dt.datetime
    write: OutboxWrite


class Gathering:
    """The answers to one backlog, in order."""

    def __init__(self, store: Store, zone: str, now: dt.datetime) -> None:
        self._store = store
        self._zone = zone
        self._now = now
        self._held: dict[Address, list[_Held]] = {}
        self._came: dict[Address, list[dt.datetime]] = {}
        """When what came late was sent, by the room that it came from."""

    def held(self, write: Apply) -> Apply:
        """Return a decision with its ordinary answers held back."""
        until = self._now + HELD_FOR
        outbox = tuple(
            dataclasses.replace(one, held_until=until) if _ordinary(one.outgoing) else one for one in write.outbox
        )
        return dataclasses.replace(write, outbox=outbox)

    def note(self, write: Apply, received_at: dt.datetime, incoming: Incoming | None) -> None:
        """Remember what a decision said about something that came late, now that it is written."""
        sent_at = received_at if incoming is None else incoming.sent_at
        if incoming is not None:
            self._came.setdefault(incoming.address, []).append(sent_at)
        for one in write.outbox:
            if _ordinary(one.outgoing):
                self._held.setdefault(one.outgoing.address, []).append(_Held(sent_at=sent_at, write=one))

    def summaries(self) -> Apply | None:
        """Return the write that tells each room all of it in one message; None when nothing was held back."""
        if not self._held:
            return None
        keys = tuple(one.write.outgoing.key for held in self._held.values() for one in held)
        written = tuple(self._summary(room, held) for room, held in self._held.items())
        return Apply(now=self._now, outbox=written, withdraw_outbox=keys)

    def _summary(self, room: Address, held: list[_Held]) -> OutboxWrite:
        newest = held[-1].write
        key = f"late:{newest.outgoing.key}"
        text = newest.outgoing.text
        came = self._came.get(room) or [one.sent_at for one in held]
        if len(came) > 1 or len(held) > 1:
            manner = manner_of(self._store, room)
            voice = Voice(zone=self._zone, unit=manner.unit or "F", now=self._now, language=manner.language)
            with speaking(manner.language):
                text = _told(held, came, voice)
        choices = tuple(
            tuple(Choice(label=one.label, token=f"{one.token[:32]}l") for one in row) for row in newest.outgoing.choices
        )
        whole = dataclasses.replace(newest.outgoing, key=key, text=text, choices=choices)
        return dataclasses.replace(newest, outgoing=whole, held_until=None)


def _ordinary(outgoing: Outgoing) -> bool:
    """Return whether a message can wait for the summary: neither urgent nor a file, nor the board."""
    return (
        outgoing.kind is OutgoingKind.MESSAGE
        and not outgoing.urgent
        and outgoing.document is None
        and outgoing.key.startswith(("answer:", "echo:"))
    )


def _told(held: list[_Held], came: list[dt.datetime], voice: Voice) -> str:
    """Return the summary; what needed no words (a sign stands under it) is counted with the rest."""
    left_out, told = summary_lines([one.write.outgoing.text for one in held])
    head = words.heard_late(len(came), min(came), max(came), voice)
    more = words.more_before(left_out) if left_out else ""
    return lines(head, more, *told)
