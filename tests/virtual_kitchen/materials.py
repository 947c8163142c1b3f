"""What meat, bone and steam are: heat capacity, conductivity, water holding, sorption and vapour pressure.

It knows no shapes and no time. Polynomials: Choi and Okos (1986), from memory of the published table.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Field = npt.NDArray[np.float64]

STEFAN_BOLTZMANN = 5.670e-8
"""[W m⁻² K⁻⁴]"""
LATENT_HEAT = 2.35e6
"""Of water at about 65 °C, and of the little bound water that goes with it [J/kg]."""
WATER_VAPOUR = 461.5
"""Gas constant [J kg⁻¹ K⁻¹]."""
LEAN_WATER_PER_SOLID = 0.745 / 0.255
"""Raw muscle without fat [kg/kg]: van der Sman (2007) starts from 0.745."""
BONE_HEAT, BONE_CONDUCTIVITY, BONE_DENSITY = 1900.0, 0.45, 1550.0
"""Inert blocks: [J kg⁻¹ K⁻¹], [W m⁻¹ K⁻¹], [kg m⁻³], rounded from published ranges, from memory."""
FAT_DENSITY, WATER_DENSITY, SOLID_DENSITY = 920.0, 990.0, 1320.0
FAT_MELTING_HEAT = 60e3
"""Spread over 28 to 46 °C [J/kg], from memory."""


def saturation_pa(temp_c: Field) -> Field:
    """Return the vapour pressure over water [Pa] (Magnus form, within 1 % from 0 to 110 °C)."""
    return 610.94 * np.exp(17.5 * temp_c / (temp_c + 241.2))


def saturation_slope(temp_c: Field, pressure_pa: Field) -> Field:
    """Return the slope of `saturation_pa` [Pa/K]."""
    return pressure_pa * 4221.0 / (temp_c + 241.2) ** 2


def held_water(temp_c: Field) -> Field:
    """Return how much water muscle still holds at a temperature, as a share of what it held raw.

    Water-holding curve c_eq(T) of van der Sman (2007), turned into kg per kg of solids.
    """
    share = 0.745 - 0.345 / (1.0 + 30.0 * np.exp(-0.25 * (temp_c - 52.0)))
    return share / (1.0 - share) / LEAN_WATER_PER_SOLID


def water_at_activity(activity: Field, half: float, power: float) -> Field:
    """Return the surface water [kg/kg solids] in balance with an activity: inverse of x^n / (x^n + half^n)."""
    return half * (activity / (1.0 - activity)) ** (1.0 / power)


def heat_capacity(temp_c: Field, water: Field, solid: Field, fat: Field) -> Field:
    """Return the heat capacity of cells [J/K] that hold masses of water, solids and fat [kg]."""
    melting = FAT_MELTING_HEAT / 18.0 * np.exp(-(((temp_c - 37.0) / 10.2) ** 2))
    return water * 4180.0 + solid * (2008.0 + 1.2 * temp_c) + fat * (1984.0 + 1.47 * temp_c + melting)


def conductivity(temp_c: Field, water: Field, solid: Field, fat: Field) -> Field:
    """Return the conductivity [W m⁻¹ K⁻¹]: parts in parallel and in series, in the middle of the two."""
    volumes = water / WATER_DENSITY, solid / SOLID_DENSITY, fat / FAT_DENSITY
    total = volumes[0] + volumes[1] + volumes[2]
    parts = 0.571 + 0.00176 * temp_c, 0.179 + 0.0012 * temp_c, 0.181 - 0.00028 * temp_c
    parallel = sum(volume * part for volume, part in zip(volumes, parts, strict=True)) / total
    series = total / sum(volume / part for volume, part in zip(volumes, parts, strict=True))
    mixed: Field = 0.6 * parallel + 0.4 * series
    return mixed
