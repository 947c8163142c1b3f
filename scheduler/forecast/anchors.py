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
HEAT_W_M2K = Doubt(median=15.0, spread=0.22)
"""Convection and radiation together; published values for ovens lie between 10 and 25."""
STALL_C = Doubt(median=71.0, spread=4.0, absolute=True)
"""Temperature at which a wet surface rests in a pit of 121 C; the trade sees the core stall at 65 to 77 C."""
DRYING_SHARE = Doubt(median=0.165, spread=0.33)
"""Share of the mass that has evaporated when the crust resists vapour as much as the air does."""
SHARPNESS = Doubt(median=3.5, spread=0.35)
PAPER = Doubt(median=2.0, spread=0.50)
"""Resistance of the wrap to vapour, relative to a wet surface in moving air."""
FOIL_OVER_PAPER = Doubt(median=28.0, spread=0.50)
BOAT_OF_PAPER = 0.5
"""A boat leaves the top open: taken as half the resistance of paper."""
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
"""Every remaining time is blurred by this much (logarithm), what is left of model error; more inside foil."""
BLUR_FOIL = 0.16
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


BASIS = "anchored to the trade table, common practice, no source"

FITTED: dict[str, tuple[tuple[float, ...], Anchor]] = {}
"""Fitted anchors by cut id, with the figures they were fitted to: others are fitted anew."""


def figures(cut: Cut) -> tuple[float, ...]:
    """Return the figures of the cut that its anchor depends on."""
    return (
        cut.duration_pit_c, cut.duration_kg, cut.duration_h.low, cut.duration_h.typical, cut.duration_h.high,
        cut.target_c.typical, cut.thickness_m.typical, cut.mass_kg.typical, cut.bark_look_c, cut.wrap_until_c,
    )  # fmt: skip
