"""Moist air at the pressure of the sea: saturation, dew point, and the wet-bulb in air far above boiling.

Scalars only; nothing of meat or pits is known here.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

PRESSURE_PA: Final = 101_325.0
"""Standard atmosphere [Pa]."""

WATER_OVER_AIR: Final = 0.621945
"""Molar mass of water over that of dry air (ASHRAE Fundamentals, Psychrometrics)."""

_COLDEST_C: Final = -40.0
_BELOW_BOILING_K: Final = 1e-4
_NARROW_K: Final = 1e-9


def saturation_pa(temp_c: float) -> float:
    """Return the saturation pressure over water [Pa] at `temp_c` [°C], 0 to 100.

    Source: Buck (1981, revised 1996), from memory; 101.3 kPa at 100 C.
    """
    return 611.21 * math.exp((18.678 - temp_c / 234.5) * temp_c / (257.14 + temp_c))


def vapour_pa(humidity_ratio: float, pressure_pa: float = PRESSURE_PA) -> float:
    """Return the vapour pressure [Pa] of air with `humidity_ratio` [kg water / kg dry air]."""
    return pressure_pa * humidity_ratio / (WATER_OVER_AIR + humidity_ratio)


def humidity_ratio(vapour_pressure_pa: float, pressure_pa: float = PRESSURE_PA) -> float:
    """Return the humidity ratio [kg water / kg dry air] at a vapour pressure [Pa] below `pressure_pa`."""
    return WATER_OVER_AIR * vapour_pressure_pa / (pressure_pa - vapour_pressure_pa)


def boiling_c(pressure_pa: float = PRESSURE_PA) -> float:
    """Return the temperature [°C] at which water boils."""
    return _root(saturation_pa, pressure_pa, _COLDEST_C, 130.0)


def dew_point_c(vapour_pressure_pa: float) -> float:
    """Return the temperature [°C] at which air of this vapour pressure [Pa] is saturated."""
    return _root(saturation_pa, vapour_pressure_pa, _COLDEST_C, 130.0)


def wet_bulb_c(dry_bulb_c: float, ratio: float, pressure_pa: float = PRESSURE_PA) -> float:
    """Return the thermodynamic wet-bulb [°C] of air at `dry_bulb_c` [°C] with humidity ratio `ratio` [kg/kg].

    Raises
    ------
    ValueError
        When the air would be more than saturated, or its humidity ratio is negative.

    Notes
    -----
    W (2501 + 1.86 t - 4.186 t*) = (2501 - 2.326 t*) W_s(t*) - 1.006 (t - t*), ASHRAE Fundamentals, Psychrometrics
    (from memory; the check values are in tests/data/wet_bulb_high_dry_bulb.csv). The root is sought between -40 C and
    the boiling point, where W_s has no pole: a search that starts half way between dew point and dry-bulb meets air
    above boiling in a hot pit, and one published library then gives the dry-bulb back without a word.
    """
    if ratio < 0.0:
        raise ValueError(f"humidity ratio {ratio} is negative")
    highest_c = min(dry_bulb_c, boiling_c(pressure_pa) - _BELOW_BOILING_K)
    if _ratio_at(highest_c, dry_bulb_c, pressure_pa) < ratio - 1e-12:
        raise ValueError(f"air at {dry_bulb_c} C cannot hold a humidity ratio of {ratio}")
    return _root(lambda temp_c: _ratio_at(temp_c, dry_bulb_c, pressure_pa), ratio, _COLDEST_C, highest_c)


def _ratio_at(wet_bulb: float, dry_bulb_c: float, pressure_pa: float) -> float:
    """Return the humidity ratio of air at `dry_bulb_c` whose wet-bulb is `wet_bulb`; it rises with the wet-bulb."""
    saturated = humidity_ratio(saturation_pa(wet_bulb), pressure_pa)
    return ((2501.0 - 2.326 * wet_bulb) * saturated - 1.006 * (dry_bulb_c - wet_bulb)) / (
        2501.0 + 1.86 * dry_bulb_c - 4.186 * wet_bulb
    )


def _root(rising: Callable[[float], float], value: float, low: float, high: float) -> float:
    """Return where a rising function takes `value`, by halving: it cannot leave its bracket."""
    while high - low > _NARROW_K:
        middle = 0.5 * (low + high)
        if rising(middle) < value:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
