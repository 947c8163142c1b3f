"""The blur of what is left: the share of a time still to come that no model knows, spread without dice."""

from __future__ import annotations

import numpy as np
import pytest

from scheduler.facts import Wrap
from scheduler.forecast import anchors, course, ensemble, fit, timing
from scheduler.forecast.ensemble import Runs
from scheduler.forecast.inputs import inputs
from tests.unit.scheduler.forecast.questions import STALLED, cut, question, read

BRISKET = cut("brisket_packer")
MEMBERS = 120


def _runs(*points: tuple[float, float]) -> Runs:
    of = inputs(question(BRISKET, wrap_plan=Wrap.PAPER, readings=read(*points)))
    return ensemble.runs(of, fit.of_cut(BRISKET).anchor, MEMBERS)


def test_the_points_are_those_of_gauss_and_hermite() -> None:
    """Five points and weights for a standard normal: moments up to the ninth come out."""
    points, shares = vars(timing)["_POINTS"], vars(timing)["_SHARES"]
    nodes, weights = np.polynomial.hermite_e.hermegauss(5)
    assert points == pytest.approx(nodes, abs=1e-6)
    assert shares == pytest.approx(weights / weights.sum(), abs=1e-6)
    assert [float(shares @ points**power) for power in range(9)] == pytest.approx(
        [1, 0, 1, 0, 3, 0, 15, 0, 105], abs=1e-3
    )


@pytest.mark.parametrize("left_h", [1.0, 4.0, 12.0])
def test_a_time_far_ahead_is_spread_by_a_share_of_what_is_left(left_h: float) -> None:
    """Its logarithm gets the blur of the model as its standard deviation, some minutes more, and keeps its middle."""
    runs = _runs(*STALLED)
    times_s, weights = timing.blurred(runs, np.array([runs.of.last_s + 3600.0 * left_h]), np.ones(1))
    left = np.log((times_s - runs.of.last_s) / 3600.0)
    assert weights.sum() == pytest.approx(1.0)
    assert float(weights @ left) == pytest.approx(np.log(left_h), abs=1e-6)
    told = np.hypot(anchors.BLUR, anchors.BLUR_MINUTES / (60.0 * left_h))
    assert float(np.sqrt(weights @ (left - left @ weights) ** 2)) == pytest.approx(told, rel=1e-4)


def test_what_is_passed_is_left_alone_and_nothing_to_come_falls_into_the_past() -> None:
    """Times before the last reading keep their one value; a minute ahead stays ahead; never stays never."""
    runs = _runs(*STALLED)
    last_s = runs.of.last_s
    times_s, weights = timing.blurred(runs, np.array([last_s - 600.0, last_s + 60.0, np.inf]), np.full(3, 1 / 3))
    passed, soon, never = times_s.reshape(5, 3).T
    assert weights.sum() == pytest.approx(1.0)
    assert passed == pytest.approx(last_s - 600.0)
    assert np.all(soon > last_s)
    assert np.all(np.isinf(never))


def test_an_ensemble_keeps_its_middle_and_widens() -> None:
    """Members with the blur: the same median to a few minutes, and clearly more spread."""
    runs = _runs()
    times_s = timing.crossing_s(runs, np.full(MEMBERS, 85.0))
    many_s, weights = timing.blurred(runs, times_s, np.full(MEMBERS, 1 / MEMBERS))
    order = np.argsort(many_s)
    middle_s = float(many_s[order][np.searchsorted(np.cumsum(weights[order]), 0.5)])
    assert middle_s == pytest.approx(float(np.median(times_s)), rel=0.02)
    plain, wide = np.log(times_s), np.log(many_s)
    variance = float(weights @ (wide - weights @ wide) ** 2)
    assert variance == pytest.approx(float(np.var(plain)) + anchors.BLUR**2, rel=0.05)


def test_what_the_blur_moves_beyond_the_horizon_never_comes() -> None:
    """A time an hour inside the horizon keeps its earlier points, and its later ones are none."""
    runs = _runs()
    edge_s = runs.of.last_s + course.HORIZON_S
    times_s, _ = timing.blurred(runs, np.array([edge_s - 3600.0]), np.ones(1))
    assert np.isfinite(times_s[:3]).all()
    assert np.isinf(times_s[3:]).all()
