"""Conduction without evaporation against textbook series, and the trap of using one term too early."""

from __future__ import annotations

import csv
import functools
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from scheduler.thermal import conduction

Array = NDArray[np.float64]

DATA = Path(__file__).parents[1] / "data"
EXPONENT = {"wall": 0.0, "cylinder": 1.0, "sphere": 2.0}


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of a data file, without the comments that name its source."""
    with (DATA / name).open() as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def centre_ratio(exponent: Array, biot: Array, fourier: float, step: float = 5e-4) -> Array:
    """Return (T_centre - T_air) / (T_start - T_air) after `fourier`, heated by convection alone."""
    modes = conduction.modes(exponent)
    part = conduction.step(modes, np.full_like(biot, step), np.ones_like(biot))
    amplitudes = modes.start.copy()
    for _ in range(round(fourier / step)):
        amplitudes = part.keep * amplitudes
        bare = amplitudes.sum(axis=0)
        surface = bare / (1.0 + part.surface_gain * biot)
        amplitudes += part.gain * (surface - bare) / part.surface_gain
    centre: Array = (modes.core_ratio * amplitudes).sum(axis=0)
    return centre


def test_centre_follows_the_exact_series_in_slab_cylinder_and_sphere() -> None:
    """The centre agrees with the 60-term series (computed) for Bi 0.5 to 50 and Fo 0.05 to 1.

    Reached: 0.0058 at Fo = 0.05, 0.0023 from 0.1 to 0.3, 0.0006 from 0.5 on.
    """
    table = rows("series_center_theta.csv")
    for fourier in sorted({float(row["Fo"]) for row in table}):
        alike = [row for row in table if float(row["Fo"]) == fourier]
        ours = centre_ratio(
            np.array([EXPONENT[row["shape"]] for row in alike]), np.array([float(row["Bi"]) for row in alike]), fourier
        )
        worst = float(np.abs(ours - [float(row["theta0"]) for row in alike]).max())
        assert worst < (0.007 if fourier < 0.1 else 0.003)
    assert len(table) > 100


@pytest.mark.parametrize(("shape", "column"), [("wall", "wall"), ("cylinder", "cyl"), ("sphere", "sph")])
def test_after_fo_of_one_fifth_the_printed_one_term_answer_is_met(shape: str, column: str) -> None:
    """Above Fo = 0.2 the centre agrees with C1 exp(-zeta1^2 Fo) of Cengel, Table 4-2 (read); reached 0.0006."""
    table = [row for row in rows("one_term_coefficients.csv") if row["status"].startswith("READ")]
    biot = np.array([float(row["Bi"]) for row in table])
    zeta = np.array([float(row[f"printed_{column}_zeta1"]) for row in table])
    first = np.array([float(row[f"printed_{column}_C1"]) for row in table])
    ours = centre_ratio(np.full_like(biot, EXPONENT[shape]), biot, 0.5)
    assert len(table) > 20
    assert np.abs(ours - first * np.exp(-(zeta**2) * 0.5)).max() < 0.001


def test_the_rib_roast_below_fo_of_one_fifth_follows_the_series_and_not_one_term() -> None:
    """3.2 kg rib as a sphere, 4.5 to 60 C in 2 h 45 min at 163 C, Fo = 0.12: h = 93.4 by the series, 148 by one term.

    Problem from Cengel (read; 157 printed, from memory), series and exact one-term values computed. Reached: 60.0 C.
    """
    radius_m, conductivity, diffusivity = 0.08603, 0.45, 0.91e-7
    fourier = diffusivity * 9900.0 / radius_m**2
    assert fourier < 0.2

    def centre_c(heat: float) -> float:
        biot = np.array([heat * radius_m / conductivity])
        return float(163.0 + (4.5 - 163.0) * centre_ratio(np.array([2.0]), biot, fourier, step=fourier / 400)[0])

    assert centre_c(93.4) == pytest.approx(60.0, abs=0.3)
    assert centre_c(148.2) > 63.0


def test_a_steady_flux_warms_every_shape_by_the_heat_it_brings() -> None:
    """With a constant flux the centre ends up rising by (1 + m) q L / k per unit of Fo: no heat is made or lost."""
    exponent = np.array([0.0, 0.4, 1.0, 1.5, 2.0])
    modes = conduction.modes(exponent)
    part = conduction.step(modes, np.full(5, 0.5), np.ones(5))
    amplitudes = np.zeros_like(modes.start)
    centres = []
    for _ in range(6):
        amplitudes = part.keep * amplitudes + part.gain
        centres.append((modes.core_ratio * amplitudes).sum(axis=0))
    assert (centres[5] - centres[4]) / 0.5 == pytest.approx(1.0 + exponent, rel=1e-6)


def test_the_step_may_be_long_or_short() -> None:
    """Forty steps or four thousand to Fo = 0.4 change the centre by less than one part in a hundred."""
    exponent, biot = np.array([0.0, 1.0, 2.0]), np.array([5.0, 5.0, 5.0])
    coarse, fine = centre_ratio(exponent, biot, 0.4, step=0.01), centre_ratio(exponent, biot, 0.4, step=1e-4)
    assert np.abs(coarse - fine).max() < 0.01


def _with_nodes(monkeypatch: pytest.MonkeyPatch, nodes: int, biot: float, fourier: float, step: float) -> Array:
    """Return the centre ratio of slab, cylinder and sphere on a grid of so many nodes."""
    plain = vars(conduction)["_table"].__wrapped__
    with monkeypatch.context() as changed:
        changed.setattr("scheduler.thermal.conduction.NODES", nodes)
        changed.setattr("scheduler.thermal.conduction._table", functools.lru_cache(maxsize=1)(plain))
        return centre_ratio(np.array([0.0, 1.0, 2.0]), np.full(3, biot), fourier, step)


@pytest.mark.parametrize("biot", [0.5, 2.0, 10.0])
def test_a_finer_grid_changes_less_and_less(monkeypatch: pytest.MonkeyPatch, biot: float) -> None:
    """6, 12, 24, 48 nodes at Fo = 0.2: each doubling cuts the difference to 48 nodes at least threefold.

    Reached at 12 nodes, the engine's: 0.0025 of the rise at Bi 10.
    """
    finest = _with_nodes(monkeypatch, 48, biot, 0.2, 1e-3)
    off = [float(np.abs(_with_nodes(monkeypatch, nodes, biot, 0.2, 1e-3) - finest).max()) for nodes in (6, 12, 24)]
    assert off[0] > 3.0 * off[1]
    assert off[1] > 3.0 * off[2]
    assert off[1] < 0.003


@pytest.mark.parametrize("biot", [0.5, 2.0, 10.0])
def test_a_shorter_step_changes_in_proportion(biot: float) -> None:
    """Steps of Fo 1/400, and 2 to 16 times that, to Fo = 0.4 at Bi 0.5 to 10: first order in the step.

    Reached against a step a tenth of the smallest: below 0.007 of the rise at 1/200 (five minutes in a thick brisket).
    """
    exponents, biots = np.array([0.0, 1.0, 2.0]), np.full(3, biot)
    exact = centre_ratio(exponents, biots, 0.4, 0.00025)
    off = [float(np.abs(centre_ratio(exponents, biots, 0.4, 0.0025 * n) - exact).max()) for n in (1, 2, 4, 8, 16)]
    assert off == sorted(off)
    assert off[1] < 0.007
    assert all(1.5 < coarse / fine < 2.6 for fine, coarse in pairwise(off))
