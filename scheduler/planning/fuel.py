"""Charcoal from an energy balance: per hour, for a whole cook, and the wood for the smoke.

Pure. What is left in a fire that burns is computed in `scheduler.planning.embers`; no step is scheduled here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import math
from collections.abc import Callable
from statistics import median

from scheduler.cookers import Cooker, Cookers, Fuel, FuelName
from scheduler.cuts import Cut, Spread
from scheduler.facts import CookerTold
from scheduler.forecast import Air, Wind
from scheduler.planning.asking import Window
from scheduler.thermal import air as air_words

BUY = 1.5
"""Charcoal to have in the house over the estimate; common practice, no source."""

LIGHT_LEAD = dt.timedelta(minutes=60)
"""From lighting to meat on in a cooker that nobody has told of; common practice, no source."""

MILD_C = 15.0
"""Air outside when nobody said [°C]: an assumption."""
_OUTSIDE_SPREAD_C = 8.0
UNKNOWN_AIR = Air()

_AIR_PER_CARBON = 11.5
"""Air that a kilogram of carbon burns with [kg]: 32/12 of oxygen, 23.2 % of air by mass (COMPUTED)."""
_GAS_KJ_PER_KG_K = 1.05
"""Heat capacity of flue gas near 100 °C, textbook value of air with some carbon dioxide, from memory."""
_UNBURNT = Spread(low=0.04, typical=0.08, high=0.15)
"""Heat lost as carbon monoxide and as char in the ash, as a share: own estimate, no source."""
_MEAT_KJ_PER_KG_K = 3.4
"""Heat capacity of lean raw meat, textbook value, from memory."""
_MEAT_WARMS_K = 85.0
_STEAM_KJ_PER_KG = 2330.0
"""Heat of evaporation of water near 70 °C, steam tables, from memory."""
_EVAPORATED = 0.75
"""Share of what the meat loses that goes as steam, the rest drips: own estimate, no source."""
_PAN_KG_PER_H = 0.3
"""Water that an open pan loses an hour at a slow pit: own estimate, no source."""
_OPEN_WHILE_RISING = 1.5
"""While it comes up with open vents a fire draws so many times its usual air: own estimate, no source."""
_OPEN_LID_SHARE = 0.06
"""Heat through open lids over a cook, as a share of that through the shell: own estimate, about one opening an hour."""
_LEAST_USED = 0.12
"""However open, so much of the heat stays in the cooker: keeps the balance finite."""
MEASURED_SPREAD = 0.15
"""Doubt of a rate that the owner has measured, as a share: house rule."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Setting:
    """What the fire is up against: pit [°C], air outside, rain, meat [kg] with what it keeps, hours it is on."""

    pit_c: float
    air: Air = UNKNOWN_AIR
    rain: bool = False
    meat_kg: float = 0.0
    cooked_share: float = 0.65
    hours: float = 10.0
    water_pan: bool = False


@dataclasses.dataclass(frozen=True, kw_only=True)
class Burning:
    """What a fire takes: to come up [kg] and then an hour [kg/h], low, typical and high; and what kind of charcoal."""

    start_kg: Spread
    kg_per_h: Spread
    fuel: FuelName


@dataclasses.dataclass(frozen=True, kw_only=True)
class FuelNeed:
    """Charcoal for a whole cook [kg]: what it takes, what to buy, what one filling holds."""

    kg: Spread
    buy_kg: float
    kg_per_h: Spread
    holds_kg: Spread
    fuel: FuelName | None
    """None when neither the cooker nor the charcoal is known."""

    @property
    def refuels(self) -> int:
        """Return how often charcoal is likely added after the first filling."""
        return max(0, math.ceil(self.kg.typical / self.holds_kg.typical - 0.1) - 1)


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Figures:
    """One value of everything that the balance depends on."""

    walls_w_per_k: float
    walls_kj_per_k: float
    air_ratio: float
    mj_per_kg: float
    carbon: float
    unburnt: float
    outside_c: float


def light_lead(cooker: CookerTold | None) -> dt.timedelta:
    """Return the span from lighting to a pit that is ready for the meat."""
    if cooker is None or cooker.light_min is None:
        return LIGHT_LEAD
    return dt.timedelta(minutes=cooker.light_min)


