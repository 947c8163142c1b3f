"""Where somebody can be reached by themselves: their private chat, or their window in the terminal.

Reads the store; decides nothing about what is said there.
"""

from __future__ import annotations

from bot.chat import Address
from bot.crew import Person
from bot.ports import RoomWrite, Store


def private_room(store: Store, person: Person) -> Address | None:
    """Return the private room of a person, None while they have opened none, or have blocked it."""
    return _of(store.rooms(), person)


def _of(rooms: tuple[RoomWrite, ...], person: Person) -> Address | None:
    for room in rooms:
        own = f"{room.address.transport}:{room.address.chat}" == person.id
        if room.active and not room.group and own:
            return room.address
    return None


def rooms_of(store: Store, name: str | None) -> tuple[Address, ...]:
    """Return every private room of whoever is called so: somebody may sit in the terminal and in the messenger."""
    if name is None:
        return ()
    rooms = store.rooms()
    found = [_of(rooms, one) for one in store.people() if one.name.casefold() == name.casefold()]
    return tuple(dict.fromkeys(room for room in found if room is not None))
