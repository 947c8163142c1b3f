"""Medians and spreads of what is not known of a piece, before any reading.

Figures only, each with its basis; the fit that makes them agree with the trade table is in `scheduler.forecast.fit`.
"""

from __future__ import annotations

import dataclasses

from scheduler.cuts import Cut

MEMBERS = 120
"""Members of the ensemble: more changed little in the comparison of methods recorded in the decision 0002."""

DIFFUSIVITY_M2_S = 1.27e-7
"""Thermal diffusivity of raw meat [m2/s]; Choi-Okos sums for raw beef and pork give 1.2e-7 to 1.4e-7 (from memory)."""

CONDUCTIVITY_W_MK = 0.48
"""Thermal conductivity [W/(m K)]; Choi-Okos sums for raw beef and pork give 0.45 to 0.5 (from memory)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Doubt:
    """Median and spread of one figure; the spread is of the logarithm, or absolute where `absolute` is True."""

    median: float
    spread: float
    absolute: bool = False


# Own choice after a comparison of methods on simulated and measured cooks (decision 0002); no published source.
PACE = Doubt(median=1.0, spread=0.10)
"""All that the model leaves out, as one multiplier on time; its median is fitted per cut."""
HALF_THICKNESS = Doubt(median=1.0, spread=0.10)
EXPONENT = Doubt(median=1.0, spread=0.25)
HEAT_W_M2K = Doubt(median=20.0, spread=0.22)
"""Convection and radiation together; published values for ovens lie between 10 and 25."""
STALL_C = Doubt(median=70.0, spread=4.0, absolute=True)
"""Temperature at which a wet surface rests in a pit of 121 C; the trade sees the core stall at 65 to 77 C."""
DRYING_SHARE = Doubt(median=0.16, spread=0.33)
"""Share of the mass that has evaporated when the crust resists vapour as much as the air does."""
SHARPNESS = Doubt(median=5.0, spread=0.30)
PAPER = Doubt(median=6.0, spread=0.40)
"""Resistance of the wrap to vapour, relative to a wet surface in moving air."""
FOIL_OVER_PAPER = Doubt(median=28.0, spread=0.50)
BOAT_OF_PAPER = 0.5
"""A boat leaves the top open: taken as half the resistance of paper."""
PROBE_OFF_MIDDLE = Doubt(median=0.10, spread=0.9)
"""How far the probe sits from the coldest spot: 0 in the middle, 1 at 0.6 of the way to the surface."""
PIT_BIAS_C = Doubt(median=0.0, spread=4.0, absolute=True)
START_C = Doubt(median=6.0, spread=3.5, absolute=True)

HEAT_NOISE = 0.12
"""Standard deviation of the slow random factor on the heat flux: the model error that is carried explicitly."""
VAPOUR_NOISE = 0.45
NOISE_HOURS = 2.0
"""Correlation time of both [h]."""
PIT_NOISE_C = 4.0
PIT_NOISE_HOURS = 2.5
PIT_SNAPSHOT_C = 7.0
"""How far one pit reading may lie from the slow pit temperature around it: fast swings and the spot read."""

READING_C = 0.75
"""Standard deviation of one core reading [°C]: spot, depth, rounding."""
SHARED_C = 0.6
"""Part of the error that readings close in time share (the same spot), fading over `SHARED_MINUTES`."""
SHARED_MINUTES = 20.0

BLUR = 0.12
"""Every remaining time is blurred by this much (logarithm), what is left of model error."""
BLUR_MINUTES = 2.5
"""... and by this many minutes, so that no answer is sharper than a person can use."""

CORE_CAP_C = 98.6
"""Targets above this are treated as this: the core only creeps toward boiling."""

UNDECIDED_USUAL = 0.5
"""Weight of the usual wrap when the plan is undecided; the other wraps of the cut share the rest."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Anchor:
    """What is fitted per cut: multiplier on time, and on the spreads that belong to the piece."""

    pace: float
    width: float
    stall_c: float = STALL_C.median
    stall_spread_c: float = STALL_C.spread
    narrowest: float = 0.4
    """The fit does not take a piece to be known better than this, however narrow the durations of its cut."""
    drying_share: float = DRYING_SHARE.median
    heat_w_m2k: float = HEAT_W_M2K.median


USUAL = Anchor(pace=1.0, width=0.8)
"""Big cuts with much connective tissue: brisket, shoulder."""

BONE_PLATE = Anchor(pace=1.0, width=0.6, stall_c=64.0, drying_share=0.125, heat_w_m2k=22.0)
"""Ribs on a bone plate dry sooner and stall lower: chosen so that the prior of a chuck rib plate passes 82 C between
4 and 5.5 h at 130 to 150 C (common practice, no source)."""


NO_STALL = Anchor(pace=1.0, width=0.8, stall_c=85.0, stall_spread_c=4.0, narrowest=0.5)
"""Tender roasts and birds, whose catalogue entry knows no stall: fat, skin and a short cook keep evaporation small."""


def kind(cut: Cut) -> Anchor:
    """Return where the fit starts for a cut: by bone plate and by whether the trade sees it stall."""
    if cut.bone_plate:
        return BONE_PLATE
    return USUAL if cut.stall_h.typical > 0.0 else NO_STALL


PIT_RESPONSE = 0.7
"""How much of a step of the set point the model's pit takes: the trade says 14 C hotter saves 8 to 24 % of the time
left (common practice, no source), the bare equations say 20 to 25 % for a brisket."""


def felt_pit_c(set_c: float, reference_c: float) -> float:
    """Return the pit temperature [°C] that the equations are given for a set point, rising with it.

    Near `reference_c`, where the cut's duration is known, the response is blunted; below 90 C, where the pit limits
    what the core can reach at all, it is not.
    """
    near = min(1.0, max(0.0, (set_c - 90.0) / 15.0))
    return set_c - (1.0 - PIT_RESPONSE) * near * min(30.0, max(-20.0, set_c - reference_c))


BASIS = "anchored to the trade table, common practice, no source"

FITTED: dict[str, tuple[tuple[float, ...], float, float]] = {
    "beef_chuck_ribs": ((135.0, 2.0, 4.75, 6.25, 8.0, 96.0, 0.055, 2.0, 80.0, 85.0), 1.000, 0.482),
    "beef_plate_ribs": ((135.0, 2.3, 5.5, 7.0, 9.0, 96.0, 0.065, 2.3, 80.0, 85.0), 0.940, 0.467),
    "brisket_packer": ((121.0, 5.0, 9.5, 12.5, 17.0, 95.0, 0.085, 6.0, 71.0, 85.0), 1.380, 0.427),
    "pork_butt": ((121.0, 3.8, 8.5, 11.5, 16.0, 95.0, 0.130, 3.8, 71.0, 85.0), 1.018, 0.666),
}
"""Pace and width by cut id, with the figures they were fitted to: a cut with other figures is fitted anew.

Basis: `BASIS`. The chuck rib pace is 2 % above the fit, so that a pit of 150 C keeps 82 C after four hours as the
trade says.
"""


def figures(cut: Cut) -> tuple[float, ...]:
    """Return the figures of the cut that its anchor depends on."""
    return (
        cut.duration_pit_c, cut.duration_kg, cut.duration_h.low, cut.duration_h.typical, cut.duration_h.high,
        cut.target_c.typical, cut.thickness_m.typical, cut.mass_kg.typical, cut.bark_look_c, cut.wrap_until_c,
    )  # fmt: skip
