"""Changes how a room is spoken to: its language and its unit. In a group only who decides there may.

Other rooms of the same cook keep theirs. It words nothing itself.
"""

from __future__ import annotations

import dataclasses

from bot.application.announcements import reply
from bot.application.manners import Manner
from bot.application.rights import allowed, roles
from bot.application.visit import Visit, Work
from bot.commands import MannerSaid
from bot.crew import Right
from bot.messages import crew, manner
from bot.messages.message import Message
from bot.messages.words import languages, speaking
from bot.ports import RoomWrite
from scheduler.cook import Situation


def take(visit: Visit, work: Work, situation: Situation | None, said: MannerSaid) -> None:
    """Speak to the room as somebody wishes, and say so in the new way."""
    if said.language is None and said.unit is None:
        reply(visit, work, situation, manner.which())
        return
    if said.language is not None and said.language not in languages():
        reply(visit, work, situation, manner.not_spoken(said.language))
        return
    if visit.incoming.group and not allowed(visit.person, situation, Right.DECIDE):
        refused = crew.may_not(roles(visit.person, situation), Right.DECIDE, None)
        reply(visit, work, situation, Message(text=refused))
        return
    work.rooms.extend(_written(visit, said))
    new = Manner(language=said.language or visit.manner.language, unit=said.unit or visit.manner.unit)
    with speaking(new.language):
        text = manner.changed(language=said.language is not None, unit=said.unit)
        reply(dataclasses.replace(visit, manner=new), work, situation, Message(text=text))


def _written(visit: Visit, said: MannerSaid) -> tuple[RoomWrite, ...]:
    """Return the rooms that change: the one it was said in, and of a topic the whole chat where that is known."""
    here = visit.address
    whole = dataclasses.replace(here, thread=None)
    known = {room.address for room in visit.house.store.rooms()}
    addresses = (here,) if here == whole or whole not in known else (here, whole)
    return tuple(
        RoomWrite(address=one, group=visit.incoming.group, language=said.language, unit=said.unit) for one in addresses
    )
