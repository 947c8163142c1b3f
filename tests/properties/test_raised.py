"""Findings over time as they are folded with memory: the same as when the whole log is folded at every instant."""

from __future__ import annotations

import dataclasses
import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.facts import Body, Closed, Discarded, Fact, PieceAdded, PieceDropped, Planned, Reading, Slot, Undone
from scheduler.safety import raised
from scheduler.safety.entries import Raised
from scheduler.safety.findings import findings
from scheduler.state import effective, fold, pieces_of
from tests.catalogue import CUTS
from tests.properties.test_safety_log import logs

LATER = dt.timedelta(hours=3)


@st.composite
def grown(draw: st.DrawFn) -> tuple[Fact, ...]:
    """Return a drawn log with a second piece, something taken back, and perhaps its end."""
    log = list(draw(logs()))
    at = log[0].recorded_at
    if draw(st.booleans()):
        second = dataclasses.replace(log[0], id="second", piece="p2", body=PieceAdded(cut="whole_chicken"))
        log.insert(1, dataclasses.replace(second, happened_at=at, recorded_at=at))
        cold = Reading(slot=Slot.CORE, value_c=50.0)
        log.append(dataclasses.replace(log[-1], id="cold", piece="p2", body=cold))
        if draw(st.booleans()):
            log.append(dataclasses.replace(log[-1], id="dropped", piece="p2", body=PieceDropped()))
    of = draw(st.sampled_from([fact.id for fact in log[1:]] or [log[0].id]))
    ends: list[Body] = [Undone(of=of), Undone(of=log[0].id), Discarded(), Closed()]
    for number, body in enumerate(draw(st.lists(st.sampled_from(ends), max_size=3))):
        after = log[-1].recorded_at + dt.timedelta(minutes=draw(st.sampled_from((0, 1, 30))))
        piece = None if isinstance(body, Closed) else "p1"
        log.append(
            dataclasses.replace(
                log[-1], id=f"end{number}", piece=piece, body=body, happened_at=after, recorded_at=after
            )
        )
    return tuple(log)


def _plainly(facts: tuple[Fact, ...], now: dt.datetime) -> list[dict[tuple[str, str], object]]:
    """Return what stands at each instant at which it is looked at, each folded anew."""
    looks = []
    for log, at, _fresh in raised._instants(facts, now):  # noqa: SLF001 - the same instants, another way of looking
        counts = effective(log)
        found: dict[tuple[str, str], object] = {}
        if any(isinstance(f.body, Closed) for f in counts):
            break
        if any(isinstance(f.body, Planned) for f in counts):
            for piece in pieces_of(counts):
                state = fold(log, at, piece.id)
                for one in findings(state, CUTS.get(state.planned.cut), CUTS, at):
                    found.setdefault(("" if one.whole else piece.id, one.rule), one)
        looks.append(found)
    return looks


@settings(max_examples=60, deadline=None)
@given(grown())
def test_what_was_folded_once_is_the_same_as_folded_anew(facts: tuple[Fact, ...]) -> None:
    """At every instant the same findings stand, and so the same are raised at the same instants and end as they do."""
    now = facts[-1].recorded_at + LATER
    looks: list[dict[tuple[str, str], object]] = []
    seen = raised._Seen()  # noqa: SLF001 - the memory under test
    for log, at, _fresh in raised._instants(facts, now):  # noqa: SLF001 - the memory under test
        seen = seen if seen.log == log else raised._seen(log)  # noqa: SLF001 - the memory under test
        if seen.closed:
            break
        looks.append(dict(raised._standing(seen, CUTS, at)))  # noqa: SLF001 - the memory under test
    assert looks == _plainly(facts, now)
    found: tuple[Raised, ...] = raised.raised_in(facts, CUTS, now)
    assert {(one.piece, one.finding.rule) for one in found} == {key for look in looks for key in look}
