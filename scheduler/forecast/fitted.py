"""The fit of the prior to the trade table, recorded: `scheduler.forecast.fit` made it and remakes it when figures change.

Numbers only.
"""

from __future__ import annotations

import dataclasses

from scheduler.cuts import Cut

BASIS = "anchored to the trade table, common practice, no source"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Record:
    """What was fitted, with the figures it was fitted to."""

    figures: tuple[float, ...]
    thick: float
    lasting: tuple[float, ...]
    kept: float
    dose_h: float


def figures(cut: Cut) -> tuple[float, ...]:
    """Return the figures of the cut that its fit depends on."""
    made_of = cut.composition
    return (
        cut.duration_pit_c, cut.duration_kg, cut.duration_h.low, cut.duration_h.typical, cut.duration_h.high,
        cut.target_c.typical, cut.thickness_m.typical, cut.mass_kg.typical, cut.bark_look_c, cut.wrap_until_c,
        made_of.water, made_of.protein, made_of.fat, made_of.ash,
    )  # fmt: skip


RECORDED: dict[str, Record] = {}
