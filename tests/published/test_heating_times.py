"""Heating times by thickness and shape, and what one exponent for a shape is worth, by conduction alone.

Agreement reached is stated at each check; where it is poor, the check holds how poor.
"""

from __future__ import annotations

import numpy as np
import pytest

from scheduler.thermal import geometry
from tests.published.heated import Array, Heating, rows

BATH = {"heat_w_m2k": 95.0, "conductivity_w_mk": 0.48, "diffusivity_m2_s": 1.4e-7, "start_c": 5.0, "medium_c": 60.0}
"""Baldwin 2012 (from memory): 5 C to half a degree below a bath of 60 C."""

COLUMNS = [
    (0.0, "recomputed_slab_min", "published_slab_min"),
    (0.7, "recomputed_beta0p7_min", "published_cylinder_like_min"),
    (1.25, "recomputed_beta1p25_min", "published_sphere_like_min"),
]


@pytest.mark.parametrize(("exponent", "recomputed", "published"), COLUMNS)
def test_heating_times_by_thickness_and_shape(exponent: float, recomputed: str, published: str) -> None:
    """Baldwin's equation T_t = a (T_rr + (beta/r) T_r) is ours with m = beta; 5 to 115 mm, three shapes.

    Against the equation solved elsewhere (computed): within 0.9 %. Against the printed table (from memory, steps of 5
    to 15 min): within 10 min or 14 % but for the 5 mm slab, where the table's 5 min cannot be reached with its h.
    """
    for row in rows("baldwin_heating_times.csv"):
        half_m = float(row["thickness_mm"]) / 2000.0
        minutes = Heating(exponent=exponent, half_thickness_m=half_m, step=4e-3, **BATH).seconds_to(59.5) / 60.0
        assert minutes == pytest.approx(float(row[recomputed]), rel=0.015)
        if row[published] and half_m > 0.0025:
            assert minutes == pytest.approx(float(row[published]), rel=0.145, abs=10.5)


def test_half_the_thickness_takes_a_quarter_to_a_half_of_the_time() -> None:
    """Between the limits of conduction alone (a quarter) and the surface alone (a half), as any such table must."""
    thin, thick = (
        Heating(exponent=0.0, half_thickness_m=half_m, step=4e-3, **BATH).seconds_to(59.5) for half_m in (0.015, 0.03)
    )
    assert 0.25 < thin / thick < 0.5


def _cores(exponent: float, half_m: float, heat_w_m2k: float, times_s: Array) -> Array:
    one = Heating(
        exponent=exponent, half_thickness_m=half_m, heat_w_m2k=heat_w_m2k, conductivity_w_mk=0.45,
        diffusivity_m2_s=1.3e-7, start_c=0.0, medium_c=1.0, step=2e-3,
    )  # fmt: skip
    fourier, ratio = one.cores(until=8.0)
    found: Array = np.interp(times_s * one.diffusivity_m2_s / half_m**2, fourier, ratio)
    return found


@pytest.mark.parametrize(
    ("name", "shape", "lowest", "highest"),
    [
        ("brick 1:3:5", (1.0, 3.0, 5.0), 0.87, 0.95),
        ("brick 1:2:4", (1.0, 2.0, 4.0), 0.80, 0.97),
        ("brick 2:3:4", (1.0, 1.5, 2.0), 0.75, 0.97),
        ("cube", (1.0, 1.0, 1.0), 0.73, 0.87),
        ("rod, three times as long as thick", (1.0, 3.0), 0.93, 0.97),
        ("rod, as long as thick", (1.0, 1.0), 0.82, 0.92),
    ],
)
def test_one_exponent_is_fast_against_the_product_solutions(
    name: str, shape: tuple[float, ...], lowest: float, highest: float
) -> None:
    """Bricks and rods by products of exact one-dimensional solutions, against m = (L/b)^2 + (L/c)^2.

    Ratio of the times to 50 and 70 % of the rise, h 10 to 100, L 4 cm. One exponent heats too fast: 3 to 13 % for flat
    pieces and long rods, 15 to 26 % for a cube, since corners are far away; Baldwin's fitted 0.7 and 1.25 for rod and
    cube (from memory) say the same of 1 and 2.
    """
    half_m, times_s = 0.04, np.linspace(0.0, 3 * 0.04**2 / 1.3e-7, 2000)
    for heat_w_m2k in (10.0, 20.0, 100.0):
        if len(shape) == 3:
            parts = [_cores(0.0, half_m * side, heat_w_m2k, times_s) for side in shape]
        else:
            parts = [_cores(1.0, half_m, heat_w_m2k, times_s), _cores(0.0, half_m * shape[1], heat_w_m2k, times_s)]
        exact = np.prod(parts, axis=0)
        exponent = (1.0 if len(shape) == 2 else 0.0) + sum(side**-2.0 for side in shape[1:])
        one = _cores(exponent, half_m, heat_w_m2k, times_s)
        for left in (0.5, 0.3):
            ratio = np.interp(-left, -one, times_s) / np.interp(-left, -exact, times_s)
            assert lowest < ratio < highest, name


@pytest.mark.parametrize("shape", [(3.0, 5.0), (2.0, 4.0), (1.5, 2.0), (1.0, 1.0)], ids=str)
def test_the_exponents_of_the_engine_lie_on_either_side(shape: tuple[float, float]) -> None:
    """With 0.65 of the sum, bricks heat in 0.87 to 1.12 of the time by products of exact solutions; cubes 0.95 to 1.12.

    Flat ones (1:3:5) 0.92 to 0.99. At h 10 to 20, as on the fire, 0.93 to 1.12.
    """
    half_m, times_s = 0.04, np.linspace(0.0, 3 * 0.04**2 / 1.3e-7, 2000)
    for heat_w_m2k, lowest in ((10.0, 0.9), (20.0, 0.9), (100.0, 0.85)):
        exact = np.prod([_cores(0.0, half_m * side, heat_w_m2k, times_s) for side in (1.0, *shape)], axis=0)
        one = _cores(geometry.END_EFFECT * sum(side**-2.0 for side in shape), half_m, heat_w_m2k, times_s)
        for left in (0.5, 0.3):
            assert lowest < np.interp(-left, -one, times_s) / np.interp(-left, -exact, times_s) < 1.15


@pytest.mark.parametrize(("shape", "fitted"), [((1.0, 1.0), 0.7), ((1.0, 1.0, 1.0), 1.25)], ids=["rod", "cube"])
def test_fitted_exponents_of_rod_and_cube_are_the_better_ones(shape: tuple[float, ...], fitted: float) -> None:
    """A square rod with 0.7 and a cube with 1.25 heat within 6 % of the products to 90 % at h 95: 3 and 5 % slow."""
    half_m, times_s = 0.03, np.linspace(0.0, 3 * 0.03**2 / 1.3e-7, 2000)
    exact = np.prod([_cores(0.0, half_m * side, 95.0, times_s) for side in shape], axis=0)
    one = _cores(fitted, half_m, 95.0, times_s)
    assert np.interp(-0.1, -one, times_s) == pytest.approx(np.interp(-0.1, -exact, times_s), rel=0.06)
