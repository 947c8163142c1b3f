"""The rival of the recipe book: minutes per pound, from the trade's usual duration of the cut. It reads no readings."""

from __future__ import annotations

from scheduler.cuts import Cut


def foretell(cut: Cut, mass_kg: float | None) -> float:
    """Return the usual duration scaled by mass [min since meat on]."""
    return 60 * cut.duration_h.typical / cut.duration_kg * (mass_kg or cut.mass_kg.typical)
