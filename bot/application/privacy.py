"""What a group lets the program hear: known per room, so that questions there can ask for a reply.

Reads the store and fills in the work; the words are made in `bot.messages.telegram_words`.

In a group the messenger hands over commands and replies to the program's own messages, and nothing else, unless it is
an administrator there or its owner switched privacy mode off (Bot features, "Privacy mode"). Both come with the
updates (`Incoming.hears_all`).
"""

from __future__ import annotations

import dataclasses

from bot.application.visit import House, Work
from bot.chat import Address, Incoming
from bot.ports import RoomWrite, Store


def room_of(store: Store, address: Address) -> RoomWrite | None:
    """Return what is known of a room; a topic that nobody registered is as its group."""
    rooms = store.rooms()
    own = [room for room in rooms if room.address == address]
    chat = [room for room in rooms if (room.address.transport, room.address.chat) == (address.transport, address.chat)]
    return next(iter(own or chat), None)


def hears_all(store: Store, address: Address) -> bool:
    """Return whether plain messages of a room are heard; so where nothing else is known."""
    found = room_of(store, address)
    return found is None or found.hears_all is not False


def note_hearing(house: House, incoming: Incoming, work: Work) -> None:
    """Remember what was found out about a group that is known; a strange group is none of our business."""
    found = room_of(house.store, incoming.address)
    if found is None or incoming.hears_all is None or found.hears_all == incoming.hears_all:
        return
    work.rooms.append(dataclasses.replace(found, hears_all=incoming.hears_all))
