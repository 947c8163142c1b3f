"""Everything computed from one log: state, outlook, schedule, findings. Nothing here is stored as truth."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Fact, Told
from scheduler.planning import replanning
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.outlook import Outlook, look
from scheduler.planning.prompts import Prompt
from scheduler.planning.schedule import itinerary, schedule
from scheduler.planning.stall import Stall, stall_of
from scheduler.planning.steps import Step
from scheduler.planning.trips import next_at
from scheduler.safety import Finding, SafeGate, findings, safe_gate
from scheduler.state import CookState, fold

ENGINE = "1"
"""Version of the engine: caches computed by another version are thrown away."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Situation:
    """One cook as of its newest fact."""

    state: CookState
    cut: Cut
    outlook: Outlook
    prompts: tuple[Prompt, ...]
    catalogue: Catalogue
    plateau: Stall
    """How it stands with its stall, whether it lies in it or not."""
    gate: SafeGate

    @property
    def stall(self) -> Stall | None:
        """Return the stall that the meat lies in now, None when it lies in none."""
        return self.plateau if self.plateau.within else None

    @property
    def coming(self) -> tuple[dt.datetime, Prompt] | None:
        """Return when the next message comes by itself, and its prompt."""
        return next_at(self.prompts)

    @property
    def waiting(self) -> tuple[Prompt, ...]:
        """Return the prompts that were asked and are still open, the newest question first."""
        asked = [p for p in self.prompts if p.asked_at is not None]
        return tuple(sorted(asked, key=lambda p: (p.asked_at or p.due_at, p.is_question), reverse=True))

    def prompt(self, step_id: str) -> Prompt | None:
        """Return the open prompt of a step."""
        return next((p for p in self.prompts if p.step.id == step_id), None)

    def findings(self, now: dt.datetime) -> tuple[Finding, ...]:
        """Return what is not safe at `now`."""
        return findings(self.state, self.cut, self.catalogue.cuts, now)

    def itinerary(self) -> tuple[tuple[dt.datetime, Step], ...]:
        """Return every step still to come once, at its expected time."""
        return itinerary(self.state, self.outlook, self.cut, self.catalogue)

    def told(self, *, all_of_it: bool) -> Told:
        """Return the fact of what a message tells."""
        return replanning.told(self.state, self.outlook, self.prompts, all_of_it=all_of_it)

    def having_told(self, told: Told) -> Situation:
        """Return the situation once people were told so: the schedule is the same, what counts as news is not."""
        milestones = told if told.milestones else self.state.told_milestones
        return dataclasses.replace(self, state=dataclasses.replace(self.state, told=told, told_milestones=milestones))

    def shift(self) -> replanning.Shift | None:
        """Return what moved enough to be announced."""
        return replanning.shift(self.state, self.outlook, self.prompts)


def assess(facts: tuple[Fact, ...], catalogue: Catalogue, as_of: dt.datetime | None = None) -> Situation:
    """Return everything that follows from a log: the same log gives the same situation.

    `as_of` looks at it from a later instant than its newest fact: what has slipped since, with nobody saying anything.
    """
    state = fold(facts, as_of)
    cut = catalogue.cuts.get(state.planned.cut)
    outlook = look(state, cut)
    return Situation(
        state=state,
        cut=cut,
        outlook=outlook,
        prompts=schedule(state, outlook, cut, catalogue),
        catalogue=catalogue,
        plateau=stall_of(state, cut, outlook.forecast),
        gate=safe_gate(state, cut, catalogue.cuts),
    )
