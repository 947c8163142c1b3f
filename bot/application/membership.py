"""Whose cooks somebody may follow in private: those of the groups they are in, and those that they were let in to.

Being in one group says nothing about the cooks of another; rights inside a cook are in `bot.application.rights`.
"""

from __future__ import annotations

import dataclasses

from bot.application.routing import crew_names
from bot.chat import Address, Incoming
from bot.crew import Person, Right, may
from bot.ports import CookSnapshot, SessionWrite, Store
from scheduler.cook import Situation

_SEEN = {"seen": True}


def seen_in(store: Store, incoming: Incoming, person: Person) -> tuple[SessionWrite, ...]:
    """Return the note that somebody is in a group, nothing when it is known or it is no group."""
    known = not incoming.group or is_member(store, incoming.address, person)
    return () if known else (let_in(incoming.address, person),)


def let_in(room: Address, person: Person) -> SessionWrite:
    """Return the note that somebody belongs to a room; to a private one whoever came in by a code."""
    return SessionWrite(address=_chat(room), person=_mark(person), data=_SEEN)


def is_member(store: Store, room: Address, person: Person) -> bool:
    """Return whether somebody was seen in a chat, in whatever topic."""
    return store.session(_chat(room), _mark(person)) is not None


def may_follow(store: Store, person: Person, private: Address, cook: CookSnapshot, situation: Situation) -> bool:
    """Return whether a cook is any business of somebody who writes in private: they are of its crew or have told
    something, lead here, came in by a code, or are in a group in which it runs.
    """
    if may(person.role, Right.START) or person.name in crew_names(situation) | situation.state.people:
        return True
    return any(is_member(store, room, person) for room in (private, *cook.rooms))


def _chat(room: Address) -> Address:
    return dataclasses.replace(room, thread=None)


def _mark(person: Person) -> str:
    return f"member:{person.id}"
