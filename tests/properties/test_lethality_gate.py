"""What holds for the gate of any cook, by minimum and by time: whatever the order of messages, whatever is left out."""

from __future__ import annotations

import dataclasses
import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from scheduler.facts import (
    Body,
    CareTold,
    Fact,
    Planned,
    Reading,
    SafeBy,
    SafeByTold,
    Serving,
    ServingKind,
    Slot,
    StepDone,
    TreatedTold,
)
from scheduler.safety import SafeGate, safe_gate
from scheduler.safety.contested import contests
from scheduler.state import fold
from tests.catalogue import CUTS

ON_AT = dt.datetime(2026, 9, 12, 6, 0, tzinfo=dt.UTC)
CUT = CUTS.get("prime_rib")
MINIMUM_C = 62.8

READINGS = st.lists(
    st.tuples(
        st.integers(0, 200).map(float),
        st.builds(
            Reading,
            slot=st.just(Slot.CORE),
            value_c=st.floats(50.0, 72.0).map(lambda c: round(c, 1)),
            spread_c=st.sampled_from((0.0, 0.0, 1.5)),
            spot=st.sampled_from((None, None, "flat", "point")),
            doubtful=st.sampled_from((False, False, False, True)),
        ),
    ),
    min_size=1,
    max_size=8,
)
RULES = st.sampled_from(SafeBy)


def _facts(by: SafeBy, readings: list[tuple[float, Reading]]) -> tuple[Fact, ...]:
    serving = Serving(kind=ServingKind.WHEN_READY, zone="Etc/UTC")
    bodies: list[tuple[float, Body]] = [
        (0.0, Planned(cut=CUT.id, serving=serving, pit_low_c=121.0, pit_high_c=121.0)),
        (0.0, StepDone(step="meat_on")),
        (0.0, TreatedTold(treatments=())),
        (0.0, CareTold(at_risk=False)),
        (0.0, SafeByTold(by=by)),
        *readings,
    ]
    return tuple(
        Fact(
            id=f"f{n}", cook="c", piece="p1", happened_at=ON_AT + dt.timedelta(minutes=minutes), by="Ines", body=body,
            recorded_at=ON_AT + dt.timedelta(minutes=300 + n),
        )
        for n, (minutes, body) in enumerate(bodies)
    )  # fmt: skip


def _gate(facts: tuple[Fact, ...]) -> SafeGate:
    return safe_gate(fold(facts), CUT, CUTS)


def _said(gate: SafeGate) -> tuple[object, ...]:
    """Return what of a gate is told to people: no ids of facts."""
    lowest_c = None if gate.lowest is None else gate.lowest.value_c - gate.lowest.spread_c
    return (gate.minimum, gate.open_at, gate.by, gate.share, lowest_c)


@given(RULES, READINGS, st.data())
def test_the_order_in_which_late_messages_arrive_does_not_matter(
    by: SafeBy, readings: list[tuple[float, Reading]], data: st.DataObject
) -> None:
    """The same facts, recorded in any order at any time with the same times of happening: the same gate."""
    facts = _facts(by, readings)
    late = data.draw(st.permutations(facts[5:]))
    recorded = tuple(
        dataclasses.replace(fact, recorded_at=ON_AT + dt.timedelta(minutes=400 + n)) for n, fact in enumerate(late)
    )
    assert _said(_gate((*facts[:5], *recorded))) == _said(_gate(facts))


@given(RULES, READINGS, st.data())
def test_dropping_readings_never_opens_the_gate(
    by: SafeBy, readings: list[tuple[float, Reading]], data: st.DataObject
) -> None:
    """A shut gate stays shut whatever is left out, as long as every spot is still read and no low reading goes that
    stands against a higher one (or that a higher one cannot follow so soon), and none without a name.
    """
    facts = _facts(by, readings)
    state = fold(facts)
    lows = {contest.lower.fact for contest in contests(state.readings)}
    lows |= {
        low.fact
        for low in state.readings
        for high in state.readings
        if low.value_c - low.spread_c + 1.4 * abs(low.at - high.at) / dt.timedelta(minutes=1)
        < high.value_c - high.spread_c
    }
    lows |= {low.fact for low in state.readings if low.spot is None and low.value_c - low.spread_c < MINIMUM_C}
    kept = [fact for fact in facts[5:] if fact.id in lows or data.draw(st.booleans())]

    def _spots(some: tuple[Fact, ...]) -> set[str]:
        return {r.spot or "" for r in fold(some).readings if not r.doubtful or r.value_c < MINIMUM_C}

    fewer = (*facts[:5], *kept)
    if _gate(facts).open_at is None and _spots(fewer) == _spots(facts):
        assert _gate(fewer).open_at is None


@given(RULES, READINGS, st.floats(0.0, 8.0))
def test_a_hotter_cook_never_shuts_the_gate(by: SafeBy, readings: list[tuple[float, Reading]], more_c: float) -> None:
    """Every reading hotter by the same: what was open is open, and no later."""
    cool = _gate(_facts(by, readings))
    hot = _gate(_facts(by, [(m, dataclasses.replace(r, value_c=r.value_c + more_c)) for m, r in readings]))
    if cool.open_at is not None:
        assert hot.open_at is not None
        assert hot.open_at <= cool.open_at + dt.timedelta(seconds=1)


@given(READINGS)
def test_time_never_asks_for_more_than_the_minimum(readings: list[tuple[float, Reading]]) -> None:
    """Where time was chosen the gate is open wherever the minimum alone opens it, and no later."""
    alone, chosen = _gate(_facts(SafeBy.MINIMUM, readings)), _gate(_facts(SafeBy.EQUIVALENCE, readings))
    if alone.open_at is not None:
        assert chosen.open_at is not None
        assert chosen.open_at <= alone.open_at
    assert alone.share is None
    assert chosen.share is not None


@given(READINGS, st.integers(201, 400), st.floats(20.0, 60.0))
def test_a_longer_cook_never_shuts_the_gate(readings: list[tuple[float, Reading]], minutes: int, low_c: float) -> None:
    """One more reading more than ten minutes after the others, of a spot that was read, cold as it may be: what was
    open by the minimum stays open. Beside named spots one without a name may be of another: it may shut it.
    """
    spot = readings[0][1].spot
    before = _gate(_facts(SafeBy.MINIMUM, readings))
    later = Reading(slot=Slot.CORE, value_c=low_c, spot=spot)
    known = {r.spot for _, r in readings if not r.doubtful}
    nameless = spot is None and {r.spot for _, r in readings} != {None}
    if before.open_at is not None and spot in known and not nameless:
        after = _gate(_facts(SafeBy.MINIMUM, [*readings, (float(minutes + 10), later)]))
        assert after.open_at == before.open_at


@given(READINGS, st.integers(0, 230), st.floats(63.0, 80.0), st.sampled_from(("flat", "point", "bone side")))
def test_a_named_reading_that_passes_never_opens_what_one_without_a_name_shuts(
    readings: list[tuple[float, Reading]], minutes: int, value_c: float, spot: str
) -> None:
    """Shut, with a low reading without a name in the last half hour of its only readings: a named one opens nothing."""
    nameless = [(m, dataclasses.replace(r, spot=None, doubtful=False)) for m, r in readings]
    if any(r.value_c - r.spread_c >= MINIMUM_C for _, r in nameless):
        return
    last = max(m for m, _ in nameless)
    named = Reading(slot=Slot.CORE, value_c=value_c, spot=spot)
    assert _gate(_facts(SafeBy.MINIMUM, [*nameless, (min(float(minutes), last + 30), named)])).open_at is None
