"""Medians and spreads of what is not known of a piece, before any reading.

Figures only, each with its basis; the fit that makes them agree with the trade table is in `scheduler.forecast.fit`.
"""

from __future__ import annotations

import dataclasses

from scheduler.cuts import Cut

MEMBERS = 120
"""Members of the ensemble: more changed little in the comparison of methods recorded in the decision 0006."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Doubt:
    """Median and spread of one figure; the spread is of the logarithm, or absolute where `absolute` is True."""

    median: float
    spread: float
    absolute: bool = False


# Own choice, no published source: begun from an earlier comparison on simulated cooks (decision 0002), then widened
# until the intervals held on the committed cooks of the virtual kitchen. Decision 0006 scores them on fresh ones.
PACE = Doubt(median=1.0, spread=0.10)
"""All that the model leaves out and that lasts, as one multiplier on time."""
HALF_THICKNESS = Doubt(median=1.0, spread=0.13)
EXPONENT = Doubt(median=1.0, spread=0.25)
HEAT_SPREAD = 0.22
REST_SPREAD_C = 4.0
DRYING_SPREAD = 0.40
SHARPNESS_SPREAD = 0.45
PAPER_SPREAD = 0.50
FOIL_OVER_PAPER = Doubt(median=18.0, spread=0.50)
"""Resistance of foil to vapour beyond paper's, relative to a wet surface in moving air."""
BOAT_OF_PAPER = 0.5
"""A boat leaves the top open: taken as half the resistance of paper."""
PROBE_OFF_MIDDLE = Doubt(median=0.10, spread=0.9)
"""How far the probe sits from the coldest spot: 0 in the middle, 1 at 0.6 of the way to the surface."""
PIT_BIAS_C = Doubt(median=0.0, spread=5.0, absolute=True)
START_C = Doubt(median=6.0, spread=3.5, absolute=True)
TOLD_START_C = 1.5
"""Doubt of a start temperature that somebody read [°C]."""

HEAT_NOISE = 0.17
"""Standard deviation of the slow random factor on the heat flux: the model error that is carried explicitly."""
VAPOUR_NOISE = 0.45
NOISE_HOURS = 4.0
"""Correlation time of both [h]."""
PIT_NOISE_C = 6.0
PIT_NOISE_HOURS = 2.5
PIT_SNAPSHOT_C = 8.0
"""How far one pit reading may lie from the slow pit temperature around it: fast swings and the spot read."""

READING_C = 0.75
"""Standard deviation of one core reading [°C]: spot, depth, rounding."""
SHARED_C = 1.2
"""Part of the error that readings close in time share (the same spot), fading over `SHARED_MINUTES`."""
SHARED_MINUTES = 120.0

BLUR = 0.18
"""Every remaining time is blurred by this much (logarithm), what is left of model error."""
BLUR_MINUTES = 4.0
"""... and by this many minutes, so that no answer is sharper than a person can use."""

CORE_CAP_C = 98.6
"""Targets above this are treated as this: the core only creeps toward boiling."""

UNDECIDED_USUAL = 0.5
"""Weight of the usual wrap when the plan is undecided; the other wraps of the cut share the rest."""
TRIGGER_SPREAD_C = 3.5
"""How far from the first bark look a wrap goes on [°C]; common practice, no source (the trade names bands of 6 to 8
C)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Anchor:
    """Medians for a cut, and what is fitted to its durations: multipliers on thickness and on the piece's spreads."""

    heat_w_m2k: float
    """Convection and radiation together at 121 C; published values for ovens lie between 10 and 25."""
    rest_c: float
    """Temperature at which the wet surface rests in a pit of 121 C; the trade sees the core stall at 65 to 77 C."""
    drying_share: float
    """Share of the mass that has evaporated when the crust resists vapour as much as the wet surface does."""
    sharpness: float
    paper: float
    """Resistance of paper to vapour, relative to a wet surface in moving air."""
    radiant_c: float = 0.0
    """How much hotter the surroundings act than the air that the pit thermometer shows: the meat also sees embers or
    hot iron below it [°C]."""
    thick: float = 1.0
    """Multiplier on the half thickness: pieces are uneven and the table's thickness is taken at one place."""
    longer: float = 1.0
    """Multiplier on the durations that the fit aims at."""
    lasting: tuple[float, ...] = ()
    """How the logarithm of the usual duration answers to each of the twelve parameters, as a unit vector; empty before
    it is fitted."""
    kept: float = 1.0
    """Share of the spread along `lasting` that is believed: the trade knows how long a cut takes better than it knows
    anything else of the piece. Across it the spreads stay whole."""


# The medians of each kind were found by a random search over all of them at once (`tests/calibration`): durations,
# hours from 65 to 77 C, what paper and foil save, what a pit 14 C off does, thickness as told. All of it trade table:
# common practice, no source.
TOUGH = Anchor(heat_w_m2k=10.5, rest_c=70.3, drying_share=0.088, sharpness=4.3, paper=5.2, radiant_c=8.3)
"""Big cuts with much connective tissue: brisket, shoulder."""

BONE_PLATE = Anchor(
    heat_w_m2k=9.3, rest_c=63.5, drying_share=0.155, sharpness=9.5, paper=5.9, radiant_c=28.0, longer=1.06
)
"""Beef ribs, whose bone plate lies toward the embers: soon through their stall, and little moved by the pit. Held to: a
plate of chuck ribs passes 82 C after 4 to 5.5 h and is tender after 5.5 to 8 h at 130 to 150 C, which asks for
slightly more than the table's duration."""

SHORT = Anchor(heat_w_m2k=10.0, rest_c=60.0, drying_share=0.07, sharpness=4.7, paper=7.0, radiant_c=8.0)
"""Tough but small or thin pieces with a short stall: pork ribs, belly, cheeks."""

TENDER = Anchor(heat_w_m2k=14.0, rest_c=85.0, drying_share=0.15, sharpness=5.0, paper=3.4, radiant_c=8.0)
"""Tender roasts, birds and fish, whose catalogue entry knows no stall: fat, skin and a short cook keep evaporation
small. Chosen after a look at published roasting times at 93, 149 and 163 C."""

SHORT_STALL_H = 1.0


def kind(cut: Cut) -> Anchor:
    """Return where the fit starts for a cut: by how long the trade sees it stall and by a bone plate."""
    if cut.stall_h.typical <= 0.0:
        return TENDER
    if cut.stall_h.typical <= SHORT_STALL_H:
        return SHORT
    return BONE_PLATE if cut.bone_plate else TOUGH
