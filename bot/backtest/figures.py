"""Figures as people write them in a log: masses, thicknesses, temperatures, pit bands and wraps.

Whatever cannot be read is None; nothing is guessed but a missing unit of temperature, which is that of the log.
"""

from __future__ import annotations

import re

from scheduler.facts import Wrap
from scheduler.units import INCH_IN_M, LB_IN_KG, c_from_f

LIGHTEST_KG, HEAVIEST_KG = 0.01, 60.0
"""Lightest and heaviest piece that is taken as said (common practice, no source)."""
THINNEST_M, THICKEST_M = 0.004, 0.5
"""Thinnest and thickest piece that is taken as said (common practice, no source)."""
PIT_COLDEST_C, PIT_HOTTEST_C = 38.0, 400.0
"""A cooker that is meant to run colder or hotter is a slip of the unit (common practice, no source)."""
READ_LOWEST_C, MEAT_HIGHEST_C, PIT_HIGHEST_C = -30.0, 130.0, 500.0
"""No probe reads outside these in meat or cooker: a number that stands for an error, or a slip of the keys."""

_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"
_TO = r"\s*(?:-|\u2013|\u2014|to|\.\.)\s*"
_ABOUT = r"(?:about |around |ca\.? ?|~ ?|\u2248 ?)?"
_MASSES = {
    **dict.fromkeys(("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"), 1.0),
    **dict.fromkeys(("g", "gr", "gram", "grams"), 0.001),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds", "#"), LB_IN_KG),
    **dict.fromkeys(("oz", "ounce", "ounces"), LB_IN_KG / 16),
}
_LENGTHS = {
    **dict.fromkeys(("m", "metre", "meter"), 1.0),
    "cm": 0.01,
    "mm": 0.001,
    **dict.fromkeys(("in", "inch", "inches", '"', "\u2033"), INCH_IN_M),
}
_QUANTITY = re.compile(
    rf"{_ABOUT}({_NUMBER})(?:{_TO}({_NUMBER}))?\s*([^\s0-9]+?)\.?(?:\s*({_NUMBER})\s*(?:oz|ounces?))?"
)
_BAND = re.compile(rf"{_ABOUT}({_NUMBER})\s*\u00b0?\s*([fc])?(?:{_TO}({_NUMBER})\s*\u00b0?\s*([fc])?)?")
_TEMP = re.compile(rf"{_ABOUT}(-?[0-9]*(?:[.,][0-9]+|[0-9][.,]?))\s*\u00b0?\s*([fc])?")
_WRAPS = (
    (re.compile(r"(?:foil )?boat|foil boat|boat of foil"), Wrap.BOAT),
    (re.compile(r"(?:butcher'?s? |pink |peach )*paper"), Wrap.PAPER),
    (re.compile(r"(?:tin |aluminium |aluminum )?foil"), Wrap.FOIL),
    (re.compile(r"none|no|bare|naked|unwrapped|nothing"), Wrap.NONE),
)


def mass_kg(text: str) -> float | None:
    """Return a mass such as "6.2 kg", "13 lb 10 oz" or "6-6.5 kg" (its middle) [kg]."""
    return _quantity(text, _MASSES, LIGHTEST_KG, HEAVIEST_KG)


def thickness_m(text: str) -> float | None:
    """Return a thickness such as "7.5 cm", "3 in" or "75 mm" [m]."""
    return _quantity(text, _LENGTHS, THINNEST_M, THICKEST_M)


def pit_band_c(text: str, unit: str) -> tuple[float, float] | None:
    """Return the band of a pit such as "250 F", "250-275F" or "121 C" [°C]; `unit` is meant where none stands."""
    found = _BAND.fullmatch(text.strip().casefold())
    if found is None:
        return None
    low, low_unit, high, high_unit = found.groups()
    meant = low_unit or high_unit or unit
    low_c = _in_c(_number(low), meant)
    high_c = low_c if high is None else _in_c(_number(high), high_unit or meant)
    if not PIT_COLDEST_C <= min(low_c, high_c) <= max(low_c, high_c) <= PIT_HOTTEST_C:
        return None
    return min(low_c, high_c), max(low_c, high_c)


def temp_c(text: str, unit: str, highest_c: float) -> float | None:
    """Return a temperature that a probe may read, up to `highest_c` [°C]; `unit` is meant where none stands."""
    read = temp_read(text, unit)
    if read is None:
        return None
    value_c = _in_c(*read)
    return value_c if READ_LOWEST_C <= value_c <= highest_c else None


def temp_read(text: str, unit: str) -> tuple[float, str] | None:
    """Return the number and the unit ("F" or "C") that stand for a temperature, possible or not; None for others."""
    found = _TEMP.fullmatch(text.strip().casefold())
    return None if found is None else (_number(found[1]), (found[2] or unit).upper())


def wrap_of(text: str) -> Wrap | None:
    """Return the wrap that a text names, None when it is none of them."""
    plain = " ".join(text.casefold().split())
    return next((wrap for pattern, wrap in _WRAPS if pattern.fullmatch(plain)), None)


def _quantity(text: str, units: dict[str, float], least: float, most: float) -> float | None:
    found = _QUANTITY.fullmatch(" ".join(text.casefold().split()))
    if found is None or found[3] not in units:
        return None
    low, high, unit, ounces = found.groups()
    value = (_number(low) + _number(high or low)) / 2 * units[unit] + _number(ounces or "0") * _MASSES["oz"]
    if ounces and units.get(unit) != LB_IN_KG:
        return None
    return value if least <= value <= most else None


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _in_c(value: float, unit: str) -> float:
    return c_from_f(value) if unit.casefold() == "f" else value
