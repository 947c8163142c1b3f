"""Who somebody is: known, let in by a code, by a group, or by sitting at this machine; and who stays outside.

Reads the store, writes nothing itself.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import secrets

from bot.application.manners import first_guess
from bot.application.membership import let_in, seen_in
from bot.application.rights import roles
from bot.application.visit import House, Visit, Work
from bot.application.writing import add_facts
from bot.chat import Incoming, IncomingKind
from bot.commands import CancelInvites, Invite, Join
from bot.crew import Person, Right, Role, may
from bot.messages import crew, crew_people
from bot.messages.message import Message
from bot.ports import CookSnapshot, InviteWrite, RoomWrite
from scheduler.cook import Situation
from scheduler.facts import CrewRole, CrewTold, Fact
from scheduler.planning.nights import lead_of
from scheduler.state import FIRST

TERMINAL = "terminal"
"""Whoever can open the data folder on this machine is trusted with it."""

INVITE_FOR = dt.timedelta(days=1)


_SHORTEST_CODE = 8
_JOIN_WORDS = 2


def code_of(incoming: Incoming) -> Join | None:
    """Return the code somebody brings, read before anything else: strangers may say this and nothing more."""
    if incoming.kind is not IncomingKind.TEXT:
        return None
    words = incoming.text.split()
    if len(words) == 1 and len(words[0]) >= _SHORTEST_CODE:
        return Join(code=words[0])  # a code by itself, if it is one
    if said_join(incoming):
        return Join(code=words[1])
    return None


def said_join(incoming: Incoming) -> bool:
    """Return whether a text says that it is a code."""
    words = incoming.text.split()
    return len(words) == _JOIN_WORDS and words[0].split("@")[0].casefold() in {"/start", "join", "/join"}


def person_id(incoming: Incoming) -> str:
    """Return the id of whoever sent something."""
    return f"{incoming.address.transport}:{incoming.sender}"


def identify(house: House, incoming: Incoming, work: Work) -> Person | None:
    """Return who it is, None for a stranger; somebody new who may come in is written down."""
    known = house.store.person(person_id(incoming))
    if known is not None:
        work.sessions += seen_in(house.store, incoming, known)
        _register_room(house, incoming, known, work)
        return known
    role = _role_of_new(house, incoming)
    if role is None:
        return None
    person = Person(id=person_id(incoming), name=_free_name(house, incoming.sender_name), role=role)
    work.people.append(person)
    work.sessions += seen_in(house.store, incoming, person)
    _register_room(house, incoming, person, work)
    return person


def _role_of_new(house: House, incoming: Incoming) -> Role | None:
    if incoming.address.transport == TERMINAL:
        people = [p for p in house.store.people() if p.id.startswith(f"{TERMINAL}:")]
        return Role.FIRE_LEAD if people else Role.OWNER
    chat = (incoming.address.transport, incoming.address.chat)
    if incoming.group and any((r.address.transport, r.address.chat) == chat and r.active for r in house.store.rooms()):
        return Role.HELPER  # in whatever topic of the group
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
    stays = known is not None and known.role in {Role.OWNER, Role.FIRE_LEAD}
    role = known.role if known is not None and stays else Role(invite.role)
    name = known.name if known is not None else _free_name(house, incoming.sender_name)
    person = Person(id=person_id(incoming), name=name, role=role)
    work.people.append(person)
    work.spend_code = said.code
    work.sessions.append(let_in(dataclasses.replace(incoming.address, chat=incoming.sender), person))
    if incoming.group:  # a code lets in a person, never a group
        _register_room(house, incoming, person, work)
        work.sessions += seen_in(house.store, incoming, person)
    else:
        work.rooms.append(_room(incoming, first_guess(house.store.rooms(), incoming)))
    return person


def letting_in(
    visit: Visit, work: Work, said: Invite | CancelInvites, situation: Situation | None, cook: str | None = None
) -> Message:
    """Make a single-use code for one more person, or all open ones useless; return what is said about it."""
    held = roles(visit.person, situation)
    if not may(held, Right.INVITE):
        lead = None if situation is None else lead_of(situation.state)
        return Message(text=crew.may_not(held, Right.INVITE, lead))
    if isinstance(said, CancelInvites):
        work.cancel_invites = True
        return Message(text=crew_people.invites_cancelled())
    if said.role is Role.OWNER:
        return Message(text=crew_people.not_the_owner())
    code = secrets.token_urlsafe(9)
    work.invites.append(
        InviteWrite(code=code, role=said.role.value, expires_at=visit.now + INVITE_FOR, cook=cook)
    )  # fmt: skip
    prefix = visit.house.link_prefix
    link = None if prefix is None else prefix + code
    return Message(text=crew_people.invitation(code, link, said.role, said.name))


def in_the_crew(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, role: Role) -> None:
    """Write down what somebody who came in by a link is in a cook that runs."""
    if role is Role.OWNER or role.value in {one.value for one in situation.state.crew.get(visit.person.name, ())}:
        return
    told = Fact(
        id=f"{visit.seed}.crew",
        cook=snapshot.id,
        piece=FIRST,
        happened_at=visit.now,
        recorded_at=visit.now,
        by=visit.person.name,
        body=CrewTold(name=visit.person.name, role=CrewRole(role.value)),
    )
    add_facts(work.cooks, snapshot, told, catalogue=visit.house.catalogue)
