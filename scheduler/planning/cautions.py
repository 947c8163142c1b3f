"""Which caution rides in the message that goes out now: at most one, the gravest that waits.

Pure: it follows from the log. A caution whose place was taken, or whose carrier nobody was told of, waits for the next
message; it lapses only when it has become pointless. No caution ever makes a message of its own.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Asked, Fact, Troubled
from scheduler.planning.happenings import Happened, happenings
from scheduler.planning.nights import quiet_start
from scheduler.planning.prompts import Prompt, step_of
from scheduler.planning.steps import Caution, Step, Steps
from scheduler.planning.telling import left_out
from scheduler.planning.views import PieceView
from scheduler.state.standing import effective

MOST_BY_DAY = 10
"""In a cook that burns through no night minor cautions ride only as far as these leave room beside the graver ones that
have come and are still to come: house rule, more of them would not be read."""

FIRST = frozenset({"co", "fluid"})
"""Carbon monoxide and starter fluid: where the message goes out that they belong to, nothing else takes their place."""

_UNTOLD = frozenset({"kind", "detail", "overtaken", "wrapped", "ready"})
"""Reasons for which nobody is told of a step that belongs to the cook all the same."""


def caution_for(
    facts: tuple[Fact, ...],
    views: tuple[PieceView, ...],
    steps: Steps,
    prompts: tuple[Prompt, ...],
    now: dt.datetime,
    *,
    warned: bool = False,
) -> tuple[str, ...]:
    """Return the caution that rides with these prompts: one, or none.

    Nothing rides beside a problem told at this instant, whose card says its own; beside a finding that is told
    (`warned`) only what must not miss its place.
    """
    if any(isinstance(f.body, Troubled) and not f.body.over and f.recorded_at == now for f in facts):
        return ()
    queue = _Queue(facts=effective(facts), views=views, steps=steps, prompts=prompts, now=now)
    carried = {name for prompt in prompts for name in prompt.step.cautions}
    waiting = [one.id for one in queue.waiting()]
    first = [name for name in waiting if name in FIRST & carried]
    if first or warned:
        return tuple(first[:1])
    return tuple(name for name in waiting if queue.has_room(name))[:1]


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Queue:
    """Cautions that wait, derived from the log and the message that goes out."""

    facts: tuple[Fact, ...]
    views: tuple[PieceView, ...]
    steps: Steps
    prompts: tuple[Prompt, ...]
    now: dt.datetime

    def waiting(self) -> list[Caution]:
        """Return what is due and not pointless, the gravest first; not what a prompt of this message says itself."""
        happened, told = self._happened(), self._told()
        return [one for one in self.steps.cautions if self._due(one, happened, told.get(one.id))]

    def has_room(self, name: str) -> bool:
        """Return whether a caution may ride without taking the place of a graver one in a cook by day."""
        minor = any(one.minor for one in self.steps.cautions if one.id == name)
        return not minor or self._overnight or len(self._shown) + self._graver_ahead(name) < MOST_BY_DAY

    @property
    def _shown(self) -> list[str]:
        return [name for f in self.facts if isinstance(f.body, Asked) for name in f.body.cautions]

    @property
    def _overnight(self) -> bool:
        """Return whether the fire burns into the quiet hours."""
        seen = self.views[0]
        pull_at = max((v.outlook.pull.likely for v in self.views if v.outlook.pull.likely is not None), default=None)
        return pull_at is not None and quiet_start(seen.state, seen.outlook.light_at) < pull_at

    def _happened(self) -> tuple[Happened, ...]:
        seen = self.views[0]
        return happenings(self.facts, self.prompts, seen.state, self.now, seen.outlook.light_at)

    def _told(self) -> dict[str, dt.datetime]:
        """Return caution -> when it was told last: it rode in a message, or a step or a problem said it itself."""
        told: dict[str, dt.datetime] = {}
        for fact in self.facts:
            if isinstance(fact.body, Asked):
                said = {step_of(key) for key in fact.body.prompts}
                names = {*fact.body.cautions, *(c.id for c in self.steps.cautions if said & {*c.spoken_by})}
            elif isinstance(fact.body, Troubled) and not fact.body.over:
                names = {c.id for c in self.steps.cautions if f"problem:{fact.body.problem}" in c.spoken_by}
            else:
                continue
            told |= dict.fromkeys(names, fact.recorded_at)
        return told

    def _due(self, one: Caution, happened: tuple[Happened, ...], told_at: dt.datetime | None) -> bool:
        if self._pointless(one) or any(prompt.step.id in one.spoken_by for prompt in self.prompts):
            return False
        if told_at is not None:
            return any(h.what in one.returns and h.at > told_at for h in happened)
        carriers = {step.id for step in self.steps.steps if one.id in step.cautions}
        if any(h.what in {*one.returns, *carriers} for h in happened):
            return True
        return any(self._passed_by(step) for step in self.steps.steps if step.id in carriers)

    def _pointless(self, one: Caution) -> bool:
        """Return whether nothing is left that it could warn of: what it is about is over, or people said there is none.

        A fire that is kept burning is not over, and what one piece is done with another may still need.
        """
        care = self.views[0].state.care
        if one.unless_told_no is not None and getattr(care, one.unless_told_no) in (False, ()):
            return True
        if one.unless_told is not None and getattr(care, one.unless_told):
            return True
        return any(all(self._over(step, view) for view in self.views) for step in one.ends)

    @staticmethod
    def _over(step: str, view: PieceView) -> bool:
        done = view.state.did(step)
        return done is not None and done.outcome not in {"keep", "still_hot", "still_warm"}

    def _passed_by(self, step: Step) -> bool:
        """Return whether a step that nobody was told of would have been asked by now: something after it is asked."""
        if step.anchor.kind == "outcome" or "early" in step.only or "early_start" in step.only:
            return False
        place = self.steps.order(step.id)
        if all(prompt.order <= place for prompt in self.prompts):
            return False
        return any(left_out(step, view.state, view.cut) in _UNTOLD for view in self._seen_for(step))

    def _seen_for(self, step: Step) -> tuple[PieceView, ...]:
        return self.views if step.scope == "piece" else self.views[:1]

    def _graver_ahead(self, name: str) -> int:
        """Return how many tellings of graver cautions are still certain to come."""
        ahead, shown = 0, self._shown
        for one in self.steps.cautions:
            if one.id == name:
                break
            if self._pointless(one):
                continue
            untold = one.id not in shown and one.id not in self._told()
            ahead += untold and any(self._comes(step) for step in self.steps.steps if one.id in step.cautions)
            ahead += any(self._comes(s) for s in self.steps.steps if s.id in one.returns and one.id in s.cautions) and (
                not untold or self._has_earlier_place(one)
            )
        return ahead

    def _has_earlier_place(self, one: Caution) -> bool:
        """Return whether a caution that comes back with a step has another place before it."""
        return any(self._comes(s) for s in self.steps.steps if one.id in s.cautions and s.id not in one.returns)

    def _comes(self, step: Step) -> bool:
        """Return whether a step is still to be asked in this cook, as far as the plan knows."""
        uncertain = step.anchor.kind in {"outcome", "merged"} or "early" in step.only or "early_start" in step.only
        return not uncertain and any(
            left_out(step, view.state, view.cut) is None and not view.state.did(step.id)
            for view in self._seen_for(step)
        )
