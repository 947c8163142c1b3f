"""Energy and water close in every step of the physics on the fire, for any piece, pit and wrap, boiling included.

Conduction alone and rest have balances of their own (test_heat_balance.py).
"""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import given, settings
from numpy.typing import NDArray

from scheduler.forecast import simulate
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.interface import Opening
from scheduler.thermal import surface
from tests.properties.pieces import MEMBERS, Array, OnTheFire, inputs_of, on_the_fire

CLOSES = 1e-6
"""Share of the heat in play that may be missing from a step."""
CONDENSING_J_M2 = 1e-6
SOLVED = 5e-3
"""How near the surface's end of step comes to the vapour law, as a share of the heat in play."""
SOLVED_JUMP = 0.12
JUMP_K = 5.0
"""... where the surface moves farther than this in one step, since the search for it begins where it was: cold meat put
on, a wrap put on or taken off."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Balance:
    """Energy of one step per surface area [J/m2], and the fluxes at its end [W/m2], arrays (members,)."""

    from_pit: Array
    """By the trapezoidal rule: fluxes change on a straight line from the end of the step before to the end of this one;
    the first step has the flux of its end throughout."""
    stored: Array
    evaporated: Array
    """Latent heat of the water that left."""
    condensing: NDArray[np.bool_]
    """At one of its ends more heat goes into the meat than the pit brings: vapour condenses, its water is not kept."""
    arriving_w_m2: Array
    """From the pit, at the end."""
    inward_w_m2: Array
    """Into the meat, at the end."""
    law_w_m2: Array
    """Latent heat of the vapour that the law of the surface lets through at the end; negative while it condenses."""
    surface_c: Array
    moved_k: Array
    """By how much the surface moved in the step."""


def _volume_mean_c(pieces: simulate.Pieces, amplitudes: Array) -> Array:
    """Return the mean temperature over the volume: only the mode that never decays holds heat."""
    steady = np.argmin(pieces.modes.decay, axis=0)
    columns = np.arange(amplitudes.shape[1])
    return np.asarray(amplitudes[steady, columns] / pieces.modes.start[steady, columns])


def _balances(fire: OnTheFire) -> list[Balance]:
    """Return the balance of each step, from what the run gave back and from nothing inside it."""
    pieces, state, found = fire.pieces, simulate.at_start(fire.pieces), []
    steady = pieces.modes.forcing[np.argmin(pieces.modes.decay, axis=0), np.arange(MEMBERS)]  # m + 1
    # rho cp L / (m + 1) = (L/k) / ((m + 1) (L/k)^2 alpha / L^2), with the pace taken out of the Fourier number
    capacity = 1.0 / (steady * pieces.metres_per_conductivity * pieces.fourier_per_s * pieces.pace)
    arrived: Array | None = None
    for index in range(fire.steps):
        span = fire.step(index)
        waters = np.zeros((2, MEMBERS))
        after, _ = simulate.run(pieces, state, span, waters=waters)
        assert after.flux_w_m2 is not None
        before_kg = np.maximum(state.evaporated_kg_m2 - span.wetting_kg_m2.get(0, 0.0), 0.0)
        length_s = float(np.round(span.times_s[1] - span.times_s[0], 3))
        surface_c = after.amplitudes.sum(axis=0)
        arriving = span.heat_w_m2k[0] * (span.pit_c[0] - surface_c)
        dried = (before_kg + state.drying_kg_m2s * length_s) / pieces.drying_kg_m2
        pressure, _ = surface.saturation_pa(surface_c)
        law = span.vapour[0] / (1.0 + span.resistance[0] + dried**pieces.sharpness) * (pressure - surface.VAPOUR_PA)
        condensing = after.drying_kg_m2s <= 0.0
        found.append(
            Balance(
                from_pit=(arriving if arrived is None else 0.5 * (arrived + arriving)) * length_s / pieces.pace,
                stored=capacity * (_volume_mean_c(pieces, after.amplitudes) - _volume_mean_c(pieces, state.amplitudes)),
                evaporated=surface.LATENT_J_KG * (after.evaporated_kg_m2 - before_kg),
                condensing=condensing | ((state.drying_kg_m2s <= 0.0) & (arrived is not None)),
                arriving_w_m2=arriving,
                inward_w_m2=after.flux_w_m2,
                law_w_m2=surface.LATENT_J_KG * law,
                surface_c=surface_c,
                moved_k=np.abs(surface_c - state.surface_c),
            )
        )
        assert waters[1] == pytest.approx(after.evaporated_kg_m2)
        assert after.surface_c == pytest.approx(surface_c, abs=1e-6)
        state, arrived = after, arriving
    return found


@given(of=inputs_of(spritzed=True))
@settings(max_examples=12)
def test_heat_from_the_pit_is_stored_or_evaporates_water(of: Inputs) -> None:
    """In every step: heat in less latent heat is heat stored, to a millionth of what is in play.

    Fluxes are linear within the step. While vapour condenses on cold meat, the heat it brings is counted and its water
    is not kept.
    """
    for one in _balances(on_the_fire(of)):
        scale = np.abs(one.from_pit) + np.abs(one.stored) + one.evaporated
        missing = one.from_pit - one.stored - one.evaporated
        wet = one.condensing
        assert np.all(np.abs(missing)[~wet] <= CLOSES * scale[~wet] + CONDENSING_J_M2)
        assert np.all(missing[wet] <= CLOSES * scale[wet] + CONDENSING_J_M2)


@given(of=inputs_of(spritzed=True))
@settings(max_examples=6)
def test_water_too_is_summed_by_the_trapezoidal_rule(of: Inputs) -> None:
    """What left in a step is the mean of the rates at its two ends, times its length; in the first that of its end."""
    fire = on_the_fire(of)
    state = simulate.at_start(fire.pieces)
    for index in range(fire.steps):
        span = fire.step(index)
        after, _ = simulate.run(fire.pieces, state, span)
        length_s = float(np.round(span.times_s[1] - span.times_s[0], 3))
        first = state.drying_kg_m2s if index else after.drying_kg_m2s
        left_kg = after.evaporated_kg_m2 - np.maximum(state.evaporated_kg_m2 - span.wetting_kg_m2.get(0, 0.0), 0.0)
        assert left_kg == pytest.approx(0.5 * (first + after.drying_kg_m2s) * length_s, rel=1e-9, abs=1e-12)
        assert np.all(after.drying_kg_m2s >= 0.0)
        state = after


@given(of=inputs_of(spritzed=True))
@settings(max_examples=12)
def test_what_evaporates_is_what_the_surface_lets_through(of: Inputs) -> None:
    """Below boiling the heat left over at the end of a step is that of the vapour law there, to half a hundredth.

    The crust is as dry as it will be by then if it dries on as it did. Two rounds of Newton's method reach 2e-3 in pits
    of up to 200 C, 1e-4 mostly; 8e-2 in the first step of a cold piece, which lasts some minutes, and 1e-2 when a wrap
    comes off. At the cap of boiling it is whatever heat is left, and no less than the law would let through.
    """
    for one in _balances(on_the_fire(of)):
        solved = np.where(one.moved_k > JUMP_K, SOLVED_JUMP, SOLVED)
        scale = np.abs(one.arriving_w_m2) + np.abs(one.inward_w_m2) + 1.0
        boiling = one.surface_c >= surface.BOILING_C - 1e-9
        left = one.arriving_w_m2 - one.inward_w_m2
        assert np.all(np.abs(left - one.law_w_m2)[~boiling] <= (solved * scale)[~boiling])
        assert np.all(one.surface_c <= surface.BOILING_C + 1e-6)
        assert np.all(left[boiling] >= one.law_w_m2[boiling] - (solved * scale)[boiling])


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
    assert state.flux_w_m2 is not None
    assert whole.flux_w_m2 is not None
    assert np.array_equal(state.flux_w_m2, whole.flux_w_m2)
    assert np.array_equal(state.drying_kg_m2s, whole.drying_kg_m2s)
