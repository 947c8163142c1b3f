"""Random plans of any cut: what makes a start earlier or later, and what no plan may ever be."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.cuts import Cut
from scheduler.facts import Planned, Wrap
from scheduler.planning.alternatives import MOST, alternatives, pit_limits_c
from scheduler.planning.backward import SnagKind, backward, earliest_on, latest_on
from scheduler.state import CookState
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, dinner

STEPS_SHARE = 0.005
"""The steps of a run follow the size of the piece: room for that, as in `test_monotone`."""
SECOND = dt.timedelta(seconds=6)
FIVE = dt.timedelta(minutes=5)
PLANS = settings(max_examples=25, deadline=None)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Wanted:
    """A plan that somebody may ask for."""

    of: Cut
    pit_c: float
    mass: float
    confidence: float
    wrap: Wrap | None
    dinner_min: float
    window_min: float

    def state(self, **changed: Any) -> CookState:  # noqa: ANN401 - any field of the plan
        """Return the state of the plan, with fields of it changed."""
        fields: dict[str, Any] = {
            "cut": self.of.id,
            "serving": dinner(self.dinner_min, window=self.window_min),
            "pit_low_c": self.pit_c,
            "pit_high_c": self.pit_c,
            "mass_kg": self.mass * self.of.mass_kg.typical,
            "wrap": self.wrap,
            "confidence": self.confidence,
        }
        return Logbook(Planned(**{**fields, **changed})).state

    def latest(self, **changed: Any) -> dt.datetime:  # noqa: ANN401 - any field of the plan
        """Return the latest start of the plan, with fields of it changed."""
        found = latest_on(self.state(**changed), self.of)
        assert found is not None
        return found


@st.composite
def wanted(draw: st.DrawFn) -> Wanted:
    """Draw any cut within its own pits, from two thirds of its usual mass to half as much again."""
    of: Cut = draw(st.sampled_from(CATALOGUE.cuts.cuts))
    return Wanted(
        of=of,
        pit_c=draw(st.floats(of.pit_c.low, of.pit_c.high)),
        mass=draw(st.floats(0.66, 1.5)),
        confidence=draw(st.floats(0.5, 0.99)),
        wrap=draw(st.sampled_from((None, *of.wraps))),
        dinner_min=draw(st.integers(6, 72)) * 60.0,
        window_min=draw(st.sampled_from((0.0, 0.0, 60.0))),
    )


@PLANS
@given(plan=wanted(), more=st.floats(0.0, 0.4))
def test_more_confidence_never_starts_later(plan: Wanted, more: float) -> None:
    """At any confidence and for any cut; what does not hold is planned on its middle and starts at the same time."""
    sure = plan.latest(confidence=min(0.99, plan.confidence + more))
    assert sure <= plan.latest()
    if plan.of.holds == "not":
        assert sure == plan.latest()


@PLANS
@given(plan=wanted(), more=st.floats(1.0, 1.5))
def test_more_mass_never_starts_later(plan: Wanted, more: float) -> None:
    """A heavier piece of the same cut starts at the same time or before, but for the grain of a run."""
    usual = plan.latest()
    heavier = plan.latest(mass_kg=more * plan.mass * plan.of.mass_kg.typical)
    grain = STEPS_SHARE * (at(plan.dinner_min + plan.window_min) - usual)
    assert heavier <= usual + max(grain, SECOND)


@PLANS
@given(plan=wanted(), share=st.floats(0.0, 1.0))
def test_a_hotter_pit_never_starts_earlier(plan: Wanted, share: float) -> None:
    """Within the pits of the cut, at the same wrap."""
    hotter_c = plan.pit_c + share * (plan.of.pit_c.high - plan.pit_c)
    assert plan.latest(pit_low_c=hotter_c, pit_high_c=hotter_c) >= plan.latest() - SECOND


@PLANS
@given(plan=wanted())
def test_a_plan_is_in_order_and_never_in_the_past(plan: Wanted) -> None:
    """Light, meat on, pull, plate; as late as it may be, or as soon as it can be, and then it says so."""
    state = plan.state()
    made = backward(state, plan.of)
    assert state.as_of <= made.light_at < made.on_at
    assert made.on_at >= earliest_on(state)
    if made.pull.early is not None and made.plate.early is not None:
        assert made.on_at < made.pull.early < made.plate.early
        assert made.plate.early >= at(plan.dinner_min)
    assert made.late_probability is not None
    assert 0.0 <= made.late_probability <= 1.0
    assert made.rest >= dt.timedelta(minutes=plan.of.rest_min_min)
    assert made.met is (SnagKind.TOO_LATE not in {snag.kind for snag in made.snags})
    if made.met:
        assert made.on_at <= plan.latest() + FIVE
        assert plan.of.holds == "not" or made.late_probability <= 1.0 - plan.confidence + 0.02
    else:
        assert made.on_at < earliest_on(state) + FIVE


@PLANS
@given(plan=wanted())
def test_alternatives_keep_to_their_cut(plan: Wanted) -> None:
    """At most three, the asked one first and as it is; none outside the limits, none in the past."""
    state = plan.state()
    asked, *others = alternatives(state, plan.of)
    assert asked.plan == backward(state, plan.of)
    assert len(others) < MOST
    for one in others:
        low_c, high_c = pit_limits_c(plan.of, one.wrap)
        at_asked = (one.pit_low_c, one.pit_high_c) == (plan.pit_c, plan.pit_c)
        assert at_asked or low_c - 0.5 <= one.pit_low_c <= one.pit_high_c <= high_c + 0.5
        assert one.plan.light_at >= state.as_of
        assert dt.timedelta() <= one.awake_quiet <= one.awake
