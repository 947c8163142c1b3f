"""Who hears what: for each room of a cook and each message loud, silent or nothing. Pure; makes no words."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from enum import StrEnum

from bot.application.manners import Manner, manner_among
from bot.chat import Address
from bot.crew import Person
from bot.ports import Store
from scheduler.planning.trips import Trip


class Loudness(StrEnum):
    """How a message comes to a room."""

    LOUD = "loud"
    SILENT = "silent"
    """Without a sound: it can wait until somebody looks."""
    NOTHING = "nothing"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Listener:
    """One room that follows a cook: how it is spoken to, and whose it is."""

    room: Address
    manner: Manner
    group: bool = False
    person: Person | None = None
    """Whose private room it is; None for a group, or while nobody knows."""


def listeners(store: Store, rooms: Iterable[Address]) -> tuple[Listener, ...]:
    """Return who listens in these rooms, each once, in order."""
    known = store.rooms()
    grouped = {room.address for room in known if room.group}
    people = {person.id: person for person in store.people()}
    return tuple(
        Listener(
            room=room,
            manner=manner_among(known, room),
            group=room in grouped,
            person=None if room in grouped else people.get(f"{room.transport}:{room.chat}"),
        )
        for room in dict.fromkeys(rooms)
    )


def of_a_trip(trip: Trip | None, *, first: bool, urgent: bool, quiet: bool, woken: bool) -> Loudness:
    """Return how what is due comes to a room: the `first` room of the cook by sound, others without; whatever is
    urgent or wakes somebody with sound everywhere; `quiet` says that nothing in it needs a sound.
    """
    if urgent or woken:
        return Loudness.LOUD
    if quiet or trip is None:
        return Loudness.SILENT if quiet or not first else Loudness.LOUD
    return Loudness.LOUD if first else Loudness.SILENT


def of_an_echo(*, urgent: bool) -> Loudness:
    """Return how what somebody did is told in the other rooms."""
    return Loudness.LOUD if urgent else Loudness.SILENT
