"""Whether the pieces of a cook fit on the grate of its cooker, as a note and no more.

Pure sums over masses and shapes; nothing is planned differently for it, and it makes no words.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

from scheduler.cookers import Cooker, Cookers
from scheduler.planning.views import PieceView
from scheduler.thermal.geometry import footprint_m2

AROUND = 1.5
"""Room that a piece takes over what it covers, so that air passes round it; common practice, no source."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Crowded:
    """More meat at one time than a cooker usually has room for: what it takes, and what there is [m2]."""

    cooker: Cooker
    wanted_m2: float
    grate_m2: float


def crowded(views: Sequence[PieceView], cookers: Cookers) -> Crowded | None:
    """Return what does not fit when the fire is fullest; None where it fits, or nobody told of the cooker."""
    told = views[0].state.cooker
    if told is None:
        return None
    cooker = cookers.get(told.cooker)
    fullest = max(sum(_room_m2(view) for view in views if _lies(view, one)) for one in views)
    if fullest <= cooker.grate_m2.typical:
        return None
    return Crowded(cooker=cooker, wanted_m2=fullest, grate_m2=cooker.grate_m2.typical)


def _lies(view: PieceView, newest: PieceView) -> bool:
    """Return whether a piece is on the fire when another one goes on, as it is likely."""
    on_at, off_at = view.outlook.on_at, view.outlook.pull.likely
    at = newest.outlook.on_at
    return on_at <= at and (off_at is None or at < off_at)


def _room_m2(view: PieceView) -> float:
    planned = view.state.planned
    mass_kg = planned.mass_kg or view.cut.mass_kg.typical
    return AROUND * planned.count * footprint_m2(view.cut, mass_kg, planned.thickness_m)
