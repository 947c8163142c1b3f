"""What happened in a cook, as an append-only log of facts.

A fact is never changed or deleted: corrections and undo are facts that name the one they act on. This room holds values
only; what they add up to is computed in `scheduler.state`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum
from typing import ClassVar, Literal
from zoneinfo import ZoneInfo


class Wrap(StrEnum):
    """What lies around the meat on the fire."""

    NONE = "none"
    """Bare to the end."""
    PAPER = "paper"
    FOIL = "foil"
    BOAT = "boat"
    """Foil up the sides, the top left open."""


class Slot(StrEnum):
    """What a temperature was read from."""

    CORE = "core"
    """The meat, at its thickest."""
    PIT = "pit"
    """The air at grate level beside the meat."""


class Feel(StrEnum):
    """What the probe or the fingers felt."""

    TIGHT = "tight"
    ALMOST = "almost"
    TENDER = "tender"


class Detail(StrEnum):
    """How much a person wants to be told; each level holds those after it."""

    EVERY = "every"
    """Every step, the nice-to-have ones as well."""
    USUAL = "usual"
    """The must and should steps."""
    DECISIONS = "decisions"
    """Only the must steps (safety is always told)."""


class ServingKind(StrEnum):
    """How exactly dinner is fixed."""

    AT = "at"
    WINDOW = "window"
    WHEN_READY = "when_ready"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Serving:
    """When people eat, as wall time in the cook's own zone (converted only when planning).

    `start` and `end` are naive wall times; both are None for WHEN_READY, `end` is None for AT.
    """

    kind: ServingKind
    zone: str
    start: dt.datetime | None = None
    end: dt.datetime | None = None

    def starts_at(self) -> dt.datetime | None:
        """Return the first instant at which people want to eat (UTC), or None when dinner follows the meat."""
        return None if self.start is None else _instant(self.start, self.zone)

    def ends_at(self) -> dt.datetime | None:
        """Return the last acceptable instant (UTC), equal to the start unless a window was given."""
        wall = self.end or self.start
        return None if wall is None else _instant(wall, self.zone)


def _instant(wall: dt.datetime, zone: str) -> dt.datetime:
    return wall.replace(tzinfo=ZoneInfo(zone)).astimezone(dt.UTC)


# --- bodies -------------------------------------------------------------------------------------------------------
# Each body carries its kind and version as class attributes; `BODIES` below is the register the store reads them with.
# A field added later gets a default, so that old rows stay readable; a change of meaning gets a new version.


@dataclasses.dataclass(frozen=True, kw_only=True)
class Planned:
    """The inputs of a cook: one piece with a count of like ones. A later `Planned` replaces an earlier one."""

    kind: ClassVar[str] = "planned"
    version: ClassVar[int] = 1
    cut: str
    serving: Serving
    pit_low_c: float
    pit_high_c: float
    count: int = 1
    mass_kg: float | None = None
    """Mass of one piece; None is unknown, not zero."""
    thickness_m: float | None = None
    wrap: Wrap | None = None
    """The intended wrap; None is undecided."""
    detail: Detail = Detail.USUAL
    unit: str = "F"
    """The unit of the chat, F or C: for wording and for numbers without a unit."""
    from_middle: bool = False
    """True when the cook was started in the middle: earlier steps are unknown and not asked."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class ServingMoved:
    """Dinner was moved."""

    kind: ClassVar[str] = "serving_moved"
    version: ClassVar[int] = 1
    serving: Serving


