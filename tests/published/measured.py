"""The measured cooks with ten or more points, each with the inputs a person would have typed.

Nothing here is fitted to the series: durations come from published charts, thicknesses are guesses and say so.
"""

from __future__ import annotations

import csv
import dataclasses
import datetime as dt
from pathlib import Path
from typing import Literal

import numpy as np

from scheduler.cuts import Composition, Cut, Spread
from scheduler.facts import Wrap
from scheduler.forecast import Observation, PitEvent, Question, WrapEvent, forecast
from tests.catalogue import CUTS

ON_AT = dt.datetime(2020, 1, 1, 8, tzinfo=dt.UTC)
SERIES = Path(__file__).parents[1] / "data" / "time_temperature_series.csv"
STAGES = (0.25, 0.5, 0.75)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Cook:
    """A measured cook: oven [(minute, °C)], covers [(minute, wrap)] and readings [(minute, °C)]."""

    name: str
    cut: Cut
    mass_kg: float
    oven: tuple[tuple[float, float], ...]
    covers: tuple[tuple[float, Wrap], ...]
    points: tuple[tuple[float, float], ...]


@dataclasses.dataclass(frozen=True, kw_only=True)
class Outcome:
    """Forecast and rival at one stage, minutes: signed errors and the time that was left."""

    error_min: float
    line_error_min: float
    left_min: float
    inside_80: bool


def _spread(middle: float, share: float) -> Spread:
    return Spread(low=middle * (1 - share), typical=middle, high=middle * (1 + share))


def _roast(  # one argument per stated input
    name: str,
    shape: Literal["slab", "cylinder", "sphere"],
    *,
    mass_kg: float,
    thickness_m: float,
    oven_c: float,
    hours: tuple[float, float, float],
    target_c: float,
    composition: Composition,
    composition_source: str,
    species: Literal["beef", "poultry"] = "beef",
) -> Cut:
    """Return a cut outside the catalogue: no stall, no wrap of its own, a duration from a chart.

    What is not stated here is that of a rib roast of the catalogue, and no forecast depends on it.
    """
    return CUTS.get("prime_rib").model_copy(
        update={
            "id": name, "name": name, "also_called": (), "species": species, "safety_class": "none", "shape": shape,
            "mass_kg": _spread(mass_kg, 0.2), "thickness_m": _spread(thickness_m, 0.2), "pit_c": _spread(oven_c, 0.05),
            "start_testing_c": target_c - 3, "target_c": _spread(target_c, 0.02), "duration_pit_c": oven_c,
            "duration_kg": mass_kg, "duration_h": Spread(low=hours[0], typical=hours[1], high=hours[2]),
            "bark_look_c": 95.0, "wrap_until_c": 96.0, "first_look_h": 1.0, "rest_min_min": 10.0,
            "rest_ideal_min": (10.0, 20.0), "rest_max_unheated_min": 30.0, "vent_min": 0.0, "slice_min": 5.0,
            "cooked_share": _spread(0.85, 0.05), "composition": composition, "composition_source": composition_source,
            "basis": "inputs of a test, as stated beside it",
        }
    )  # fmt: skip


