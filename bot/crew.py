"""People of a cook, their roles, and what each role may do.

Rights are checked here and nowhere else; this room knows no chats and no wording.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable
from enum import StrEnum

from scheduler.facts import CrewRole


class Role(StrEnum):
    """What a person is in this house, or in one cook."""

    OWNER = "owner"
    """Runs the program; is also fire lead of the cooks they start."""
    FIRE_LEAD = "fire_lead"
    WATCH = "watch"
    HELPER = "helper"
    CARVER = "carver"
    HOST = "host"
    FOOD_HANDLER = "food_handler"
    """Answers for the food at a public meal."""
    GUEST = "guest"


class Right(StrEnum):
    """What can be asked for. Danger is no right: anybody may report it, and so stop a cook."""

    ASK = "ask"
    """How long, what next, plan; whatever makes nothing less strict."""
    REPORT = "report"
    """Readings, done, not yet, notes, "mine"."""
    TEND = "tend"
    """What the watch decides: small vent moves, refuel, spritz, the probe seated anew, shutting down; and what is done
    to the meat, wrapped or pulled, as a report of it.
    """
    DECIDE = "decide"
    """Wrap, pull, pit, target, levers, splitting, what is planned and what is told."""
    DINNER = "dinner"
    """Serving time, go or no-go, who eats, plan B."""
    SLICE = "slice"
    """Board, slicing, pulling apart."""
    START = "start"
    """Begin or call off a cook."""
    INVITE = "invite"
    """Let people in, and say who is what."""
    DISCARD = "discard"
    """Record that food was thrown away, which ends a stop: whoever answers for the food."""


_LEADS = frozenset(Right)
_RIGHTS: dict[Role, frozenset[Right]] = {
    Role.OWNER: _LEADS,
    Role.FIRE_LEAD: _LEADS,
    Role.WATCH: frozenset({Right.ASK, Right.REPORT, Right.TEND, Right.DISCARD}),
    Role.HELPER: frozenset({Right.ASK, Right.REPORT}),
    Role.CARVER: frozenset({Right.ASK, Right.REPORT, Right.SLICE}),
    Role.HOST: frozenset({Right.ASK, Right.REPORT, Right.DINNER}),
    Role.FOOD_HANDLER: frozenset({Right.ASK, Right.REPORT, Right.DISCARD}),
    Role.GUEST: frozenset({Right.ASK}),
}

Roles = frozenset[Role]


@dataclasses.dataclass(frozen=True, kw_only=True)
class Person:
    """Someone the program knows. `id` is `transport:external id`, `role` what they are where a cook says no other."""

    id: str
    name: str
    role: Role


def may(roles: Role | Iterable[Role], right: Right) -> bool:
    """Return whether a person in this role, or in one of several, may do this."""
    held = (roles,) if isinstance(roles, Role) else roles
    return any(right in _RIGHTS[role] for role in held)


def who_may(right: Right) -> tuple[Role, ...]:
    """Return the roles that may do something, the one that is asked first being first: never the owner by name."""
    first = {Right.DINNER: (Role.HOST,), Right.SLICE: (Role.CARVER,), Right.DISCARD: (Role.FOOD_HANDLER,)}
    held = tuple(role for role in Role if role is not Role.OWNER and right in _RIGHTS[role])
    return tuple(dict.fromkeys((*first.get(right, ()), *held)))


def roles_in(person: Person, told: Iterable[CrewRole], *, watches: bool = False) -> Roles:
    """Return what somebody is in one cook: what was `told` there, else what they are in the house; whoever `watches`
    is on the watch list, too. The owner stays the owner.
    """
    named = frozenset(Role(one.value) for one in told)
    held = named or frozenset({person.role})
    if person.role is Role.OWNER:
        held |= {Role.OWNER}
    return held | {Role.WATCH} if watches else held
