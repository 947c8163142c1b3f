"""A core that somebody wishes for: whether it may be planned, and by which rule; never under the published minimum
unless time at temperature may count, and was chosen. Pure.
"""

from __future__ import annotations

import dataclasses

from scheduler.cuts import Cut, Cuts, aimed
from scheduler.facts import SafeBy
from scheduler.safety.least import NotByTime, counting, least_of, under_least
from scheduler.safety.least import not_by_time as why_not
from scheduler.state import CookState

_WHOLE_C = 0.5
"""The usual cores of cuts are whole degrees: 74 stands for 165 F, which is 73.9 [°C]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Undercooked:
    """A wished core [°C] under the minimum of its piece, and why it cannot be planned; `why` None: only because nobody
    chose time at temperature, or it is under the lowest row of the table, which is the minimum then.
    """

    wished_c: float
    minimum_c: float
    why: NotByTime | None


def not_by_time(state: CookState, cut: Cut) -> NotByTime | None:
    """Return why time at temperature never opens the gate of this piece, None where it may be chosen."""
    return why_not(cut, state.treated, at_risk=state.care.at_risk)


def by_time(state: CookState, cut: Cut) -> bool:
    """Return whether time at temperature counts for this piece: chosen, and nothing against it."""
    return state.safe_by is SafeBy.EQUIVALENCE and not_by_time(state, cut) is None


def undercooked(core_c: float, state: CookState, cut: Cut, cuts: Cuts) -> Undercooked | None:
    """Return why a wished core [°C] cannot be planned for a piece, None when it can."""
    needed = under_least(
        cut, cuts, state.treated, core_c, state.edition, safe_by=state.safe_by, at_risk=state.care.at_risk
    )
    if needed is None:
        return None
    return Undercooked(wished_c=core_c, minimum_c=needed.temp_c, why=not_by_time(state, cut))


def as_wished(state: CookState, cuts: Cuts) -> Cut:
    """Return the cut of a piece, with the core that was wished for it where its cut goes by temperature.

    It comes off at no reading under the minimum; where time at temperature counts, at none under the wished core.
    A wish that has become too low since (guests at risk, meat told as injected) counts as the minimum.
    """
    cut = cuts.get(state.planned.cut)
    if cut.doneness != "temperature":
        return cut
    edition = counting(state.edition, at_risk=state.care.at_risk)
    minimum_c = least_of(cut, cuts, state.treated, edition).temp_c
    wished_c = state.target_c
    if wished_c is None:
        usual_c = cut.done_c if round(cut.done_c) >= minimum_c - _WHOLE_C else minimum_c
        return cut if usual_c == cut.done_c and round(cut.off_c, 1) >= minimum_c else aimed(cut, usual_c, minimum_c)
    core_c = wished_c if undercooked(wished_c, state, cut, cuts) is None else minimum_c
    return aimed(cut, core_c, min(core_c, minimum_c))
