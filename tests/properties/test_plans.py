"""Random plans of any cut, crew, night and detail: order, slip limits, quiet hours, never in the past, nothing lost."""

from __future__ import annotations

import datetime as dt

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from scheduler.cook import Situation
from scheduler.facts import Detail, ReadBy, Watch, WatchesTold, Wrap
from scheduler.planning.anchors import Anchors
from scheduler.planning.foreseen import foreseen
from scheduler.planning.nights import is_quiet
from scheduler.planning.prompts import step_of
from scheduler.planning.shaping import AWAKE
from scheduler.planning.telling import left_out
from tests.properties.actions import Start
from tests.properties.laws import LAWS, planned_in_order
from tests.properties.play import CATALOGUE, Play
from tests.properties.strategies import DAYS

PLANS = settings(max_examples=25, deadline=None)
HOUR = dt.timedelta(hours=1)
WAITS_FOR_MORE = {"outcome", "watch"}
"""Anchors that wait for an answer or a change of the watch."""


@st.composite
def watches(draw: st.DrawFn) -> WatchesTold | None:
    """Draw no watches, or two that follow each other at some hour of the first days, and quiet hours or the usual."""
    if draw(st.booleans()):
        return None
    start = dt.datetime.combine(draw(st.sampled_from(DAYS)).date(), dt.time(20))
    start += draw(st.integers(0, 40)) * HOUR
    middle, end = (start + draw(st.integers(2, 6)) * HOUR, start + draw(st.integers(7, 14)) * HOUR)
    quiet = draw(st.sampled_from((None, (dt.time(23), dt.time(6)), (dt.time(21, 30), dt.time(8)))))
    told = (Watch(name="Wren", start=start, end=middle), Watch(name="Tomas", start=middle, end=end))
    return WatchesTold(watches=told, quiet=quiet)


@st.composite
def plans(draw: st.DrawFn) -> Start:
    """Draw a plan that somebody may make: any cut at one of its pits, by day or night, days or hours ahead."""
    cut = draw(st.sampled_from(CATALOGUE.cuts.cuts))
    return Start(
        at=draw(st.sampled_from(DAYS)) + dt.timedelta(minutes=15 * draw(st.integers(0, 24 * 4 - 1))),
        cut=cut.id,
        dinner_min=draw(st.sampled_from((None, 480, 720, 1200, 1800, 2880, 8 * 1440, 12 * 1440))),
        window_min=draw(st.sampled_from((0, 60))),
        zone=draw(st.sampled_from(("Europe/London", "America/Chicago", "Asia/Tokyo"))),
        pit_c=draw(st.sampled_from((cut.pit_c.low, cut.pit_c.typical, cut.pit_c.high))),
        wrap=draw(st.sampled_from((None, *cut.wraps, Wrap.NONE))),
        mass_kg=draw(st.sampled_from((None, cut.mass_kg.low, cut.mass_kg.typical, cut.mass_kg.high))),
        detail=draw(st.sampled_from(tuple(Detail))),
        read_by=draw(st.sampled_from((None, *ReadBy))),
        frozen=draw(st.booleans()),
        watches=draw(watches()),
    )


def _planned(start: Start) -> Situation:
    played = Play(start)
    assume(played.refused is None)
    return played.situation


@PLANS
@given(start=plans())
def test_a_plan_stands_in_the_order_of_a_cook(start: Start) -> None:
    """Salt, fire, meat, bark, pull, rest, slice, plate: whatever the cut and the hour."""
    planned_in_order(_planned(start))


@PLANS
@given(start=plans())
def test_nothing_in_a_plan_lies_in_the_past(start: Start) -> None:
    """Fire and meat come after the plan was made; what can still be done of the days before is due now."""
    situation = _planned(start)
    assert situation.outlook.light_at >= start.at - dt.timedelta(seconds=1)
    assert situation.outlook.on_at > situation.outlook.light_at
    assert all(one.due_at >= start.at for one in foreseen(situation.views, CATALOGUE, start.at))


IN_THE_MORNING = frozenset({"ash", "collect_meat"})
"""Ash only gets colder; raw meat that keeps three days is fetched no earlier, and no shop is open at night."""


@PLANS
@given(start=plans())
def test_a_prompt_keeps_within_its_slip_limits(start: Start) -> None:
    """Moved out of the night or together with others, it comes no earlier and no later than its step allows; a step of
    safety is never later than it is due, but for what nobody does at night: it waits for the morning.
    """
    situation = _planned(start)
    anchors = Anchors(state=situation.state, outlook=situation.outlook, cut=situation.cut, catalogue=CATALOGUE)
    for prompt in situation.prompts:
        due = anchors.due(prompt.step)
        assert due is not None
        early, late = (dt.timedelta(minutes=m) for m in (prompt.step.early_min, prompt.step.late_min))
        assert prompt.due_at >= due.at - early, prompt.key
        if prompt.step.safety:
            assert prompt.due_at <= due.at or prompt.step.id in IN_THE_MORNING, prompt.key
        elif not prompt.must_arrive:
            assert prompt.due_at <= due.at + late, prompt.key


@PLANS
@given(start=plans())
def test_quiet_hours_are_quiet(start: Start) -> None:
    """At night comes what wakes, what the watch is asked, what rides along, and safety; everything else waits, or is
    silent. What is silent wakes nobody, and safety is never silent.
    """
    situation = _planned(start)
    state = situation.state
    for prompt in situation.prompts:
        if prompt.silent:
            assert not prompt.step.safety
            assert (prompt.wake_at, prompt.wakes) == (None, ())
        elif prompt.wake_at is not None and is_quiet(state, max(prompt.wake_at, state.as_of)):
            awake = max(prompt.wake_at, state.as_of) - state.heard_at <= AWAKE
            assert awake or prompt.step.safety or prompt.step.night in {"wake", "watch_only", "with_next"}, prompt.key
            assert prompt.wakes, prompt.key


@PLANS
@given(start=plans())
def test_every_step_is_asked_told_with_another_or_left_out_for_a_reason(start: Start) -> None:
    """No step of the catalogue gets lost: it has its prompt, it was given up with a reason, it waits for something to
    happen, or there is a reason why it has no place.
    """
    situation = _planned(start)
    asked = {prompt.step.id for prompt in situation.prompts}
    given_up = {step_of(key) for key in situation.state.withdrawn}
    shown = {step.id for _at, step in situation.itinerary()}
    for step in CATALOGUE.steps.steps:
        reason = left_out(step, situation.state, situation.cut)
        if step.id in asked:
            assert reason is None, step.id
        elif reason is None and step.id not in given_up:
            waits = step.phase != "before" or step.anchor.kind in WAITS_FOR_MORE
            assert waits or {"early", "early_start"} & set(step.only), (step.id, shown)


@settings(max_examples=5, deadline=None)
@given(start=plans())
def test_every_law_holds_in_a_good_cook_of_any_cut(start: Start) -> None:
    """Planned, cooked and eaten by a good crew, whatever it is: every prompt is answered, merged or withdrawn with a
    reason, nothing is asked out of place, and it ends.
    """
    played = Play(start)
    assume(played.refused is None)
    played.work(20 * 24 * 60)
    for law in LAWS:
        law(played)
    state = played.situation.state
    assert set(state.asked) <= set(state.closed) | set(state.withdrawn) | {p.key for p in played.situation.prompts}
