"""Laws of safety over a log: the order of telling does not matter, and what is not known is never safe.

Logs are drawn freely, also foolish ones; the rules are asked, no plan and no forecast.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from scheduler.facts import (
    AirTold,
    Body,
    Corrected,
    Discarded,
    Fact,
    Feel,
    Felt,
    MovedToOven,
    Planned,
    Reading,
    Serving,
    ServingKind,
    Slot,
    StepDone,
    TreatedTold,
    Treatment,
)  # fmt: skip
from scheduler.safety import Eating, findings, serving
from scheduler.safety.case import Case
from scheduler.safety.findings import standing
from scheduler.state import fold
from tests.catalogue import CUTS

ON_AT = dt.datetime(2026, 9, 12, 6, 0, tzinfo=dt.UTC)
SPOTS = (None, "flat", "point")
PASSES_C = 74.0
"""165 F: every minimum, the floor and what reheats are at or below it."""

LOOK = dt.timedelta(minutes=10)

cores = st.builds(
    Reading,
    slot=st.just(Slot.CORE),
    value_c=st.integers(30, 98).map(float),
    spread_c=st.sampled_from((0.0, 0.0, 2.0)),
    spot=st.sampled_from(SPOTS),
)
pits = st.builds(Reading, slot=st.just(Slot.PIT), value_c=st.sampled_from((20.0, 55.0, 65.0, 100.0, 120.0)))
told: st.SearchStrategy[Body] = st.one_of(
    cores,
    cores,
    pits,
    st.builds(Felt, feel=st.sampled_from(list(Feel))),
    st.builds(TreatedTold, treatments=st.sampled_from(((), (Treatment.INJECTED,)))),
    st.builds(AirTold, word=st.sampled_from(("hot", "cool"))),
    st.builds(MovedToOven, oven_c=st.sampled_from((50.0, 150.0))),
    st.builds(StepDone, step=st.sampled_from(("leftovers", "box_meat"))),
    st.builds(StepDone, step=st.just("two_hour"), outcome=st.sampled_from(("away", "on_heat", "thrown"))),
)


@st.composite
def logs(draw: st.DrawFn) -> tuple[Fact, ...]:
    """Return a log whose facts happened at different minutes, in order of time."""
    cut = draw(st.sampled_from(("pork_butt", "beef_chuck_ribs", "whole_chicken", "sausages")))
    serving_at = Serving(kind=ServingKind.WHEN_READY, zone="Etc/UTC")
    bodies: list[tuple[int, Body]] = [
        (0, Planned(cut=cut, serving=serving_at, pit_low_c=121.0, pit_high_c=121.0)),
        (1, StepDone(step="meat_on")),
    ]
    minutes = draw(st.lists(st.integers(2, 1200), min_size=1, max_size=12, unique=True))
    bodies += [(minute, draw(told)) for minute in minutes]
    pulled = draw(st.none() | st.integers(200, 900))
    if pulled is not None:
        bodies.append((pulled, StepDone(step="pull")))
        after = draw(st.none() | st.integers(0, 400))
        if after is not None:
            bodies.append((pulled + after, StepDone(step="serve")))
    if draw(st.integers(0, 9)) == 0:
        bodies.append((draw(st.integers(300, 1200)), Discarded()))
    return tuple(
        _fact(n, body, ON_AT + dt.timedelta(minutes=minute, seconds=n))
        for n, (minute, body) in enumerate(sorted(bodies, key=lambda one: one[0]))
    )


def _fact(n: int, body: Body, at: dt.datetime) -> Fact:
    return Fact(id=f"f{n}", cook="c", piece="p1", happened_at=at, recorded_at=at, by="Ines", body=body)


def _cut(facts: tuple[Fact, ...]) -> str:
    body = facts[0].body
    assert isinstance(body, Planned)
    return body.cut


def _eating(facts: tuple[Fact, ...], now: dt.datetime) -> Eating:
    return serving(fold(facts), CUTS.get(_cut(facts)), CUTS, now).eating


nows = st.integers(1, 1600).map(lambda minutes: ON_AT + dt.timedelta(minutes=minutes, seconds=30))


@given(logs(), nows, st.randoms(use_true_random=False))
def test_the_order_of_telling_does_not_matter(facts: tuple[Fact, ...], now: dt.datetime, chance: object) -> None:
    """The same facts with the same times, told in any order after the plan: the same findings, the same verdict."""
    later = list(facts[1:])
    chance.shuffle(later)  # type: ignore[attr-defined]  # a random.Random of the strategy
    end = max(fact.recorded_at for fact in facts)
    mixed = (
        facts[0],
        *(dataclasses.replace(fact, recorded_at=end + dt.timedelta(seconds=n)) for n, fact in enumerate(later)),
    )
    cut = CUTS.get(_cut(facts))
    assert findings(fold(mixed), cut, CUTS, now) == findings(fold(facts), cut, CUTS, now)
    assert serving(fold(mixed), cut, CUTS, now) == serving(fold(facts), cut, CUTS, now)


def _may_go(fact: Fact, facts: tuple[Fact, ...]) -> bool:
    """Return whether a reading may be dropped without taking the only witness against the food away.

    A pit reading at 60 C or above; a core at 165 F or above whose spot was read another time; a lower core when its
    spot was read as low or lower in the ten minutes after it.
    """
    reading = fact.body
    if not isinstance(reading, Reading):
        return False
    if reading.slot is Slot.PIT:
        return reading.value_c >= 60.0
    low_c = reading.value_c - reading.spread_c
    same = [
        (f.happened_at, f.body.value_c - f.body.spread_c)
        for f in facts
        if f.id != fact.id and isinstance(f.body, Reading) and f.body.slot is Slot.CORE and f.body.spot == reading.spot
    ]
    as_low = any(c <= low_c and dt.timedelta() <= at - fact.happened_at <= LOOK for at, c in same)
    return as_low or (low_c >= PASSES_C and bool(same))


@given(logs(), nows)
def test_dropping_a_reading_never_makes_it_safe(facts: tuple[Fact, ...], now: dt.datetime) -> None:
    """What is not safe, or unknown, stays so without any reading but the only witness of its spot at that look."""
    if _eating(facts, now) is Eating.SAFE:
        return
    for fact in facts:
        if _may_go(fact, facts):
            assert _eating(tuple(f for f in facts if f.id != fact.id), now) is not Eating.SAFE


@given(logs(), nows)
def test_without_any_core_nothing_is_safe(facts: tuple[Fact, ...], now: dt.datetime) -> None:
    """Whatever the pit, the feel, the time on the fire and the steps say."""
    bare = tuple(f for f in facts if not (isinstance(f.body, Reading) and f.body.slot is Slot.CORE))
    assert _eating(bare, now) is not Eating.SAFE


@given(logs(), nows)
def test_no_stop_and_safe_go_together(facts: tuple[Fact, ...], now: dt.datetime) -> None:
    """While a stop stands nothing is safe, and thrown away is never safe."""
    state, cut = fold(facts), CUTS.get(_cut(facts))
    stands = any(f.level == "stop" for f in standing(Case(state=state, cut=cut, cuts=CUTS, now=now)))
    if stands or any(isinstance(f.body, Discarded) for f in facts):
        assert _eating(facts, now) is not Eating.SAFE


@given(logs(), nows, st.integers(0, 30))
def test_a_corrected_reading_counts_as_if_it_had_been_told_so(
    facts: tuple[Fact, ...], now: dt.datetime, which: int
) -> None:
    """A stop raised by a mistyped reading ends with its correction, and both facts stay in the log."""
    read = [f for f in facts if isinstance(f.body, Reading) and f.body.slot is Slot.CORE]
    if not read:
        return
    wrong = read[which % len(read)]
    assert isinstance(wrong.body, Reading)
    right = dataclasses.replace(wrong.body, value_c=96.0, spread_c=0.0)
    meant = tuple(dataclasses.replace(f, body=right) if f.id == wrong.id else f for f in facts)
    mended = (*facts, _fact(99, Corrected(of=wrong.id, body=right), max(f.recorded_at for f in facts)))
    cut = CUTS.get(_cut(facts))
    assert findings(fold(mended), cut, CUTS, now) == findings(fold(meant), cut, CUTS, now)
    assert wrong in mended
