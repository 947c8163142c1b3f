"""The piece after the pull: profile inside, heat lost through air, wrap, towels and box, or in the cold.

Nothing of cooks, words or rules is known here; heat inside the meat is moved by `scheduler.thermal.conduction`.
"""

from __future__ import annotations

import dataclasses

import numpy as np
from numpy.typing import NDArray

from scheduler.thermal import conduction, surface

Array = NDArray[np.float64]

STEFAN_W_M2K4 = 5.670e-8
MEAT_EMISSIVITY = 0.9
"""Meat, paper, towels; textbook value for organic surfaces, from memory."""
FOIL_EMISSIVITY = 0.2
"""Crumpled, greasy foil; bright foil is 0.04 to 0.1 (from memory), the grease is an assumption."""

LEWIS_KG_S_PA_PER_W = 0.622 / (1007.0 * 101_325.0 * 0.91)
"""Vapour conductance over convective heat conductance [kg/(m2 s Pa) per W/(m2 K)]: 0.622 / (cp P Le^(2/3)), Le 0.87
(Incropera, from memory)."""

INDOOR_VAPOUR_PA = 1200.0
"""Vapour pressure of ordinary air [Pa]: 20 C at half saturation; hardly matters beside a hot surface."""

EVEN_FOURIER = 1.0
"""Time in L^2/alpha of steady heating after which the profile is a parabola."""


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Piece:
    """The members as physical pieces, arrays (n,).

    `area_ratio` is the true surface per volume over that of the one-dimensional body, (m + 1) / L: what is lost
    through towels goes through all faces, though the middle is cooled mostly through two of them.
    """

    half_thickness_m: Array
    exponent: Array
    area_ratio: Array
    diffusivity_m2_s: Array
    conductivity_w_mk: Array


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Surroundings:
    """What lies around the piece, arrays (n,) or numbers.

    From the meat outward: a layer (a wrap; `layer_w_m2k` infinite when bare), then either the air by convection and
    radiation, or (when `stored_j_m2k` is set) towels and lining of a box at one temperature, and its walls.
    """

    air_c: Array
    convection_w_m2k: Array
    emissivity: float = MEAT_EMISSIVITY
    layer_w_m2k: float = np.inf
    wetness: Array | float = 0.0
    """Share of the evaporation of a free water surface; a dry crust a few hundredths, under foil none."""
    stored_j_m2k: Array | None = None
    """Heat capacity of towels and lining per area of meat, at first at the temperature of the air."""
    inner_w_m2k: Array | float = np.inf
    """From meat to towels."""
    outer_w_m2k: Array | float = 0.0
    """From towels through the walls to the air, per area of meat."""


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Stay:
    """A stretch of time in the same surroundings [s], in steps of `step_s`."""

    around: Surroundings
    length_s: float
    step_s: float


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Profile:
    """Temperature inside, as modal amplitudes (modes, n); core and surface [°C] (n,)."""

    amplitudes: Array
    core_c: Array
    surface_c: Array

    def moved(self, by_c: Array, modes: conduction.Modes) -> Profile:
        """Return the profile `by_c` warmer throughout."""
        return Profile(
            amplitudes=self.amplitudes + modes.start * by_c,
            core_c=self.core_c + by_c,
            surface_c=self.surface_c + by_c,
        )


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Course:
    """What happened: times (k,) [s], core and surface [°C] (k, n), and heat lost per area [J/m2] (k, n)."""

    times_s: Array
    core_c: Array
    surface_c: Array
    lost_j_m2: Array
    end: Profile


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Shape:
    """The profile that a steady flux makes in a while, per unit of q L/k: modes, and what core and surface gain."""

    amplitudes: Array
    core: Array
    surface: Array

    def profile(self, modes: conduction.Modes, core_c: Array, surface_c: Array) -> Profile:
        """Return the profile of this shape with the given core and surface [°C]."""
        scale = (surface_c - core_c) / (self.surface - self.core)
        amplitudes = self.amplitudes * scale + modes.start * (core_c - self.core * scale)
        return Profile(amplitudes=amplitudes, core_c=core_c, surface_c=surface_c)


def heated_evenly(modes: conduction.Modes, fourier: Array | float = EVEN_FOURIER) -> Shape:
    """Return the shape after `fourier` = alpha t / L^2 of steady heating: a parabola in the end, steeper before."""
    fourier = np.minimum(EVEN_FOURIER, fourier) * np.ones(modes.start.shape[1])
    part = conduction.step(modes, fourier, np.ones_like(fourier))
    return Shape(amplitudes=part.gain, core=(modes.core_ratio * part.gain).sum(axis=0), surface=part.gain.sum(axis=0))


def surface_on_the_fire(
    piece: Piece, shape: Shape, core_c: Array, pit_c: Array, heat_w_m2k: Array, wetness: Array | float
) -> Array:
    """Return the surface temperature [°C] of a piece that heats evenly in a pit, from its core.

    Notes
    -----
    h (T_pit - T) - L_v g (p_sat(T) - p_v) = (k / L) (T - T_core) / (surface - core of the shape): the right side is the
    flux that the shape needs, 2 k / L for a parabola. Between the core and boiling.
    """
    stiff = piece.conductivity_w_mk / piece.half_thickness_m / (shape.surface - shape.core)
    steam = surface.LATENT_J_KG * LEWIS_KG_S_PA_PER_W * 0.5 * heat_w_m2k * wetness
    temp_c = np.minimum(np.maximum(core_c, 70.0), surface.BOILING_C)
    for _ in range(8):
        pressure, slope = surface.saturation_pa(temp_c)
        excess = heat_w_m2k * (pit_c - temp_c) - steam * (pressure - surface.VAPOUR_PA) - stiff * (temp_c - core_c)
        temp_c = temp_c + excess / (heat_w_m2k + stiff + steam * pressure * slope)
        temp_c = np.minimum(temp_c, surface.BOILING_C)
    return temp_c


