"""The bands that the pit is to hold around one piece, in order of time. Counts facts; forecasts nothing."""

from __future__ import annotations

from collections.abc import Iterable

from scheduler.facts import Fact, MovedToOven, PieceAdded, PitMoved, Planned, StepDone
from scheduler.state.values import PitBand

Band = tuple[float, float]


def bands(seen: tuple[Fact, ...], everything: tuple[Fact, ...], piece: str, *, several: bool) -> tuple[PitBand, ...]:
    """Return the bands [°C] around a piece; a later plan with the same pit changes nothing.

    A piece with a pit of its own brings it when it goes on, for everything that is on; until then it is planned with
    it. Of several pieces, one that was moved to an oven sees only the oven.
    """
    pits = _own_pits(everything)
    oven_at = min((f.happened_at for f in seen if isinstance(f.body, MovedToOven)), default=None)
    found: list[PitBand] = []
    planned: Band | None = None
    for fact in sorted((*seen, *_brought(everything, pits, seen)), key=lambda fact: fact.happened_at):
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
