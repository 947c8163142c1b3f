"""A worked plan of every cut, beside the same plan made with the trade's own table of hours.

The trade plans: meat on = dinner - slice - rest - vent - cook, with the cook on the slow side by how well a cut holds.
Common practice, no source; it is compared with, not copied. `python -m tests.published.worked_plans` prints the table.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterator

from scheduler.cuts import Cut
from scheduler.facts import Planned
from scheduler.planning.backward import Backward, backward
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, dinner

SLOW_SIDE = {"well": 0.6, "a_little": 0.3, "not": 0.0}
"""How far from typical to high the trade plans, by how well a cut holds; common practice, no source."""

_HOUR = dt.timedelta(hours=1)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Worked:
    """One cut as the trade states its duration: its pit, its mass, its wrap. Spans in hours."""

    cut: Cut
    plan: Backward
    cook_h: tuple[float, float, float]
    """Ours: 10, 50 and 90 % from meat on to pull."""
    lead_h: float
    """Ours: from meat on to dinner."""
    trade_h: float
    """The trade's, from its table of hours."""

    @property
    def latest_h(self) -> float:
        """Return the shortest span that the trade's ranges allow: a typical cook (a fast one of what does not hold) and
        the shortest rest.
        """
        cook = self.cut.duration_h.low if self.cut.holds == "not" else self.cut.duration_h.typical
        return cook + _after(self.cut, self.cut.rest_min_min)

    @property
    def earliest_h(self) -> float:
        """Return the longest: a slow cook and the longest ideal rest."""
        return self.cut.duration_h.high + _after(self.cut, self.cut.rest_ideal_min[1])

    @property
    def inside(self) -> bool:
        """Return whether the plan lies within the ranges of the trade."""
        return self.latest_h <= self.lead_h <= self.earliest_h


def worked(cut: Cut) -> Worked:
    """Return the worked plan of a cut for a dinner far enough away."""
    made = Planned(
        cut=cut.id,
        serving=dinner(60 * 60),
        pit_low_c=cut.duration_pit_c,
        pit_high_c=cut.duration_pit_c,
        mass_kg=cut.duration_kg,
        wrap=cut.duration_wrap,
    )
    state = Logbook(made).state
    plan = backward(state, cut)
    serve_at = state.serving.starts_at()
    assert serve_at is not None
    pulls = (plan.pull.early, plan.pull.likely, plan.pull.late)
    early, likely, late = ((at - plan.on_at) / _HOUR for at in pulls if at is not None)
    return Worked(
        cut=cut,
        plan=plan,
        cook_h=(early, likely, late),
        lead_h=(serve_at - plan.on_at) / _HOUR,
        trade_h=trade_h(cut),
    )


def trade_h(cut: Cut) -> float:
    """Return the span from meat on to dinner by the trade's rule [h]."""
    hours, (low, high) = cut.duration_h, cut.rest_ideal_min
    cook = hours.typical + SLOW_SIDE[cut.holds] * (hours.high - hours.typical)
    return cook + _after(cut, low + 0.25 * (high - low))


def _after(cut: Cut, rest_min: float) -> float:
    return (cut.vent_min + rest_min + cut.slice_min) / 60.0


def all_worked() -> list[Worked]:
    """Return the worked plan of every cut of the catalogue."""
    return [worked(cut) for cut in CATALOGUE.cuts.cuts]


def table() -> Iterator[str]:
    """Give the table of the docs line by line."""
    yield "| cut | holds | cook, ours | cook, trade | on before dinner, ours | trade's rule | trade's range |"
    yield "|---|---|---|---|---|---|---|"
    for one in all_worked():
        ours = " / ".join(f"{hours:.1f}" for hours in one.cook_h)
        hours = one.cut.duration_h
        trade = " / ".join(f"{value:g}" for value in (hours.low, hours.typical, hours.high))
        span = f"{one.latest_h:.1f} to {one.earliest_h:.1f}"
        outside = "" if one.inside else " (outside)"
        holds = one.cut.holds.replace("_", " ")
        leads = f"{one.lead_h:.1f} | {one.trade_h:.1f}"
        yield f"| {one.cut.name} | {holds} | {ours} | {trade} | {leads} | {span}{outside} |"


if __name__ == "__main__":
    print("\n".join(table()))  # noqa: T201 - a table for the terminal
