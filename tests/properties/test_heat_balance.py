"""Conduction keeps heat: what came in through the surface is stored, whatever the flux did and however it was stepped.

No pit and no meat: only the equations of `scheduler.thermal.conduction`, and the losses of a resting piece.
"""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.thermal import conduction, resting

EXPONENTS = st.sampled_from([0.0, 0.3, 0.7, 1.0, 1.5, 2.0])
HISTORIES = st.lists(
    st.tuples(st.floats(1e-4, 2.0), st.floats(-5e3, 5e3, allow_subnormal=False)), min_size=1, max_size=12
)  # fmt: skip
"""Steps as (Fourier number, flux [W/m2])."""


def _mean(modes: conduction.Modes, amplitudes: conduction.Array) -> float:
    """Return the mean temperature over the volume: only the mode that never decays holds heat."""
    steady = int(np.argmin(modes.decay[:, 0]))
    return float(amplitudes[steady, 0])


@given(exponent=EXPONENTS, history=HISTORIES, start_c=st.floats(-20.0, 100.0))
@settings(max_examples=150, deadline=None)
def test_heat_in_is_heat_stored(exponent: float, history: list[tuple[float, float]], start_c: float) -> None:
    """Mean temperature rises by (m + 1) q L/k Fo, summed over any history of fluxes, to rounding."""
    modes = conduction.modes(np.array([exponent]))
    amplitudes = modes.start * start_c
    told = 0.0
    for fourier, flux in history:
        part = conduction.step(modes, np.array([fourier]), np.array([0.1]))
        amplitudes = part.keep * amplitudes + part.gain * flux
        told += (exponent + 1.0) * flux * 0.1 * fourier
    scale = abs(start_c) + sum(abs(flux) * 0.3 * fourier for fourier, flux in history)
    assert _mean(modes, amplitudes) == pytest.approx(start_c + told, abs=1e-9 * scale + 1e-9)


@given(exponent=EXPONENTS, history=HISTORIES, start_c=st.floats(-20.0, 100.0))
@settings(max_examples=150, deadline=None)
def test_heat_of_a_flux_on_a_straight_line_is_stored_too(
    exponent: float, history: list[tuple[float, float]], start_c: float
) -> None:
    """Mean temperature rises by (m + 1) L/k Fo times the mean of the two fluxes of each step, to rounding."""
    modes = conduction.modes(np.array([exponent]))
    amplitudes = modes.start * start_c
    told, before = 0.0, 0.0
    for fourier, flux in history:
        part = conduction.step(modes, np.array([fourier]), np.array([0.1]))
        amplitudes = part.keep * amplitudes + (part.gain - part.late) * before + part.late * flux
        told += (exponent + 1.0) * 0.5 * (before + flux) * 0.1 * fourier
        before = flux
    scale = abs(start_c) + sum(abs(flux) * 0.6 * fourier for fourier, flux in (*history, (history[-1][0], before)))
    assert _mean(modes, amplitudes) == pytest.approx(start_c + told, abs=1e-6 * scale + 1e-9)


@given(exponent=EXPONENTS, history=HISTORIES, cuts=st.integers(2, 9))
@settings(max_examples=80, deadline=None)
def test_a_straight_line_taken_in_parts_is_the_same_line(
    exponent: float, history: list[tuple[float, float]], cuts: int
) -> None:
    """With the flux linear inside a step there is no error in time either: core and surface agree to a millionth.

    The parts have their own fluxes on the line; looser than for a constant flux, since `late` of a mode that hardly
    decays is a difference of nearly equal numbers.
    """
    modes = conduction.modes(np.array([exponent]))
    whole = parts = modes.start * 10.0
    scale, before = 10.0, 0.0
    for fourier, flux in history:
        long = conduction.step(modes, np.array([fourier]), np.array([0.1]))
        short = conduction.step(modes, np.array([fourier / cuts]), np.array([0.1]))
        whole = long.keep * whole + (long.gain - long.late) * before + long.late * flux
        line = np.linspace(before, flux, cuts + 1)
        for one, other in itertools.pairwise(line.tolist()):
            parts = short.keep * parts + (short.gain - short.late) * one + short.late * other
        scale += (abs(before) + abs(flux)) * (0.3 * fourier + 0.1)
        before = flux
    assert np.abs(whole - parts).sum() < 1e-6 * scale


@given(exponent=EXPONENTS, history=HISTORIES, cuts=st.integers(2, 9))
@settings(max_examples=80, deadline=None)
def test_a_step_taken_in_parts_is_the_same_step(exponent: float, history: list[tuple[float, float]], cuts: int) -> None:
    """With the flux constant inside a step there is no error in time: core and surface agree to rounding."""
    modes = conduction.modes(np.array([exponent]))
    whole = parts = modes.start * 10.0
    scale = 10.0
    for fourier, flux in history:
        long = conduction.step(modes, np.array([fourier]), np.array([0.1]))
        short = conduction.step(modes, np.array([fourier / cuts]), np.array([0.1]))
        whole = long.keep * whole + long.gain * flux
        for _ in range(cuts):
            parts = short.keep * parts + short.gain * flux
        scale += abs(flux) * (0.3 * fourier + 0.1)
    assert np.abs(whole - parts).sum() < 1e-9 * scale


@given(
    exponent=EXPONENTS,
    core_c=st.floats(60.0, 98.0),
    over_k=st.floats(-20.0, 30.0),
    wetness=st.floats(0.0, 1.0),
    boxed=st.booleans(),
    step_s=st.sampled_from([30.0, 120.0, 600.0]),
)
@settings(max_examples=60, deadline=None)
def test_what_a_resting_piece_loses_is_what_it_had(
    exponent: float, core_c: float, over_k: float, wetness: float, boxed: bool, step_s: float
) -> None:
    """In air or box, dry or wet, in long or short steps: heat lost through the surface is heat no longer stored."""
    one = np.ones(1)
    piece = resting.Piece(
        half_thickness_m=0.04 * one, exponent=np.array([exponent]), area_ratio=1.3 * one,
        diffusivity_m2_s=1.2e-7 * one, conductivity_w_mk=0.4 * one,
    )  # fmt: skip
    around = resting.Surroundings(
        air_c=20.0 * one, convection_w_m2k=5.0 * one, wetness=0.0 if boxed else wetness,
        stored_j_m2k=5000.0 * one if boxed else None, inner_w_m2k=4.0, outer_w_m2k=1.5,
    )  # fmt: skip
    modes = conduction.modes(piece.exponent)
    start = resting.heated_evenly(modes).profile(modes, core_c * one, (core_c + over_k) * one)
    end = resting.course(piece, start, (resting.Stay(around=around, length_s=2 * 3600.0, step_s=step_s),))
    stored_j_m2k = 0.4 / 1.2e-7 * 0.04 / ((exponent + 1.0) * 1.3)
    fallen = _mean(modes, start.amplitudes) - _mean(modes, end.end.amplitudes)
    assert fallen * stored_j_m2k == pytest.approx(float(end.lost_j_m2[-1, 0]), rel=1e-9, abs=1e-3)
