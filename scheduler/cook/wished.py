"""Wishes that safety may refuse: a core to come off at, the rule by which a piece is safe, leaving it out. Pure."""

from __future__ import annotations

import datetime as dt

from scheduler.cook.changes import Refusal
from scheduler.cook.situation import Situation
from scheduler.facts import Body, PieceDropped, SafeBy, SafeByTold, TargetTold
from scheduler.safety import FindingLevel, not_by_time, undercooked


def refused(body: Body, situation: Situation, now: dt.datetime) -> Refusal | None:
    """Return why a wish cannot be for the piece that the situation is seen from, None when it can (or is no wish)."""
    state, cut = situation.state, situation.cut
    piece = state.piece if situation.several else None
    match body:
        case PieceDropped():
            stops = [one for one in situation.findings(now) if one.level is FindingLevel.STOP and not one.whole]
            return Refusal(reason="stop_stands", piece=piece) if stops else None
        case TargetTold():
            under = undercooked(body.core_c, state, cut, situation.catalogue.cuts)
            if under is not None:
                return Refusal(reason="undercooked", under=under, piece=piece)
            return Refusal(reason="done_by_feel", piece=piece) if cut.doneness == "feel" else None
        case SafeByTold(by=SafeBy.EQUIVALENCE):
            why = not_by_time(state, cut)
            return None if why is None else Refusal(reason="not_by_time", not_by_time=why, piece=piece)
        case _:
            return None
