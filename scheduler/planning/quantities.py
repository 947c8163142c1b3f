"""How much to buy, to thaw, to salt, and how many it feeds: plain sums over the figures of a cut.

Pure, for one kind of meat at a time; it plans no times of a cook and makes no words. Charcoal is counted elsewhere.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import math

from scheduler.cuts import Cut, Spread
from scheduler.facts import Appetite

CHILD = 0.5
"""What a child eats of an adult's portion; common practice, no source."""
IN_BUNS = 0.6
"""What is eaten in buns of a portion on a plate; common practice, no source."""
THAW_KG_PER_DAY = (1.8, 2.3)
"""Mass that thaws in the fridge in 24 h, slow and quick [kg]: 4 to 5 lb, USDA FSIS (read in copies)."""
LEAST_THAW_DAYS = 0.5
"""Even a thin piece is put into the fridge the evening before; common practice, no source."""
THAW_EARLY = dt.timedelta(hours=12)
"""The thaw begins so much before it has to: fridges differ (common practice, no source)."""
COLD_WATER_MIN_PER_KG = 30.0 / 0.45359237
"""Thawing in cold water, changed every 30 min [min/kg]: 30 min for each pound, USDA FSIS (read in copies); then cooked
at once."""
SALT_PCT = (0.8, 1.0)
"""Usual salt of a dry brine, of the trimmed mass [%]; common practice, no source."""
SOLUTION = 0.5
"""Share of the salt when the label says that solution was added; common practice, no source."""
ROUNDED_UP_KG = 0.1
"""Mass to buy is rounded up to this [kg]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Guests:
    """Who eats, how much, and how it is served."""

    adults: int
    children: int = 0
    appetite: Appetite = Appetite.NORMAL
    buns: bool = False

    @property
    def portions(self) -> float:
        """Return how many adult portions they eat between them."""
        return (self.adults + CHILD * self.children) * (IN_BUNS if self.buns else 1.0)


@dataclasses.dataclass(frozen=True, kw_only=True)
class ToBuy:
    """What to buy: raw mass in all [kg], and about how many pieces of the usual size that is."""

    raw_kg: float
    pieces: int
    cooked_kg: float
    """What of it is expected on the plates [kg]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Salt:
    """Salt for a dry brine [g]: as the cut has it, and the usual band around."""

    grams: float
    low_g: float
    high_g: float


def to_buy(cut: Cut, guests: Guests, share: float = 1.0) -> ToBuy:
    """Return how much raw meat of a cut feeds these guests, as bought: before trimming, with its bones.

    `share` is what of the dinner it makes, beside other meat, 0 to 1. Pieces are counted in the usual size and rounded
    up; whoever buys other pieces goes by the mass.
    """
    raw_kg = rounded_up(_raw_g(cut, guests.appetite) / 1000.0 * guests.portions * share)
    pieces = math.ceil(round(raw_kg / cut.mass_kg.typical, 6)) if raw_kg else 0
    return ToBuy(raw_kg=raw_kg, pieces=pieces, cooked_kg=raw_kg * cut.edible_share.typical)


def feeds(cut: Cut, raw_kg: float, *, appetite: Appetite = Appetite.NORMAL, buns: bool = False) -> Spread:
    """Return how many adults a mass of raw meat as bought [kg] feeds: low, typical and high as its yield may turn out.

    "Feeds about 14" is the typical figure.
    """
    portion_kg = _raw_g(cut, appetite) / 1000.0 * (IN_BUNS if buns else 1.0)
    usual = raw_kg / portion_kg
    share = cut.edible_share
    return Spread(low=usual * share.low / share.typical, typical=usual, high=usual * share.high / share.typical)


def plate_g(cut: Cut, appetite: Appetite = Appetite.NORMAL) -> float:
    """Return the cooked meat on the plate of one adult [g]."""
    return _raw_g(cut, appetite) * cut.edible_share.typical


def trimmed_kg(cut: Cut, bought_kg: float) -> float:
    """Return what is left of a piece after trimming [kg]: hours and salt are for this mass.

    The cut states its hours for a trimmed piece of the usual size; where that is lighter than the piece as bought, the
    difference is the trim (whole brisket: a sixth).
    """
    return bought_kg * min(1.0, cut.duration_kg / cut.mass_kg.typical)


def salt_for(cut: Cut, trimmed_mass_kg: float, *, solution_added: bool = False) -> Salt:
    """Return the salt for a dry brine of meat of this trimmed mass [kg]: half when solution was added already.

    Nothing for what is seasoned inside (sausages).
    """
    if cut.salt_pct <= 0:
        return Salt(grams=0.0, low_g=0.0, high_g=0.0)
    per_pct_g = 10.0 * trimmed_mass_kg * (SOLUTION if solution_added else 1.0)
    low_pct, high_pct = min(SALT_PCT[0], cut.salt_pct), max(SALT_PCT[1], cut.salt_pct)
    return Salt(grams=per_pct_g * cut.salt_pct, low_g=per_pct_g * low_pct, high_g=per_pct_g * high_pct)


def thaw_days(cut: Cut, mass_kg: float) -> float:
    """Return the days in the fridge that a frozen piece of this mass takes [d], in half days, rounded up.

    The cut's own figure for its usual piece, in proportion to the mass, and never less than the published 24 h for 1.8
    kg. Never on the counter, and never smoked from frozen.
    """
    own = cut.thaw_days * mass_kg / cut.mass_kg.typical
    published = mass_kg / THAW_KG_PER_DAY[0]
    return max(LEAST_THAW_DAYS, math.ceil(2.0 * max(own, published) - 1e-9) / 2.0)


def cold_water_min(mass_kg: float) -> float:
    """Return the minutes that a piece takes in cold water [min], for the rescue of one that is still icy."""
    return COLD_WATER_MIN_PER_KG * mass_kg


def _raw_g(cut: Cut, appetite: Appetite) -> float:
    """Return the raw meat as bought for one adult [g]."""
    of = cut.raw_g_per_adult
    return {Appetite.LIGHT: of.low, Appetite.NORMAL: of.typical, Appetite.HEARTY: of.high}[appetite]


def rounded_up(kg: float) -> float:
    """Return a mass to buy, rounded up to what a butcher cuts [kg]."""
    return round(math.ceil(kg / ROUNDED_UP_KG - 1e-9) * ROUNDED_UP_KG, 1)
