"""Levers and problems as the catalogue has them: what can be done about a late or early cook, and what goes wrong.

This room reads text, never files; it knows no cook and computes no effect.
"""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from scheduler.cuts import Spread, read_entries
from scheduler.facts import RestPlace, Wrap

Change = Literal[
    "nothing", "verify", "fix_pit", "pit", "openings", "water", "wrap", "oven", "divide", "rest", "pull_sooner",
    "carve", "starter", "plan_b", "dinner", "hot_side", "bare", "unwrap", "spritz", "delay_on", "hold", "chill",
    "never",
]  # fmt: skip
"""What a lever changes; `scheduler.planning.advice` computes the effect where the engine knows it."""

Decides = Literal["anyone", "watch", "fire_lead", "host", "carver"]

StageName = Literal["before", "fire", "cooking", "resting", "after"]


class _Data(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Lever(_Data):
    """One way to be on time. Temperatures [°C], times [min]; effects as the trade has them (common practice)."""

    id: str
    when: Literal["late", "early"]
    change: Change
    by: float = 0.0
    """How far: degrees for a pit, minutes for dinner or an opened wrap, parts for a cut."""
    wrap: Wrap | None = None
    place: RestPlace | None = None
    oven_c: float | None = None
    stages: tuple[StageName, ...] = ("cooking",)
    wrapped: bool | None = None
    """True: only wrapped meat; False: only bare meat."""
    core_from_c: float | None = None
    core_until_c: float | None = None
    """Open while the core is expected between these."""
    minutes_to_pull: float = 0.0
    """Closes so long before the expected pull."""
    minutes_to_dinner: float = 0.0
    """Closes so long before dinner."""
    shapes: tuple[str, ...] = ()
    """Only for pieces of these shapes; empty: any."""
    cuts: tuple[str, ...] = ()
    """Only for these cuts; empty: any."""
    tough_only: bool = False
    """Only for cuts that the hand decides on."""
    holds_only: bool = False
    """Only for cuts that keep well when they are done."""
    decides: Decides
    reversible: bool
    cost: int = Field(ge=0, le=6)
    """What it costs in taste, work and patience, 0 nothing to 6 the dinner itself: house rule."""
    gate: str = ""
    """The safety limit that stands before it, in words for the reader of this file."""
    risk: str
    """What it costs, in words for the reader of this file."""
    order: int
    """The trade's order to try it in."""
    unit: Literal["none", "share_left", "minutes", "minutes_per_opening", "patience_min"]
    effect: Spread | None = None
    """Negative is earlier; a share is of what is left to the pull."""
    basis: str = "common practice, no source"

    @model_validator(mode="after")
    def _whole(self) -> Lever:
        if (self.effect is None) != (self.unit == "none"):
            raise ValueError("an effect needs its unit, and a unit its effect")
        if self.change == "wrap" and self.wrap is None:
            raise ValueError("a wrap needs its kind")
        if self.change == "hold" and self.place is None:
            raise ValueError("a hold needs its place")
        return self


class Problem(_Data):
    """Something that goes wrong and is reported unasked. Its words are made by the program."""

    id: str
    danger: bool = False
    """True when people are in danger: said first, and nothing of the plan before it."""
    decides: Decides
    lasts: bool = False
    """True when it stands until somebody says that it is over."""
    model: Literal["", "pit_low", "pit_high", "fuel_gap", "rain", "cold", "wind"] = ""
    """Which change of the question computes its effect, if the engine can."""
    unit: Literal["none", "share_left", "minutes"] = "none"
    effect: Spread | None = None
    safety: str = ""
    basis: str = "common practice, no source"

    @model_validator(mode="after")
    def _whole(self) -> Problem:
        if (self.effect is None) != (self.unit == "none"):
            raise ValueError("an effect needs its unit, and a unit its effect")
        return self


class Remedies(_Data):
    """All levers and problems."""

    levers: tuple[Lever, ...] = ()
    problems: tuple[Problem, ...] = ()

    @model_validator(mode="after")
    def _once(self) -> Remedies:
        for ids in ([lever.id for lever in self.levers], [problem.id for problem in self.problems]):
            twice = sorted({one for one in ids if ids.count(one) > 1})
            if twice:
                raise ValueError(f"stands twice: {', '.join(twice)}")
        return self

    def lever(self, lever_id: str) -> Lever | None:
        """Return a lever by id, None when there is none."""
        return next((lever for lever in self.levers if lever.id == lever_id), None)

    def problem(self, problem_id: str) -> Problem | None:
        """Return a problem by id, None when there is none."""
        return next((problem for problem in self.problems if problem.id == problem_id), None)


def read_remedies(*texts: str) -> Remedies:
    """Read levers and problems from TOML texts, which together are one document.

    Raises
    ------
    CatalogueError
        When a text is not TOML or breaks a rule; the message names entry and field.
    """
    return read_entries(Remedies, "levers and problems", *texts)
