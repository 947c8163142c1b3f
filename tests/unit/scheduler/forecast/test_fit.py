"""The recorded fit of the prior: for the figures of the catalogue the same as a fit made now, and made anew if need be.

How near the prior comes to the trade table is shown in tests/published.
"""

from __future__ import annotations

import numpy as np
import pytest

from scheduler.cuts import Cut
from scheduler.forecast import anchors, fit, fitted
from tests.calibration.trade import cuts

ALL = cuts().cuts


def test_every_cut_is_recorded_and_nothing_else() -> None:
    """No user waits for a fit, and no record outlives its cut."""
    assert set(fitted.RECORDED) == {cut.id for cut in ALL}


@pytest.mark.parametrize("of", ALL, ids=lambda one: one.id)
def test_the_record_is_for_the_figures_of_the_catalogue(of: Cut) -> None:
    """A changed duration, size or composition without a new record fails here: the record cannot go stale unseen."""
    assert fitted.RECORDED[of.id].figures == fitted.figures(of)


@pytest.mark.parametrize("of", ALL, ids=lambda one: one.id)
def test_the_recorded_direction_is_a_unit_vector_along_which_time_grows(of: Cut) -> None:
    """A slower pace, a thicker piece: later. More heat: earlier."""
    lasting = np.array(fitted.RECORDED[of.id].lasting)
    assert lasting.shape == (12,)
    assert np.linalg.norm(lasting) == pytest.approx(1.0, abs=0.005)
    pace, thickness, _, heat = lasting[:4]
    assert pace > 0.2
    assert thickness > 0.2
    assert heat < -0.1


@pytest.mark.parametrize("name", ["beef_chuck_ribs", "brisket_packer", "whole_turkey"])
def test_a_fit_made_now_is_the_recorded_one(name: str) -> None:
    """Medians changed after the record was written would be found here, one cut for each sort of anchor."""
    of = cuts().get(name)
    recorded, made = fitted.RECORDED[name], fit.made(of)
    assert recorded.thick == pytest.approx(made.anchor.thick, rel=1e-3)
    assert recorded.kept == pytest.approx(made.anchor.kept, rel=1e-3)
    assert recorded.dose_h == pytest.approx(made.dose_h, rel=1e-3)
    assert recorded.lasting == pytest.approx(made.anchor.lasting, abs=1e-3)


def test_a_cut_with_other_figures_is_fitted_anew() -> None:
    """Ribs that take twice as long get a prior twice as long: a changed catalogue cannot meet a stale record."""
    ribs = cuts().get("beef_chuck_ribs")
    longer = ribs.duration_h.model_copy(update={"low": 9.5, "typical": 12.5, "high": 16.0})
    slow = ribs.model_copy(update={"duration_h": longer})
    known = fit.of_cut(slow)
    assert known.anchor.thick > 1.3 * fit.of_cut(ribs).anchor.thick
    aim = anchors.kind(slow).longer
    low, middle, high = (hours / aim for hours in fit.durations_h(slow, known.anchor))
    assert (low, middle, high) == pytest.approx((9.5, 12.5, 16.0), rel=0.05)
