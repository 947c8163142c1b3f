"""Published limits of food safety by edition, in the units of their publishers, each with its source.

Fahrenheit governs; a reading in Celsius is compared with the limit converted and rounded to 0.1. No data file and no
setting changes a figure here: a setting only says whose figure counts where publishers differ.
"""

from __future__ import annotations

import dataclasses
from typing import Literal

from scheduler.facts import Edition


@dataclasses.dataclass(frozen=True, kw_only=True)
class Figure:
    """One publisher's figure. `value` in `unit`: °F, minutes or days."""

    edition: Edition
    value: float
    unit: Literal["F", "min", "d"]
    source: str

    @property
    def c(self) -> float:
        """Return a temperature converted and rounded to 0.1 [°C]."""
        return round((self.value - 32.0) / 1.8, 1)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Limit:
    """One limit and its figures by edition; `stricter` says which of two figures asks for more."""

    id: str
    stricter: Literal["higher", "lower"]
    figures: tuple[Figure, ...]

    def under(self, edition: Edition) -> Figure:
        """Return the figure that counts: of the edition, of the only publisher, or the stricter one."""
        own = [figure for figure in self.figures if figure.edition is edition]
        choice = own or list(self.figures)
        return (max if self.stricter == "higher" else min)(choice, key=lambda figure: figure.value)


def _limit(name: str, stricter: Literal["higher", "lower"], *figures: Figure) -> Limit:
    return Limit(id=name, stricter=stricter, figures=figures)


def _consumer(value: float, unit: Literal["F", "min", "d"], source: str) -> Figure:
    return Figure(edition=Edition.CONSUMER, value=value, unit=unit, source=source)


def _code(value: float, unit: Literal["F", "min", "d"], source: str) -> Figure:
    return Figure(edition=Edition.FOOD_CODE, value=value, unit=unit, source=source)


HOT_HOLD = _limit(
    "hot_hold",
    "higher",
    _consumer(
        140, "F", "US Army TM 10-412 (2003) card 32; NY Sanitary Code 14-1.83; USDA FSIS consumer advice from memory"
    ),
    _code(135, "F", "FDA Food Code 3-501.16(A)(1)"),
)
OUT = _limit(
    "out",
    "lower",
    _consumer(120, "min", "USDA FSIS basics for handling food safely"),
    _code(240, "min", "FDA Food Code 3-501.19(B): time alone, from 57 C (135 F) or hotter"),
)
OUT_HOT = _limit("out_hot", "lower", _consumer(60, "min", "USDA FSIS basics for handling food safely: above 90 F"))
HOT_AIR = _limit("hot_air", "lower", _consumer(90, "F", "USDA FSIS basics for handling food safely"))
DANGER_HIGH = _limit("danger_high", "higher", _consumer(140, "F", "USDA FSIS Smoking Meat and Poultry"))
DANGER_LOW = _limit(
    "danger_low",
    "lower",
    _consumer(40, "F", "USDA FSIS Smoking Meat and Poultry"),
    _code(41, "F", "FDA Food Code 3-501.16(A)(2)"),
)
REHEAT = _limit(
    "reheat",
    "higher",
    _consumer(165, "F", "USDA FSIS Safe Minimum Internal Temperature Chart: leftovers"),
    _code(165, "F", "FDA Food Code 3-403.11(A)"),
)

LIMITS = (HOT_HOLD, OUT, OUT_HOT, HOT_AIR, DANGER_HIGH, DANGER_LOW, REHEAT)
"""Every limit; the register of rules and the docs name them by id."""
