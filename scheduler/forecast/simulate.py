"""The piece on the fire: one run of the physics for all members of the ensemble at once.

Readings are unknown here.
"""

from __future__ import annotations

import dataclasses

import numpy as np
from numpy.typing import NDArray

from scheduler.facts import Wrap
from scheduler.forecast import anchors, draws
from scheduler.forecast.anchors import Anchor, Doubt
from scheduler.thermal import conduction, surface
from scheduler.thermal.geometry import DENSITY_KG_M3, Body

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Pieces:
    """The members of the ensemble as physical pieces; arrays (n,) unless said otherwise."""

    half_thickness_m: Array
    heat_w_m2k: Array
    vapour: Array
    """Wet vapour conductance [kg/(m2 s Pa)]."""
    drying_kg_m2: Array
    sharpness: Array
    paper: Array
    foil: Array
    pit_bias_c: Array
    start_c: Array
    pace: Array
    modes: conduction.Modes
    probe: Array
    """(modes, n) what the probe sees of each mode."""
    heat_factor: Array
    """(knots, n) slow factor on the heat."""
    vapour_factor: Array

    def resistance(self, wrap: Wrap) -> Array:
        """Return the vapour resistance of a wrap relative to a wet surface (n,)."""
        if wrap is Wrap.NONE:
            return np.zeros_like(self.paper)
        if wrap is Wrap.FOIL:
            return self.foil
        return self.paper if wrap is Wrap.PAPER else anchors.BOAT_OF_PAPER * self.paper

    def repeated(self, times: int) -> Pieces:
        """Return the same members side by side `times` times."""
        arrays = {field.name: getattr(self, field.name) for field in dataclasses.fields(self) if field.name != "modes"}
        tiled = {name: np.tile(value, times if value.ndim == 1 else (1, times)) for name, value in arrays.items()}
        return Pieces(modes=self.modes.repeated(times), **tiled)


def pieces(body: Body, anchor: Anchor, parameters: Array, heat: Array, vapour: Array) -> Pieces:
    """Return the pieces for standard normal `parameters` (12, n) and knots `heat`, `vapour` (knots, n)."""

    def drawn(index: int, doubt: Doubt, width: float = 1.0, median: float | None = None) -> Array:
        offset = width * doubt.spread * parameters[index]
        middle = doubt.median if median is None else median
        value: Array = middle + offset if doubt.absolute else middle * np.exp(offset)
        return value

    width = anchor.width
    half_thickness_m = body.half_thickness_m * drawn(1, anchors.HALF_THICKNESS, width)
    exponent = np.minimum(2.0, body.exponent * drawn(2, anchors.EXPONENT, width))
    heat_w_m2k = drawn(3, anchors.HEAT_W_M2K, width, anchor.heat_w_m2k)
    stall_c = np.clip(anchor.stall_c + width * anchor.stall_spread_c * parameters[4], 50.0, 100.0)
    share = drawn(5, anchors.DRYING_SHARE, width, anchor.drying_share)
    modes = conduction.modes(exponent)
    off_middle = np.minimum(0.95, drawn(11, anchors.PROBE_OFF_MIDDLE))
    paper = drawn(7, anchors.PAPER, width)
    return Pieces(
        half_thickness_m=half_thickness_m,
        heat_w_m2k=heat_w_m2k,
        vapour=surface.vapour_conductance(heat_w_m2k, stall_c),
        drying_kg_m2=share * DENSITY_KG_M3 * half_thickness_m / (1.0 + exponent),
        sharpness=drawn(6, anchors.SHARPNESS, width),
        paper=paper,
        foil=paper + drawn(8, anchors.FOIL_OVER_PAPER, width),
        pit_bias_c=drawn(9, anchors.PIT_BIAS_C),
        start_c=np.clip(drawn(10, anchors.START_C), -1.0, 30.0),
        pace=anchor.pace * drawn(0, anchors.PACE, width),
        modes=modes,
        probe=modes.core_ratio + off_middle * (modes.inner_ratio - modes.core_ratio),
        heat_factor=np.exp(anchors.HEAT_NOISE * draws.slow(heat, correlation_h=anchors.NOISE_HOURS)),
        vapour_factor=np.exp(anchors.VAPOUR_NOISE * draws.slow(vapour, correlation_h=anchors.NOISE_HOURS)),
    )


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class State:
    """Where a run stands: modal amplitudes (modes, n), evaporated water [kg/m2] (n,), surface and core [°C] (n,)."""

    amplitudes: Array
    evaporated_kg_m2: Array
    surface_c: Array
    core_c: Array


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Span:
    """A stretch of time to run: `times_s` (k + 1,), pit [°C] (k, n) and vapour resistance of the wrap (k, n) per
    step.
    """

    times_s: Array
    pit_c: Array
    resistance: Array


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Planned:
    """A wrap that has not happened: put on when the core passes `from_c` and has not passed `until_c`."""

    resistance: Array
    from_c: float
    until_c: float


