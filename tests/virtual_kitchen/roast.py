"""Heat and water in one piece, step by explicit step: conduction, expelled juice, drying skin, wraps.

The cooker and the people are elsewhere; here air, walls and wrap are given.

Water is a field of its own. Muscle that is warmer than its water-holding curve allows lets juice go; part drips, part
seeps outward and keeps the skin wet. The skin's water activity follows from what arrives and what the air takes; the
stall is nothing but that supply, and ends when it does.
"""

from __future__ import annotations

import dataclasses

import numpy as np

from tests.virtual_kitchen import materials
from tests.virtual_kitchen.materials import LATENT_HEAT, Field
from tests.virtual_kitchen.piece import Piece, Shape, build, masses

GAS_PER_PA = 1.0 / (materials.WATER_VAPOUR * 345.0)
"""Vapour density per pressure at film temperature [kg m⁻³ Pa⁻¹]."""
LEWIS = 0.87
AIR_HEAT = 1.02 * 1007.0
"""Density times heat capacity of air at film temperature [J m⁻³ K⁻¹]."""
BOILING_C = 99.8


@dataclasses.dataclass(frozen=True, kw_only=True)
class Nature:
    """What differs from one piece to the next."""

    seep: float
    """How fast free juice moves [m²/s]."""
    creep: float
    """How fast bound water moves at 60 °C [m²/s]."""
    lost: float
    """Share of expelled juice that runs off by its own channels."""
    letting_go_s: float
    """Time constant of the shrinking muscle."""
    wettable: float
    """Share of the skin that is not sealed by fat."""
    start_c: float
    half_water: float = 0.10
    water_power: float = 1.6


@dataclasses.dataclass(frozen=True, kw_only=True)
class Around:
    """What the piece sits in: air and walls [°C], vapour pressure [Pa], convection [W m⁻² K⁻¹], emissivity."""

    air_c: float
    wall_c: float
    ember_c: float
    """What the underside looks at."""
    vapour_pa: float
    convection: float
    emissivity: float = 0.92


@dataclasses.dataclass(frozen=True, kw_only=True)
class Cover:
    """A wrap: which skin it covers, how little vapour passes, how heat gets through."""

    over: str
    """`all`, `below` (underside and sides) or `nothing`."""
    leak: float
    """Share of bare vapour transport that still passes."""
    emissivity: float
    gap: float
    """Heat through the humid gap [W m⁻² K⁻¹]."""
    shelter: float = 1.0
    """Share of bare vapour transport that is left to skin that is open but stands in damp air between foil walls."""


