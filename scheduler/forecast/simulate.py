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
from scheduler.thermal.geometry import Body
from scheduler.thermal.properties import Properties

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Pieces:
    """The members of the ensemble as physical pieces; arrays (n,) unless said otherwise."""

    metres_per_conductivity: Array
    fourier_per_s: Array
    heat_w_m2k: Array
    vapour: Array
    """Wet vapour conductance [kg/(m2 s Pa)]."""
    mass_kg_m2: Array
    """Raw mass per surface area."""
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
        if times == 1:
            return self
        arrays = {field.name: getattr(self, field.name) for field in dataclasses.fields(self) if field.name != "modes"}
        tiled = {name: np.tile(value, times if value.ndim == 1 else (1, times)) for name, value in arrays.items()}
        return Pieces(modes=self.modes.repeated(times), **tiled)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Model:
    """What is taken as known of a piece: its body, its properties, the medians of its cut, a start somebody read."""

    body: Body
    meat: Properties
    anchor: Anchor
    start: Doubt


def pieces(model: Model, parameters: Array, heat: Array, vapour: Array) -> Pieces:
    """Return the pieces for standard normal `parameters` (12, n) and knots `heat`, `vapour` (knots, n)."""
    anchor, meat = model.anchor, model.meat
    if anchor.lasting:
        lasting = np.asarray(anchor.lasting) / np.linalg.norm(anchor.lasting)
        parameters = parameters - ((1.0 - anchor.kept) * lasting)[:, None] * (lasting @ parameters)

    def times(index: int, spread: float) -> Array:
        value: Array = np.exp(spread * parameters[index])
        return value

    half_m = model.body.half_thickness_m * anchor.thick * times(1, anchors.HALF_THICKNESS.spread)
    exponent = np.minimum(2.0, model.body.exponent * times(2, anchors.EXPONENT.spread))
    heat_w_m2k = anchor.heat_w_m2k * times(3, anchors.HEAT_SPREAD)
    rest_c = np.clip(anchor.rest_c + anchors.REST_SPREAD_C * parameters[4], 50.0, 100.0)
    share = anchor.drying_share * times(5, anchors.DRYING_SPREAD)
    pace = anchors.PACE.median * times(0, anchors.PACE.spread)
    modes = conduction.modes(exponent)
    off_middle = np.minimum(0.95, anchors.PROBE_OFF_MIDDLE.median * times(11, anchors.PROBE_OFF_MIDDLE.spread))
    mass_kg_m2 = meat.density_kg_m3 * half_m / (1.0 + exponent)
    paper = anchor.paper * times(7, anchors.PAPER_SPREAD)
    foil_over = anchors.FOIL_OVER_PAPER
    return Pieces(
        metres_per_conductivity=half_m / meat.conductivity_w_mk,
        fourier_per_s=meat.diffusivity_m2_s / (half_m * half_m * pace),
        heat_w_m2k=heat_w_m2k,
        vapour=surface.vapour_conductance(heat_w_m2k, rest_c),
        mass_kg_m2=mass_kg_m2,
        drying_kg_m2=share * mass_kg_m2,
        sharpness=anchor.sharpness * times(6, anchors.SHARPNESS_SPREAD),
        paper=paper,
        foil=paper + foil_over.median * times(8, foil_over.spread),
        pit_bias_c=anchor.radiant_c + anchors.PIT_BIAS_C.spread * parameters[9],
        start_c=np.clip(model.start.median + model.start.spread * parameters[10], -1.0, 60.0),
        pace=pace,
        modes=modes,
        probe=modes.core_ratio + off_middle * (modes.inner_ratio - modes.core_ratio),
        heat_factor=np.exp(anchors.HEAT_NOISE * draws.slow(heat, correlation_h=anchors.NOISE_HOURS)),
        vapour_factor=np.exp(anchors.VAPOUR_NOISE * draws.slow(vapour, correlation_h=anchors.NOISE_HOURS)),
    )


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class State:
    """Where a run stands: modal amplitudes (modes, n), evaporated water [kg/m2], surface and core [°C], and the last
    flux into the meat [W/m2] and rate of drying [kg/(m2 s)], (n,) each (None: nothing has run).
    """

    amplitudes: Array
    evaporated_kg_m2: Array
    surface_c: Array
    core_c: Array
    flux_w_m2: Array | None
    drying_kg_m2s: Array

    def repeated(self, times: int) -> State:
        """Return the same state side by side `times` times."""
        return State(
            amplitudes=np.tile(self.amplitudes, (1, times)),
            evaporated_kg_m2=np.tile(self.evaporated_kg_m2, times),
            surface_c=np.tile(self.surface_c, times),
            core_c=np.tile(self.core_c, times),
            flux_w_m2=None if self.flux_w_m2 is None else np.tile(self.flux_w_m2, times),
            drying_kg_m2s=np.tile(self.drying_kg_m2s, times),
        )


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Span:
    """A stretch of time to run: `times_s` (k + 1,); per step and member (k, n) the pit [°C], the heat coefficient, the
    wet vapour conductance and the vapour resistance of the wrap ((k, 1) while bare); spritzed water by step [kg/m2].
    """

    times_s: Array
    pit_c: Array
    heat_w_m2k: Array
    vapour: Array
    resistance: Array
    wetting_kg_m2: dict[int, float]


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Planned:
    """A wrap that has not happened: put on when the core passes `from_c` (n,)."""

    resistance: Array
    from_c: Array


