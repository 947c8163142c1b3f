"""What a plan repeats while it cooks: from when, how often and until what, for showing a series as one line.

Pure; single prompts of a series are dated in `scheduler.planning.anchors`, one after the other.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum

from scheduler.facts import Wrap
from scheduler.planning.anchors import Anchors
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.steps import Step
from scheduler.planning.telling import left_out
from scheduler.planning.views import PieceView
from scheduler.planning.whole import whole_outlook, whole_state
from scheduler.state import CookState

REPEATED = ("pit_check", "core_read", "fuel_check", "wood_add", "spritz")
"""The series of the cooking."""

_STILL_SHOWN = frozenset({None, "detail"})
"""A series belongs to a plan although people who want the usual are not told each time."""


class Until(StrEnum):
    """What ends a series."""

    PULL = "pull"
    WRAP = "wrap"
    TIME = "time"
    """An instant that the cut names, or at which its core is expected."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Recurring:
    """A series as a plan shows it: the next of it, how often, and what ends it at about `ends_at` (UTC)."""

    step: Step
    piece: str | None
    """None: of the whole cook."""
    at: dt.datetime
    every: dt.timedelta
    until: Until
    ends_at: dt.datetime | None

    @property
    def comes_again(self) -> bool:
        """Return whether there is a second of it before it ends."""
        return self.ends_at is None or self.at + self.every < self.ends_at


def recurring(views: tuple[PieceView, ...], catalogue: Catalogue) -> tuple[Recurring, ...]:
    """Return the series of the cooking that are still to come, in order of time."""
    lead = views[0]
    whole = lead if len(views) == 1 else dataclasses.replace(
        lead, state=whole_state(views), outlook=whole_outlook(views, lead)
    )  # fmt: skip
    found = []
    for name in REPEATED:
        step = catalogue.steps.get(name)
        if step is None:
            continue
        each = [whole] if step.scope == "cook" else list(views)
        several = len(views) > 1 and step.scope == "piece"
        found += [one for view in each if (one := _of(step, view, catalogue, view.piece if several else None))]
    return tuple(sorted(found, key=lambda one: (one.at, catalogue.steps.order(one.step.id), one.piece or "")))


def _of(step: Step, view: PieceView, catalogue: Catalogue, piece: str | None) -> Recurring | None:
    state, cut = view.state, view.cut
    if step.repeat is None or left_out(step, state, cut) not in _STILL_SHOWN:
        return None
    anchors = Anchors(state=state, outlook=view.outlook, cut=cut, catalogue=catalogue, projected=True)
    if anchors.number(step) > 1:
        anchors = dataclasses.replace(anchors, projected=False)
    due = anchors.due(step)
    until, ends_at = _end(step, view)
    if due is None or (ends_at is not None and due.at >= ends_at):
        return None
    minutes = cut.spritz_every_min if step.id == "spritz" else step.repeat.every_min
    every = dt.timedelta(minutes=minutes or step.repeat.every_min)
    return Recurring(step=step, piece=piece, at=due.at, every=every, until=until, ends_at=ends_at)


def _end(step: Step, view: PieceView) -> tuple[Until, dt.datetime | None]:
    cut, outlook = view.cut, view.outlook
    pull_at = outlook.pull.likely
    if step.id not in {"spritz", "wood_add"}:
        return Until.PULL, pull_at
    if _wraps(view.state) and cut.asks_bark:
        return Until.WRAP, outlook.crossing(cut.bark_look_c).quantile(0.5)
    core_c = cut.spritz_until_c if step.id == "spritz" else cut.wood_until_c
    ends = [pull_at, None if core_c is None else outlook.crossing(core_c).quantile(0.5)]
    if step.id == "wood_add":
        ends.append(outlook.on_at + dt.timedelta(hours=cut.wood_until_h))
    return Until.TIME, min((at for at in ends if at is not None), default=None)


def _wraps(state: CookState) -> bool:
    """Return whether it may still be wrapped, as planned or as decided at the bark."""
    return state.wrap_plan is not Wrap.NONE and not state.wraps
