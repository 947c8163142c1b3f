"""A pit that a later piece brings: when it changes, who is on the fire then, and who does not bear it.

Pure; it decides no pit, and what is said of it is worded elsewhere.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Wrap
from scheduler.planning.alternatives import pit_limits_c
from scheduler.planning.views import PieceView
from scheduler.state import PitBand

SAME_C = 3.0
"""Bands nearer to one another than this are one pit [°C]: 5 F, common practice, no source."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class PitChange:
    """The pit that `piece` brings at `at` (UTC), while `others` are on the fire; `over` names those of them that it is
    too hot for, each with the hottest pit that it bears [°C].
    """

    piece: str
    at: dt.datetime
    band: PitBand
    before: PitBand
    others: tuple[str, ...]
    over: tuple[tuple[str, float], ...]


def pit_change(view: PieceView, views: tuple[PieceView, ...]) -> PitChange | None:
    """Return the change of the pit that a piece brings, None once it is on, and when it joins nobody or brings none."""
    on_at, band = view.outlook.on_at, view.state.pit[-1]
    if view.state.did("meat_on") or view.state.oven is not None:
        return None
    there = sorted((v for v in views if v is not view and _on_then(v, on_at)), key=lambda v: v.outlook.on_at)
    if not there:
        return None
    before = there[-1].state.pit[-1]
    if abs(before.low_c - band.low_c) < SAME_C and abs(before.high_c - band.high_c) < SAME_C:
        return None
    limits = [(v.piece, pit_limits_c(v.cut, _wrap_of(v))[1]) for v in there]
    return PitChange(
        piece=view.piece,
        at=on_at,
        band=band,
        before=before,
        others=tuple(v.piece for v in there),
        over=tuple((piece, limit_c) for piece, limit_c in limits if band.high_c > limit_c + SAME_C),
    )


def pit_changes(views: tuple[PieceView, ...]) -> tuple[PitChange, ...]:
    """Return every change of the pit that is still to come, in order of time."""
    found = (pit_change(view, views) for view in views)
    return tuple(sorted((change for change in found if change is not None), key=lambda change: change.at))


def _on_then(view: PieceView, at: dt.datetime) -> bool:
    """Return whether a piece is expected on the fire at an instant, and in the cooker."""
    off_at = view.outlook.pull.likely
    early = view.outlook.on_at < at or view.state.did("meat_on") is not None
    return early and view.state.did("pull") is None and view.state.oven is None and (off_at is None or off_at > at)


def _wrap_of(view: PieceView) -> Wrap | None:
    return view.state.wraps[-1][1].wrap if view.state.wraps else view.state.planned.wrap
