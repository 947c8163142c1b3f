"""How each room is spoken to: its language and its unit, and the voice that follows from them.

Reads the store, writes nothing, and words nothing.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Literal

from bot.chat import Address, Incoming
from bot.messages.figures import Voice
from bot.messages.words import SOURCE_LANGUAGE, languages
from bot.ports import RoomWrite, Store
from scheduler.cook import Situation


@dataclasses.dataclass(frozen=True, kw_only=True)
class Manner:
    """How a room is spoken to: in a private room that of its person, in a group that of the chat."""

    language: str = SOURCE_LANGUAGE
    unit: Literal["C", "F"] | None = None
    """None: that of the cook."""


PLAIN = Manner()
"""Of a room of which nobody said anything."""


def manner_of(store: Store, address: Address) -> Manner:
    """Return how a room is spoken to; a topic of which nothing was said is spoken to like its group."""
    return manner_among(store.rooms(), address)


def manner_towards(store: Store, incoming: Incoming) -> Manner:
    """Return how to answer somebody: as the room is spoken to; while nobody said so, in private as their device is."""
    rooms = store.rooms()
    manner = manner_among(rooms, incoming.address)
    guess = first_guess(rooms, incoming)
    return manner if guess is None else dataclasses.replace(manner, language=guess)


def first_guess(rooms: tuple[RoomWrite, ...], incoming: Incoming) -> str | None:
    """Return the language of the sender's device, where it is spoken here and nobody chose one for a private room."""
    chosen = any(room.address == incoming.address and room.language for room in rooms)
    code = (incoming.language or "").partition("-")[0].casefold()
    return None if incoming.group or chosen or code not in languages() else code


def manner_among(rooms: tuple[RoomWrite, ...], address: Address) -> Manner:
    """Return how a room is spoken to, of rooms that were read before."""
    whole = dataclasses.replace(address, thread=None)
    own, chat = (next((room for room in rooms if room.address == one), None) for one in (address, whole))
    said = [room for room in (own, chat) if room is not None]
    return Manner(
        language=next((room.language for room in said if room.language), SOURCE_LANGUAGE),
        unit=next((room.unit for room in said if room.unit), None),
    )


def voice_of(situation: Situation, now: dt.datetime, manner: Manner = PLAIN) -> Voice:
    """Return the voice in which a cook is spoken of in a room: the zone of the cook, language and unit of the room."""
    return Voice(
        zone=situation.state.serving.zone,
        unit=manner.unit or situation.state.planned.unit,
        now=now,
        language=manner.language,
    )
