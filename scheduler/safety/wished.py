"""A core that somebody wishes for: whether it may be planned, and by which rule; never under the published minimum
unless time at temperature may count, and was chosen. Pure.
"""

from __future__ import annotations

import dataclasses
from enum import StrEnum

from scheduler.cuts import Cut, Cuts, aimed
from scheduler.facts import SafeBy
from scheduler.safety.minimum import safe_gate
from scheduler.state import CookState

_WHOLE_C = 0.5
"""The usual cores of cuts are whole degrees: 74 stands for 165 F, which is 73.9 [°C]."""


class NotByTime(StrEnum):
    """Why time at a lower temperature does not count for a piece: the minimum alone opens its gate."""

    POULTRY = "poultry"
    GROUND = "ground"
    """Sausages, burgers: what was outside is all through it."""
    FISH = "fish"
    """No published table of time and temperature is of fish."""
    TREATED = "treated"
    AT_RISK = "at_risk"
    UNTOLD = "untold"
    """Nobody said whether it is intact: one word may change that."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Undercooked:
    """A wished core [°C] under the minimum of its piece, and why it cannot be planned; `why` None: only because nobody
    chose time at temperature.
    """

    wished_c: float
    minimum_c: float
    why: NotByTime | None


def not_by_time(state: CookState, cut: Cut) -> NotByTime | None:
    """Return why time at temperature never opens the gate of this piece, None where it may be chosen."""
    if cut.safety_class == "poultry" or cut.species == "poultry":
        return NotByTime.POULTRY
    if cut.safety_class == "ground":
        return NotByTime.GROUND
    if cut.safety_class == "fish":
        return NotByTime.FISH
    if state.treated:
        return NotByTime.TREATED
    if state.care.at_risk:
        return NotByTime.AT_RISK
    return NotByTime.UNTOLD if state.treated is None else None


def by_time(state: CookState, cut: Cut) -> bool:
    """Return whether time at temperature counts for this piece: chosen, and nothing against it."""
    return state.safe_by is SafeBy.EQUIVALENCE and not_by_time(state, cut) is None


def undercooked(core_c: float, state: CookState, cut: Cut, cuts: Cuts) -> Undercooked | None:
    """Return why a wished core [°C] cannot be planned for a piece, None when it can."""
    minimum_c = safe_gate(state, cut, cuts).minimum_c
    if round(core_c, 1) >= minimum_c or by_time(state, cut):
        return None
    return Undercooked(wished_c=core_c, minimum_c=minimum_c, why=not_by_time(state, cut))


def as_wished(state: CookState, cuts: Cuts) -> Cut:
    """Return the cut of a piece, with the core that was wished for it where its cut goes by temperature.

    A wish that has become too low since (guests at risk, meat told as injected) counts as the minimum.
    """
    cut = cuts.get(state.planned.cut)
    if cut.doneness != "temperature":
        return cut
    minimum_c = safe_gate(state, cut, cuts).minimum_c
    wished_c = state.target_c
    if wished_c is None:
        return cut if round(cut.done_c) >= minimum_c - _WHOLE_C else aimed(cut, minimum_c)
    return aimed(cut, wished_c if undercooked(wished_c, state, cut, cuts) is None else minimum_c)
