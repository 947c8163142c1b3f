"""Published limits of food safety by edition, in the units of their publishers, each with its source.

Fahrenheit governs; a reading in Celsius is compared with the limit converted and rounded to 0.1. No data file and no
setting changes a figure here: a setting only says whose figure counts where publishers differ.
"""

from __future__ import annotations

import dataclasses
from typing import Literal

from scheduler.facts import Edition

_PUBLISHERS = ("USDA FSIS", "FDA Food Code", "US Army")


@dataclasses.dataclass(frozen=True, kw_only=True)
class Figure:
    """One publisher's figure. `value` in `unit`: °F, minutes or days; `source` begins with the publisher."""

    edition: Edition | None
    """The edition that it is of; None where there are none: it counts whichever was chosen."""
    value: float
    unit: Literal["F", "min", "d"]
    source: str
    whole: bool = False
    """True for air in a cooker, whose dials show whole degrees: compared with the limit rounded to 1 C."""

    @property
    def publisher(self) -> str:
        """Return who published it, short."""
        return next((name for name in _PUBLISHERS if self.source.startswith(name)), self.source)

    @property
    def c(self) -> float:
        """Return a temperature converted and rounded to 0.1, or to a whole degree [°C]."""
        return round((self.value - 32.0) / 1.8, 0 if self.whole else 1)


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


