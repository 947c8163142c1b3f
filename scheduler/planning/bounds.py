"""What can be believed of a piece before it is planned: its mass, and the pit it is to go into.

Pure; it says how far something is from what is usual, never what becomes of it.
"""

from __future__ import annotations

from enum import StrEnum

from scheduler.cuts import Cut
from scheduler.facts import Wrap
from scheduler.planning.alternatives import COLDEST_C, HOTTEST_WRAPPED_C, pit_limits_c

_HEAVIER, _LIGHTER = 2.5, 0.25
"""So many times the heaviest, or the lightest, piece of its cut: a slip of the keys; house rule."""

_BEYOND_C = 28.0
"""A pit so much hotter than the hottest that a cut bears is refused (50 °F): house rule."""

_ROUNDED_C = 1.0
"""Limits are whole degrees of one unit or the other [°C]."""


class PitSense(StrEnum):
    """How a pit fits a cut."""

    USUAL = "usual"
    COLD = "cold"
    """Colder than any plan: the meat is long below 60 °C."""
    HOT = "hot"
    """Hotter than is offered for it: it dries or scorches."""
    IMPOSSIBLE = "impossible"
    """So hot that the cut is spoilt, and no forecast holds."""


def believed(cut: Cut, mass_kg: float) -> bool:
    """Return whether one piece of a cut may weigh this [kg]."""
    return _LIGHTER * cut.mass_kg.low <= mass_kg <= _HEAVIER * cut.mass_kg.high


def pit_sense(cut: Cut, wrap: Wrap | None, low_c: float, high_c: float) -> PitSense:
    """Return how a pit, from and to [°C], fits a cut in its wrap."""
    if high_c > hottest_c(cut) + _BEYOND_C:
        return PitSense.IMPOSSIBLE
    if low_c < coldest_c(cut) - _ROUNDED_C:
        return PitSense.COLD
    return PitSense.HOT if high_c > pit_limits_c(cut, wrap)[1] + _ROUNDED_C else PitSense.USUAL


def coldest_c(cut: Cut) -> float:
    """Return the coldest pit in which a cut does not loiter where germs grow [°C]."""
    return min(COLDEST_C, cut.pit_c.low)


def hottest_c(cut: Cut) -> float:
    """Return the hottest pit that a cut bears in any wrap [°C]."""
    wrapped = cut.doneness != "temperature" and any(wrap in cut.wraps for wrap in (Wrap.FOIL, Wrap.PAPER))
    return max(pit_limits_c(cut, Wrap.NONE)[1], HOTTEST_WRAPPED_C if wrapped else 0.0)
