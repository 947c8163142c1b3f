"""The trail of a cook: each piece with its minimum, each reading beside its limit, each finding to its end.

One pure look over a whole log, for the record that somebody else reads; nothing is decided by it.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut, Cuts
from scheduler.facts import Fact, PieceAdded, PieceDropped, Planned, Treatment
from scheduler.safety.bounds import Bounds
from scheduler.safety.entries import Bound, Entry, Raised
from scheduler.safety.judged import entries_of, known
from scheduler.safety.minimum import SafeGate, safe_gate
from scheduler.safety.raised import raised_in
from scheduler.state import FIRST, CookState, effective, fold


@dataclasses.dataclass(frozen=True, kw_only=True)
class PieceTrail:
    """One piece: what it is, how it was treated, which minimum it needs, and whether that was measured."""

    piece: str
    cut: Cut
    state: CookState
    minimum: Bound
    gate: SafeGate
    dropped: bool
    """True when it was taken out of the cook."""

    @property
    def treated(self) -> tuple[Treatment, ...] | None:
        """Return what was done to it, None: nobody said."""
        return self.state.treated


@dataclasses.dataclass(frozen=True, kw_only=True)
class Trail:
    """Everything of a cook that bears on safety, in order of time."""

    pieces: tuple[PieceTrail, ...]
    entries: tuple[Entry, ...]
    raised: tuple[Raised, ...]
    limits: tuple[Bound, ...]
    """Limits that apply whatever the piece."""


def trail(facts: tuple[Fact, ...], cuts: Cuts, now: dt.datetime) -> Trail:
    """Return the trail of a log as of `now` (aware, UTC).

    Raises
    ------
    BrokenLog
        When the log is none (`scheduler.state.fold`).
    """
    pieces = [_piece(state, cuts, dropped=gone) for state, gone in _states(facts)]
    every = tuple(known(one.state, facts, cuts) for one in pieces)
    bounds = Bounds(state=pieces[0].state, cut=pieces[0].cut, cuts=cuts)
    return Trail(
        pieces=tuple(pieces),
        entries=entries_of(facts, every),
        raised=raised_in(facts, cuts, now),
        limits=bounds.of_any_food,
    )


def _piece(state: CookState, cuts: Cuts, *, dropped: bool) -> PieceTrail:
    cut = cuts.get(state.planned.cut)
    return PieceTrail(
        piece=state.piece,
        cut=cut,
        state=state,
        minimum=Bounds(state=state, cut=cut, cuts=cuts).minimum,
        gate=safe_gate(state, cut, cuts),
        dropped=dropped,
    )


def _states(facts: tuple[Fact, ...]) -> list[tuple[CookState, bool]]:
    """Return the cook as seen from every piece that was ever told, and whether the piece was dropped.

    One that was dropped is seen as it was before that.
    """
    stand = effective(facts)
    ids = dict.fromkeys(f.piece or FIRST for f in stand if isinstance(f.body, Planned | PieceAdded))
    left = {piece.id for piece in fold(facts).pieces}
    found = []
    for piece in ids:
        if piece in left:
            found.append((fold(facts, piece=piece), False))
            continue
        drops = {f.id for f in facts if isinstance(f.body, PieceDropped) and (f.piece or FIRST) == piece}
        found.append((fold(tuple(f for f in facts if f.id not in drops), piece=piece), True))
    return found
