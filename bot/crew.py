"""People of a cook, their roles, and what each role may do.

Rights are checked here and nowhere else; this room knows no chats and no wording.
"""

from __future__ import annotations

import dataclasses
from enum import StrEnum


class Role(StrEnum):
    """What a person is in this house."""

    OWNER = "owner"
    """Runs the program; is also fire lead of the cooks they start."""
    FIRE_LEAD = "fire_lead"
    WATCH = "watch"
    HELPER = "helper"
    GUEST = "guest"


class Right(StrEnum):
    """What can be asked for."""

    ASK = "ask"
    """How long, what next, plan."""
    REPORT = "report"
    """Readings, done, not yet, notes; anyone may stop the cook for danger."""
    DECIDE = "decide"
    """Wrap, pull, pit, dinner, skip, undo."""
    START = "start"
    """Begin or call off a cook."""
    INVITE = "invite"
    DISCARD = "discard"
    """Record that food was thrown away, which ends a stop: whoever answers for the food."""


_RIGHTS: dict[Role, frozenset[Right]] = {
    Role.OWNER: frozenset(Right),
    Role.FIRE_LEAD: frozenset(Right),
    Role.WATCH: frozenset({Right.ASK, Right.REPORT, Right.DECIDE, Right.DISCARD}),
    Role.HELPER: frozenset({Right.ASK, Right.REPORT}),
    Role.GUEST: frozenset({Right.ASK}),
}


@dataclasses.dataclass(frozen=True, kw_only=True)
class Person:
    """Someone the program knows. `id` is `transport:external id`."""

    id: str
    name: str
    role: Role


def may(role: Role, right: Right) -> bool:
    """Return whether a person in this role may do this."""
    return right in _RIGHTS[role]
