"""What makes meat faster never makes the forecast later, at any quantile of any temperature.

The same dice make this exact, before readings, and after them for what lies ahead. A size changes the steps of the run,
and with readings all that is believed: there it holds but for a grain, which is stated.
"""

from __future__ import annotations

import dataclasses
import math
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.cuts import Cut
from scheduler.facts import Wrap
from scheduler.forecast import PitEvent, Question, WrapEvent, forecast
from tests.calibration.trade import cuts
from tests.catalogue import CUTS
from tests.unit.scheduler.forecast.questions import STALLED, after, hours, question, read

ALL = cuts().cuts
TOUGH = tuple(cut for cut in CUTS.cuts if cut.holds == "well")
"""Cuts whose readings rise and stall as `STALLED` does; of others no forecast expects such a curve."""

QUANTILES = (0.1, 0.5, 0.9)
EXACT_MIN = 0.1
"""Times are rounded to the second, and read off steps on a line."""
STEPS_SHARE = 0.005
"""The steps of a run follow the size: room for that, though none of 24 000 comparisons needed it."""
GRAIN_MIN = 20.0
"""With readings, a told size moves what is believed of all else; found up to 12 min in 200 draws."""
COLDEST_PIT_C = 100.0
"""Below it a core only creeps toward the pit, and a crust that paper keeps moist goes on evaporating when a bare one
has dried: in pits of 91 and 95 C paper was 20 min to 2 h later than bare, in 4 of 7000 comparisons; foil never."""
HOTTEST_PIT_C = 165.0
CLEARLY = 1.1


def _times(asked: Question, levels_c: tuple[float, ...]) -> list[float]:
    """Return the quantiles of all levels [h]."""
    found = forecast(asked)
    return [hours(found.crossing(level_c), p) for level_c in levels_c for p in QUANTILES]


def _never_later(first: list[float], second: list[float], by_min: float = EXACT_MIN, share: float = 0.0) -> bool:
    return all(
        one <= other * (1.0 + share) + by_min / 60.0 or math.isinf(other)
        for one, other in zip(first, second, strict=True)
    )


def _levels(of: Cut) -> tuple[float, ...]:
    return (40.0, 55.0, 66.0, of.target_c.typical, 90.0)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Prior:
    """A cut of some size in some pit, before any reading."""

    of: Cut
    pit_c: float
    mass: float
    thickness: float
    plan: Wrap | None

    def asked(self, **changed: Any) -> Question:  # noqa: ANN401 - any field of the question
        """Return the question, with fields changed."""
        fields = {
            "pit_c": self.pit_c,
            "mass_kg": self.mass * self.of.mass_kg.typical,
            "thickness_m": self.thickness * self.of.thickness_m.typical,
            "wrap_plan": self.plan,
        }
        return question(self.of, **{**fields, **changed})


@st.composite
def priors(draw: st.DrawFn) -> Prior:
    """Draw any cut of the catalogue at half to nearly twice its size."""
    of: Cut = draw(st.sampled_from(ALL))
    return Prior(
        of=of,
        pit_c=draw(st.floats(COLDEST_PIT_C, HOTTEST_PIT_C)),
        mass=draw(st.floats(0.6, 1.6)),
        thickness=draw(st.floats(0.7, 1.4)),
        plan=draw(st.sampled_from((None, Wrap.NONE, of.usual_wrap))),
    )


@dataclasses.dataclass(frozen=True, kw_only=True)
class Read:
    """A tough cut with one to seven readings on some curve that rises and stalls."""

    of: Cut
    points: tuple[tuple[float, float], ...]
    plan: Wrap | None

    @property
    def now_h(self) -> float:
        """Return the time of the last reading."""
        return self.points[-1][0]

    def asked(self, **changed: Any) -> Question:  # noqa: ANN401 - any field of the question
        """Return the question, with fields changed."""
        return question(self.of, **{"readings": read(*self.points), "wrap_plan": self.plan, **changed})


@st.composite
def cooks(draw: st.DrawFn) -> Read:
    """Draw readings of a fast or a slow piece, with their noise."""
    of: Cut = draw(st.sampled_from(TOUGH))
    pace = draw(st.floats(0.7, 1.4)) * (1.9 if of.bone_plate else 1.0)
    count = draw(st.integers(1, len(STALLED)))
    off = st.integers(-4, 4).map(lambda quarters: quarters / 4)
    return Read(
        of=of,
        points=tuple((hour / pace, core_c + draw(off)) for hour, core_c in STALLED[:count]),
        plan=draw(st.sampled_from((None, Wrap.NONE, of.usual_wrap))),
    )


AHEAD_C = (72.0, 82.0, 93.0, 96.0)

# --- before any reading --------------------------------------------------------------------


@given(prior=priors(), hotter_c=st.floats(0.5, 25.0))
@settings(max_examples=30)
def test_a_hotter_pit_is_never_later(prior: Prior, hotter_c: float) -> None:
    """Exactly, for any cut, size and plan."""
    levels = _levels(prior.of)
    assert _never_later(_times(prior.asked(pit_c=prior.pit_c + hotter_c), levels), _times(prior.asked(), levels))