RIB_ROAST = _roast(
    # Chart: standing ribs 6 to 8 lb, 149 C, to 60 C, 18 to 20 min/lb (National Live Stock and Meat Board, read), and
    # 15 to 20 % to either side, usual for such charts. Thickness 13 cm: an assumption, size not given.
    "rib roast", "cylinder", mass_kg=3.18, thickness_m=0.13, oven_c=149, hours=(1.88, 2.22, 2.66), target_c=60,
    composition=Composition(water=0.5524, protein=0.1653, fat=0.2610, ash=0.0078),
    composition_source="USDA SR NDB 13824 BEEF,RIB,WHL (RIBS 6-12),LN&FAT,1/8 in FAT,ALL GRDS,RAW (READ)",
)  # fmt: skip
TURKEY = _roast(
    # Chart: unstuffed, 12 to 14 lb 3 to 3.75 h, 14 to 18 lb 3.75 to 4.25 h, at 163 C to 73.9 C (USDA, read as a copy).
    # Thickness 15 cm through the breast: an assumption.
    "turkey", "sphere", mass_kg=6.35, thickness_m=0.15, oven_c=163, hours=(3.0, 3.5, 4.25), target_c=73.9,
    species="poultry", composition=Composition(water=0.7269, protein=0.2164, fat=0.0564, ash=0.0098),
    composition_source="USDA SR NDB 05165 TURKEY,WHL,MEAT & SKN,RAW (READ)",
)  # fmt: skip
BEEF_PIECE = _roast(
    # Measured 9.3 x 5.0 x 2.6 cm (read). No chart for so small a piece: 10 to 20 min to 65 C is a cook's guess.
    "beef piece", "slab", mass_kg=0.143, thickness_m=0.026, oven_c=175, hours=(0.167, 0.233, 0.333), target_c=65,
    composition=Composition(water=0.7029, protein=0.2072, fat=0.0737, ash=0.0102),
    composition_source="nearest: USDA SR NDB 13023 BEEF,BRISKET,WHL,LN,ALL GRDS,RAW (READ): lean beef",
)  # fmt: skip

_KNOWN = {
    "prime_rib_93C_2019": (RIB_ROAST, 3.0, ((0.0, 93.3),), ()),
    "turkey_breast_2015": (TURKEY, 6.35, ((0.0, 260.0), (30.0, 176.7)), ((30.0, Wrap.FOIL),)),
    "turkey_breast_2016": (TURKEY, 6.35, ((0.0, 260.0), (30.0, 176.7)), ((30.0, Wrap.FOIL),)),
    "beef_A_175C": (BEEF_PIECE, 0.143, ((0.0, 175.0),), ()),
}


def cooks() -> tuple[Cook, ...]:
    """Return the four measured series of ten or more points."""
    points: dict[str, list[tuple[float, float]]] = {}
    with SERIES.open() as lines:
        for row in csv.DictReader(line for line in lines if not line.startswith("#")):
            points.setdefault(row["series_id"], []).append((float(row["minutes"]), float(row["temp_C"])))
    assert {name for name, found in points.items() if len(found) >= 10} == set(_KNOWN)
    return tuple(
        Cook(name=name, cut=cut, mass_kg=mass_kg, oven=oven, covers=covers, points=tuple(points[name]))
        for name, (cut, mass_kg, oven, covers) in _KNOWN.items()
    )


def after(minutes: float) -> dt.datetime:
    """Return the instant so many minutes after meat on."""
    return ON_AT + dt.timedelta(minutes=minutes)


def outcome(cook: Cook, stage: float, named: str = "measured") -> Outcome:
    """Return how forecast and straight line do when `stage` of the rise is first reached, from the readings so far."""
    (_, first_c), (end_min, top_c) = cook.points[0], cook.points[-1]
    count = 1 + next(i for i, (_, c) in enumerate(cook.points) if c >= first_c + stage * (top_c - first_c))
    so_far = cook.points[:count]
    now_min = so_far[-1][0]
    asked = Question(
        cook=named, piece=cook.name, cut=cook.cut, mass_kg=cook.mass_kg, thickness_m=None, on_at=ON_AT,
        pit=tuple(PitEvent(at=after(minute), low_c=temp_c, high_c=temp_c) for minute, temp_c in cook.oven),
        readings=tuple(Observation(at=after(minute), value_c=temp_c) for minute, temp_c in so_far),
        wraps=tuple(WrapEvent(at=after(minute), wrap=wrap) for minute, wrap in cook.covers if minute <= now_min),
        wrap_plan=Wrap.NONE,
    )  # fmt: skip
    crossing = forecast(asked).crossing(top_c)
    low, middle, high = (crossing.quantile(p) for p in (0.1, 0.5, 0.9))
    assert low is not None
    assert middle is not None
    assert high is not None
    last = np.array(so_far[-3:])
    slope, level = np.polyfit(last[:, 0], last[:, 1], 1)
    return Outcome(
        error_min=(middle - ON_AT).total_seconds() / 60 - end_min,
        line_error_min=float((top_c - level) / slope - end_min),
        left_min=end_min - now_min,
        inside_80=low <= after(end_min) <= high,
    )
