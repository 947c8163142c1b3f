"""Dinners of the virtual kitchen: each cook begun when the plan says, and how late people ate.

The plan knows what the person told beforehand and nothing else; the truth is when the meat was worth pulling.
"""

from __future__ import annotations

import argparse
import dataclasses
import datetime as dt
from collections.abc import Iterable

from scheduler.facts import Fact, Planned, Serving, ServingKind, Wrap
from scheduler.planning.backward import after_pull, backward, holds
from scheduler.state import fold
from tests.skill.cooks import Cooked, all_cooks

DINNER = dt.datetime(2026, 8, 15, 18, 0, tzinfo=dt.UTC)
PLANNED_AT = DINNER - dt.timedelta(hours=60)
MISSED_MIN = 15.0
"""A dinner later than this is missed."""
NEVER_MIN = 48 * 60.0
"""Stands for meat that was not ready while it was watched."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Dinner:
    """One cook: how late people ate [min], 0 for on time, and how long the meat waited hot for them [min]."""

    cook: str
    family: str
    cut: str
    holds: bool
    late_min: float
    waited_min: float
    longest_min: float
    """How long it may be held hot."""

    @property
    def missed(self) -> bool:
        """Return whether dinner was missed."""
        return self.late_min > MISSED_MIN

    @property
    def early(self) -> bool:
        """Return whether the meat was ready longer before dinner than it keeps."""
        return self.waited_min > self.longest_min


def planned(cook: Cooked, confidence: float | None = None) -> Planned:
    """Return what the person said before the cook, for a dinner far enough away."""
    told = cook.told
    pit_c = (float(told["told_pit_f"]) - 32.0) / 1.8
    return Planned(
        cut=cook.cut.id,
        serving=Serving(kind=ServingKind.AT, zone="Etc/UTC", start=DINNER.replace(tzinfo=None)),
        pit_low_c=pit_c,
        pit_high_c=pit_c,
        mass_kg=float(told["told_kg"]) if told["told_kg"] else None,
        thickness_m=float(told["told_mm"]) / 1000.0 if told["told_mm"] else None,
        wrap=Wrap(told["told_wrap"]) if told["told_wrap"] else None,
        confidence=confidence,
    )


def dinner_of(cook: Cooked, confidence: float | None = None) -> Dinner:
    """Return how dinner went when this cook was begun at the planned time."""
    fact = Fact(
        id="f0", cook="kitchen", piece="p1", happened_at=PLANNED_AT, recorded_at=PLANNED_AT, by="Ines",
        body=planned(cook, confidence),
    )  # fmt: skip
    plan = backward(fold((fact,)), cook.cut)
    ready_min = NEVER_MIN if cook.ready_min is None else cook.ready_min
    possible_at = plan.on_at + dt.timedelta(minutes=ready_min) + after_pull(cook.cut)
    late_min = (possible_at - DINNER) / dt.timedelta(minutes=1)
    return Dinner(
        cook=cook.id,
        family=cook.family,
        cut=cook.cut.id,
        holds=holds(cook.cut),
        late_min=max(0.0, late_min),
        waited_min=cook.cut.rest_min_min + max(0.0, -late_min),
        longest_min=cook.cut.rest_max_heated_min,
    )


def shares(dinners: Iterable[Dinner]) -> tuple[float, float, float]:
    """Return the shares of dinners that were late at all, missed, and early."""
    all_of = list(dinners)
    count = len(all_of)
    late, missed = sum(one.late_min > 0 for one in all_of), sum(one.missed for one in all_of)
    return late / count, missed / count, sum(one.early for one in all_of) / count


def table(dinners: list[Dinner]) -> str:
    """Return the shares by family, holding cuts first."""
    lines = [f"{'':28s} {'n':>4s} {'late':>5s} {'>15':>5s} {'early':>5s}"]
    for held in (True, False):
        some = [one for one in dinners if one.holds is held]
        names = sorted({one.family for one in some})
        groups = [(name, [one for one in some if one.family == name]) for name in names]
        whole = [("all that hold" if held else "all that do not", some)] if some else []
        for name, group in [*groups, *whole]:
            late, missed, early = shares(group)
            lines.append(f"{name:28s} {len(group):4d} {late:5.2f} {missed:5.2f} {early:5.2f}")
    return "\n".join(lines)


def main() -> None:
    """Print the table of the committed cooks: `python -m tests.skill.dinners [--confidence P]`."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--confidence", type=float)
    asked = parser.parse_args()
    print(table([dinner_of(cook, asked.confidence) for cook in all_cooks()]))  # noqa: T201 - a table for the terminal


if __name__ == "__main__":
    main()
