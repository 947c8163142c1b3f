"""The steps of a cook as the catalogue describes them, checked when read.

Structure only: when a step is due, what it asks for, how late it may be asked. Words for it are made by the program.
"""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from scheduler.cookers import Cookers, read_cookers
from scheduler.cuts import Cuts, read_cuts, read_entries
from scheduler.errors import CatalogueError
from scheduler.facts import Slot
from scheduler.planning.remedies import Remedies, read_remedies


class _Data(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Level(StrEnum):
    """How much a step matters."""

    MUST = "must"
    SHOULD = "should"
    NICE = "nice"


class BeforeServing(_Data):
    """Due so many minutes before the plate (after it when negative)."""

    kind: Literal["before_serving"]
    minutes: float


class AfterEvent(_Data):
    """Due so many minutes after another step was done or is planned (before it when negative)."""

    kind: Literal["after"]
    event: str
    """A step, or one of `MOMENTS`."""
    minutes: float
    known: bool = False
    """True: only once the event has really happened, never on its planned time."""


class AfterOutcome(_Data):
    """Due at once when a step was done with a certain outcome (fuel: low), as often as that happens."""

    kind: Literal["outcome"]
    event: str
    outcome: str


class AtCore(_Data):
    """Due when the core is forecast to pass a temperature named by the cut."""

    kind: Literal["core"]
    at: Literal["bark_look", "start_testing", "target"]


class ByCut(_Data):
    """Due at an offset from meat on that the cut names: its first look, its salt, the thaw of its mass."""

    kind: Literal["cut"]
    by: Literal["first_look", "salt", "thaw"]


class Rising(_Data):
    """Due when the rising pit reaches its set point less so many degrees, by the clock of its readings; before there
    are two of them, so many minutes after lighting.
    """

    kind: Literal["rising"]
    below_c: float
    minutes: float


class WatchChange(_Data):
    """Due so many minutes before each change of the watch."""

    kind: Literal["watch"]
    minutes: float


class Held(_Data):
    """Due when a careful estimate of the held core comes down to the acting temperature (`scheduler.safety`)."""

    kind: Literal["held"]


class Food(_Data):
    """Due so many minutes after cooked food began to cool, or was reheated (`scheduler.safety.put_away`); the second
    of a series of `repeat` minutes counts from the same moment.
    """

    kind: Literal["food"]
    event: Literal["cooling", "reheated"]
    minutes: float


class Gate(_Data):
    """Due at the planned time of `event`, asked together with the conditions that are still open."""

    kind: Literal["gate"]
    event: str
    minutes: float
    conditions: tuple[str, ...]


class Merged(_Data):
    """Never asked by itself: it is part of another step, or told as news when it happens (`into` is None)."""

    kind: Literal["merged"]
    into: str | None = None


Anchor = Annotated[
    BeforeServing | AfterEvent | AfterOutcome | AtCore | ByCut | Rising | WatchChange | Held | Food | Gate | Merged,
    Field(discriminator="kind"),
]

MOMENTS = ("prep",)
"""Moments of a cook that are no steps: "prep" is when the work of the day before begins."""


class Repeat(_Data):
    """A series: after one is closed the next comes `every_min` later, until one of the `until` steps is done."""

    every_min: float
    closer_min: float | None = None
    """Shorter rhythm near a decision, or while the pit is off."""
    night_min: float | None = None
    """Longer rhythm in the quiet hours while all is steady."""
    most: int | None = None
    """How many of the series there are; with `most_asked` it is never asked more often either."""
    most_asked: bool = False


class Unanswered(_Data):
    """What happens when nobody answers: asked again so often, then given up (`lapse`) or left standing (`open`)."""

    again_min: float = 20
    times: int = 0
    then: Literal["lapse", "open"] = "lapse"


Condition = Literal[
    "wrap", "feel", "temperature", "big", "fixed_time", "frozen", "crew", "several", "water_pan", "event", "stall",
    "boxed", "wire", "read", "salted", "spritzed", "wood_later", "early", "early_start", "not_soft", "pit_open",
    "carved", "new_pit", "kept",
]  # fmt: skip
"""What a cook must have for a step to belong to it; `scheduler.planning.telling` says what each one means."""


class Step(_Data):
    """One step. Minutes throughout."""

    id: str
    phase: Literal["before", "fire", "cooking", "resting", "serving", "after"]
    level: Level
    scope: Literal["cook", "piece"] = "piece"
    """Done once for the whole cook (fire, fuel, table), or once for each piece of meat."""
    safety: bool = False
    """True: never skipped, dropped or delayed, whatever the level of detail or the hour."""
    owner: Literal["host", "fire_lead", "watch", "helper", "carver", "food_handler", "anyone"]
    """Who does it, or decides it where something is decided; who that is in a cook: `scheduler.planning.nights`."""
    hands_on_min: float
    """Work at the cooker or the table."""
    night: Literal["wake", "watch_only", "with_next", "silent", "wait"] = "wake"
    """What becomes of it in the quiet hours; never of a safety step."""
    anchor: Anchor
    repeat: Repeat | None = None
    slots: tuple[Slot, ...] = ()
    outcomes: tuple[str, ...] = ()
    early_min: float
    """How much earlier it may be asked to join a trip."""
    late_min: float
    """How late it may still be asked."""
    slip_min: float | None = None
    """Unclaimed so long after it was due it goes to the watch; None: as late as it may be asked."""
    unanswered: Unanswered = Unanswered()
    until: tuple[str, ...] = ()
    """Steps that overtake it: once one is done this one is no longer asked."""
    only: tuple[Condition, ...] = ()
    """Everything that must hold for it to belong to a cook."""
    closed_by: tuple[str, ...] = ()
    """Steps whose being done closes this one too."""
    cautions: tuple[str, ...] = ()
    basis: str = "common practice, no source"

    @property
    def happens_once(self) -> bool:
        """Return whether it is done once in a cook: no series, and no answer to what may come again."""
        return self.repeat is None and self.anchor.kind not in {"outcome", "watch"}

    @property
    def slips_min(self) -> float:
        """Return after how many minutes it goes to the watch when nobody has it."""
        return self.late_min if self.slip_min is None else self.slip_min

    @model_validator(mode="after")
    def _safe(self) -> Step:
        if self.safety and self.unanswered.then == "lapse":
            raise ValueError(f"{self.id}: a safety step must stay open when nobody answers")
        return self


class Caution(_Data):
    """A short warning by id, with its source; its words are made by the program."""

    id: str
    source: str
    status: Literal["read", "from memory", "common practice"]
    """Whether the source was read, remembered, or there is none."""
    minor: bool = False
    """Gives way where there would be too many, as long as graver ones are still to come."""
    returns: tuple[str, ...] = ()
    """What brings it back once it was told: a step that comes up, "problem:" and its id, or one of `HAPPENINGS`."""
    spoken_by: tuple[str, ...] = ()
    """Steps, and "problem:" with its id, whose own words say it already."""
    ends: tuple[str, ...] = ()
    """Steps after which it is pointless."""
    unless_told_no: Literal["public", "at_risk", "allergies"] | None = None
    """Pointless as well once people said that there is no such thing."""
    unless_told: Literal["public", "at_risk", "allergies"] | None = None
    """Pointless as well once people said what there is: from then on it is named where it belongs."""


HAPPENINGS = (
    "planning", "morning", "night", "night_watch", "long_watch", "another_on", "starved_opening", "public", "at_risk",
    "allergies", "not_intact",
)  # fmt: skip
"""What happens in a cook besides steps and problems, and may bring a caution back (`scheduler.planning.cautions`)."""


class Steps(_Data):
    """All steps, in the order in which things are done at the cooker."""

    steps: tuple[Step, ...]
    cautions: tuple[Caution, ...]
    """The gravest first."""

    @model_validator(mode="after")
    def _consistent(self) -> Steps:
        ids = [step.id for step in self.steps]
        twice = sorted({step_id for step_id in ids if ids.count(step_id) > 1})
        if twice:
            raise ValueError(f"stands twice: {', '.join(twice)}")
        known, cautions = set(ids), {c.id for c in self.cautions}
        for step in self.steps:
            named = {*step.until, *step.closed_by, *_named_by(step.anchor)}
            if named - known:
                raise ValueError(f"{step.id}: no such step: {sorted(named - known)}")
            if set(step.cautions) - cautions:
                raise ValueError(f"{step.id}: no such caution: {sorted(set(step.cautions) - cautions)}")
        for caution in self.cautions:
            if set(caution.ends) - known:
                raise ValueError(f"{caution.id}: no such step: {sorted(set(caution.ends) - known)}")
        return self

    def get(self, step_id: str) -> Step | None:
        """Return a step by id, None when there is none."""
        return next((step for step in self.steps if step.id == step_id), None)

    def order(self, step_id: str) -> int:
        """Return the place of a step in the order of doing."""
        return next((n for n, step in enumerate(self.steps) if step.id == step_id), len(self.steps))


def _named_by(anchor: Anchor) -> set[str]:
    """Return the steps that an anchor names."""
    match anchor:
        case AfterEvent():
            return {anchor.event} - set(MOMENTS)
        case AfterOutcome():
            return {anchor.event}
        case Gate():
            return {anchor.event, *anchor.conditions}
        case Merged():
            return set() if anchor.into is None else {anchor.into}
        case _:
            return set()


def _happens(catalogue: Catalogue) -> None:
    """Raise `CatalogueError` when a caution names what never happens: no step, no problem, no happening."""
    known = {step.id for step in catalogue.steps.steps} | {f"problem:{one.id}" for one in catalogue.remedies.problems}
    for caution in catalogue.steps.cautions:
        unknown = ({*caution.returns} - known - {*HAPPENINGS}) | ({*caution.spoken_by} - known)
        if unknown:
            raise CatalogueError(f"caution {caution.id}: never happens: {', '.join(sorted(unknown))}")


_SUBJECTS = ("cuts", "cookers", "steps", "cautions", "levers", "problems")


class Catalogue(_Data):
    """Everything the engine knows of the trade: cuts, cookers, steps and cautions, levers and problems."""

    cuts: Cuts
    cookers: Cookers
    steps: Steps
    remedies: Remedies


def read_catalogue(texts: dict[str, str]) -> Catalogue:
    """Read the catalogue from TOML texts named after their subject, "steps", or as a part of it, "cuts/beef".

    Raises
    ------
    CatalogueError
        When a text is not TOML or breaks a rule; the message names the entry.
    """
    found = {name: _of(name, texts) for name in _SUBJECTS}
    missing = [name for name, parts in found.items() if not parts]
    if missing:
        raise CatalogueError(f"the catalogue lacks {', '.join(missing)}")
    catalogue = Catalogue(
        cuts=read_cuts(*found["cuts"]),
        cookers=read_cookers(*found["cookers"]),
        steps=read_entries(Steps, "steps", *found["steps"], *found["cautions"]),
        remedies=read_remedies(*found["levers"], *found["problems"]),
    )
    _happens(catalogue)
    return catalogue


def _of(subject: str, texts: dict[str, str]) -> tuple[str, ...]:
    """Return the texts of a subject in the order of their names."""
    return tuple(text for name, text in sorted(texts.items()) if name == subject or name.startswith(f"{subject}/"))