def at_start(of: Pieces) -> State:
    """Return the state of pieces that come from the fridge, uniform in temperature."""
    return State(
        amplitudes=of.modes.start * of.start_c,
        evaporated_kg_m2=np.zeros_like(of.start_c),
        surface_c=of.start_c,
        core_c=of.start_c,
    )


def run(of: Pieces, state: State, span: Span, planned: Planned | None = None) -> tuple[State, Array]:
    """Return the state at the end of the span and the core temperatures [°C] (k + 1, n) at its times.

    Notes
    -----
    q = h e1 (T_pit - T_s) - L_v J,  J = g0 e2 (p_sat(T_s) - p_v) / (1 + (W / W_c)^p + R_wrap),  dW/dt = J, never
    negative; e1 and e2 are the slow random factors, `pace` stretches time for heat and water alike. At the cap of
    99.5 C whatever heat the meat does not take evaporates water.
    """
    lengths_s = np.diff(span.times_s)
    hours = (span.times_s[:-1] + 0.5 * lengths_s) / 3600.0
    heat = of.heat_w_m2k * draws.at_hours(of.heat_factor, hours)
    wet = of.vapour * draws.at_hours(of.vapour_factor, hours)
    per_conductivity = of.half_thickness_m / anchors.CONDUCTIVITY_W_MK
    fourier_per_s = anchors.DIFFUSIVITY_M2_S / (of.half_thickness_m**2 * of.pace)
    per_scale = 1.0 / of.drying_kg_m2
    water_per_s = 1.0 / (of.pace * surface.LATENT_J_KG)
    amplitudes, water, surface_c, core_c = state.amplitudes, state.evaporated_kg_m2, state.surface_c, state.core_c
    cores = np.empty((len(span.times_s), len(core_c)))
    cores[0] = core_c
    wrapped: Flags = np.zeros(core_c.shape, dtype=np.bool_)
    steps: dict[float, conduction.Step] = {}
    for index, exact_s in enumerate(lengths_s):
        length_s = round(float(exact_s), 3)
        if length_s not in steps:
            steps[length_s] = conduction.step(of.modes, fourier_per_s * length_s, per_conductivity)
        part = steps[length_s]
        resistance = span.resistance[index]
        if planned is not None:
            wrapped |= (core_c >= planned.from_c) & (core_c < planned.until_c)
            resistance = np.where(wrapped, planned.resistance, resistance)
        vapour = wet[index] / (1.0 + (water * per_scale) ** of.sharpness + resistance)
        amplitudes = part.keep * amplitudes
        bare_c = amplitudes.sum(axis=0)
        surface_c = surface.surface_temp_c(
            bare_c=bare_c,
            gain=part.surface_gain,
            heat_w_m2k=heat[index],
            pit_c=span.pit_c[index],
            vapour=vapour,
            guess_c=surface_c,
        )
        flux = (surface_c - bare_c) / part.surface_gain
        amplitudes += part.gain * flux
        boiled = heat[index] * (span.pit_c[index] - surface_c) - flux
        water = water + np.maximum(boiled, 0.0) * (length_s * water_per_s)
        core_c = (of.probe * amplitudes).sum(axis=0)
        cores[index + 1] = core_c
    end = State(amplitudes=amplitudes, evaporated_kg_m2=water, surface_c=surface_c, core_c=core_c)
    return end, cores