def surface_while_cooling(piece: Piece, core_c: Array, around: Surroundings) -> Array:
    """Return the surface temperature [°C] of a piece that has been losing heat evenly for long, from its core."""
    stiff = 2.0 * piece.conductivity_w_mk / (piece.half_thickness_m * piece.area_ratio)
    if around.stored_j_m2k is None:
        outside = around.convection_w_m2k + around.emissivity * 4.0 * STEFAN_W_M2K4 * (around.air_c + 288.0) ** 3
        loss = outside / (1.0 + outside / around.layer_w_m2k)
    else:
        loss = np.asarray(1.0 / (1.0 / around.inner_w_m2k + 1.0 / around.outer_w_m2k))
    found: Array = (stiff * core_c + loss * around.air_c) / (stiff + loss)
    return found


def course(piece: Piece, start: Profile, stays: tuple[Stay, ...]) -> Course:
    """Return what becomes of the pieces through the stays, one after the other.

    Notes
    -----
    Conduction is stepped exactly for a flux constant within the step; the surface balance is implicit, so that a step
    of any length is stable. Towels and lining are one heat capacity, stepped implicitly together with the surface.
    """
    modes = conduction.modes(piece.exponent)
    amplitudes, surface_c = start.amplitudes, start.surface_c
    times, cores, surfaces, losses = [0.0], [start.core_c], [surface_c], [np.zeros_like(surface_c)]
    for stay in stays:
        towels_c = stay.around.air_c
        part = conduction.step(
            modes,
            piece.diffusivity_m2_s * stay.step_s / piece.half_thickness_m**2,
            piece.half_thickness_m / piece.conductivity_w_mk,
        )
        for _ in range(round(stay.length_s / stay.step_s)):
            amplitudes = part.keep * amplitudes
            bare_c = amplitudes.sum(axis=0)
            conductance, toward_c = _outward(stay.around, surface_c, towels_c, stay.step_s)
            surface_c = _surface_c(
                bare_c, part.surface_gain * piece.area_ratio, conductance, toward_c, stay.around, surface_c
            )
            flux = (surface_c - bare_c) / part.surface_gain
            amplitudes = amplitudes + part.gain * flux
            if stay.around.stored_j_m2k is not None:
                towels_c = towels_c + _warming(stay.around, surface_c, towels_c, stay.step_s)
            times.append(times[-1] + stay.step_s)
            cores.append((modes.core_ratio * amplitudes).sum(axis=0))
            surfaces.append(surface_c)
            losses.append(losses[-1] - flux * (stay.step_s / piece.area_ratio))
    return Course(
        times_s=np.array(times),
        core_c=np.array(cores),
        surface_c=np.array(surfaces),
        lost_j_m2=np.array(losses),
        end=Profile(amplitudes=amplitudes, core_c=cores[-1], surface_c=surface_c),
    )


def _outward(around: Surroundings, surface_c: Array, towels_c: Array, step_s: float) -> tuple[Array, Array]:
    """Return conductance [W/(m2 K)] and the temperature [°C] it leads to, linear in the surface at the step's end."""
    if around.stored_j_m2k is None:
        hot, cold = surface_c + 273.15, around.air_c + 273.15
        radiation = around.emissivity * STEFAN_W_M2K4 * (hot**2 + cold**2) * (hot + cold)
        outside = around.convection_w_m2k + radiation
        through: Array = outside / (1.0 + outside / around.layer_w_m2k)
        return through, around.air_c
    held = around.stored_j_m2k / step_s
    inner, outer = around.inner_w_m2k, around.outer_w_m2k
    toward_c: Array = (held * towels_c + outer * around.air_c) / (held + outer)
    in_series: Array = inner * (held + outer) / (held + inner + outer)
    return in_series, toward_c


def _warming(around: Surroundings, surface_c: Array, towels_c: Array, step_s: float) -> Array:
    """Return by how much towels and lining warm in a step [K], implicit as in `_outward`."""
    assert around.stored_j_m2k is not None
    held = around.stored_j_m2k / step_s
    inner, outer = around.inner_w_m2k, around.outer_w_m2k
    warmer: Array = (inner * (surface_c - towels_c) + outer * (around.air_c - towels_c)) / (held + inner + outer)
    return warmer


def _surface_c(
    bare_c: Array, gain: Array, conductance: Array, toward_c: Array, around: Surroundings, guess_c: Array
) -> Array:
    """Solve T = bare + gain (G (T_out - T) - L_v g max(0, p_sat(T) - p_v)) by Newton's method [°C].

    The right side falls with T and is concave above the dew point: each iterate lies above the root.
    """
    linear = 1.0 + gain * conductance
    known = bare_c + gain * conductance * toward_c
    if np.all(np.asarray(around.wetness) == 0.0):
        plain: Array = known / linear
        return plain
    steam = gain * (surface.LATENT_J_KG * LEWIS_KG_S_PA_PER_W * around.convection_w_m2k * around.wetness)
    temp_c = guess_c
    for _ in range(4):
        pressure, slope = surface.saturation_pa(temp_c)
        wet = pressure > INDOOR_VAPOUR_PA
        rate = np.where(wet, steam * (pressure - INDOOR_VAPOUR_PA), 0.0)
        steep = np.where(wet, steam * pressure * slope, 0.0)
        temp_c = temp_c + (known - linear * temp_c - rate) / (linear + steep)
    return temp_c
