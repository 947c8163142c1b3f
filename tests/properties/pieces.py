"""Pieces, fires and readings for the laws of the forecast's physics, drawn at random.

No law is stated here.
"""

from __future__ import annotations

import dataclasses

import numpy as np
from hypothesis import strategies as st
from numpy.typing import NDArray

from scheduler.cuts import Cut
from scheduler.facts import Wrap
from scheduler.forecast import course, draws, ensemble, fit, pit, simulate
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.interface import Opening
from tests.calibration.trade import cuts

Array = NDArray[np.float64]

ALL = cuts().cuts
MEMBERS = 64


@dataclasses.dataclass(frozen=True, kw_only=True)
class OnTheFire:
    """A piece with its fire: inputs without readings, and how the run goes on."""

    of: Inputs
    pieces: simulate.Pieces
    span: simulate.Span

    @property
    def steps(self) -> int:
        """Return the number of steps of the run."""
        return len(self.span.times_s) - 1

    def step(self, index: int) -> simulate.Span:
        """Return one step of the run as a run of its own."""
        span, one = self.span, slice(index, index + 1)
        wetting = {0: span.wetting_kg_m2[index]} if index in span.wetting_kg_m2 else {}
        return simulate.Span(
            times_s=span.times_s[index : index + 2], pit_c=span.pit_c[one], heat_w_m2k=span.heat_w_m2k[one],
            vapour=span.vapour[one], resistance=span.resistance[one], wetting_kg_m2=wetting,
        )  # fmt: skip


@st.composite
def inputs_of(draw: st.DrawFn, *, spritzed: bool = False) -> Inputs:
    """Draw a cut of any size in a pit that may change, wrapped when it may be, the cooker opened now and then."""
    cut: Cut = draw(st.sampled_from(ALL))
    hours = st.floats(0.2, 0.9 * cut.duration_h.typical)
    wraps = draw(st.lists(st.tuples(hours, st.sampled_from(list(Wrap))), max_size=2))
    kinds = list(Opening) if spritzed else [Opening.LID, Opening.REFUEL]
    openings = draw(st.lists(st.tuples(hours, st.sampled_from(kinds)), min_size=int(spritzed), max_size=4))
    return Inputs(
        seed=draw(st.sampled_from(("first", "second", "third"))),
        cut=cut,
        mass_kg=cut.mass_kg.typical * draw(st.floats(0.5, 2.0)),
        thickness_m=draw(st.none() | st.floats(0.6, 1.5).map(lambda share: share * cut.thickness_m.typical)),
        pit=((0.0, draw(st.floats(85.0, 200.0))), (3600.0 * draw(hours), draw(st.floats(85.0, 200.0)))),
        wraps=tuple(sorted(((3600.0 * hour, wrap) for hour, wrap in wraps), key=lambda event: event[0])),
        wrap_plan=None,
        readings=(),
        pit_readings=(),
        openings=tuple(sorted((3600.0 * hour, kind) for hour, kind in openings)),
    )


def on_the_fire(of: Inputs) -> OnTheFire:
    """Return the members of a piece and what surrounds them, to the horizon."""
    thrown = draws.dice(of.seed, MEMBERS)
    model = ensemble.model_of(of, fit.of_cut(of.cut).anchor)
    pieces = simulate.pieces(model, thrown.parameters, thrown.heat, thrown.vapour)
    times_s = course.future_times(model.body, model.meat.diffusivity_m2_s, 0.0)
    return OnTheFire(of=of, pieces=pieces, span=course.span(times_s, of, pieces, pit.paths(of, thrown)[0]))
