"""The outcomes as tables in Markdown: errors, coverage, CRPS and time, pooled and by wrap, and each against the engine.

Arithmetic and layout only.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Callable, Sequence

import numpy as np

from tests.comparison.asking import Outcome
from tests.comparison.cases import BY_TEMPERATURE, MEASURED, TO_195
from tests.comparison.designs import OURS
from tests.skill.scores import band, middle

HEAD = (
    "| design | median error [min] | 50 % holds | 80 % holds | CRPS [min] | ms |",
    "|---|---|---|---|---|---|",
)
PAIRED_HEAD = (
    "| design | CRPS less the engine's [min] | from dice to dice | nearer than the engine in |",
    "|---|---|---|---|",
)
STAGES = {
    TO_195: "first reading at or above 150 / 165 / 180 F",
    BY_TEMPERATURE: "first reading 45 / 30 / 15 F below the target",
    MEASURED: "a quarter / half / three quarters of the rise",
}


def report(outcomes: Sequence[Outcome]) -> str:
    """Return all tables, each under a heading."""
    big = [one for one in outcomes if one.case.kind == TO_195]
    parts = [_section(f"{kind}: {STAGES[kind]}", [o for o in outcomes if o.case.kind == kind]) for kind in STAGES]
    parts += [
        _section(f"{TO_195}, wrap: {wrap}", [o for o in big if o.case.wrap == wrap])
        for wrap in sorted({o.case.wrap for o in big})
    ]
    parts.append(_section(f"{TO_195}, wrap not told", [o for o in big if not o.case.plan_known]))
    parts.append(_section(f"{TO_195}, a slip of the pen among the readings", [o for o in big if o.case.slipped]))
    parts.append(_paired_section(f"{TO_195}, each design against the engine, by cook", big))
    return "\n\n".join(part for part in parts if part)


def _section(title: str, outcomes: Sequence[Outcome]) -> str:
    if not outcomes:
        return ""
    counts = " / ".join(str(len({o.case.cook for o in outcomes if o.case.place == place})) for place in range(3))
    # For how many answers a design may hold the truth in 80 % of them by chance alone.
    low, high = band(0.8, len({(o.case.cook, o.case.place) for o in outcomes}))
    lines = [f"### {title}", f"{counts} cooks; fair 80 % intervals would hold {low:.2f} to {high:.2f}.", "", *HEAD]
    return "\n".join([*lines, *(row(name, some) for name, some in by_design(outcomes))])


def by_design(outcomes: Sequence[Outcome]) -> list[tuple[str, list[Outcome]]]:
    """Return the outcomes of each design, in the order in which they were asked."""
    names = list(dict.fromkeys(one.design for one in outcomes))
    return [(name, [one for one in outcomes if one.design == name]) for name in names]


def row(name: str, outcomes: Sequence[Outcome]) -> str:
    """Return the line of one design, its three stages side by side and coverage of all of them at the end."""

    def staged(figure: Callable[[list[Outcome]], float], form: str) -> str:
        places = [[one for one in outcomes if one.case.place == place] for place in range(3)]
        return " / ".join(format(figure(some), form) if some else "-" for some in places)

    errors = staged(lambda some: middle([one.foretold.error for one in some]), ".0f")
    crps = staged(lambda some: statistics.fmean(one.foretold.crps for one in some), ".0f")
    half = staged(lambda some: statistics.fmean(one.foretold.in_50 for one in some), ".2f")
    most = staged(lambda some: statistics.fmean(one.foretold.in_80 for one in some), ".2f")
    pooled_50 = statistics.fmean(one.foretold.in_50 for one in outcomes)
    pooled_80 = statistics.fmean(one.foretold.in_80 for one in outcomes)
    took = middle([one.took_ms for one in outcomes])
    return f"| {name} | {errors} | {half}, all {pooled_50:.2f} | {most}, all {pooled_80:.2f} | {crps} | {took:.1f} |"


def _paired_section(title: str, outcomes: Sequence[Outcome]) -> str:
    ours = {(o.case.cook, o.case.place, o.dice): o for o in outcomes if o.design == OURS}
    if not ours:
        return ""
    lines = [f"### {title}", "Mean difference, its standard error over cooks, its range over dice.", "", *PAIRED_HEAD]
    return "\n".join([*lines, *(_paired(name, some, ours) for name, some in by_design(outcomes) if name != OURS)])


def _paired(name: str, outcomes: Sequence[Outcome], ours: dict[tuple[str, int, str], Outcome]) -> str:
    """Return by how much the CRPS of a design exceeds the engine's, cook by cook (the stages of a cook are alike)."""
    more: dict[str, dict[str, list[float]]] = {}
    nearer = []
    for one in outcomes:
        other = ours[one.case.cook, one.case.place, one.dice].foretold
        more.setdefault(one.case.cook, {}).setdefault(one.dice, []).append(one.foretold.crps - other.crps)
        nearer.append(one.foretold.error < other.error)
    # Cooks by dice, each the mean over its stages: a cook counts once, however many stages it has.
    by_both = np.array([[statistics.fmean(some) for some in of_cook.values()] for of_cook in more.values()])
    by_cook, throws = by_both.mean(axis=1), by_both.mean(axis=0)
    error = float(by_cook.std(ddof=1)) / math.sqrt(len(by_cook)) if len(by_cook) > 1 else math.nan
    lucky = f"{throws.min():+.1f} to {throws.max():+.1f}"
    return f"| {name} | {by_cook.mean():+.1f} ± {error:.1f} | {lucky} | {100 * statistics.fmean(nearer):.0f} % |"
