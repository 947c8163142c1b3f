"""A stop that stood goes on to stand: only what its rule names ends it, never a later stage, a note or the clock.

Logs are drawn freely and told in order of time; after each fact the rules are asked with it and without it, at the
same instant.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from scheduler.facts import (
    AirTold,
    Body,
    Closed,
    Detail,
    DetailTold,
    Fact,
    Feel,
    Felt,
    KindTold,
    MovedToOven,
    Noted,
    Planned,
    Reading,
    Serving,
    ServingKind,
    ServingMoved,
    Slot,
    StepDone,
    TreatedTold,
    Treatment,
    Troubled,
    Wrap,
    Wrapped,
)  # fmt: skip
from scheduler.safety import standing_stops
from scheduler.safety.case import THROWN
from scheduler.state import fold
from tests.catalogue import CUTS

START = dt.datetime(2026, 9, 12, 6, 0, tzinfo=dt.UTC)
APART = dt.timedelta(minutes=31)
"""Facts lie this far apart: readings within ten minutes contest one another, and a third within thirty settles that."""

DINNER = Serving(kind=ServingKind.WHEN_READY, zone="Etc/UTC")

CLEARED_BY = {
    "minimum_not_measured": {Slot.CORE},
    "pulled_under_minimum": {Slot.CORE},
    "held_under_floor": {Slot.CORE, Slot.LEFTOVERS},
    "served_under_floor": {Slot.CORE, Slot.LEFTOVERS},
    "reheat_under": {Slot.CORE, Slot.LEFTOVERS},
    "raw_touched": {Slot.CORE, Slot.LEFTOVERS},
    "pit_dead": {Slot.CORE},
}
"""The rules whose stop a reading of now may end, and of what; no reading of now ends any other."""

STAGES = ("raw_out", "light", "meat_on", "pull", "box_meat", "serve", "two_hour", "reheat_on", "reheat_away")

mere: st.SearchStrategy[Body] = st.one_of(
    st.builds(Noted, text=st.just("a note")),
    st.builds(KindTold, step=st.just("spritz"), wanted=st.booleans()),
    st.builds(DetailTold, detail=st.sampled_from(list(Detail))),
    st.just(ServingMoved(serving=DINNER)),
    st.builds(Felt, feel=st.sampled_from(list(Feel))),
    st.builds(Wrapped, wrap=st.sampled_from(list(Wrap))),
    st.builds(AirTold, word=st.sampled_from(("hot", "cool"))),
    st.builds(MovedToOven, oven_c=st.sampled_from((50.0, 150.0))),
    st.builds(Troubled, problem=st.sampled_from(("fire_out", "pit_hot")), over=st.booleans()),
    st.builds(StepDone, step=st.just("raw_out"), outcome=st.sampled_from(("out", "back"))),
    st.builds(StepDone, step=st.sampled_from(("leftovers", "slice", "wash_up", "first_look", "fire_out"))),
    st.builds(StepDone, step=st.just("leftover_expire"), outcome=st.sampled_from(("eaten", "frozen"))),
)
readings: st.SearchStrategy[Body] = st.one_of(
    st.builds(Reading, slot=st.just(Slot.CORE), value_c=st.integers(30, 98).map(float), doubtful=st.booleans()),
    st.builds(Reading, slot=st.just(Slot.PIT), value_c=st.sampled_from((20.0, 55.0, 65.0, 120.0))),
    st.builds(Reading, slot=st.just(Slot.FRIDGE), value_c=st.sampled_from((3.0, 9.0))),
    st.builds(Reading, slot=st.just(Slot.LEFTOVERS), value_c=st.sampled_from((3.0, 30.0, 58.0, 70.0, 76.0))),
)


@st.composite
def logs(draw: st.DrawFn) -> tuple[Fact, ...]:
    """Return a log in which a cook goes some way through its stages, with other things told between them."""
    cut = draw(st.sampled_from(("pork_butt", "whole_chicken", "sausages")))
    bodies: list[Body] = [Planned(cut=cut, serving=DINNER, pit_low_c=121.0, pit_high_c=121.0)]
    bodies += draw(st.sampled_from(([], [TreatedTold(treatments=(Treatment.INJECTED,))])))
    bodies.append(StepDone(step="collect_meat"))
    for step in STAGES[: draw(st.integers(3, len(STAGES)))]:
        if step != "raw_out" or draw(st.booleans()):
            bodies.append(StepDone(step=step, outcome="away" if step in {"two_hour", "reheat_away"} else None))
        bodies += draw(st.lists(mere | readings, max_size=5))
    if draw(st.booleans()):
        bodies.append(TreatedTold())
    if draw(st.booleans()):
        bodies.append(Closed())
    at, facts = START, []
    for n, body in enumerate(bodies):
        at += APART * draw(st.sampled_from((1, 1, 1, 2, 5, 13, 200)))
        facts.append(Fact(id=f"f{n}", cook="c", piece="p1", happened_at=at, recorded_at=at, by="Ines", body=body))
    return tuple(facts)


def _stops(facts: tuple[Fact, ...], now: dt.datetime) -> dict[str, bool]:
    """Return the rules whose stop stands, and whether only time and no reading says so."""
    body = facts[0].body
    assert isinstance(body, Planned)
    return {one.rule: one.unread for one in standing_stops(fold(facts), CUTS.get(body.cut), CUTS, now)}


def _may_end(fact: Fact, rule: str, *, unread: bool) -> bool:
    """Return whether a fact of now is one that the rule names as clearing."""
    match fact.body:
        case Reading(slot=slot, doubtful=False):
            return slot in CLEARED_BY.get(rule, set()) and (rule != "pit_dead" or unread)
        case StepDone(step=step, outcome=outcome):
            return (step, outcome) in THROWN
        case _:
            return False


@given(logs())
def test_a_stop_that_stood_stands_or_another_takes_its_place(facts: tuple[Fact, ...]) -> None:
    """Whatever is told: each stop stands in the same breath as before, or another one of the piece does instead, but
    where the fact is a reading of now that its rule names. Time alone ends none but the rest after the minimum.
    """
    earlier: dict[str, bool] = {}
    for n in range(1, len(facts)):
        fact = facts[n]
        before = _stops(facts[:n], fact.happened_at)
        assert set(earlier) - set(before) <= {"minimum_not_measured"}, (n, "time alone")
        after = _stops(facts[: n + 1], fact.happened_at)
        for rule in set(before) - set(after):
            assert _may_end(fact, rule, unread=before[rule]) or set(after) - set(before), (n, rule, fact.body)
        earlier = after


@given(logs())
def test_that_the_cook_is_over_ends_nothing(facts: tuple[Fact, ...]) -> None:
    """The same stops with the cook closed at the end as without it."""
    at = facts[-1].happened_at + APART
    closed = dataclasses.replace(facts[-1], id="end", body=Closed(), happened_at=at, recorded_at=at)
    assert set(_stops((*facts, closed), at)) == set(_stops(facts, at))
