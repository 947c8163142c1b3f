"""Oven temperatures of whole roasts as published in the Food Code. Values and their look-up; no rule uses them."""

from __future__ import annotations

import dataclasses
from typing import Literal

OvenKind = Literal["still_dry", "convection", "high_humidity"]

SOURCE = "FDA Food Code 3-401.11(B)(1)"
LARGE_KG = 4.5
"""Roasts from this mass on are in the large class (10 lb as published) [kg]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Oven:
    """One row: how hot the oven is at least (or at most) for roasts of a class of mass [°F]."""

    kind: OvenKind
    large: bool
    temp_f: float
    bound: Literal["min", "max"]


OVENS = (
    Oven(kind="still_dry", large=False, temp_f=350, bound="min"),
    Oven(kind="still_dry", large=True, temp_f=250, bound="min"),
    Oven(kind="convection", large=False, temp_f=325, bound="min"),
    Oven(kind="convection", large=True, temp_f=250, bound="min"),
    Oven(kind="high_humidity", large=False, temp_f=250, bound="max"),
    Oven(kind="high_humidity", large=True, temp_f=250, bound="max"),
)
"""Every row. High humidity is above 90 % for at least an hour, or a bag that lets no moisture out."""


def oven_limit(kind: OvenKind, mass_kg: float) -> Oven:
    """Return the row of an oven and a mass [kg]."""
    return next(row for row in OVENS if row.kind == kind and row.large == (mass_kg >= LARGE_KG))
