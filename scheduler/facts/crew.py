"""The crew of a cook: roles, claims, handovers of the watch, questions for who decides, the sound check, photos.

Values only; what they add up to is computed in `scheduler.state.crew`. Instants are aware, UTC.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum
from typing import ClassVar, Literal


class CrewRole(StrEnum):
    """What somebody is in one cook; a person may be several things."""

    FIRE_LEAD = "fire_lead"
    """Decides about target, wrap, pull and levers."""
    WATCH = "watch"
    """Looks after the fire for a time."""
    HELPER = "helper"
    CARVER = "carver"
    HOST = "host"
    """Decides about the serving time and the menu."""
    FOOD_HANDLER = "food_handler"
    """Answers for the food at a public meal: may stop it and throw it away."""
    GUEST = "guest"


@dataclasses.dataclass(frozen=True, kw_only=True)
class CrewTold:
    """Somebody is in the crew as this, or (`dropped`) no more."""

    kind: ClassVar[str] = "crew_told"
    version: ClassVar[int] = 1
    name: str
    role: CrewRole
    dropped: bool = False


@dataclasses.dataclass(frozen=True, kw_only=True)
class Claimed:
    """Whoever told it does the step ("mine"); it lapses by itself (`scheduler.state.crew.CLAIM_LASTS`)."""

    kind: ClassVar[str] = "claimed"
    version: ClassVar[int] = 1
    step: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class ClaimDropped:
    """Nobody has the step any more: it goes back to its owner."""

    kind: ClassVar[str] = "claim_dropped"
    version: ClassVar[int] = 1
    step: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class HandoverAsked:
    """The watch was offered to somebody, until an instant (None: nobody said). Whoever has it keeps it until then."""

    kind: ClassVar[str] = "handover_asked"
    version: ClassVar[int] = 1
    to: str
    until: dt.datetime | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class HandoverTaken:
    """Whoever told it has the watch from now on, until an instant (None: as the watches say). Only this moves it."""

    kind: ClassVar[str] = "handover_taken"
    version: ClassVar[int] = 1
    until: dt.datetime | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class HandoverDeclined:
    """Whoever told it does not take the watch that was offered."""

    kind: ClassVar[str] = "handover_declined"
    version: ClassVar[int] = 1


SafeDefault = Literal["keep_pit", "wrap", "hold"]
"""What the watch may do by itself when nobody decides: keep the pit, wrap if the bark is set, hold."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class LeverAsked:
    """A lever was asked for by somebody who does not decide: it waits for `decider` until an instant; after that only
    the safe default may be done.
    """

    kind: ClassVar[str] = "lever_asked"
    version: ClassVar[int] = 1
    lever: str
    decider: str
    default: SafeDefault
    until: dt.datetime


@dataclasses.dataclass(frozen=True, kw_only=True)
class LeverDeclined:
    """A lever that was asked for is not taken."""

    kind: ClassVar[str] = "lever_declined"
    version: ClassVar[int] = 1
    lever: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class SoundSent:
    """A test went out to somebody exactly as a wake-up will; `private` False: there was no private chat for it."""

    kind: ClassVar[str] = "sound_sent"
    version: ClassVar[int] = 1
    name: str
    private: bool = True


@dataclasses.dataclass(frozen=True, kw_only=True)
class SoundHeard:
    """Somebody answered the test."""

    kind: ClassVar[str] = "sound_heard"
    version: ClassVar[int] = 1
    name: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class RanOut:
    """People were told that something waited in vain, or matters no more (`reason`): a claim (`about` its step), a
    question for who decides (its lever), a handover (the name it was offered to), a sound check (the name).
    """

    kind: ClassVar[str] = "ran_out"
    version: ClassVar[int] = 1
    what: Literal["claim", "lever", "handover", "sound"]
    about: str
    reason: str = "silent"


@dataclasses.dataclass(frozen=True, kw_only=True)
class PhotoKept:
    """A photo was kept with the cook under `name`, at the step it answers (None: at none)."""

    kind: ClassVar[str] = "photo_kept"
    version: ClassVar[int] = 1
    name: str
    step: str | None = None
    media_type: str = "image/jpeg"
