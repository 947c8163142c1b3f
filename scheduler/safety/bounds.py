"""Which published limit a reading is compared with: by where the food was at that instant, and by the edition.

No figure stands here; they come from `scheduler.safety.limits` and the gate of the piece.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut, Cuts
from scheduler.facts import Discarded, Edition, Fact, MovedToOven, PutBack, StepDone
from scheduler.safety.case import Case
from scheduler.safety.cooling import FIRST, STAGES
from scheduler.safety.entries import Bound, Phase
from scheduler.safety.least import counting, least_of
from scheduler.safety.limits import DANGER_HIGH, DANGER_LOW, HOT_HOLD, HOT_HOLD_ROAST, PIT_COLD, REHEAT, Limit
from scheduler.safety.put_away import put_away
from scheduler.state import CookState

_PHASES = {
    "meat_on": Phase.COOKING,
    "pull": Phase.HOLDING,
    "box_meat": Phase.HOLDING,
    "serve": Phase.HOLDING,
}
"""Step -> where the food is from then on; what becomes of food that was put away stands in `put_away`."""

Mark = tuple[dt.datetime, Phase]


def marks_of(facts: tuple[Fact, ...], *, from_middle: bool = False) -> tuple[Mark, ...]:
    """Return where a piece was from which instant on, in order of time; `facts` are those that it sees and that stand.

    A cook that was begun in the middle is on the fire until something else is told.
    """
    marks: list[Mark] = [(facts[0].happened_at, Phase.COOKING)] if from_middle and facts else []
    for fact in sorted(facts, key=lambda one: one.happened_at):
        match fact.body:
            case StepDone(step=step) if step in _PHASES:
                marks.append((fact.happened_at, _PHASES[step]))
            case MovedToOven() | PutBack():
                marks.append((fact.happened_at, Phase.COOKING))
            case Discarded():
                marks.append((fact.happened_at, Phase.DISCARDED))
            case _:
                pass
    return tuple(marks)


def phase_at(marks: tuple[Mark, ...], at: dt.datetime) -> Phase:
    """Return where a piece was at an instant; a reading told together with the pull was taken before it."""
    phase = Phase.RAW
    for since, known in marks:
        if since < at or (since == at and known is Phase.COOKING):
            phase = known
    return phase


@dataclasses.dataclass(frozen=True, kw_only=True)
class Bounds:
    """The limits of one piece."""

    state: CookState
    cut: Cut
    cuts: Cuts

    def in_phase(self, phase: Phase) -> Bound | None:
        """Return what a temperature is compared with, None where nothing is published for it."""
        match phase:
            case Phase.COOKING:
                return self.minimum
            case Phase.HOLDING:
                return self._of(self._floor)
            case Phase.REHEATING:
                return self._of(REHEAT)
            case Phase.RAW | Phase.FRIDGE:
                return self._of(DANGER_LOW, at_most=True)
            case Phase.DISCARDED | Phase.COOLING:
                return None

    def put_away(self, at: dt.datetime, high_c: float) -> tuple[Phase, Bound, bool] | None:
        """Return where food that was put away was at an instant, its limit, and whether its time was up by then; None
        while it was not put away. `high_c` is what was read then, at its hottest.
        """
        told = put_away(self.state)
        for reheat in told.reheats:
            if reheat.began_at <= at and (reheat.done_at is None or at <= reheat.done_at):
                return Phase.REHEATING, self._of(REHEAT), True
        cooling = next((one for one in reversed(told.coolings) if one.away_at < at), None)
        if cooling is None or any(r.done_at is not None and cooling.away_at < r.done_at < at for r in told.reheats):
            return None
        for stage in STAGES:
            cold = any(look.high_c <= stage.c for look in cooling.looks if look.at < at)
            up = at > cooling.began_at + stage.within
            if cold or (stage is FIRST and up and high_c <= stage.c):
                continue
            minutes = stage.within / dt.timedelta(minutes=1)
            return Phase.COOLING, dataclasses.replace(self._of(stage.limit, at_most=True), within_min=minutes), up
        return Phase.COOLING, self._of(DANGER_LOW, at_most=True), True

    @property
    def minimum(self) -> Bound:
        """Return the minimum that counts for the piece as it was treated and for whoever eats."""
        least = least_of(self.cut, self.cuts, self.state.treated, self._edition)
        return Bound(
            name="minimum",
            limit_c=least.temp_c,
            limit_f=least.temp_f,
            source=least.source,
            edition=least.edition,
        )

    @property
    def _floor(self) -> Limit:
        """Return the floor of hot holding: the lower one for roasts only where the rules of held meat take it."""
        case = Case(state=self.state, cut=self.cut, cuts=self.cuts, now=self.state.as_of)
        return HOT_HOLD_ROAST if case.floor_c < case.limit_c(HOT_HOLD) else HOT_HOLD

    @property
    def _edition(self) -> Edition:
        """Return whose figures count: with guests at risk always the stricter ones."""
        return counting(self.state.edition, at_risk=self.state.care.at_risk)

    @property
    def of_any_food(self) -> tuple[Bound, ...]:
        """Return the limits that apply whatever the piece: cold, the pit, hot, cooled in two stages, reheated."""
        cooled = tuple(
            dataclasses.replace(self._of(stage.limit, at_most=True), within_min=stage.within / dt.timedelta(minutes=1))
            for stage in STAGES
        )
        return (self._of(DANGER_LOW, at_most=True), self.pit, self._of(self._floor), *cooled, self._of(REHEAT))

    @property
    def danger(self) -> Bound:
        """Return the upper edge of the danger zone."""
        return self._of(DANGER_HIGH)

    @property
    def pit(self) -> Bound:
        """Return what the air of the pit is compared with while the core is in the danger zone."""
        return self._of(PIT_COLD)

    def _of(self, limit: Limit, *, at_most: bool = False) -> Bound:
        figure = limit.under(self._edition)
        return Bound(
            name=limit.id,
            limit_c=figure.c,
            limit_f=figure.value,
            at_most=at_most,
            source=figure.source,
            edition=figure.edition,
        )
