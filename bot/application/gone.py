"""A group that threw the program out, or cannot be reached: those at the fire are told where to hear from it now.

Decides nothing about what is said afterwards (`bot.application.routing`); the facts of a cook are not touched.
"""

from __future__ import annotations

import datetime as dt

from bot.application.routing import in_a_group, listeners
from bot.application.visit import House, Work
from bot.chat import Address
from bot.messages import crew_people
from bot.messages.message import Message
from bot.messages.words import speaking
from bot.ports import Apply
from scheduler.cook import assess
from scheduler.planning.nights import is_quiet, watching


def group_gone(house: House, room: Address, work: Work, key: str) -> None:
    """Tell whoever leads or watches a cook of a group that nothing reaches it; by night only the watch by sound."""
    for cook in house.store.open_cooks():
        snapshot = house.store.cook(cook)
        if snapshot is None or not any(_same_chat(one, room) for one in snapshot.rooms):
            continue
        situation = assess(snapshot.facts, house.catalogue, work.now)
        rooms = tuple(one for one in snapshot.rooms if not _same_chat(one, room))
        everybody = listeners(house.store, rooms, situation, beside=room.transport)
        on_watch, quiet = watching(situation.state, work.now), is_quiet(situation.state, work.now)
        alone = not in_a_group(everybody)
        for listener in everybody:
            if listener.group or not listener.active or not listener.leads_or_watches:
                continue
            with speaking(listener.manner.language):
                said = Message(text=crew_people.group_gone(alone=alone))
            silent = quiet and listener.name != on_watch
            work.say(said, to=listener.room, key=f"gone:{cook}:{key}", cook=cook, silent=silent)


def unreached(house: House, room: Address, now: dt.datetime, since: dt.datetime) -> int:
    """Tell the same of a group whose messages have waited since an instant; told once. Return how many writes."""
    work = Work(now=now)
    group_gone(house, room, work, f"{room.chat}:{int(since.timestamp())}")
    known = [row for row in work.outbox if house.store.fate(row.outgoing.key) is None]
    return int(house.store.apply(Apply(now=now, outbox=tuple(known)))) if known else 0


def _same_chat(one: Address, other: Address) -> bool:
    return (one.transport, one.chat) == (other.transport, other.chat)
