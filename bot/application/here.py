"""The open cooks that somebody can speak about from where they are: those of the room, or in private their own.

Reads the store, writes nothing; which of several is meant is found in `bot.application.among`.
"""

from __future__ import annotations

from bot.application.among import Running
from bot.application.membership import may_follow
from bot.application.people import TERMINAL
from bot.application.visit import Visit
from bot.ports import CookSnapshot, InviteWrite, StoredChoice
from scheduler.cook import assess


def cooks_here(visit: Visit, invited: InviteWrite | None = None) -> list[Running]:
    """Return the open cooks of a room. In private also those that follow nowhere else: whoever came in after a cook had
    begun follows it from the first word on, if it is any business of theirs or they were `invited` to it.
    """
    store = visit.house.store
    here = store.open_cooks(visit.address)
    if not here and not visit.incoming.group and visit.incoming.text != "/start":
        here = tuple(cook for cook in store.open_cooks() if _same_transport(store.cook(cook), visit))
    found = [_running(visit, snapshot) for cook in here if (snapshot := store.cook(cook)) is not None]
    if visit.incoming.group or visit.address.transport == TERMINAL:
        return found
    return [cook for cook in found if _asked_in(cook, invited) or _theirs(visit, cook)]


def neighbours(visit: Visit) -> list[Running]:
    """Return the open cooks in other topics of the group that something was said in: danger is heard there, too."""
    if not visit.incoming.group:
        return []
    store, chat = visit.house.store, (visit.address.transport, visit.address.chat)
    found = [snapshot for cook in store.open_cooks() if (snapshot := store.cook(cook)) is not None]
    return [_running(visit, one) for one in found if any((room.transport, room.chat) == chat for room in one.rooms)]


def asked_alone(visit: Visit, cooks: list[Running], choice: StoredChoice | None) -> list[Running]:
    """Return the open cook of a group about which somebody was asked in a private room that follows another."""
    if choice is None or choice.cook is None or choice.address != visit.address or visit.incoming.group:
        return []
    snapshot = None if choice.cook in {cook.id for cook in cooks} else visit.house.store.cook(choice.cook)
    return [] if snapshot is None or not snapshot.open else [_running(visit, snapshot)]


def _running(visit: Visit, snapshot: CookSnapshot) -> Running:
    return Running(snapshot=snapshot, situation=assess(snapshot.facts, visit.house.catalogue, visit.now))


def _asked_in(cook: Running, invited: InviteWrite | None) -> bool:
    return invited is not None and invited.cook in {None, cook.id}


def _theirs(visit: Visit, cook: Running) -> bool:
    return may_follow(visit.house.store, visit.person, visit.address, cook.snapshot, cook.situation)


def _same_transport(cook: CookSnapshot | None, visit: Visit) -> bool:
    return cook is not None and any(room.transport == visit.address.transport for room in cook.rooms)
