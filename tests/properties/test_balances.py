"""Energy and water close in every step of the physics on the fire, for any piece, pit and wrap, boiling included.

Conduction alone and rest have balances of their own (test_heat_balance.py).
"""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import given, settings

from scheduler.forecast import simulate
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.interface import Opening
from scheduler.thermal import surface
from tests.properties.pieces import MEMBERS, Array, OnTheFire, inputs_of, on_the_fire

CLOSES = 1e-6
"""Share of the heat in play that may be missing from a step."""
CONDENSING_J_M2 = 1e-6
SOLVED = 1e-2
"""How near the surface's end of step comes to the vapour law, as a share of the heat in play."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Balance:
    """Energy of one step per surface area [J/m2], arrays (members,), and where the surface ends [°C]."""

    from_pit: Array
    stored: Array
    evaporated: Array
    """Latent heat of the water that left."""
    vapour: Array
    """Latent heat of the vapour that the law of the surface lets through; negative while vapour condenses."""
    surface_c: Array


def _volume_mean_c(pieces: simulate.Pieces, amplitudes: Array) -> Array:
    """Return the mean temperature over the volume: only the mode that never decays holds heat."""
    steady = np.argmin(pieces.modes.decay, axis=0)
    columns = np.arange(amplitudes.shape[1])
    return np.asarray(amplitudes[steady, columns] / pieces.modes.start[steady, columns])


def _balances(fire: OnTheFire) -> list[Balance]:
    """Return the balance of each step, from what the run gave back and from nothing inside it."""
    pieces, state, found = fire.pieces, simulate.at_start(fire.pieces), []
    steady = pieces.modes.forcing[np.argmin(pieces.modes.decay, axis=0), np.arange(MEMBERS)]  # m + 1
    for index in range(fire.steps):
        span = fire.step(index)
        waters = np.zeros((2, MEMBERS))
        after, _ = simulate.run(pieces, state, span, waters=waters)
        before_kg = np.maximum(state.evaporated_kg_m2 - span.wetting_kg_m2.get(0, 0.0), 0.0)
        length_s = float(np.round(span.times_s[1] - span.times_s[0], 3)) / pieces.pace
        # rho cp L / (m + 1) = (L/k) / ((m + 1) (L/k)^2 alpha / L^2), with the pace taken out of the Fourier number
        capacity = 1.0 / (steady * pieces.metres_per_conductivity * pieces.fourier_per_s * pieces.pace)
        surface_c = after.amplitudes.sum(axis=0)
        law = span.vapour[0] / (1.0 + span.resistance[0] + (before_kg / pieces.drying_kg_m2) ** pieces.sharpness)
        pressure, _ = surface.saturation_pa(surface_c)
        found.append(
            Balance(
                from_pit=span.heat_w_m2k[0] * (span.pit_c[0] - surface_c) * length_s,
                stored=capacity * (_volume_mean_c(pieces, after.amplitudes) - _volume_mean_c(pieces, state.amplitudes)),
                evaporated=surface.LATENT_J_KG * (after.evaporated_kg_m2 - before_kg),
                vapour=surface.LATENT_J_KG * law * (pressure - surface.VAPOUR_PA) * length_s,
                surface_c=surface_c,
            )
        )
        assert waters[1] == pytest.approx(after.evaporated_kg_m2)
        state = after
    return found


@given(of=inputs_of(spritzed=True))
@settings(max_examples=12)
def test_heat_from_the_pit_is_stored_or_evaporates_water(of: Inputs) -> None:
    """In every step: heat in less latent heat is heat stored, to a millionth of what is in play.

    While vapour condenses on cold meat, the heat it brings is counted and its water is not kept.
    """
    for one in _balances(on_the_fire(of)):
        scale = np.abs(one.from_pit) + np.abs(one.stored) + one.evaporated
        missing = one.from_pit - one.stored - one.evaporated
        condensing = one.evaporated <= CONDENSING_J_M2
        assert np.all(np.abs(missing)[~condensing] <= CLOSES * scale[~condensing] + CONDENSING_J_M2)
        assert np.all(missing[condensing] <= CLOSES * scale[condensing] + CONDENSING_J_M2)


@given(of=inputs_of(spritzed=True))
@settings(max_examples=12)
def test_what_evaporates_is_what_the_surface_lets_through(of: Inputs) -> None:
    """Below boiling the water lost is that of the vapour law at the surface's end of step, to a hundredth of the heat.

    Three rounds of Newton's method reach that in the first step of a cold piece in a pit of 200 C, and 1e-3 elsewhere.
    At the cap of boiling it is whatever heat is left, and no less than the law would let through.
    """
    for one in _balances(on_the_fire(of)):
        scale = np.abs(one.from_pit) + np.abs(one.stored) + 1.0
        boiling = one.surface_c >= surface.BOILING_C - 1e-9
        off = np.abs(one.from_pit - one.stored - one.vapour)
        assert np.all(off[~boiling] <= SOLVED * scale[~boiling])
        assert np.all(one.surface_c <= surface.BOILING_C + 1e-6)
        assert np.all(one.evaporated[boiling] >= one.vapour[boiling] - SOLVED * scale[boiling])


@given(of=inputs_of())
@settings(max_examples=12)
def test_water_that_has_left_does_not_come_back(of: Inputs) -> None:
    """Without a spritz the evaporated water never falls, from none at meat on to some; no member is left out."""
    fire = on_the_fire(of)
    waters = np.zeros((fire.steps + 1, MEMBERS))
    simulate.run(fire.pieces, simulate.at_start(fire.pieces), fire.span, waters=waters)
    assert np.all(np.diff(waters, axis=0) >= 0.0)
    assert np.all(waters[0] == 0.0)
    assert np.all(waters[-1] > 0.0)


@given(of=inputs_of(spritzed=True))
@settings(max_examples=12)
def test_a_spritz_takes_exactly_its_water_back(of: Inputs) -> None:
    """The deficit falls by what was sprayed, never below none, and in no other step."""
    fire = on_the_fire(of)
    state = simulate.at_start(fire.pieces)
    sprayed = fire.span.wetting_kg_m2
    assert sum(sprayed.values()) == pytest.approx(0.08 * sum(kind is Opening.SPRITZ for _, kind in of.openings))
    for index in range(fire.steps):
        span = fire.step(index)
        dry = dataclasses.replace(span, wetting_kg_m2={})
        taken = np.minimum(state.evaporated_kg_m2, sprayed.get(index, 0.0))
        wetted = dataclasses.replace(state, evaporated_kg_m2=state.evaporated_kg_m2 - taken)
        after, core_c = simulate.run(fire.pieces, state, span)
        same, same_core_c = simulate.run(fire.pieces, wetted, dry)
        assert np.array_equal(after.evaporated_kg_m2, same.evaporated_kg_m2)
        assert np.array_equal(core_c, same_core_c)
        state = after


@given(of=inputs_of(spritzed=True))
@settings(max_examples=6)
def test_a_run_in_parts_is_the_same_run(of: Inputs) -> None:
    """Stopped after any step and taken up again, every bit of the end is the same: the state holds all there is."""
    fire = on_the_fire(of)
    whole, _ = simulate.run(fire.pieces, simulate.at_start(fire.pieces), fire.span)
    state = simulate.at_start(fire.pieces)
    for index in range(fire.steps):
        state, _ = simulate.run(fire.pieces, state, fire.step(index))
    assert np.array_equal(state.amplitudes, whole.amplitudes)
    assert np.array_equal(state.evaporated_kg_m2, whole.evaporated_kg_m2)