def _only(value: float, unit: Literal["F", "min", "d"], source: str) -> Figure:
    """Return the figure of the only publisher, of no edition."""
    return Figure(edition=None, value=value, unit=unit, source=source)


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
HOT_HOLD_ROAST = _limit(
    "hot_hold_roast", "higher", _code(130, "F", "FDA Food Code 3-501.16(A)(1): roasts cooked as 3-401.11(B) says")
)
OUT = _limit(
    "out",
    "lower",
    _consumer(120, "min", "USDA FSIS basics for handling food safely"),
    _code(240, "min", "FDA Food Code 3-501.19(B): time alone, for food that was 57 C (135 F) or hotter"),
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
PIT_COLD = Limit(
    id="pit_cold",
    stricter="higher",
    figures=(
        Figure(
            edition=Edition.CONSUMER,
            value=225,
            unit="F",
            whole=True,
            source="USDA FSIS Smoking Meat and Poultry: 225 to 300 F (225 F edition from memory, 250 F edition read)",
        ),
    ),
)
COME_UP_LOW = _limit("come_up_low", "lower", _only(50, "F", "USDA FSIS Appendix A (2021) p. 24"))
COME_UP_HIGH = _limit("come_up_high", "higher", _only(130, "F", "USDA FSIS Appendix A (2021) p. 24"))
COME_UP_TIME = _limit("come_up_time", "lower", _only(360, "min", "USDA FSIS Appendix A (2021) p. 24"))
REHEAT = _limit(
    "reheat",
    "higher",
    _consumer(165, "F", "USDA FSIS Safe Minimum Internal Temperature Chart: leftovers, from memory"),
    _code(165, "F", "FDA Food Code 3-403.11(A)"),
)
REHEAT_HOLD = _limit(
    "reheat_hold",
    "higher",
    _code(15 / 60, "min", "FDA Food Code 3-403.11(A): 15 seconds, no longer than a thermometer takes to settle"),
)

REHEAT_TIME = _limit("reheat_time", "lower", _code(120, "min", "FDA Food Code 3-403.11(D)"))
COOL_FROM = _limit("cool_from", "lower", _code(135, "F", "FDA Food Code 3-501.14(A): cooling is counted from 57 C"))
COOL_FIRST = _limit("cool_first", "lower", _code(70, "F", "FDA Food Code 3-501.14(A)(1)"))
COOL_FIRST_TIME = _limit("cool_first_time", "lower", _code(120, "min", "FDA Food Code 3-501.14(A)(1)"))
COOL_COLD = _limit("cool_cold", "lower", _code(41, "F", "FDA Food Code 3-501.14(A)(2)"))
COOL_TIME = _limit("cool_time", "lower", _code(360, "min", "FDA Food Code 3-501.14(A)(2)"))
FRIDGE_OVER = _limit(
    "fridge_over",
    "lower",
    _consumer(120, "min", "USDA FSIS, food safety during emergencies: over 40 F for more than 2 h, from memory"),
    _code(240, "min", "FDA Food Code 3-501.19(B): time alone"),
)
LEFTOVER_LIFE = _limit(
    "leftover_life", "lower", _only(4, "d", "USDA FSIS cold storage advice: leftovers 3 to 4 days, from memory")
)
LEFTOVER_SOON = _limit(
    "leftover_soon", "lower", _only(3, "d", "USDA FSIS cold storage advice: leftovers 3 to 4 days, from memory")
)
RAW_WHOLE = _limit(
    "raw_whole", "lower", _only(5, "d", "USDA FSIS cold storage advice: fresh roasts 3 to 5 days, from memory")
)
RAW_SHORT = _limit(
    "raw_short",
    "lower",
    _only(2, "d", "USDA FSIS cold storage advice: ground meat, sausage, poultry and fish 1 to 2 days, from memory"),
)

_CHART = "USDA FSIS Safe Minimum Internal Temperature Chart"

WHOLE = _limit(
    "whole",
    "higher",
    _consumer(145, "F", f"{_CHART}: beef, pork, lamb, veal steaks, chops, roasts"),
    _code(145, "F", "FDA Food Code 3-401.11(A)(1): intact meat"),
)
WHOLE_HOLD = _limit(
    "whole_hold",
    "higher",
    _consumer(3, "min", f"{_CHART}: rest 3 minutes"),
    _code(15 / 60, "min", "FDA Food Code 3-401.11(A)(1): 15 seconds"),
)
GROUND = _limit(
    "ground",
    "higher",
    _consumer(160, "F", f"{_CHART}: ground beef, pork, lamb, veal"),
    _code(155, "F", "FDA Food Code (2017 and later) 3-401.11(A)(2): comminuted meat"),
)
GROUND_HOLD = _limit(
    "ground_hold",
    "higher",
    _consumer(0, "min", f"{_CHART}: no rest asked for"),
    _code(17 / 60, "min", "FDA Food Code (2017 and later) 3-401.11(A)(2): 17 seconds; 15 in older codes"),
)
NOT_INTACT = _limit(
    "not_intact",
    "higher",
    _code(155, "F", "FDA Food Code (2017 and later) 3-401.11(A)(2): injected and mechanically tenderised meat"),
)
NOT_INTACT_HOLD = _limit(
    "not_intact_hold",
    "higher",
    _code(17 / 60, "min", "FDA Food Code (2017 and later) 3-401.11(A)(2): 17 seconds; 15 in older codes"),
)
POULTRY = _limit(
    "poultry",
    "higher",
    _consumer(165, "F", f"{_CHART}: all poultry"),
    _code(165, "F", "FDA Food Code 3-401.11(A)(3): poultry, stuffed meats, wild game"),
)
POULTRY_HOLD = _limit(
    "poultry_hold",
    "higher",
    _consumer(0, "min", f"{_CHART}: no rest asked for"),
    _code(0, "min", "FDA Food Code (2017 and later) 3-401.11(A)(3): less than a second; 15 s in older codes"),
)
STUFFED = _limit(
    "stuffed",
    "higher",
    _code(165, "F", "FDA Food Code 3-401.11(A)(3): stuffed meats, poultry, wild game"),
)
STUFFED_HOLD = _limit(
    "stuffed_hold",
    "higher",
    _code(0, "min", "FDA Food Code (2017 and later) 3-401.11(A)(3): less than a second; 15 s in older codes"),
)
FISH = _limit(
    "fish",
    "higher",
    _consumer(145, "F", f"{_CHART}: fish, from memory"),
    _code(145, "F", "FDA Food Code 3-401.11(A)(1): fish"),
)
FISH_HOLD = _limit(
    "fish_hold",
    "higher",
    _consumer(0, "min", f"{_CHART}: fish, no rest asked for, from memory"),
    _code(15 / 60, "min", "FDA Food Code 3-401.11(A)(1): 15 seconds"),
)

PAIRS = (
    (WHOLE, WHOLE_HOLD),
    (GROUND, GROUND_HOLD),
    (NOT_INTACT, NOT_INTACT_HOLD),
    (POULTRY, POULTRY_HOLD),
    (STUFFED, STUFFED_HOLD),
    (FISH, FISH_HOLD),
)
"""Least internal temperatures, each with how long it is held: of one publisher both count together."""

MINIMUMS = tuple(limit for pair in PAIRS for limit in pair)
"""The same, one by one."""

LIMITS = (
    HOT_HOLD,
    HOT_HOLD_ROAST,
    OUT,
    OUT_HOT,
    HOT_AIR,
    DANGER_HIGH,
    DANGER_LOW,
    PIT_COLD,
    COME_UP_LOW,
    COME_UP_HIGH,
    COME_UP_TIME,
    REHEAT,
    REHEAT_HOLD,
    REHEAT_TIME,
    COOL_FROM,
    COOL_FIRST,
    COOL_FIRST_TIME,
    COOL_COLD,
    COOL_TIME,
    FRIDGE_OVER,
    LEFTOVER_LIFE,
    LEFTOVER_SOON,
    RAW_WHOLE,
    RAW_SHORT,
    *MINIMUMS,
)
"""Every limit; the register of rules and the docs name them by id."""