def burning(told: CookerTold, setting: Setting, cookers: Cookers) -> Burning:
    """Return what the fire of this cooker takes in this setting.

    Notes
    -----
    Heat through the shell (factors for wind and rain), into meat, steam and the water pan, and up with the gas, over
    the heating value. Low and high come from each figure at its low and high by itself, added in quadrature of their
    logarithms. A rate that the owner measured replaces the typical one, carried from its pit to this one by the
    balance.
    """
    cooker = cookers.get(told.cooker)
    name: FuelName = told.fuel or cooker.fuel
    fuel = cookers.fuels[name]
    setting = dataclasses.replace(setting, water_pan=setting.water_pan or told.water_pan)
    per_hour = _spread(lambda figures: _kg_per_h(figures, setting, cooker), cooker, fuel, setting)
    start = _spread(lambda figures: _start_kg(figures, setting, cooker), cooker, fuel, setting)
    if told.fuel_kg_per_h is not None:
        usual = Setting(pit_c=setting.pit_c if told.fuel_at_c is None else told.fuel_at_c, meat_kg=4.0)
        usual = dataclasses.replace(usual, water_pan=told.water_pan)
        middle = _figures(cooker, fuel, usual)
        there = _kg_per_h(middle, usual, cooker)
        here = told.fuel_kg_per_h * per_hour.typical / there
        factor = math.exp(1.28 * MEASURED_SPREAD)
        per_hour = Spread(low=here / factor, typical=here, high=here * factor)
    return Burning(start_kg=start, kg_per_h=per_hour, fuel=name)


def need(told: CookerTold | None, setting: Setting, on_fire: Window, on_at: dt.datetime, cookers: Cookers) -> FuelNeed:
    """Return the charcoal for a cook that is on the fire from `on_at` until `on_fire` (the window of the pull).

    Without a cooker the kinds are spread over: typical the middle one, low and high the ends of all.
    """
    if told is None:
        each = [need(cookers.of_kind(cooker.id), setting, on_fire, on_at, cookers) for cooker in cookers.cookers]
        return FuelNeed(
            kg=_over([one.kg for one in each]),
            buy_kg=BUY * median(one.kg.typical for one in each),
            kg_per_h=_over([one.kg_per_h for one in each]),
            holds_kg=_over([one.holds_kg for one in each]),
            fuel=None,
        )
    fire = burning(told, setting, cookers)
    hours = [_hours(at, on_at, setting.hours) for at in (on_fire.early, on_fire.likely, on_fire.late)]
    typical = fire.start_kg.typical + fire.kg_per_h.typical * hours[1]
    down = math.hypot(fire.kg_per_h.typical - fire.kg_per_h.low, fire.kg_per_h.typical * (1 - hours[0] / hours[1]))
    up = math.hypot(fire.kg_per_h.high - fire.kg_per_h.typical, fire.kg_per_h.typical * (hours[2] / hours[1] - 1))
    kg = Spread(
        low=max(0.4 * typical, typical - hours[1] * down - (fire.start_kg.typical - fire.start_kg.low)),
        typical=typical,
        high=typical + hours[1] * up + (fire.start_kg.high - fire.start_kg.typical),
    )
    return FuelNeed(kg=kg, buy_kg=BUY * typical, kg_per_h=fire.kg_per_h, holds_kg=holds(told, cookers), fuel=fire.fuel)


def holds(told: CookerTold, cookers: Cookers) -> Spread:
    """Return what one filling holds [kg]: as the card says, else as usual for the kind."""
    if told.fuel_holds_kg is None:
        return cookers.get(told.cooker).holds_kg
    return Spread(low=0.9 * told.fuel_holds_kg, typical=told.fuel_holds_kg, high=1.1 * told.fuel_holds_kg)


def wood_pieces(cut: Cut, told: CookerTold | None) -> tuple[int, int]:
    """Return how many fist-sized pieces of wood a cook wants, from and to: two with the meat, then one or so an hour.

    The hours are the cut's own; in a firebox wood burns in an open fire, twice as fast. Common practice, no source.
    """
    hours = cut.wood_until_h
    low, high = 2 + math.ceil(0.5 * hours), 2 + math.ceil(hours)
    twice = told is not None and told.wood_by == "firebox"
    return (2 * low, 2 * high) if twice else (low, high)


def _kg_per_h(figures: _Figures, setting: Setting, cooker: Cooker) -> float:
    above_k = setting.pit_c - figures.outside_c
    shell_w = _shell_w(figures, setting, cooker)
    meat_kj = setting.meat_kg * (
        _MEAT_KJ_PER_KG_K * _MEAT_WARMS_K + (1.0 - setting.cooked_share) * _EVAPORATED * _STEAM_KJ_PER_KG
    )
    meat_w = meat_kj / 3.6 / max(setting.hours, 1.0)
    pan_w = _PAN_KG_PER_H * _STEAM_KJ_PER_KG / 3.6 if setting.water_pan else 0.0
    heat_w = shell_w * (1.0 + _OPEN_LID_SHARE) + meat_w + pan_w
    return heat_w * 3.6e-3 / (figures.mj_per_kg * _used(figures, above_k, figures.air_ratio))