@given(prior=priors(), thicker=st.floats(1.01, 1.4), mass_told=st.booleans())
@settings(max_examples=30)
def test_thicker_is_never_earlier(prior: Prior, thicker: float, mass_told: bool) -> None:
    """Whether the mass is told or not; by a tenth and more exactly."""
    levels, told = _levels(prior.of), {} if mass_told else {"mass_kg": None}
    more = prior.thickness * prior.of.thickness_m.typical * thicker
    usual, bigger = _times(prior.asked(**told), levels), _times(prior.asked(thickness_m=more, **told), levels)
    assert _never_later(usual, bigger, share=0.0 if thicker > CLEARLY else STEPS_SHARE)


@given(prior=priors(), heavier=st.floats(1.01, 1.8), thickness_told=st.booleans())
@settings(max_examples=30)
def test_heavier_is_never_earlier(prior: Prior, heavier: float, thickness_told: bool) -> None:
    """Whether the thickness is told or not."""
    levels, told = _levels(prior.of), {} if thickness_told else {"thickness_m": None}
    more = prior.mass * prior.of.mass_kg.typical * heavier
    usual, bigger = _times(prior.asked(**told), levels), _times(prior.asked(mass_kg=more, **told), levels)
    assert _never_later(usual, bigger, share=STEPS_SHARE)


@given(prior=priors())
@settings(max_examples=30)
def test_foil_is_never_later_than_paper_and_paper_never_later_than_bare(prior: Prior) -> None:
    """Exactly, at every quantile of every temperature."""
    foil, paper, bare = (
        _times(prior.asked(wrap_plan=wrap), _levels(prior.of)) for wrap in (Wrap.FOIL, Wrap.PAPER, Wrap.NONE)
    )
    assert _never_later(paper, bare)
    assert _never_later(foil, paper)


@given(prior=priors(), low_c=st.floats(20.0, 97.0), more_c=st.floats(0.1, 20.0))
@settings(max_examples=30)
def test_a_higher_target_is_never_earlier(prior: Prior, low_c: float, more_c: float) -> None:
    """Exactly, at every quantile."""
    outlook = forecast(prior.asked())
    for p in QUANTILES:
        assert hours(outlook.crossing(low_c), p) <= hours(outlook.crossing(low_c + more_c), p)


# --- with readings -------------------------------------------------------------------------


@given(cook=cooks(), hotter_c=st.floats(0.5, 30.0))
@settings(max_examples=20)
def test_with_readings_a_pit_hotter_from_now_is_never_later(cook: Read, hotter_c: float) -> None:
    """Exactly: what is believed of the meat stays the same."""
    asked = cook.asked()
    low_c = asked.pit[0].low_c + hotter_c
    hotter = dataclasses.replace(
        asked, pit=(*asked.pit, PitEvent(at=after(cook.now_h + 0.02), low_c=low_c, high_c=low_c))
    )
    assert _never_later(_times(hotter, AHEAD_C), _times(asked, AHEAD_C))


@given(cook=cooks())
@settings(max_examples=20)
def test_with_readings_foil_now_is_never_later_than_paper_now_or_bare(cook: Read) -> None:
    """Exactly: what is believed of the meat stays the same."""
    foil, paper, bare = (
        _times(cook.asked(wraps=(WrapEvent(at=after(cook.now_h + 0.02), wrap=wrap),)), AHEAD_C)
        for wrap in (Wrap.FOIL, Wrap.PAPER, Wrap.NONE)
    )
    assert _never_later(paper, bare)
    assert _never_later(foil, paper)


@given(cook=cooks(), size=st.sampled_from(("thickness_m", "mass_kg")), more=st.floats(1.05, 1.3))
@settings(max_examples=20)
def test_with_readings_a_bigger_piece_is_not_earlier_but_for_the_grain(cook: Read, size: str, more: float) -> None:
    """A thicker or heavier piece that shows the same readings is believed to be quicker meat: no earlier at the median.

    The ends of the interval may come in a little, since the readings then say more; they are not asked about here.
    """
    typical = getattr(cook.of, size).typical
    usual, bigger = (forecast(cook.asked(**{size: typical * factor})) for factor in (1.0, more))
    for level_c in AHEAD_C:
        assert hours(usual.crossing(level_c)) <= hours(bigger.crossing(level_c)) + GRAIN_MIN / 60.0


@given(cook=cooks(), low_c=st.floats(20.0, 97.0), more_c=st.floats(0.1, 20.0))
@settings(max_examples=20)
def test_with_readings_a_higher_target_is_never_earlier(cook: Read, low_c: float, more_c: float) -> None:
    """Across what is passed and what is to come, at every quantile."""
    outlook = forecast(cook.asked())
    for p in QUANTILES:
        assert hours(outlook.crossing(low_c), p) <= hours(outlook.crossing(low_c + more_c), p)