def at_start(of: Pieces) -> State:
    """Return the state of pieces that come from the fridge, uniform in temperature."""
    return State(
        amplitudes=of.modes.start * of.start_c,
        evaporated_kg_m2=np.zeros_like(of.start_c),
        surface_c=of.start_c,
        core_c=of.start_c,
        flux_w_m2=None,
        drying_kg_m2s=np.zeros_like(of.start_c),
    )


def _soon(cores: Array, index: int, lengths_s: Array, planned: Planned) -> Array:
    """Return the share of a step (n,) in which a planned wrap is on, foretold from the rise of the core in the last."""
    if index == 0:
        return np.zeros_like(planned.from_c)
    rise_c = np.maximum((cores[index] - cores[index - 1]) * (lengths_s[index] / lengths_s[index - 1]), 1e-9)
    share: Array = np.clip((cores[index] + rise_c - planned.from_c) / rise_c, 0.0, 1.0)
    return share


def run(
    of: Pieces, state: State, span: Span, planned: Planned | None = None, *, waters: Array | None = None
) -> tuple[State, Array]:
    """Return the state at the end of the span and the core temperatures [°C] (k + 1, n) at its times.

    `waters` (k + 1, n), where given, is filled with the water evaporated by each time [kg/m2].

    Notes
    -----
    q = h e1 (T_pit - T_s) - L_v J,  J = g0 e2 (p_sat(T_s) - p_v) / (1 + (W / W_c)^p + R_wrap),  dW/dt = J, never
    negative; e1 and e2 are the slow random factors, `pace` stretches time for heat and water alike. At the cap of
    99.5 C whatever heat the meat does not take evaporates water. Conduction is exact in time for a flux that changes on
    a straight line within the step; its value at the end is found there (implicit), so that any step is stable.
    """
    lengths_s = np.round(np.diff(span.times_s), 3)
    amplitudes, water, surface_c = state.amplitudes.copy(), state.evaporated_kg_m2, state.surface_c
    cores = np.empty((len(span.times_s), len(state.core_c)))
    cores[0] = state.core_c
    per_scale = 1.0 / of.drying_kg_m2
    water_per_s = 1.0 / (of.pace * surface.LATENT_J_KG)
    wrapped: Flags = np.zeros(state.core_c.shape, dtype=np.bool_)
    open_to_air = 1.0 + span.resistance
    flux, drying = state.flux_w_m2, state.drying_kg_m2s
    steps: dict[float, conduction.Step] = {}
    for index, length_s in enumerate(lengths_s.tolist()):
        part = steps.get(length_s)
        if part is None:
            part = steps[length_s] = conduction.step(of.modes, of.fourier_per_s * length_s, of.metres_per_conductivity)
        if index in span.wetting_kg_m2:
            water = np.maximum(water - span.wetting_kg_m2[index], 0.0)
        barrier, heat, pit_c = open_to_air[index], span.heat_w_m2k[index], span.pit_c[index]
        if planned is not None:
            wrapped |= cores[index] >= planned.from_c
            barrier = barrier + np.where(wrapped, 1.0, _soon(cores, index, lengths_s, planned)) * planned.resistance
        amplitudes *= part.keep
        gain, surface_gain = part.gain, part.surface_gain
        if flux is not None:
            amplitudes += (part.gain - part.late) * flux
            gain, surface_gain = part.late, part.late_surface
        bare_c = np.add.reduce(amplitudes, 0)
        dried = (water + drying * length_s) * per_scale
        surface_c = surface.surface_temp_c(
            bare_c=bare_c,
            gain=surface_gain,
            heat_w_m2k=heat,
            pit_c=pit_c,
            vapour=span.vapour[index] / (barrier + dried**of.sharpness),
            guess_c=surface_c,
        )
        began = flux is not None
        flux = (surface_c - bare_c) / surface_gain
        amplitudes += gain * flux
        latest = np.maximum(heat * (pit_c - surface_c) - flux, 0.0) * water_per_s
        water = water + (0.5 * (drying + latest) if began else latest) * length_s
        drying = latest
        cores[index + 1] = np.add.reduce(of.probe * amplitudes, 0)
        if waters is not None:
            waters[index + 1] = water
    end = State(
        amplitudes=amplitudes, evaporated_kg_m2=water, surface_c=surface_c, core_c=cores[-1],
        flux_w_m2=flux, drying_kg_m2s=drying,
    )  # fmt: skip
    return end, cores
