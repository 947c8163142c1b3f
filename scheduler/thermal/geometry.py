"""Size and shape of a piece, reduced to the two numbers that one-dimensional conduction needs.

No heat is moved here.
"""

from __future__ import annotations

import dataclasses
import math

from scheduler.cuts import Cut

DENSITY_KG_M3 = 1060.0
"""Raw lean meat [kg/m3], from memory; Choi-Okos sums for raw beef and pork lie between 1040 and 1075."""

_FILL = {"slab": 0.85, "cylinder": 0.785, "sphere": 0.70}
"""Volume over (thickness x footprint rectangle), an assumption: brick 1, cylinder pi/4, ellipsoid pi/6."""

_ASPECT = {"slab": 2.0, "cylinder": 2.5, "sphere": 1.3}
"""Length over width of the footprint, an assumption."""

_BONE_PLATE_SHARE = 0.65
"""Share of the thickness that heat must cross when a bone plate shields one face (0.5: heated alike from both
sides)."""

END_EFFECT = 0.65
"""How much each of the other axes adds: against product solutions for bricks the whole sum heats 3 to 26 % too fast,
and published shape factors of a square rod and a cube (0.7 and 1.25, Baldwin 2012, from memory) ask for the same."""

_MASS_TO_THICKNESS = 1.0 / 3.0
"""Pieces of one cut are taken to be alike in shape: lengths grow as the cube root of the mass."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Body:
    """Half thickness L [m] and shape exponent m: the area at distance x from the middle grows as (x/L)^m.

    m is 0 for a slab, 1 for a long cylinder, 2 for a sphere; real pieces lie between.
    """

    half_thickness_m: float
    exponent: float


def body(cut: Cut, mass_kg: float | None, thickness_m: float | None) -> Body:
    """Return the body of a piece; what is unknown (None) is taken from the cut.

    A told thickness is believed. Otherwise thickness follows the mass, except for ribs on a bone plate, where a
    heavier rack is a wider one (common practice, no source: their time goes by thickness, not by mass).

    Notes
    -----
    The exponent follows the squared ratios of the axes, as the generalised shape factors for irregular pieces do:
    m = 0.65 ((L/b)^2 + (L/c)^2) with half width b and half length c of the typical piece (a long round cylinder keeps
    its 1). At a told thickness more mass means a wider footprint and so a smaller m.
    """
    typical_kg = cut.mass_kg.typical
    share = _BONE_PLATE_SHARE if cut.bone_plate else 0.5
    exponent = _exponent(cut)
    if cut.bone_plate:
        return Body(half_thickness_m=share * (thickness_m or cut.thickness_m.typical), exponent=exponent)
    ratio = (mass_kg or typical_kg) / typical_kg
    if thickness_m is None:
        thickness_m = cut.thickness_m.typical * ratio**_MASS_TO_THICKNESS
    elif mass_kg is not None:
        exponent = min(2.0, exponent * ratio**-0.5)
    return Body(half_thickness_m=share * thickness_m, exponent=exponent)


def footprint_m2(cut: Cut, mass_kg: float, thickness_m: float | None = None) -> float:
    """Return what one piece covers of a grate [m2], from its mass, thickness (None: as its body) and shape."""
    if thickness_m is None:
        share = 1.0 if cut.bone_plate else mass_kg / cut.mass_kg.typical
        thickness_m = cut.thickness_m.typical * share**_MASS_TO_THICKNESS
    return mass_kg / (DENSITY_KG_M3 * thickness_m * _FILL[cut.shape])


def _exponent(cut: Cut) -> float:
    half = 0.5 * cut.thickness_m.typical
    footprint_m2 = cut.mass_kg.typical / (DENSITY_KG_M3 * 2 * half * _FILL[cut.shape])
    if cut.shape == "cylinder":
        half_length = 0.5 * footprint_m2 / (2 * half)
        return min(2.0, 1.0 + END_EFFECT * (half / half_length) ** 2)
    half_width = 0.5 * math.sqrt(footprint_m2 / _ASPECT[cut.shape])
    half_length = half_width * _ASPECT[cut.shape]
    return min(2.0, END_EFFECT * ((half / half_width) ** 2 + (half / half_length) ** 2))
