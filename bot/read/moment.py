"""The moment in which a text is typed: what is open, what was read last, who is there.

Values only; it becomes the `Context` that the reader of the chat is given.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.conversation.context import Context, OpenStep
from bot.messages.steps import step_words
from scheduler.facts import Serving, Slot, Wrap
from scheduler.planning.catalogue import Catalogue

SLOTS: dict[str, tuple[str, ...]] = {
    "core": ("core_read",),
    "pit": ("pit_check",),
    "spritz": ("spritz",),
    "wood": ("wood_add",),
    "fuel": ("fuel_check",),
    "bark": ("bark_check",),
    "feel": ("tender_test",),
    "rest": ("hold_check",),
    "none": (),
}
"""What may be said for the open question, and the step of the catalogue that it is."""
STAGES = ("before", "fire", "cooking", "resting", "serving")
ON_BEFORE = dt.timedelta(hours=4)
"""A cook whose meat is on, as nobody said since when: house rule."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Told:
    """A reading that is known already [°C], of core or pit, read at an instant (UTC)."""

    value_c: float
    at: dt.datetime


@dataclasses.dataclass(frozen=True, kw_only=True)
class Moment:
    """Everything that decides how a text is understood."""

    now: dt.datetime
    """When it is typed (UTC)."""
    zone: str
    unit: str | None = None
    stage: str = "cooking"
    steps: tuple[str, ...] = ()
    """Steps whose prompts are open, newest first."""
    core: Told | None = None
    pit: Told | None = None
    pit_target_c: float | None = None
    meat_on_at: dt.datetime | None = None
    serving: Serving | None = None
    wrap: Wrap | None = None
    cut: str | None = None
    people: tuple[str, ...] = ()
    cooks: tuple[str, ...] = ()
    """Titles of the cooks that run here, when there are several."""
    group: bool = False

    def context(self, catalogue: Catalogue) -> Context:
        """Return what the reader is to know."""
        return Context(
            now=self.now,
            zone=self.zone,
            unit=self.unit,
            stage=self.stage,
            cuts=catalogue.cuts,
            open_steps=tuple(_open(step, catalogue, asks=number == 0) for number, step in enumerate(self.steps)),
            pit_target_c=self.pit_target_c,
            last_core_c=None if self.core is None else self.core.value_c,
            last_core_at=None if self.core is None else self.core.at,
            last_pit_c=None if self.pit is None else self.pit.value_c,
            last_pit_at=None if self.pit is None else self.pit.at,
            meat_on_at=self._on_at(),
            wrap=self.wrap,
            cut=self.cut,
            serving=self.serving,
            people=self.people,
            watch_offered="handover" in self.steps,
        )

    def _on_at(self) -> dt.datetime | None:
        """Return when the meat went on: as said, else so long ago that a core can be asked for."""
        if self.meat_on_at is not None or self.stage in ("before", "fire"):
            return self.meat_on_at
        usual = self.now - ON_BEFORE
        return usual if self.core is None else min(usual, self.core.at - ON_BEFORE / 4)


def _open(step_id: str, catalogue: Catalogue, *, asks: bool) -> OpenStep:
    step = catalogue.steps.get(step_id)
    return OpenStep(
        step=step_id,
        title=step_words(step_id).name,
        slots=() if step is None else tuple(Slot(slot) for slot in step.slots),
        outcomes=() if step is None else step.outcomes,
        is_question=asks,
    )
