"""Every step of a plan that is still to come, once, with the key, the time and the reason its prompt will have.

Pure; prompts themselves wait for facts, this looks ahead of them.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.planning.anchors import Anchors
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.prompts import Why, key_of
from scheduler.planning.steps import Step
from scheduler.planning.views import PieceView
from scheduler.planning.whole import whole_itinerary, whole_outlook, whole_state
from scheduler.state import FIRST


@dataclasses.dataclass(frozen=True, kw_only=True)
class Foreseen:
    """The first prompt of a step as it is foreseen."""

    key: str
    step: Step
    due_at: dt.datetime
    why: Why


def foreseen(views: tuple[PieceView, ...], catalogue: Catalogue, now: dt.datetime) -> tuple[Foreseen, ...]:
    """Return what will be prompted, in order of time; what is due already is due now."""
    shared = _anchors_of_all(views, catalogue)
    found = []
    for at, step, piece in whole_itinerary(views, catalogue):
        anchors = shared
        for view in views:
            if view.piece == piece or len(views) == 1:
                anchors = _anchors(view, catalogue)
        due = anchors.due(step)
        if due is not None:
            key = key_of(piece or FIRST, step.id, anchors.number(step))
            found.append(Foreseen(key=key, step=step, due_at=max(at, now), why=due.why))
    return tuple(found)


def _anchors(view: PieceView, catalogue: Catalogue) -> Anchors:
    return Anchors(state=view.state, outlook=view.outlook, cut=view.cut, catalogue=catalogue, projected=True)


def _anchors_of_all(views: tuple[PieceView, ...], catalogue: Catalogue) -> Anchors:
    lead = views[0]
    if len(views) == 1:
        return _anchors(lead, catalogue)
    return Anchors(
        state=whole_state(views), outlook=whole_outlook(views, lead), cut=lead.cut, catalogue=catalogue, projected=True
    )
