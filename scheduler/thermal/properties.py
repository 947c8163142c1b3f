"""Density, specific heat, conductivity and diffusivity of meat from what it is made of (Choi and Okos 1986).

Meat above freezing and below boiling; water that leaves and fat that melts are not this room's business.
"""

from __future__ import annotations

import dataclasses
from typing import Final, Protocol

PARALLEL_SHARE: Final = 0.45
"""Share of the parallel conductivity in the mixed one; the series conductivity has the rest.

Chosen so that the measured diffusivities of beef chuck (1.2e-7 m2/s, 66 % water) and round (1.3e-7, 71 %) at 40 to 65 C
(ASHRAE Refrigeration after Dickerson and Read 1975, from memory) are met within 3 %; what is not water there was taken
as 18 % protein and 15 % fat, 21 % and 7 % (assumed). Chuck alone asks for 0.37, round alone for 0.48.
"""


class Composed(Protocol):
    """Anything that tells mass shares of water, protein, fat and ash (0 to 1 each)."""

    @property
    def water(self) -> float:
        """Return the mass share of water."""

    @property
    def protein(self) -> float:
        """Return the mass share of protein."""

    @property
    def fat(self) -> float:
        """Return the mass share of fat."""

    @property
    def ash(self) -> float:
        """Return the mass share of ash."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Properties:
    """Thermal properties at one temperature."""

    density_kg_m3: float
    specific_heat_j_kgk: float
    conductivity_w_mk: float
    diffusivity_m2_s: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Component:
    """Polynomials c0 + c1 t + c2 t^2 of one component, t [°C], -40 to 150 (liquid water: 0 to 150)."""

    density: tuple[float, float, float]
    """[kg/m3]"""
    specific_heat: tuple[float, float, float]
    """[J/(kg K)]"""
    conductivity: tuple[float, float, float]
    """[W/(m K)]"""


COMPONENTS: Final = {
    "water": Component(
        density=(997.18, 0.0031439, -0.0037574),
        specific_heat=(4128.9, -0.090864, 0.0054731),
        conductivity=(0.57109, 0.0017625, -6.7036e-06),
    ),
    "protein": Component(
        density=(1329.9, -0.5184, 0.0),
        specific_heat=(2008.2, 1.2089, -0.0013129),
        conductivity=(0.17881, 0.0011958, -2.7178e-06),
    ),
    "fat": Component(
        density=(925.59, -0.41757, 0.0),
        specific_heat=(1984.2, 1.4733, -0.0048008),
        conductivity=(0.18071, -0.00027604, -1.7749e-07),
    ),
    "ash": Component(
        density=(2423.8, -0.28063, 0.0),
        specific_heat=(1092.6, 1.8896, -0.0036817),
        conductivity=(0.32962, 0.0014011, -2.9069e-06),
    ),
    "carbohydrate": Component(
        density=(1599.1, -0.31046, 0.0),
        specific_heat=(1548.8, 1.9625, -0.0059399),
        conductivity=(0.20141, 0.0013874, -4.3312e-06),
    ),
    "fiber": Component(
        density=(1311.5, -0.36589, 0.0),
        specific_heat=(1845.9, 1.8306, -0.0046509),
        conductivity=(0.18331, 0.0012497, -3.1683e-06),
    ),
    "ice": Component(
        density=(916.89, -0.13071, 0.0),
        specific_heat=(2062.3, 6.0769, 0.0),
        conductivity=(2.2196, -0.0062489, 0.00010154),
    ),
}
"""Choi and Okos (1986), as in ASHRAE Handbook Refrigeration, Thermal Properties of Foods, Tables 1, 2; read as a copy.

Two errors are met in copies: the signs of the specific heat of water swapped, and the slope of the conductivity of ice
written ten times too large. Here they are right.
"""


def component(name: str, temp_c: float) -> Properties:
    """Return the properties of a pure component of `COMPONENTS`, diffusivity as k / (rho cp)."""
    of = COMPONENTS[name]
    density, specific_heat = _at(of.density, temp_c), _at(of.specific_heat, temp_c)
    conductivity = _at(of.conductivity, temp_c)
    return Properties(
        density_kg_m3=density,
        specific_heat_j_kgk=specific_heat,
        conductivity_w_mk=conductivity,
        diffusivity_m2_s=conductivity / (density * specific_heat),
    )


def properties(water: float, protein: float, fat: float, ash: float, temp_c: float) -> Properties:
    """Return the properties of meat with these mass shares at `temp_c` [°C].

    Shares are brought to a sum of one (tables of foods rarely add up).

    Raises
    ------
    ValueError
        When a share is negative or all are nothing.

    Notes
    -----
    1/rho = sum x_i/rho_i, cp = sum x_i cp_i, k = p k_parallel + (1 - p) k_series with p = `PARALLEL_SHARE`,
    k_parallel = sum v_i k_i and 1/k_series = sum v_i/k_i over volume shares v_i.
    """
    density, specific_heat, parallel, series = mixed(
        {"water": water, "protein": protein, "fat": fat, "ash": ash}, temp_c
    )
    conductivity = PARALLEL_SHARE * parallel + (1.0 - PARALLEL_SHARE) * series
    return Properties(
        density_kg_m3=density,
        specific_heat_j_kgk=specific_heat,
        conductivity_w_mk=conductivity,
        diffusivity_m2_s=conductivity / (density * specific_heat),
    )


def properties_at(composition: Composed, temp_c: float) -> Properties:
    """Return the properties of a composition at `temp_c` [°C]; see `properties`."""
    return properties(composition.water, composition.protein, composition.fat, composition.ash, temp_c)


def mixed(shares: dict[str, float], temp_c: float) -> tuple[float, float, float, float]:
    """Return density [kg/m3], specific heat [J/(kg K)], parallel and series conductivity [W/(m K)] of a mixture.

    `shares` are mass shares by name of component; they are brought to a sum of one.
    """
    total = sum(shares.values())
    if total <= 0.0 or min(shares.values()) < 0.0:
        raise ValueError(f"mass shares must not be negative, nor all nothing: {shares}")
    volume = specific_heat = flow = resistance = 0.0
    for name, share in shares.items():
        of = COMPONENTS[name]
        part = share / total
        room = part / _at(of.density, temp_c)
        conductivity = _at(of.conductivity, temp_c)
        volume += room
        specific_heat += part * _at(of.specific_heat, temp_c)
        flow += room * conductivity
        resistance += room / conductivity
    return 1.0 / volume, specific_heat, flow / volume, volume / resistance


def _at(polynomial: tuple[float, float, float], temp_c: float) -> float:
    return polynomial[0] + temp_c * (polynomial[1] + temp_c * polynomial[2])
