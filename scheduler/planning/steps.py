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
    at: Literal["bark_look", "start_testing"]


class Held(_Data):
    """Due when a careful estimate of the held core comes down to the acting temperature (`scheduler.safety`)."""

    kind: Literal["held"]


class Gate(_Data):
    """Due at the planned time of `event`, asked together with the conditions that are still open."""

    kind: Literal["gate"]
    event: str
    minutes: float
    conditions: tuple[str, ...]


Anchor = Annotated[
    BeforeServing | AfterEvent | AfterOutcome | AtCore | Held | Gate, Field(discriminator="kind")
]  # fmt: skip


class Repeat(_Data):
    """A series: after one is closed the next comes `every_min` later, until one of the `until` steps is done."""

    every_min: float
    closer_min: float | None = None
    """Shorter rhythm near a decision, or while the pit is off."""
    most: int | None = None


class Unanswered(_Data):
    """What happens when nobody answers: asked again so often, then given up (`lapse`) or left standing (`open`)."""

    again_min: float = 20
    times: int = 0
    then: Literal["lapse", "open"] = "lapse"


class Step(_Data):
    """One step. Minutes throughout."""

    id: str
    phase: Literal["before", "fire", "cooking", "resting", "serving", "after"]
    level: Level
    scope: Literal["cook", "piece"] = "piece"
    """Done once for the whole cook (fire, fuel, table), or once for each piece of meat."""
    safety: bool = False
    """True: never skipped, dropped or delayed, whatever the level of detail."""
    anchor: Anchor
    repeat: Repeat | None = None
    slots: tuple[Slot, ...] = ()
    outcomes: tuple[str, ...] = ()
    early_min: float
    """How much earlier it may be asked to join a trip."""
    late_min: float
    """How late it may still be asked."""
    unanswered: Unanswered = Unanswered()
    until: tuple[str, ...] = ()
    """Steps that overtake it: once one is done this one is no longer asked."""
    only: Literal["always", "wrap", "feel", "big", "fixed_time"] = "always"
    closed_by: tuple[str, ...] = ()
    """Steps whose being done closes this one too."""
    cautions: tuple[str, ...] = ()
    basis: str = "common practice, no source"

    @model_validator(mode="after")
    def _safe(self) -> Step:
        if self.safety and self.unanswered.then == "lapse":
            raise ValueError(f"{self.id}: a safety step must stay open when nobody answers")
        return self


class Caution(_Data):
    """A short warning by id, with its source; its words are made by the program."""

    id: str
    source: str


class Steps(_Data):
    """All steps, in the order in which things are done at the cooker."""

    steps: tuple[Step, ...]
    cautions: tuple[Caution, ...]

    @model_validator(mode="after")
    def _consistent(self) -> Steps:
        ids = [step.id for step in self.steps]
        twice = sorted({step_id for step_id in ids if ids.count(step_id) > 1})
        if twice:
            raise ValueError(f"stands twice: {', '.join(twice)}")
        known, cautions = set(ids), {c.id for c in self.cautions}
        for step in self.steps:
            event = getattr(step.anchor, "event", None)
            named = {
                *step.until,
                *step.closed_by,
                *((event,) if event else ()),
                *getattr(step.anchor, "conditions", ()),
            }
            if named - known:
                raise ValueError(f"{step.id}: no such step: {sorted(named - known)}")
            if set(step.cautions) - cautions:
                raise ValueError(f"{step.id}: no such caution: {sorted(set(step.cautions) - cautions)}")
        return self

    def get(self, step_id: str) -> Step | None:
        """Return a step by id, None when there is none."""
        return next((step for step in self.steps if step.id == step_id), None)

    def order(self, step_id: str) -> int:
        """Return the place of a step in the order of doing."""
        return next((n for n, step in enumerate(self.steps) if step.id == step_id), len(self.steps))


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
    return Catalogue(
        cuts=read_cuts(*found["cuts"]),
        cookers=read_cookers(*found["cookers"]),
        steps=read_entries(Steps, "steps", *found["steps"], *found["cautions"]),
        remedies=read_remedies(*found["levers"], *found["problems"]),
    )


def _of(subject: str, texts: dict[str, str]) -> tuple[str, ...]:
    """Return the texts of a subject in the order of their names."""
    return tuple(text for name, text in sorted(texts.items()) if name == subject or name.startswith(f"{subject}/"))
