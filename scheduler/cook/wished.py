"""What safety may refuse: a core to come off at, the rule by which a piece is safe, leaving it out, a pull taken back.

Pure.
"""

from __future__ import annotations

import datetime as dt

from scheduler.cook.changes import Refusal
from scheduler.cook.situation import Situation
from scheduler.facts import Body, Fact, PieceDropped, PutBack, SafeBy, SafeByTold, Slot, StepDone, TargetTold
from scheduler.safety import FindingLevel, not_by_time, undercooked
from scheduler.state import Stage

COOLED_C = 3.0
"""A core this far under the one before the pull shows that it was off the heat [°C]; a hand reader is off by
less; common practice, no source."""


def was_off(fact: Fact, situation: Situation) -> Refusal | None:
    """Return why a pull cannot be taken back: a core read since has fallen, so it was off the heat; else None.

    Meat that went back on is told so (`PutBack`), and the time off the heat counts.
    """
    view = situation.view(fact.piece)
    if not isinstance(fact.body, StepDone) or fact.body.step != "pull":
        return None
    cores = [r for r in view.state.read(Slot.CORE) if r.at >= (view.state.at("meat_on") or r.at)]
    before = [r.value_c - r.spread_c for r in cores if r.at <= fact.happened_at]
    after = [r.value_c + r.spread_c for r in cores if r.at > fact.happened_at]
    if not before or not after or min(after) >= before[-1] - COOLED_C:
        return None
    return Refusal(reason="was_off", piece=view.piece if situation.several else None)


def refused(body: Body, situation: Situation, now: dt.datetime) -> Refusal | None:
    """Return why a wish cannot be for the piece that the situation is seen from, None when it can (or is no wish)."""
    state, cut = situation.state, situation.cut
    piece = state.piece if situation.several else None
    match body:
        case PutBack():
            return None if situation.state.stage is Stage.RESTING else Refusal(reason="not_off", piece=piece)
        case PieceDropped() if not situation.several:
            return Refusal(reason="last_piece")
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
