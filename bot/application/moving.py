"""A group that has a new address: its rooms go along, and its boards are posted anew where old messages do not count.

It makes no words of its own.
"""

from __future__ import annotations

import dataclasses

from bot.application.boards import begin_board
from bot.application.visit import House, Work
from bot.chat import Address
from scheduler.cook import assess


def moved(house: House, old: Address, new: Address, work: Work) -> None:
    """Move a chat with all that follows it, and begin a board in its new place; again, nothing more happens."""
    work.moved_room = (old, new)
    for cook in house.store.open_cooks():
        snapshot = house.store.cook(cook)
        if snapshot is None:
            continue
        here = [room for room in snapshot.rooms if _of(room, old) or _of(room, new)]
        if not here:
            continue
        situation = assess(snapshot.facts, house.catalogue, work.now)
        for room in here:
            place = dataclasses.replace(room, transport=new.transport, chat=new.chat)
            begin_board(house.store, place, situation, work)


def _of(room: Address, chat: Address) -> bool:
    return (room.transport, room.chat) == (chat.transport, chat.chat)
