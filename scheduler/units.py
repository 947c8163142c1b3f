"""Conversions between the units people type and the SI units used inside.

Nothing here rounds: published Fahrenheit limits are compared unrounded, and only wording rounds for the eye.
"""

from __future__ import annotations

LB_IN_KG = 0.45359237
"""One avoirdupois pound [kg], exact by definition (international yard and pound agreement, 1959)."""

INCH_IN_M = 0.0254
"""One inch [m], exact by definition (same agreement)."""


def c_from_f(temp_f: float) -> float:
    """Return degrees Celsius for degrees Fahrenheit [°F]."""
    return (temp_f - 32.0) / 1.8


def f_from_c(temp_c: float) -> float:
    """Return degrees Fahrenheit for degrees Celsius [°C]."""
    return temp_c * 1.8 + 32.0


def c_step_from_f(step_f: float) -> float:
    """Return a temperature difference in kelvin for a difference in degrees Fahrenheit."""
    return step_f / 1.8


def kg_from_lb(mass_lb: float) -> float:
    """Return kilograms for pounds."""
    return mass_lb * LB_IN_KG
