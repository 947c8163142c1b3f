"""Balance at the surface of the meat: heat from the pit, vapour through a drying crust and a wrap.

It moves no heat inside the meat.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

LATENT_J_KG = 2.30e6
"""Heat of evaporation of water near 75 C [J/kg]; steam tables, from memory (2.32e6 at 75 C, 2.26e6 at 100 C)."""

VAPOUR_PA = 5000.0
"""Vapour pressure of the pit air [Pa], an assumption: humidity ratio near 0.03, ordinary pit air is 0.01 to 0.06."""

BOILING_C = 99.5
"""The moist side of the crust does not pass this while water remains [°C]."""

STALL_PIT_C = 121.0
"""Pit temperature at which the resting temperature of a wet surface and the heat coefficient are given [°C]."""

RADIATED = 0.55
"""Share of radiation in the heat coefficient at `STALL_PIT_C`: 4 x 0.9 x sigma x (371 K)^3 = 10 of about 18 W/m2K; a
published share under natural draught is higher still (0.75 to 0.80, Baik et al. 1999, abstract read)."""

_SURFACE_K = 348.0
_STALL_PIT_K = STALL_PIT_C + 273.15


def saturation_pa(temp_c: Array) -> tuple[Array, Array]:
    """Return saturation pressure [Pa] and its logarithmic slope [1/K] at `temp_c` [°C].

    Source: Buck (1981, revised 1996), from memory; 101.3 kPa at 100 C.
    """
    over = temp_c + 257.14
    exponent = (18.678 - temp_c / 234.5) * temp_c / over
    return 611.21 * np.exp(exponent), (18.678 - temp_c / 117.25 - exponent) / over


def vapour_conductance(heat_w_m2k: Array, rest_c: Array) -> Array:
    """Return the wet conductance g0 [kg/(m2 s Pa)] at which a wet surface rests at `rest_c` in a pit of 121 C.

    h (121 - T*) = L_v g0 (p_sat(T*) - p_v). A free water surface would rest at 34 to 51 C in ordinary pit air; the
    skin's own resistance lifts that to the measured plateau, so it is fitted through T* and not derived.
    """
    pressure, _ = saturation_pa(rest_c)
    conductance: Array = heat_w_m2k * (STALL_PIT_C - rest_c) / (LATENT_J_KG * (pressure - VAPOUR_PA))
    return conductance


def heat_ratio(pit_c: Array) -> Array:
    """Return the heat coefficient at `pit_c` [°C] over the one at 121 C: radiation grows with the cube of the mean
    absolute temperature of walls and meat (surface taken at 75 C), convection is taken as constant.
    """
    mean = (pit_c + (273.15 + _SURFACE_K)) / (_STALL_PIT_K + _SURFACE_K)
    ratio: Array = 1.0 - RADIATED + RADIATED * mean * mean * mean
    return ratio


def surface_temp_c(
    *, bare_c: Array, gain: Array, heat_w_m2k: Array, pit_c: Array, vapour: Array, guess_c: Array
) -> Array:
    """Return the surface temperature at the end of a step [°C].

    Parameters
    ----------
    bare_c
        Surface temperature that the step would end with if no heat came in [°C].
    gain
        What one W/m2 during the step adds to it [K m2/W].
    vapour
        Vapour conductance of surface, crust and wrap together [kg/(m2 s Pa)].

    Notes
    -----
    Solves T = bare + gain (h (T_pit - T) - L_v g (p_sat(T) - p_v)) by Newton's method. The right side falls with T and
    is concave, so that each iterate lies above the root and the iteration cannot run away; capped at boiling. Two
    rounds from the last step's value: a third moves no crossing by more than six seconds, and heat is conserved either
    way, since the water that leaves is what the heat accounts for.
    """
    warmed = gain * heat_w_m2k
    linear = 1.0 + warmed
    steam = gain * (LATENT_J_KG * vapour)
    known = bare_c + warmed * pit_c + steam * VAPOUR_PA
    temp_c = guess_c
    for _ in range(2):
        pressure, slope = saturation_pa(temp_c)
        pressure *= steam
        temp_c = np.minimum(temp_c + (known - linear * temp_c - pressure) / (linear + pressure * slope), BOILING_C)
    return temp_c
