"""The bands that the pit is to hold around one piece, in order of time. Counts facts; forecasts nothing."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable

from scheduler.facts import Fact, MovedToOven, PieceAdded, PitMoved, Planned, StepDone
from scheduler.state.values import PitBand

Band = tuple[float, float]


def bands(seen: tuple[Fact, ...], everything: tuple[Fact, ...], piece: str, *, several: bool) -> tuple[PitBand, ...]:
    """Return the bands [°C] around a piece; a later plan with the same pit changes nothing.

    A piece with a pit of its own brings it when it goes on, for everything that is on; until then it is planned with
    it. Of several pieces, one that was moved to an oven sees only the oven. A setting written down after a plan counts
    from that plan on, however near their instants are.
    """
    pits = _own_pits(everything)
    oven_at = min((f.happened_at for f in seen if isinstance(f.body, MovedToOven)), default=None)
    found: list[PitBand] = []
    planned: Band | None = None
    for fact in _in_order((*seen, *_brought(everything, pits, seen)), everything):
        in_oven = several and oven_at is not None and fact.happened_at >= oven_at
        if in_oven and not isinstance(fact.body, MovedToOven):
            continue
        match fact.body:
            case Planned(pit_low_c=low_c, pit_high_c=high_c):
                same, planned = planned == (low_c, high_c), (low_c, high_c)
                if same:
                    continue
            case PitMoved(pit_low_c=low_c, pit_high_c=high_c):
                pass
            case MovedToOven(oven_c=low_c):
                high_c = low_c
            case StepDone(step="meat_on") if fact.piece in pits:
                low_c, high_c = pits[fact.piece]
            case _:
                continue
        found.append(PitBand(at=fact.happened_at, low_c=low_c, high_c=high_c))
    if piece in pits and not any(_goes_on(f) and f.piece == piece for f in seen):
        low_c, high_c = pits[piece]
        found.append(PitBand(at=found[-1].at, low_c=low_c, high_c=high_c))
    return tuple(found)


def _in_order(facts: tuple[Fact, ...], everything: tuple[Fact, ...]) -> list[Fact]:
    """Return facts in order of time, those of one instant as they were written down; no setting of the pit is older
    than the plan that was written down before it: it was said of that plan, whatever the milliseconds.
    """
    place = {fact.id: number for number, fact in enumerate(everything)}
    found: list[Fact] = []
    plan_at = None
    for fact in sorted(facts, key=lambda fact: place.get(fact.id, len(place))):
        dated = fact
        if isinstance(fact.body, Planned):
            plan_at = fact.happened_at
        elif isinstance(fact.body, PitMoved) and plan_at is not None and fact.happened_at < plan_at:
            dated = dataclasses.replace(fact, happened_at=plan_at)
        found.append(dated)
    return sorted(found, key=lambda fact: fact.happened_at)


def _own_pits(everything: Iterable[Fact]) -> dict[str | None, Band]:
    """Return the pit that each piece wants, for those that want one of their own."""
    pits: dict[str | None, Band] = {}
    for fact in everything:
        if isinstance(fact.body, PieceAdded):
            pits.pop(fact.piece, None)
            low_c, high_c = fact.body.pit_low_c, fact.body.pit_high_c
            if low_c is not None:
                pits[fact.piece] = (low_c, low_c if high_c is None else high_c)
    return pits


def _brought(everything: tuple[Fact, ...], pits: dict[str | None, Band], seen: tuple[Fact, ...]) -> list[Fact]:
    """Return the meat-on facts of other pieces that bring a pit; the own one is among what is seen."""
    here = {fact.id for fact in seen}
    return [f for f in everything if _goes_on(f) and f.piece in pits and f.id not in here]


def _goes_on(fact: Fact) -> bool:
    return isinstance(fact.body, StepDone) and fact.body.step == "meat_on"