def _start_kg(figures: _Figures, setting: Setting, cooker: Cooker) -> float:
    """Return the charcoal from lighting to meat on: warming the walls, and half of the loss through them meanwhile."""
    above_k = setting.pit_c - figures.outside_c
    lead_h = cooker.light_min.typical / 60.0
    warming_kj = figures.walls_kj_per_k * above_k + 0.5 * _shell_w(figures, setting, cooker) * lead_h * 3.6
    used = _used(figures, above_k, _OPEN_WHILE_RISING * figures.air_ratio)
    return warming_kj / 1000.0 / (figures.mj_per_kg * used)


def _shell_w(figures: _Figures, setting: Setting, cooker: Cooker) -> float:
    windy = cooker.wind if setting.air.wind is Wind.WINDY else 1.0
    wet = cooker.rain if setting.rain else 1.0
    return figures.walls_w_per_k * windy * wet * max(setting.pit_c - figures.outside_c, 1.0)


def _used(figures: _Figures, above_k: float, air_ratio: float) -> float:
    """Return the share of the heating value that stays in the cooker: the rest leaves unburnt or with the hot gas."""
    gas_kg = 1.0 + air_ratio * _AIR_PER_CARBON * figures.carbon
    flue = gas_kg * _GAS_KJ_PER_KG_K * above_k / 1000.0 / figures.mj_per_kg
    return max(_LEAST_USED, 1.0 - figures.unburnt - flue)


def _figures(cooker: Cooker, fuel: Fuel, setting: Setting) -> _Figures:
    told_c = air_words.temp_c(setting.air.temp)
    return _Figures(
        walls_w_per_k=cooker.walls_w_per_k.typical,
        walls_kj_per_k=cooker.walls_kj_per_k.typical,
        air_ratio=cooker.air_ratio.typical,
        mj_per_kg=fuel.mj_per_kg.typical,
        carbon=fuel.carbon.typical,
        unburnt=_UNBURNT.typical,
        outside_c=MILD_C if told_c is None else told_c,
    )


def _spread(of: Callable[[_Figures], float], cooker: Cooker, fuel: Fuel, setting: Setting) -> Spread:
    """Return low, typical and high of a figure of the balance, each cause by itself, added in quadrature."""
    middle = _figures(cooker, fuel, setting)
    typical = of(middle)
    # Heating value and carbon go together: poor charcoal is low in both.
    causes: list[tuple[dict[str, float], dict[str, float]]] = [
        ({"walls_w_per_k": cooker.walls_w_per_k.low}, {"walls_w_per_k": cooker.walls_w_per_k.high}),
        ({"walls_kj_per_k": cooker.walls_kj_per_k.low}, {"walls_kj_per_k": cooker.walls_kj_per_k.high}),
        ({"air_ratio": cooker.air_ratio.low}, {"air_ratio": cooker.air_ratio.high}),
        ({"unburnt": _UNBURNT.low}, {"unburnt": _UNBURNT.high}),
        (
            {"mj_per_kg": fuel.mj_per_kg.high, "carbon": fuel.carbon.high},
            {"mj_per_kg": fuel.mj_per_kg.low, "carbon": fuel.carbon.low},
        ),
    ]
    if setting.air.temp is None:
        outside_c = middle.outside_c
        causes.append(({"outside_c": outside_c + _OUTSIDE_SPREAD_C}, {"outside_c": outside_c - _OUTSIDE_SPREAD_C}))
    down = math.hypot(*(math.log(of(dataclasses.replace(middle, **less)) / typical) for less, _ in causes))
    up = math.hypot(*(math.log(of(dataclasses.replace(middle, **more)) / typical) for _, more in causes))
    return Spread(low=typical * math.exp(-down), typical=typical, high=typical * math.exp(up))


def _over(spreads: list[Spread]) -> Spread:
    return Spread(
        low=min(one.low for one in spreads),
        typical=median(one.typical for one in spreads),
        high=max(one.high for one in spreads),
    )


def _hours(at: dt.datetime | None, on_at: dt.datetime, usual: float) -> float:
    return 1.5 * usual if at is None else max(0.5, (at - on_at) / dt.timedelta(hours=1))
