"""The pieces of a cook, each with its own state, cut and outlook, on one pit. Pure; nothing is scheduled here."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut, Cuts
from scheduler.facts import Fact
from scheduler.planning.fuel import light_lead
from scheduler.planning.outlook import Outlook, Verdict, look
from scheduler.planning.stall import Stall, stall_of
from scheduler.safety import SafeGate, as_wished, safe_gate
from scheduler.state import CookState, DoneAt, PitBand, Stage, fold


@dataclasses.dataclass(frozen=True, kw_only=True)
class PieceView:
    """A cook as seen from one of its pieces."""

    piece: str
    number: int | None
    """Counts pieces of the same cut, from 1; None when it is the only one of its cut."""
    state: CookState
    cut: Cut
    outlook: Outlook
    plateau: Stall
    """How it stands with its stall, whether it lies in it or not."""
    gate: SafeGate

    @property
    def stall(self) -> Stall | None:
        """Return the stall that the meat lies in now, None when it lies in none."""
        return self.plateau if self.plateau.within else None

    @property
    def to_come(self) -> bool:
        """Return whether it is still to be served: not served, not thrown away."""
        return not self.state.did("serve") and not self.state.discarded

    @property
    def name(self) -> str:
        """Return what it is called among the others, in the words of the catalogue."""
        return self.cut.name if self.number is None else f"{self.cut.name} {self.number}"


def views_of(facts: tuple[Fact, ...], cuts: Cuts, as_of: dt.datetime | None = None) -> tuple[PieceView, ...]:
    """Return a view of every piece that is still cooked, in the order in which they were told; at least one."""
    first = fold(facts, as_of)
    ids = [piece.id for piece in first.pieces]
    states = [first, *(fold(facts, as_of, piece) for piece in ids if piece != first.piece)]
    if len(states) > 1:
        states = _with_pits_ahead([_with_fire(state, states) for state in states], cuts)
    numbers = _numbers([state.planned.cut for state in states])
    return tuple(_view(state, cuts, number) for state, number in zip(states, numbers, strict=True))


def _view(state: CookState, cuts: Cuts, number: int | None) -> PieceView:
    cut = as_wished(state, cuts)
    outlook = look(state, cut)
    return PieceView(
        piece=state.piece,
        number=number,
        state=state,
        cut=cut,
        outlook=outlook,
        plateau=stall_of(state, cut, outlook.forecast),
        gate=safe_gate(state, cut, cuts),
    )


def _numbers(cuts: list[str]) -> list[int | None]:
    """Return which of its cut each piece is, None for the only one."""
    return [None if cuts.count(cut) == 1 else 1 + cuts[:at].count(cut) for at, cut in enumerate(cuts)]


def _with_fire(state: CookState, states: list[CookState]) -> CookState:
    """Return the state with the fire that another piece shows: where meat is on, something burns, told or not."""
    on = [at for other in states if (at := other.at("meat_on")) is not None]
    if not on or state.did("light") or state.did("meat_on"):
        return state
    lit = DoneAt(at=min(on) - light_lead(state.cooker), by=None, outcome=None, fact="")
    return dataclasses.replace(state, done={**state.done, "light": (lit,)})


def _with_pits_ahead(states: list[CookState], cuts: Cuts) -> list[CookState]:
    """Return the states with the pit that pieces bring which are still to go on: known ahead by the plan alone."""
    shared = next((state for state in states if state.did("meat_on")), states[0])
    ahead = []
    for state in states:
        band = state.pit[-1]
        if state.did("meat_on") or (band.low_c, band.high_c) == (shared.pit[-1].low_c, shared.pit[-1].high_c):
            continue
        on_at = max(look(state, as_wished(state, cuts)).on_at, shared.pit[-1].at)
        ahead.append((state.piece, PitBand(at=on_at, low_c=band.low_c, high_c=band.high_c)))
    return [
        state
        if state.did("pull") or state.oven is not None
        else dataclasses.replace(
            state,
            pit_ahead=tuple(sorted((b for piece, b in ahead if piece != state.piece), key=lambda band: band.at)),
        )
        for state in states
    ]


_URGENT = (Stage.COOKING, Stage.RESTING, Stage.FIRE, Stage.BEFORE, Stage.AFTER, Stage.GONE, Stage.CLOSED)
"""How far a cook of several pieces is: what is on the fire counts before what rests, and that before what waits."""

_GRAVE = (Verdict.LATE, Verdict.CLOSE, Verdict.OPEN, Verdict.EARLY, Verdict.USUAL, Verdict.ON_TIME)


def stage_of(views: tuple[PieceView, ...]) -> Stage:
    """Return how far the whole cook is."""
    return min((view.state.stage for view in views), key=_URGENT.index)


def waiting(views: tuple[PieceView, ...]) -> list[PieceView]:
    """Return the pieces that are still to be served; of none those that were not thrown away, then all."""
    kept = [view for view in views if not view.state.discarded or view.state.did("serve")]
    return [view for view in views if view.to_come] or kept or list(views)


def worst(views: tuple[PieceView, ...]) -> PieceView:
    """Return the piece that decides about dinner: the worst verdict of the next wave, and there the latest plate.

    One that was thrown away decides nothing as long as there is another.
    """
    left = waiting(views)
    if len(left) == 1:
        return left[0]
    never = dt.datetime.max.replace(tzinfo=dt.UTC)

    def gravity(view: PieceView) -> tuple[int, float, float]:
        likely = view.outlook.plate.likely or never
        chance = 1.0 if view.outlook.chance is None else view.outlook.chance
        return _GRAVE.index(view.outlook.verdict), chance, -likely.timestamp()

    return min(left, key=gravity)
