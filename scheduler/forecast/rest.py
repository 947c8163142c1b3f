"""The members of a resting piece and what they say together; figures of boxes, towels and fridges with their basis.

The physics is `scheduler.thermal.resting`; nothing is learned here, and no chance is in it: members are spread evenly.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
import statistics

import numpy as np
from numpy.typing import NDArray

from scheduler.facts import Wrap
from scheduler.forecast.held import HORIZON, Held, Peak, Place
from scheduler.forecast.interface import Wind
from scheduler.thermal import air, conduction, cooling, geometry, resting, surface

Array = NDArray[np.float64]

MEMBERS = 64
_DIMENSIONS = 8

DIFFUSIVITY_M2_S, CONDUCTIVITY_W_MK, DENSITY_KG_M3 = 1.17e-7, 0.38, 1025.0
"""Cooked beef and pork near 70 C: Choi-Okos with the mixed conductivity gives cooked cuts of the USDA tables 1.13 to
1.21e-7 m2/s, 0.35 to 0.41 W/(m K) and 1000 to 1045 kg/m3 (`scheduler.thermal.properties`)."""

READING_C = 0.75
"""Standard deviation of one core reading [°C], as on the fire."""

# Spreads are standard deviations of the logarithm; assumptions, checked against the trade's holding times.
_THICKNESS = (0.12, 0.06)
"""... of an unknown and of a told thickness."""
_EXPONENT, _CONDUCTION, _LOSS, _STORED, _WETNESS = 0.20, 0.08, 0.25, 0.35, 0.80

PIT_HEAT_W_M2K = 18.0
"""Convection and radiation in the pit; published ovens lie between 10 and 25."""
WET, DRY = 0.25, 0.03
"""Evaporation of a surface over that of free water: at first (a wet surface then rests near 71 C in a pit of 121 C) and
after long on the fire, bare. Chosen with `DRIES_H` so that published rises after the oven come out (prime_rib_93C_2019;
Lowe, Experimental Cookery; tests/published/test_textbook_roasts.py)."""
DRIES_H = 1.5
OPENED = 0.06
"""... of a surface kept moist by a wrap and opened; an assumption."""

TOWEL_W_M2K = 4.0
"""Half of 3 cm of towel, 0.06 W/(m K); an assumption."""
TOWEL_J_M2K = 5000.0
"""3 cm of towel at 100 kg/m3 and 1.3 kJ/(kg K), and some lining; an assumption."""
BOX_W_K = 0.9
"""Walls and lid of a picnic box of 40 to 50 litres: 0.9 m2 of 3 cm foam with its leaks; an assumption."""
BOX_J_K = 2500.0
"""The lining of that box; an assumption."""

LAYER_W_M2K = {Wrap.NONE: np.inf, Wrap.PAPER: 12.0, Wrap.FOIL: 12.0, Wrap.BOAT: 24.0}
"""A loose wrap: 2 to 3 mm of air; a boat covers half. An assumption."""

UNKNOWN_AIR_C, UNKNOWN_AIR_SPREAD_C = 18.0, 7.0
"""A garden or kitchen nobody has described; an assumption."""
TOLD_AIR_SPREAD_C = 1.5
WINDY_M_S, CALM_M_S = 2.0, 0.15
FRIDGE_C, FRIDGE_M_S = 4.0, 0.3
"""USDA: a refrigerator holds 40 F or below; warm food warms it."""
BLAST_C, BLAST_M_S = 0.0, 3.0
"""Typical of the published runs of cooling joints (James and James 2002, read)."""
ICE_C = 1.0
COLD = (Place.FRIDGE, Place.ICE_BATH, Place.BLAST)

_ASPECT = 2.0
"""Length over width of a piece, as for its shape exponent."""
_BONE_FACES = 1.3
"""A plate of bone counts 0.65 of the thickness as half: both faces together then count 1.3."""

_STEPS_S = ((60.0, 3600.0), (240.0, 5 * 3600.0), (600.0, 25 * 3600.0))
"""Length of a step and how long such steps are taken [s]."""


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Rest:
    """The members' courses: times from `at` (k,) [s] and cores (k, n) [°C]; answers as `after.Holding` says."""

    at: dt.datetime
    times_s: Array
    cores_c: Array
    floor_c: float

    def fall(self, core_c: float) -> Rest:
        """Return the same courses asked about another floor [°C]."""
        return dataclasses.replace(self, floor_c=core_c)

    @functools.cached_property
    def falls_s(self) -> Array:
        """When each member falls to the floor for good, in order (n,) [s], inf beyond the horizon."""
        top = np.argmax(self.cores_c, axis=0)
        steps = np.arange(len(self.times_s))[:, None]
        under = (self.cores_c <= self.floor_c) & ((steps >= top) | (self.cores_c[0] <= self.floor_c))
        index, columns = np.argmax(under, axis=0), np.arange(self.cores_c.shape[1])
        before = np.maximum(index - 1, 0)
        high, low = self.cores_c[before, columns], self.cores_c[index, columns]
        share = np.where(index > 0, (high - self.floor_c) / np.maximum(high - low, 1e-9), 0.0)
        times = self.times_s[before] + share * (self.times_s[index] - self.times_s[before])
        found: Array = np.sort(np.where(under[index, columns], times, np.inf))
        return found

    def quantile(self, p: float) -> dt.datetime | None:
        """Return the instant before which the core has fallen to the floor with probability `p`; None beyond."""
        place = p * len(self.falls_s) - 0.5
        below = int(np.clip(np.floor(place), 0, len(self.falls_s) - 1))
        above = min(below + 1, len(self.falls_s) - 1)
        if not np.isfinite(self.falls_s[above]):
            return None
        share = float(np.clip(place - below, 0.0, 1.0))
        seconds = (1.0 - share) * float(self.falls_s[below]) + share * float(self.falls_s[above])
        return None if seconds > HORIZON.total_seconds() else self.at + dt.timedelta(seconds=round(seconds))

    def probability_by(self, when: dt.datetime) -> float:
        """Return the probability that the core has fallen to the floor by `when` (UTC)."""
        return float(np.mean(self.falls_s <= (when - self.at).total_seconds()))

    def core_c(self, when: dt.datetime, p: float = 0.5) -> float:
        """Return the `p` quantile of the core [°C] at `when` (UTC), held at either end."""
        at_s = (when - self.at).total_seconds()
        return float(np.quantile([np.interp(at_s, self.times_s, column) for column in self.cores_c.T], p))

    def peak(self) -> Peak:
        """Return the highest core still to come."""
        low_c, middle_c, high_c = np.quantile(self.cores_c.max(axis=0), (0.1, 0.5, 0.9))
        at_s = float(np.median(self.times_s[np.argmax(self.cores_c, axis=0)]))
        return Peak(
            at=self.at + dt.timedelta(seconds=at_s),
            low_c=float(low_c), middle_c=float(middle_c), high_c=float(high_c),
        )  # fmt: skip


