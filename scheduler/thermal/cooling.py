"""Heat transfer to moving air and still water around a piece that cools, from published correlations.

Numbers only: no profile and no time is known here.
"""

from __future__ import annotations

import math

WATER_BATH_W_M2K = 250.0
"""Ice water around a bagged piece, stirred now and then [W/(m2 K)]: natural convection in water gives 100 to 500
(textbook range, from memory); the middle of the meat hardly feels the difference."""


def forced_air_w_m2k(speed_m_s: float, across_m: float, film_c: float = 20.0) -> float:
    """Return the convective coefficient [W/(m2 K)] of air across a piece `across_m` thick.

    Notes
    -----
    Churchill and Bernstein (1977) for a cylinder in cross flow (from memory, as in Incropera): Nu = 0.3 + 0.62 Re^(1/2)
    Pr^(1/3) / (1 + (0.4/Pr)^(2/3))^(1/4) (1 + (Re/282000)^(5/8))^(4/5), with the properties of dry air (from memory).
    """
    conductivity, viscosity_m2_s, prandtl = _air(film_c)
    reynolds = max(speed_m_s, 0.0) * across_m / viscosity_m2_s
    laminar = math.sqrt(reynolds) * math.pow(prandtl, 1 / 3) / math.pow(1.0 + math.pow(0.4 / prandtl, 2 / 3), 0.25)
    nusselt = 0.3 + 0.62 * laminar * math.pow(1.0 + math.pow(reynolds / 282_000.0, 0.625), 0.8)
    return nusselt * conductivity / across_m


def free_air_w_m2k(over_k: float, across_m: float, film_c: float = 40.0) -> float:
    """Return the convective coefficient [W/(m2 K)] of still air around a piece `over_k` warmer than it.

    Notes
    -----
    Churchill and Chu (1975) for a horizontal cylinder (from memory, as in Incropera): Nu^(1/2) = 0.60 + 0.387 Ra^(1/6)
    / (1 + (0.559/Pr)^(9/16))^(8/27).
    """
    conductivity, viscosity_m2_s, prandtl = _air(film_c)
    rayleigh = 9.81 * abs(over_k) * across_m**3 * prandtl / ((film_c + 273.15) * viscosity_m2_s**2)
    resisted = math.pow(1.0 + math.pow(0.559 / prandtl, 9 / 16), 8 / 27)
    root = 0.60 + 0.387 * math.pow(rayleigh, 1 / 6) / resisted
    return root * root * conductivity / across_m


def air_w_m2k(speed_m_s: float, over_k: float, across_m: float, film_c: float = 20.0) -> float:
    """Return the greater of forced and free convection [W/(m2 K)]."""
    return max(forced_air_w_m2k(speed_m_s, across_m, film_c), free_air_w_m2k(over_k, across_m, film_c))


def _air(film_c: float) -> tuple[float, float, float]:
    """Return conductivity [W/(m K)], kinematic viscosity [m2/s] and Prandtl number of dry air near `film_c` [°C]."""
    kelvin = film_c + 273.15
    return 0.0263 * math.pow(kelvin / 300.0, 0.85), 15.9e-6 * math.pow(kelvin / 300.0, 1.75), 0.707