class Roast:
    """A piece on the fire. `run` moves it on; `temp_c` is its field of temperatures."""

    def __init__(self, shape: Shape, nature: Nature) -> None:
        self.piece: Piece = build(shape)
        self._nature = nature
        self.bound, self._solid, self._fat = masses(self.piece, shape)
        self.free = np.zeros_like(self.bound)
        self._raw = self.bound.copy()
        self._raw_total = float((self.bound + self._solid + self._fat).sum())
        self._bone = self.piece.bone * self.piece.volume * materials.BONE_DENSITY
        self.mass_raw = self._raw_total + float(self._bone.sum())
        self.temp_c = np.full(self.bound.shape, float(nature.start_c))
        self._present = (self.piece.meat + self.piece.bone) > 0
        self._meat = self.piece.meat > 0
        self._skin_meat = self.piece.meat[self.piece.skin]
        self._skin_c = np.full(len(self.piece.area), nature.start_c + 1.0)
        self._activity = np.full(len(self.piece.area), 0.9)
        self.evaporated = 0.0
        self.dripped = 0.0
        self._wetted = np.zeros(len(self.piece.area))
        self._refresh()

    def _refresh(self) -> None:
        """Properties change slowly: take them anew."""
        water = self.bound + self.free
        solid, fat = self._solid + 1e-12, self._fat
        capacity = materials.heat_capacity(self.temp_c, water, solid, fat)
        capacity = capacity + self._bone * materials.BONE_HEAT
        self._capacity = np.where(self._present, capacity, 1.0)
        conductivity = materials.conductivity(self.temp_c, water + 1e-12, solid, fat)
        self._conductivity = np.where(self._meat, conductivity, materials.BONE_CONDUCTIVITY)
        lean_volume = self._raw / materials.WATER_DENSITY + self._solid / materials.SOLID_DENSITY
        self._solid_density = np.where(self._meat, self._solid / np.maximum(self.piece.volume, lean_volume), 0.0)
        mass_now = float((water + self._solid + self._fat).sum())
        self._scale = ((mass_now + self._bone.sum()) / self.mass_raw) ** (1 / 3)
        k = self._conductivity
        means = ((k[1:] + k[:-1]) / 2, (k[:, 1:] + k[:, :-1]) / 2, (k[:, :, 1:] + k[:, :, :-1]) / 2)
        self._heat_links = [link * mean * self._scale for link, mean in zip(self.piece.links, means, strict=True)]
        total = np.zeros_like(k)
        for axis, link in enumerate(self._heat_links):
            total[_lower(axis)] += link
            total[_upper(axis)] += link
        self._skin_link = k[self.piece.skin] * self.piece.area / self.piece.depth * self._scale
        total[self.piece.skin] += self._skin_link
        self._longest_s = float(np.min(np.where(self._present, 0.8 * self._capacity / (total + 1e-12), 1e9)))
        warm = np.exp(0.025 * (self.temp_c - 60.0))
        seep = self._nature.seep * self._solid_density * self._scale
        # Juice follows the fibres (x) about twice as easily as it crosses them.
        self._seep_links = [
            link * ease * (seep[_lower(axis)] + seep[_upper(axis)]) / 2
            for axis, (link, ease) in enumerate(zip(self.piece.meat_links, (1.6, 0.8, 0.8), strict=True))
        ]
        creep = self._nature.creep * warm * self._solid_density * self._scale
        self._creep_links = [
            link * (creep[_lower(axis)] + creep[_upper(axis)]) / 2 for axis, link in enumerate(self.piece.meat_links)
        ]
        self._creep = creep

    @property
    def core_c(self) -> float:
        """The coldest meat well inside [°C]."""
        return float(self.temp_c[self.piece.inner].min())

    @property
    def evaporated_share(self) -> float:
        """Water gone as vapour, per raw mass with bone."""
        return self.evaporated / self.mass_raw

    def wet(self, kg_per_m2: float) -> None:
        """A spritz: a film that evaporates before anything else does."""
        self._wetted += kg_per_m2

    def run(self, seconds: float, around: Around, cover: Cover) -> None:
        """Move on by so many seconds in unchanging surroundings."""
        left = seconds
        self._refresh()
        while left > 1e-6:
            step = min(self._longest_s, left, 30.0)
            self._step(step, around, cover)
            left -= step

    def _step(self, step: float, around: Around, cover: Cover) -> None:
        skin = self.piece.skin
        heat = np.zeros_like(self.temp_c)
        _exchange(heat, self._heat_links, self.temp_c)
        inflow, vapour = self._surface(step, around, cover)
        heat[skin] += inflow
        self.temp_c = self.temp_c + step * heat / self._capacity
        self._move_water(step, vapour)
        self._boil()

    def _surface(self, step: float, around: Around, cover: Cover) -> tuple[Field, Field]:
        """Return heat into surface cells [W] and vapour leaving them [kg/s]; keeps skin temperature and activity."""
        piece, nature = self.piece, self._nature
        if cover.over == "all":
            covered = np.ones(len(piece.area))
        elif cover.over == "below":
            covered = (piece.upward < 0.5).astype(float)
        else:
            covered = np.zeros(len(piece.area))
        convection = around.convection * (1 - covered) + covered / (1 / around.convection + 1 / cover.gap)
        emissivity = around.emissivity * (1 - covered) + cover.emissivity * covered
        transfer = around.convection / (AIR_HEAT * LEWIS ** (2 / 3)) * GAS_PER_PA
        transfer = transfer * ((1 - covered) * cover.shelter + covered * cover.leak) * nature.wettable * self._skin_meat
        below = np.clip(-piece.upward, 0.0, 1.0)
        seen_k = 273.15 + around.wall_c + below * (around.ember_c - around.wall_c)
        skin_c, area = self._skin_c, piece.area * self._scale**2
        # One Newton step for the activity at which arriving water and taken water balance.
        pressure = materials.saturation_pa(skin_c)
        solid = self._solid[piece.skin] + 1e-12
        free, bound = self.free[piece.skin] / solid, self.bound[piece.skin] / solid
        holds = free + bound + 1e-9
        density = self._solid_density[piece.skin]
        supply = (nature.seep * density * free + self._creep[piece.skin] * bound) / piece.depth + 1e-12
        wetted = self._wetted > 0
        activity = self._activity
        at_skin = materials.water_at_activity(activity, nature.half_water, nature.water_power)
        off = supply * (1 - at_skin / holds) - transfer * (activity * pressure - around.vapour_pa)
        slope = -supply / holds * at_skin / (nature.water_power * activity * (1 - activity)) - transfer * pressure
        activity = np.clip(activity - np.clip(off / slope, -0.05, 0.05), 1e-4, 0.995)
        self._activity = activity
        effective = np.where(wetted, 0.98, activity)
        # One Newton step for the skin temperature.
        skin_k = skin_c + 273.15
        flux = transfer * (effective * pressure - around.vapour_pa)
        flux = np.minimum(flux, np.where(wetted, flux, supply))
        conduct = self._skin_link / area
        gained = (
            convection * (around.air_c - skin_c)
            + emissivity * materials.STEFAN_BOLTZMANN * (seen_k**4 - skin_k**4)
            - LATENT_HEAT * flux
            - conduct * (skin_c - self.temp_c[piece.skin])
        )
        steep = (
            convection
            + emissivity * materials.STEFAN_BOLTZMANN * 4 * skin_k**3
            + LATENT_HEAT * transfer * effective * materials.saturation_slope(skin_c, pressure)
            + conduct
        )
        change = np.clip(gained / steep, -3.0, 3.0)
        self._skin_c = skin_c + change
        vapour = flux * area
        if wetted.any():
            taken = np.minimum(self._wetted, np.where(wetted, np.maximum(flux, 0.0) * step, 0.0))
            self._wetted = self._wetted - taken
            vapour = np.where(wetted, 0.0, vapour)
        return self._skin_link * (self._skin_c - self.temp_c[piece.skin]), vapour

    def _move_water(self, step: float, vapour: Field) -> None:
        piece, nature = self.piece, self._nature
        solid = self._solid + 1e-12
        may_hold = self._raw * materials.held_water(self.temp_c)
        loose = np.maximum(self.bound - may_hold, 0.0) * min(1.0, step / nature.letting_go_s)
        self.bound = self.bound - loose
        gone = loose * nature.lost
        moved = np.zeros_like(self.free)
        _exchange(moved, self._seep_links, self.free / solid)
        crept = np.zeros_like(self.free)
        _exchange(crept, self._creep_links, self.bound / solid)
        self.free = np.maximum(self.free + loose - gone + step * moved, 0.0)
        self.bound = np.maximum(self.bound + step * crept, 0.0)
        # Free juice at the skin drips where the skin looks down or sideways.
        drip = self.free[piece.skin] * np.clip(0.6 - piece.upward, 0.0, 1.0) * min(1.0, step / 5400.0)
        self.free[piece.skin] -= drip
        self.dripped += float(gone.sum() + drip.sum())
        leaving = vapour * step
        from_free = np.minimum(leaving, self.free[piece.skin])
        from_bound = np.minimum(leaving - from_free, self.bound[piece.skin])
        self.free[piece.skin] -= from_free
        self.bound[piece.skin] -= from_bound
        self.evaporated += float(from_free.sum() + from_bound.sum())

    def _boil(self) -> None:
        """Wet meat does not pass boiling: what is too much turns water to steam."""
        if float(self.temp_c.max()) <= BOILING_C:
            return
        water = self.bound + self.free
        hot = (self.temp_c > BOILING_C) & (water > 0.25 * self._solid) & self._meat
        if not hot.any():
            return
        steam = np.where(hot, (self.temp_c - BOILING_C) * self._capacity / LATENT_HEAT, 0.0)
        steam = np.minimum(steam, 0.5 * water)
        self.temp_c = self.temp_c - steam * LATENT_HEAT / self._capacity
        share = np.where(water > 0, self.free / np.maximum(water, 1e-15), 0.0)
        self.free = self.free - steam * share
        self.bound = self.bound - steam * (1 - share)
        self.evaporated += float(steam.sum())


def _lower(axis: int) -> tuple[slice, ...]:
    return tuple(slice(None, -1) if axis == one else slice(None) for one in range(3))


def _upper(axis: int) -> tuple[slice, ...]:
    return tuple(slice(1, None) if axis == one else slice(None) for one in range(3))


LOWER = tuple(_lower(axis) for axis in range(3))
UPPER = tuple(_upper(axis) for axis in range(3))


def _exchange(into: Field, links: list[Field], level: Field) -> None:
    """Add to `into` what flows between neighbours from higher `level` to lower."""
    for axis in range(3):
        flow = links[axis] * (level[UPPER[axis]] - level[LOWER[axis]])
        into[LOWER[axis]] += flow
        into[UPPER[axis]] -= flow
