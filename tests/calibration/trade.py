"""What the prior says of a usual cook, in the terms of the trade table: hours, stall, what wraps and the pit change.

The table's figures are common practice, no source.
"""

from __future__ import annotations

import dataclasses

import numpy as np

from scheduler.cuts import Cut, Cuts
from scheduler.facts import Wrap
from scheduler.forecast import course, ensemble, fit, simulate, timing
from scheduler.forecast.anchors import Anchor
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.passing import row
from tests.catalogue import CUTS

MEMBERS = 480
PIT_STEP_C = 14.0
STALL_C = (65.0, 77.0)


def cuts() -> Cuts:
    """Return all cuts of the catalogue."""
    return CUTS


@dataclasses.dataclass(frozen=True, kw_only=True)
class Usual:
    """Medians of the prior for a cut's usual cook. Savings in hours and as a share of what is left at the bark look."""

    hours: tuple[float, float, float]
    stall_h: float
    left_h: float
    """Bare, from the bark look to the target [h]."""
    paper_h: float
    foil_h: float
    hotter: float
    """Relative change of the duration in a pit 14 C hotter."""
    cooler: float
    evaporated: float
    """Share of the mass that has evaporated when a bare piece is done."""


def usual(cut: Cut, using: Anchor, members: int = MEMBERS) -> Usual:
    """Return what the prior says of the cut with this anchor."""
    target_c = cut.target_c.typical
    bare, paper, foil = (runs_of(cut, using, wrap, members) for wrap in (Wrap.NONE, Wrap.PAPER, Wrap.FOIL))
    done_h = passes_h(bare, target_c)
    as_usual = runs_of(cut, using, cut.duration_wrap, members)
    usual_h = passes_h(as_usual, target_c)
    hotter, cooler = (
        passes_h(runs_of(cut, using, cut.duration_wrap, members, by_c), target_c) / usual_h - 1.0
        for by_c in (PIT_STEP_C, -PIT_STEP_C)
    )
    return Usual(
        hours=fit.durations_h(cut, using),
        stall_h=passes_h(as_usual, STALL_C[1]) - passes_h(as_usual, STALL_C[0]),
        left_h=done_h - passes_h(bare, cut.bark_look_c),
        paper_h=done_h - passes_h(paper, target_c),
        foil_h=done_h - passes_h(foil, target_c),
        hotter=hotter,
        cooler=cooler,
        evaporated=evaporated_share(bare, done_h),
    )


def passes_h(runs: ensemble.Runs, core_c: float) -> float:
    """Return the median time at which the core passes a temperature [h]."""
    return float(np.median(timing.crossing_s(runs, np.full(runs.future_c.shape[1], core_c)))) / 3600.0


def evaporated_share(runs: ensemble.Runs, at_h: float) -> float:
    """Return the median share of the raw mass that has evaporated by `at_h` hours after meat on."""
    pieces, span = (
        runs.analysis.pieces,
        course.span(runs.future_s, runs.of, runs.analysis.pieces, runs.analysis.pit_path),
    )
    waters = np.zeros((len(runs.future_s), len(pieces.pace)))
    simulate.run(pieces, simulate.at_start(pieces), span, waters=waters)
    return float(np.median(row(runs.future_s, waters, 3600.0 * at_h) / pieces.mass_kg_m2))


def runs_of(cut: Cut, using: Anchor, wrap: Wrap, members: int, by_c: float = 0.0) -> ensemble.Runs:
    """Return the runs of a cut's usual cook in a wrap, in a pit `by_c` hotter than the table's."""
    asked = Inputs(
        seed="anchor", cut=cut, mass_kg=cut.duration_kg, thickness_m=None, pit=((0.0, cut.duration_pit_c + by_c),),
        wraps=(), wrap_plan=wrap, readings=(), pit_readings=(),
    )  # fmt: skip
    return ensemble.runs(asked, using, members)
