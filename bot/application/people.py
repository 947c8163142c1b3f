"""Who somebody is: known, let in by a code, by a group, or by sitting at this machine; and who stays outside.

Reads the store, writes nothing itself.
"""

from __future__ import annotations

import datetime as dt
import secrets

from bot.application.manners import first_guess
from bot.application.visit import House, Visit, Work
from bot.chat import Incoming
from bot.commands import Join
from bot.crew import Person, Right, Role, may
from bot.messages import crew, talk
from bot.messages.message import Message
from bot.ports import InviteWrite, RoomWrite

TERMINAL = "terminal"
"""Whoever can open the data folder on this machine is trusted with it."""

INVITE_FOR = dt.timedelta(days=1)


def person_id(incoming: Incoming) -> str:
    """Return the id of whoever sent something."""
    return f"{incoming.address.transport}:{incoming.sender}"


def identify(house: House, incoming: Incoming, work: Work) -> Person | None:
    """Return who it is, None for a stranger; somebody new who may come in is written down."""
    known = house.store.person(person_id(incoming))
    if known is not None:
        _register_room(house, incoming, known, work)
        return known
    role = _role_of_new(house, incoming)
    if role is None:
        return None
    person = Person(id=person_id(incoming), name=_free_name(house, incoming.sender_name), role=role)
    work.people.append(person)
    _register_room(house, incoming, person, work)
    return person


def _role_of_new(house: House, incoming: Incoming) -> Role | None:
    if incoming.address.transport == TERMINAL:
        people = [p for p in house.store.people() if p.id.startswith(f"{TERMINAL}:")]
        return Role.FIRE_LEAD if people else Role.OWNER
    if incoming.group and _active(house, incoming):
        return Role.HELPER
    return None


def _free_name(house: House, name: str) -> str:
    """Return the name, with a number when somebody else is called the same: names are how people are told apart."""
    wanted = " ".join(name.split())[:40] or "?"
    taken = {p.name.casefold() for p in house.store.people()}
    number, free = 2, wanted
    while free.casefold() in taken:
        free = f"{wanted} {number}"
        number += 1
    return free


def _active(house: House, incoming: Incoming) -> bool:
    return any(r.address == incoming.address and r.active for r in house.store.rooms())


def _register_room(house: House, incoming: Incoming, person: Person, work: Work) -> None:
    """Make the room known: any room of a private chat, a group only by somebody who may start a cook."""
    guess = first_guess(house.store.rooms(), incoming)
    known = _active(house, incoming) or (incoming.group and not may(person.role, Right.START))
    if known and guess is None:
        return
    work.rooms.append(_room(incoming, guess))


def _room(incoming: Incoming, language: str | None) -> RoomWrite:
    return RoomWrite(
        address=incoming.address,
        title=incoming.sender_name,
        group=incoming.group,
        language=language,
        hears_all=incoming.hears_all,
    )


def join(house: House, incoming: Incoming, said: Join, work: Work) -> Person | None:
    """Let somebody in by a code and return who they are now; None when the code is spent and they are strangers."""
    invite = house.store.invite(said.code, work.now)
    known = house.store.person(person_id(incoming))
    if invite is None:
        return known
    role = known.role if known is not None and known.role is Role.OWNER else Role(invite.role)
    name = known.name if known is not None else _free_name(house, incoming.sender_name)
    person = Person(id=person_id(incoming), name=name, role=role)
    work.people.append(person)
    work.spend_code = said.code
    work.rooms.append(_room(incoming, first_guess(house.store.rooms(), incoming)))
    return person


def invite(visit: Visit, work: Work) -> Message:
    """Make a single-use code for one more person, and return what is said about it."""
    if not may(visit.person.role, Right.INVITE):
        return Message(text=crew.may_not((visit.person.role,), Right.INVITE, None))
    code = secrets.token_urlsafe(9)
    work.invites.append(InviteWrite(code=code, role=Role.WATCH.value, expires_at=visit.now + INVITE_FOR))
    prefix = visit.house.link_prefix
    return Message(text=talk.invitation(code, None if prefix is None else prefix + code))
