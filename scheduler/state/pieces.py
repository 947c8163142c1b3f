"""The pieces of a cook, and which facts each of them sees. Reads facts, counts nothing."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable

from scheduler.facts import (
    Asked,
    Body,
    ClaimDropped,
    Claimed,
    Discarded,
    Divided,
    Fact,
    Felt,
    MovedToOven,
    PhotoKept,
    PieceAdded,
    PieceDropped,
    Planned,
    PutBack,
    PutOff,
    RanOut,
    Reading,
    RestTold,
    SafeByTold,
    Slot,
    StepDone,
    StepSkipped,
    TargetTold,
    TreatedTold,
    Troubled,
    Warned,
    Withdrawn,
    Wrapped,
    WrapPlanned,
)  # fmt: skip
from scheduler.state.values import Piece

FIRST = "p1"
"""The piece that a `Planned` stands for."""

PIECE_STEPS = frozenset({
    "thaw_start", "thaw_check", "thaw_rescue", "raw_out", "marinade", "trim", "dry_brine", "rub_binder", "probe_in",
    "pit_change", "meat_on", "first_look",
    "spritz", "core_read", "come_up_check", "stall_notice", "bark_check", "wrap_decide", "wrap_do", "box_ready",
    "tender_test", "second_spot", "pull", "vent_meat", "box_meat", "hold_check", "serve_reading", "slice", "serve",
})  # fmt: skip
"""Steps done to each piece by itself; every other one is done once for the cook. The catalogue says the same (a test
compares)."""

PIECE_TROUBLES = frozenset({"dropped", "dropped_raw", "dropped_done", "cross_contamination"})
"""Problems of one piece; every other one is of the whole cook."""

_OWN = (
    Wrapped, Felt, PutBack, WrapPlanned, Divided, MovedToOven, RestTold, Warned, PieceAdded, PieceDropped,
    TreatedTold, SafeByTold, TargetTold, Discarded,
)  # fmt: skip


def pieces_of(effective: Iterable[Fact]) -> tuple[Piece, ...]:
    """Return the pieces that are still cooked, in the order in which they were told; a piece dropped and added again
    is there.
    """
    found: dict[str, Piece] = {}
    gone: set[str] = set()
    for fact in effective:
        match fact.body:
            case Planned(cut=cut) | PieceAdded(cut=cut):
                known = fact.piece or FIRST
                at = found[known].added_at if known in found else fact.recorded_at
                found[known] = Piece(id=known, cut=cut, added_at=at)
                if isinstance(fact.body, PieceAdded):
                    gone.discard(known)
            case PieceDropped():
                gone.add(fact.piece or FIRST)
            case _:
                pass
    return tuple(piece for piece in found.values() if piece.id not in gone)


def own(body: Body) -> bool:
    """Return whether a fact tells of one piece, not of the whole cook."""
    match body:
        case Reading(slot=slot):
            return slot is Slot.CORE
        case StepDone(step=step) | StepSkipped(step=step) | PutOff(step=step):
            return step in PIECE_STEPS
        case (
            Claimed(step=step) | ClaimDropped(step=step) | PhotoKept(step=str(step)) | RanOut(what="claim", about=step)
        ):
            return step in PIECE_STEPS
        case Troubled(problem=problem):
            return problem in PIECE_TROUBLES
        case _:
            return isinstance(body, _OWN)


def seen_from(effective: Iterable[Fact], piece: str) -> tuple[Fact, ...]:
    """Return what one piece sees of a log: what is shared, its own, and of prompts those that concern it."""
    return tuple(
        _keys(fact, piece)
        for fact in effective
        if (fact.piece in {None, piece} or not own(fact.body))
        and not (isinstance(fact.body, Withdrawn) and not sees(fact.body.prompt, piece))
    )


def _keys(fact: Fact, piece: str) -> Fact:
    """Return a fact with only those prompt keys that the piece sees."""
    body = fact.body
    answers = tuple(key for key in fact.answers if sees(key, piece))
    if isinstance(body, Asked):
        body = dataclasses.replace(body, prompts=tuple(key for key in body.prompts if sees(key, piece)))
    if answers == fact.answers and body == fact.body:
        return fact
    return dataclasses.replace(fact, answers=answers, body=body)


def sees(key: str, piece: str) -> bool:
    """Return whether a prompt (by its key, `piece/step/n`) concerns a piece: its own, or one of the whole cook."""
    whose, step = key.split("/")[:2]
    return whose == piece or step not in PIECE_STEPS
