"""What a log of facts adds up to: the state of one cook, as seen from one of its pieces.

A pure fold: no catalogue, no forecast, no plan. Corrections and undo are applied first, then the facts are counted.
"""

from scheduler.state.crew import (
    CLAIM_LASTS,
    Claim,
    Company,
    LeverWait,
    Offer,
    PhotoAt,
    SoundAt,
    Taking,
    changes_of,
    spans,
)
from scheduler.state.folding import fold
from scheduler.state.pieces import FIRST, PIECE_STEPS, PIECE_TROUBLES, own, pieces_of, seen_from, sees
from scheduler.state.standing import effective, last_by, standing
from scheduler.state.values import (
    OVERTAKEN,
    AskedAt,
    CookState,
    DoneAt,
    FuelAt,
    OffHeat,
    Piece,
    PitBand,
    ReadingAt,
    Stage,
)  # fmt: skip

__all__ = [
    "CLAIM_LASTS",
    "FIRST",
    "OVERTAKEN",
    "PIECE_STEPS",
    "PIECE_TROUBLES",
    "AskedAt",
    "Claim",
    "Company",
    "CookState",
    "DoneAt",
    "FuelAt",
    "LeverWait",
    "OffHeat",
    "Offer",
    "PhotoAt",
    "Piece",
    "PitBand",
    "ReadingAt",
    "SoundAt",
    "Stage",
    "Taking",
    "changes_of",
    "effective",
    "fold",
    "last_by",
    "own",
    "pieces_of",
    "seen_from",
    "sees",
    "spans",
    "standing",
]