@functools.lru_cache(maxsize=64)
def hold(held: Held, floor_c: float) -> Rest:
    """Return the rest of a piece; see `after.hold`.

    With `off_at` the core at the pull is sought that leads to the one read since.
    """
    dice = _spread()
    piece, area_m2 = _piece(held, dice)
    core_c = held.core_c + np.hypot(READING_C, held.spread_c / np.sqrt(3.0)) * dice[3]
    since_s = 0.0
    if held.off_at is not None and held.pit_c is not None:
        since_s = max(0.0, (held.at - held.off_at).total_seconds())
    stays = _stays(held, area_m2, dice, since_s)
    course = resting.course(piece, _start(held, piece, core_c, stays, dice), stays)
    begin_c, then_c = core_c, _row(course.times_s, course.core_c, since_s)
    for _ in range(2 if since_s > 0.0 else 0):
        begin_c = np.minimum(begin_c + core_c - then_c, surface.BOILING_C)
        course = resting.course(piece, _start(held, piece, begin_c, stays, dice), stays)
        then_c = _row(course.times_s, course.core_c, since_s)
    later = course.times_s > since_s
    return Rest(
        at=held.at,
        times_s=np.concatenate(([0.0], course.times_s[later] - since_s)),
        cores_c=np.vstack([core_c, course.core_c[later] + (core_c - then_c)]),
        floor_c=floor_c,
    )


