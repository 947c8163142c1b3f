"""One row of the log, and the register of everything that a row can hold."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import ClassVar

from scheduler.facts.care import CareTold, Discarded, EditionTold, SafeByTold, TargetTold, TreatedTold
from scheduler.facts.crew import (
    ClaimDropped,
    Claimed,
    CrewTold,
    HandoverAsked,
    HandoverDeclined,
    HandoverTaken,
    LeverAsked,
    LeverDeclined,
    PhotoKept,
    RanOut,
    SoundHeard,
    SoundSent,
)  # fmt: skip
from scheduler.facts.happened import (
    Felt,
    LeverTaken,
    Noted,
    PitMoved,
    PutBack,
    PutOff,
    Reading,
    ServingMoved,
    StepDone,
    StepSkipped,
    Troubled,
    Wrapped,
)  # fmt: skip
from scheduler.facts.inputs import (
    AirTold,
    CookerTold,
    DetailTold,
    Divided,
    FuelTold,
    GuestsTold,
    KindTold,
    MovedToOven,
    PieceAdded,
    PieceDropped,
    Planned,
    RestTold,
    WatchesTold,
    WrapPlanned,
)  # fmt: skip
from scheduler.facts.told import Asked, Closed, PaperIssued, Told, Warned, Withdrawn

# Each body carries its kind and version as class attributes; `BODIES` below is the register the store reads them with.
# A field added later gets a default, so that old rows stay readable; a change of meaning gets a new version.


@dataclasses.dataclass(frozen=True, kw_only=True)
class Corrected:
    """An earlier fact was wrong: read `body` in its place. The earlier fact keeps its time unless `happened_at` is
    given.
    """

    kind: ClassVar[str] = "corrected"
    version: ClassVar[int] = 1
    of: str
    body: Body
    happened_at: dt.datetime | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Undone:
    """An earlier fact never happened."""

    kind: ClassVar[str] = "undone"
    version: ClassVar[int] = 1
    of: str


Body = (
    Planned | PieceAdded | PieceDropped | GuestsTold | CookerTold | FuelTold | WatchesTold | KindTold | DetailTold
    | RestTold | WrapPlanned | MovedToOven | Divided | AirTold
    | CareTold | TreatedTold | SafeByTold | TargetTold | EditionTold | Discarded
    | ServingMoved | PitMoved | Reading | StepDone | StepSkipped | PutOff | PutBack | Wrapped | Felt | Noted | Troubled
    | CrewTold | Claimed | ClaimDropped | HandoverAsked | HandoverTaken | HandoverDeclined | LeverAsked | LeverDeclined
    | SoundSent | SoundHeard | RanOut | PhotoKept
    | LeverTaken | Corrected | Undone | Asked | Told | Withdrawn | Warned | PaperIssued | Closed
)  # fmt: skip

BODIES: dict[tuple[str, int], type[Body]] = {
    (body.kind, body.version): body
    for body in (
        Planned, PieceAdded, PieceDropped, GuestsTold, CookerTold, FuelTold, WatchesTold, KindTold, DetailTold,
        RestTold, WrapPlanned, MovedToOven, Divided, AirTold, CareTold, TreatedTold, SafeByTold, TargetTold,
        EditionTold, Discarded,
        ServingMoved, PitMoved, Reading, StepDone, StepSkipped, PutOff, PutBack, Wrapped, Felt, Noted, Troubled,
        CrewTold, Claimed, ClaimDropped, HandoverAsked, HandoverTaken, HandoverDeclined, LeverAsked, LeverDeclined,
        SoundSent, SoundHeard, RanOut, PhotoKept,
        LeverTaken, Corrected, Undone, Asked, Told, Withdrawn, Warned, PaperIssued, Closed,
    )
}  # fmt: skip
"""Every body ever written, by (kind, version): the store refuses what is not here."""

BOT_BODIES = (Asked, Told, Withdrawn, Warned, PaperIssued, SoundSent, RanOut)
"""Facts that the program itself writes; undo never reaches them."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Fact:
    """One row of the log.

    `happened_at` is when it was so (a reply is dated by when it was sent), `recorded_at` when it was written down;
    both aware, UTC. `answers` names the prompts that this fact closes.
    """

    id: str
    cook: str
    piece: str | None
    happened_at: dt.datetime
    recorded_at: dt.datetime
    by: str | None
    """Name of the person, or None for the program itself."""
    body: Body
    answers: tuple[str, ...] = ()
    message: str | None = None
    """Reference of the message it was read from, so that an edit of that message can correct it."""