@dataclasses.dataclass(frozen=True, kw_only=True)
class PitMoved:
    """The pit is now to run in another band."""

    kind: ClassVar[str] = "pit_moved"
    version: ClassVar[int] = 1
    pit_low_c: float
    pit_high_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Reading:
    """A temperature that a person reported."""

    kind: ClassVar[str] = "reading"
    version: ClassVar[int] = 1
    slot: Slot
    value_c: float
    spread_c: float = 0.0
    """Half width of what the person said ("about 160", "160-165"), 0 for a plain number."""
    spot: str | None = None
    doubtful: bool = False
    """True while a second spot has been asked for: kept, shown, not used by the forecast."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class StepDone:
    """A step of the catalogue was done: fire lit ("light"), meat on ("meat_on"), pulled ("pull"), served
    ("serve"), ...
    """

    kind: ClassVar[str] = "step_done"
    version: ClassVar[int] = 1
    step: str
    outcome: str | None = None
    """The choice made, where the step offers choices ("thin" for smoke, "half" for fuel, "set" for bark)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class StepSkipped:
    """A step was skipped this once. Skipping a safety step closes nothing (`scheduler.state`)."""

    kind: ClassVar[str] = "step_skipped"
    version: ClassVar[int] = 1
    step: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class PutOff:
    """A prompt was put off until an instant."""

    kind: ClassVar[str] = "put_off"
    version: ClassVar[int] = 1
    step: str
    until: dt.datetime


@dataclasses.dataclass(frozen=True, kw_only=True)
class Wrapped:
    """The meat was wrapped; `NONE` means: decided to stay bare to the end, or unwrapped."""

    kind: ClassVar[str] = "wrapped"
    version: ClassVar[int] = 1
    wrap: Wrap


@dataclasses.dataclass(frozen=True, kw_only=True)
class Felt:
    """Someone felt for tenderness."""

    kind: ClassVar[str] = "felt"
    version: ClassVar[int] = 1
    feel: Feel
    spot: str | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class AirTold:
    """The air around the cooker: a number [°C] or a word, and the wind. None was not told and changes nothing."""

    kind: ClassVar[str] = "air_told"
    version: ClassVar[int] = 1
    temp_c: float | None = None
    word: Literal["cold", "cool", "warm", "hot"] | None = None
    wind: Literal["calm", "windy"] | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Noted:
    """Free words kept with the cook: notes, problems, and what was not understood."""

    kind: ClassVar[str] = "noted"
    version: ClassVar[int] = 1
    text: str
    understood: bool = True


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


@dataclasses.dataclass(frozen=True, kw_only=True)
class Asked:
    """A message with these prompts went out (one trip)."""

    kind: ClassVar[str] = "asked"
    version: ClassVar[int] = 1
    prompts: tuple[str, ...]
    """Keys of the prompts, in the order of an open lid."""
    revision: int = 1
    """Counts the times the first of them was asked."""
    cautions: tuple[str, ...] = ()
    """Ids of the cautions that rode along (each once per cook)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Told:
    """What people were last told: when the next message comes, and the milestones of the forecast."""

    kind: ClassVar[str] = "told"
    version: ClassVar[int] = 1
    next_at: dt.datetime | None = None
    next_step: str | None = None
    verdict: str | None = None
    milestones: tuple[tuple[str, dt.datetime], ...] = ()
    """(name, instant) of pull, plate and the steps that wait for the meat; empty when not told in this message."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Withdrawn:
    """A prompt was given up, with the reason."""

    kind: ClassVar[str] = "withdrawn"
    version: ClassVar[int] = 1
    prompt: str
    reason: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Warned:
    """People were told that something is not safe, once for each time it began."""

    kind: ClassVar[str] = "warned"
    version: ClassVar[int] = 1
    rule: str
    since: dt.datetime | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Closed:
    """The cook is over, or was called off."""

    kind: ClassVar[str] = "closed"
    version: ClassVar[int] = 1
    reason: str = "done"


Body = (
    Planned | ServingMoved | PitMoved | Reading | StepDone | StepSkipped | PutOff | Wrapped | Felt | AirTold
    | Noted | Corrected | Undone | Asked | Told | Withdrawn | Warned | Closed
)  # fmt: skip

BODIES: dict[tuple[str, int], type[Body]] = {
    (body.kind, body.version): body
    for body in (
        Planned, ServingMoved, PitMoved, Reading, StepDone, StepSkipped, PutOff, Wrapped, Felt, AirTold,
        Noted, Corrected, Undone, Asked, Told, Withdrawn, Warned, Closed,
    )
}  # fmt: skip
"""Every body ever written, by (kind, version): the store refuses what is not here."""

BOT_BODIES = (Asked, Told, Withdrawn, Warned)
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