def _start(
    held: Held, piece: resting.Piece, core_c: Array, stays: tuple[resting.Stay, ...], dice: Array
) -> resting.Profile:
    """Return the profile at the pull, or that of a piece which has been losing heat for long.

    What goes into the cold is taken as even: the slower, and so the cautious, side there.
    """
    modes = conduction.modes(piece.exponent)
    if held.pit_c is None:
        chilled = held.place in COLD
        surface_c = core_c if chilled else resting.surface_while_cooling(piece, core_c, stays[-1].around)
        return resting.heated_evenly(modes).profile(modes, core_c, surface_c)
    shape = resting.heated_evenly(modes, piece.diffusivity_m2_s * _fired_s(held) / piece.half_thickness_m**2)
    surface_c = resting.surface_on_the_fire(
        piece,
        shape,
        core_c,
        np.full_like(core_c, held.pit_c),
        PIT_HEAT_W_M2K * np.exp(_LOSS * dice[7]),
        _wetness(held) * np.exp(_WETNESS * dice[1]) * (held.wrap is Wrap.NONE),
    )
    return shape.profile(modes, core_c, surface_c)


def _fired_s(held: Held) -> float:
    """Return how long the piece was on the fire [s], infinite when nobody said."""
    return np.inf if held.on_at is None else max(60.0, ((held.off_at or held.at) - held.on_at).total_seconds())


def _wetness(held: Held) -> float:
    """Return how wet a bare crust is when it leaves the fire, over free water."""
    return float(DRY + (WET - DRY) * np.exp(-_fired_s(held) / (3600.0 * DRIES_H)))


def _piece(held: Held, dice: Array) -> tuple[resting.Piece, Array]:
    """Return the members as pieces, and their surface [m2].

    Raw figures are shrunk by the cook, alike in all directions; a plate of bone keeps its thickness. What is told of
    leftovers in the cold is believed as it is.
    """
    body = geometry.body(held.cut, held.mass_kg, held.thickness_m)
    shrunk = 1.0 if held.place in COLD else held.cut.cooked_share.typical
    thinner = 1.0 if held.cut.bone_plate else float(np.cbrt(shrunk))
    half_m = body.half_thickness_m * thinner * np.exp(_THICKNESS[held.thickness_m is not None] * dice[0])
    exponent = np.minimum(2.0, body.exponent * np.exp(_EXPONENT * dice[6]))
    faces = _BONE_FACES if held.cut.bone_plate else 1.0
    sides = (1.0 + 1.0 / _ASPECT) / np.sqrt(1.0 + 1.0 / _ASPECT**2)
    per_volume = (faces + sides * np.sqrt(exponent / geometry.END_EFFECT)) / half_m
    volume_m3 = shrunk * (held.mass_kg or held.cut.mass_kg.typical) / DENSITY_KG_M3
    conductive = np.exp(_CONDUCTION * dice[4])
    piece = resting.Piece(
        half_thickness_m=half_m,
        exponent=exponent,
        area_ratio=per_volume * half_m / (1.0 + exponent),
        diffusivity_m2_s=DIFFUSIVITY_M2_S * conductive,
        conductivity_w_mk=CONDUCTIVITY_W_MK * conductive,
    )
    return piece, per_volume * volume_m3


def _stays(held: Held, area_m2: Array, dice: Array, since_s: float) -> tuple[resting.Stay, ...]:
    """Return venting, then the place until the horizon in growing steps."""
    vented_s = held.vented.total_seconds()
    stays = []
    if vented_s > 0.0:
        opened = dataclasses.replace(held, place=Place.BOARD, wrap=Wrap.NONE)
        vent = _surroundings(opened, area_m2, dice, _wetness(held) if held.wrap is Wrap.NONE else OPENED)
        steps = max(1, round(vented_s / 60.0))
        stays.append(resting.Stay(around=vent, length_s=vented_s, step_s=vented_s / steps))
    around = _surroundings(held, area_m2, dice, _wetness(held))
    (short_s, first_s), *rest = _STEPS_S
    first_s += short_s * np.ceil(since_s / short_s)
    return (*stays, *(resting.Stay(around=around, length_s=n, step_s=s) for s, n in ((short_s, first_s), *rest)))


