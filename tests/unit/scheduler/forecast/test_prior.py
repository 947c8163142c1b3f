"""The forecast before any reading: what the trade says of each cut, and what must hold for all."""

from __future__ import annotations

import pytest

from scheduler.cuts import Cut
from scheduler.facts import Wrap
from scheduler.forecast import anchors, fit, forecast
from tests.catalogue import CUTS
from tests.unit.scheduler.forecast.questions import cut, hours, question

LEAST_KEPT = 0.11
"""A fit that keeps so little of the spread along the duration can narrow it no more."""
QUANTILES = (0.1, 0.25, 0.5, 0.75, 0.9)
LEVELS_C = (50.0, 60.0, 71.0, 82.0, 90.0, 95.0)


@pytest.mark.parametrize("of", CUTS.cuts, ids=lambda one: one.id)
@pytest.mark.parametrize("cook", ["harvest supper", "spring lunch", "Wren's birthday"])
def test_durations_are_those_of_the_trade(of: Cut, cook: str) -> None:
    """Low, typical and high duration are met within 12, 5 and 12 % whatever the cook is called.

    Ribs on a bone plate aim higher than their table on purpose (`anchors.BONE_PLATE`, by 6 %). Reached: 7, 2 and 6 %;
    another cook throws other dice. Poor: the ends of ribs, within 15 % (`tests/published/test_trade_table.py`).
    """
    aim = anchors.kind(of).longer
    prior = forecast(question(of, cook=cook, mass_kg=of.duration_kg, wrap_plan=of.duration_wrap))
    to_target = prior.crossing(of.target_c.typical)
    ends = 0.15 if fit.of_cut(of).anchor.kept < LEAST_KEPT else 0.12
    assert hours(to_target, 0.1) == pytest.approx(aim * of.duration_h.low, rel=ends)
    assert hours(to_target, 0.5) == pytest.approx(aim * of.duration_h.typical, rel=0.05)
    assert hours(to_target, 0.9) == pytest.approx(aim * of.duration_h.high, rel=ends)


@pytest.mark.parametrize("name", ["brisket_packer", "pork_butt"])
def test_the_stall_is_visible(name: str) -> None:
    """Bare, the median core rises from 65 to 77 C at two thirds of the pace it had from 45 to 57 C, or less."""
    prior = forecast(question(cut(name), wrap_plan=Wrap.NONE))
    stalled = hours(prior.crossing(77.0)) - hours(prior.crossing(65.0))
    before = hours(prior.crossing(57.0)) - hours(prior.crossing(45.0))
    assert 1.5 < stalled < 6.0
    assert stalled > 1.5 * before


@pytest.mark.parametrize("of", CUTS.cuts, ids=lambda one: one.id)
def test_a_hotter_pit_is_never_later(of: Cut) -> None:
    """Each quantile of each temperature comes no later when the pit is hotter."""
    priors = [forecast(question(of, pit_c=pit_c, wrap_plan=of.usual_wrap)) for pit_c in (95, 107, 121, 135, 149, 163)]
    for level_c in LEVELS_C:
        for p in QUANTILES:
            times = [hours(prior.crossing(level_c), p) for prior in priors]
            assert times == sorted(times, reverse=True)


@pytest.mark.parametrize("of", CUTS.cuts, ids=lambda one: one.id)
def test_a_thicker_piece_is_never_earlier(of: Cut) -> None:
    """Each quantile of each temperature comes no earlier when the piece is thicker."""
    priors = [
        forecast(question(of, thickness_m=factor * of.thickness_m.typical, wrap_plan=Wrap.NONE))
        for factor in (0.7, 0.9, 1.0, 1.1, 1.4)
    ]
    for level_c in LEVELS_C:
        for p in QUANTILES:
            times = [hours(prior.crossing(level_c), p) for prior in priors]
            assert times == sorted(times)


@pytest.mark.parametrize("name", ["brisket_packer", "pork_butt"])
@pytest.mark.parametrize("thickness_m", [None, 0.1])
def test_more_mass_is_never_earlier(name: str, thickness_m: float | None) -> None:
    """A heavier brisket or shoulder takes no less time, whether its thickness is told or not."""
    of = cut(name)
    priors = [
        forecast(question(of, mass_kg=mass_kg, thickness_m=thickness_m, wrap_plan=Wrap.NONE))
        for mass_kg in (2.5, 4.0, 6.0, 9.0)
    ]
    for level_c in LEVELS_C:
        times = [hours(prior.crossing(level_c)) for prior in priors]
        assert times == sorted(times)
    assert hours(priors[0].crossing(95.0)) < hours(priors[-1].crossing(95.0))


def test_ribs_take_as_long_whatever_the_rack_weighs() -> None:
    """The time of ribs on a bone plate goes by thickness, not by mass."""
    ribs = cut("beef_chuck_ribs")
    light, heavy = (forecast(question(ribs, mass_kg=mass_kg)) for mass_kg in (1.2, 3.5))
    assert light.ready().quantile(0.5) == heavy.ready().quantile(0.5)


@pytest.mark.parametrize("of", CUTS.cuts, ids=lambda one: one.id)
def test_foil_is_never_later_than_paper_and_paper_never_later_than_bare(of: Cut) -> None:
    """Each quantile keeps the order foil, paper, boat, bare."""
    priors = [forecast(question(of, wrap_plan=wrap)) for wrap in (Wrap.FOIL, Wrap.PAPER, Wrap.BOAT, Wrap.NONE)]
    for level_c in LEVELS_C:
        for p in QUANTILES:
            times = [hours(prior.crossing(level_c), p) for prior in priors]
            assert times == sorted(times)


def test_wraps_save_what_the_trade_says_on_a_brisket() -> None:
    """Paper saves 40 to 120 min and foil 60 to 210 min on a big brisket (common practice, no source).

    Reached: 106 and 155 min.
    """
    of = cut("brisket_packer")
    bare, paper, foil = (
        hours(forecast(question(of, wrap_plan=wrap)).crossing(95.0)) for wrap in (Wrap.NONE, Wrap.PAPER, Wrap.FOIL)
    )
    assert 40 <= 60 * (bare - paper) <= 120
    assert 60 <= 60 * (bare - foil) <= 210


def test_an_undecided_wrap_lies_between_its_choices() -> None:
    """The mixture is no earlier than foil and no later than bare, and wider than the usual wrap alone."""
    of = cut("brisket_packer")
    mixed, foil, usual, bare = (
        forecast(question(of, wrap_plan=wrap)).crossing(93.0) for wrap in (None, Wrap.FOIL, of.usual_wrap, Wrap.NONE)
    )
    for p in QUANTILES:
        assert hours(foil, p) <= hours(mixed, p) <= hours(bare, p)
    assert hours(mixed, 0.9) - hours(mixed, 0.1) > 0.95 * (hours(usual, 0.9) - hours(usual, 0.1))