def _surroundings(held: Held, area_m2: Array, dice: Array, wetness: float) -> resting.Surroundings:
    """Return what lies around the members in the place they are held in."""
    loss = np.exp(_LOSS * dice[5])
    across_m = 2.0 * geometry.body(held.cut, held.mass_kg, held.thickness_m).half_thickness_m
    air_c = _air_c(held, dice)
    if held.place is Place.BOX:
        wall_w_m2k = BOX_W_K * loss / area_m2
        return resting.Surroundings(
            air_c=air_c,
            convection_w_m2k=np.zeros_like(air_c),
            stored_j_m2k=(TOWEL_J_M2K + BOX_J_K / area_m2) * np.exp(_STORED * dice[2]),
            inner_w_m2k=TOWEL_W_M2K * loss,
            outer_w_m2k=1.0 / (1.0 / (TOWEL_W_M2K * loss) + 1.0 / wall_w_m2k),
        )
    if held.place is Place.ICE_BATH:
        return resting.Surroundings(
            air_c=air_c, convection_w_m2k=cooling.WATER_BATH_W_M2K * loss, emissivity=0.0, layer_w_m2k=np.inf
        )
    speed_m_s = {Place.FRIDGE: FRIDGE_M_S, Place.BLAST: BLAST_M_S}.get(
        held.place, WINDY_M_S if held.place is Place.BOARD and held.air.wind is Wind.WINDY else CALM_M_S
    )
    bare = held.wrap is Wrap.NONE
    over_k = max(held.core_c - float(np.median(air_c)), 5.0)
    return resting.Surroundings(
        air_c=air_c,
        convection_w_m2k=cooling.air_w_m2k(speed_m_s, 0.7 * over_k, across_m) * loss,
        emissivity=resting.FOIL_EMISSIVITY if held.wrap is Wrap.FOIL else resting.MEAT_EMISSIVITY,
        layer_w_m2k=LAYER_W_M2K[held.wrap],
        wetness=wetness * np.exp(_WETNESS * dice[1]) if bare else 0.0,
    )


def _air_c(held: Held, dice: Array) -> Array:
    """Return the temperature around the members [°C], with its doubt."""
    fixed = {Place.OVEN: held.oven_c, Place.FRIDGE: FRIDGE_C, Place.BLAST: BLAST_C, Place.ICE_BATH: ICE_C}
    if held.place in fixed:
        spread_c = 4.0 if held.place is Place.OVEN else 1.0
        kept: Array = np.maximum(0.0, fixed[held.place] + spread_c * dice[7])
        return kept
    said_c = air.temp_c(held.air.temp)
    if said_c is None:
        said_c, spread_c = UNKNOWN_AIR_C, UNKNOWN_AIR_SPREAD_C
    else:
        spread_c = air.WORD_SPREAD_C if isinstance(held.air.temp, str) else TOLD_AIR_SPREAD_C
    around: Array = said_c + spread_c * dice[7]
    return around


def _row(times_s: Array, values: Array, at_s: float) -> Array:
    """Return the values (n,) at `at_s`, linear between steps."""
    above = int(np.clip(np.searchsorted(times_s, at_s), 1, len(times_s) - 1))
    share = (at_s - times_s[above - 1]) / (times_s[above] - times_s[above - 1])
    row: Array = (1.0 - share) * values[above - 1] + share * values[above]
    return row


@functools.lru_cache(maxsize=1)
def _spread() -> Array:
    """Return standard normal figures (dimensions, members), evenly spread and the same for every piece.

    Notes
    -----
    An additive recurrence with the powers of the generalised golden ratio (Roberts 2018, from memory), turned into
    normal figures: no chance, and each figure alone is stratified.
    """
    ratio = 2.0
    for _ in range(40):
        ratio = (1.0 + ratio) ** (1.0 / (_DIMENSIONS + 1))
    steps = ratio ** -np.arange(1.0, _DIMENSIONS + 1)
    points = (0.5 + np.arange(1, MEMBERS + 1) * steps[:, None]) % 1.0
    order = np.argsort(np.argsort(points, axis=1), axis=1)
    normal = statistics.NormalDist()
    strata = np.array([normal.inv_cdf((index + 0.5) / MEMBERS) for index in range(MEMBERS)])
    spread: Array = strata[order]
    return spread
