"""Pictures of the report for docs/explanation/forecast: errors by stage, calibration, and four cooks foretold.

The only file that needs matplotlib, which is for tests alone.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from bot.backtest.replay import ON_AT
from scheduler.forecast import forecast
from tests.skill.cooks import Cooked, all_cooks, stages
from tests.skill.outcomes import Outcome
from tests.skill.scores import LEVELS, band, middle

ENGINE, RIVALS, PALE = "#b3471d", ("#7a7a7a", "#a8a8a8", "#cfcfcf"), "#e8b89f"
SHOWN = ("beef_chuck_ribs-03", "brisket_packer-05", "pork_butt-04", "prime_rib-02")


def draw(outcomes: Sequence[Outcome], into: Path) -> None:
    """Write all pictures as SVG; the same outcomes give the same files."""
    into.mkdir(parents=True, exist_ok=True)
    with mpl.rc_context():
        mpl.rcParams["svg.hashsalt"], mpl.rcParams["svg.fonttype"] = "slowbell", "none"
        mpl.rcParams["font.size"] = 9
        mpl.rcParams["axes.spines.top"] = mpl.rcParams["axes.spines.right"] = False
        for name, figure in (
            ("errors", _errors(outcomes)),
            ("calibration", _calibration(outcomes)),
            ("families", _families(outcomes)),
            ("cooks", _cooks()),
        ):
            figure.savefig(into / f"{name}.svg", metadata={"Date": None}, bbox_inches="tight")


def _errors(outcomes: Sequence[Outcome]) -> Figure:
    figure = Figure(figsize=(6.4, 3.0))
    axes = figure.subplots()
    big = [one for one in outcomes if not one.by_temperature]
    names = ("engine", "straight line", "exponential", "minutes per pound")
    for place in range(3):
        some = [one for one in big if one.place == place]
        errors = (
            [one.target.error for one in some],
            [one.line_error for one in some],
            [one.exponential_error for one in some],
            [one.per_pound_error for one in some],
        )
        for rank, (name, color) in enumerate(zip(names, (ENGINE, *RIVALS), strict=True)):
            height = middle(errors[rank])
            label = name if place == 0 else None
            axes.bar(place + 0.2 * (rank - 1.5), height, 0.19, color=color, label=label)
            axes.annotate(f"{height:.0f}", (place + 0.2 * (rank - 1.5), height), ha="center", va="bottom", fontsize=8)
    axes.set_xticks(range(3), [f"core first reads {stage} °F" for stage in (150, 165, 180)])
    axes.set_ylabel("median error of the 195 °F time [min]")
    axes.legend(frameon=False, ncols=4, loc="lower center", bbox_to_anchor=(0.5, 1.02))
    return figure


def _calibration(outcomes: Sequence[Outcome]) -> Figure:
    figure = Figure(figsize=(3.4, 3.2))
    axes = figure.subplots()
    axes.plot([0, 1], [0, 1], color=RIVALS[2])
    for name, color, some in (
        ("target", ENGINE, [one.target for one in outcomes]),
        ("readiness", RIVALS[0], [one.ready for one in outcomes if one.ready is not None]),
    ):
        shares = [sum(one.truth <= one.quantiles[rank] for one in some) / len(some) for rank in range(len(LEVELS))]
        axes.plot(LEVELS, shares, marker="o", markersize=3, color=color, label=name)
    axes.set_xlabel("foretold probability")
    axes.set_ylabel("share of cooks that had got there")
    axes.legend(frameon=False)
    return figure


def _families(outcomes: Sequence[Outcome]) -> Figure:
    figure = Figure(figsize=(6.4, 3.4))
    axes = figure.subplots()
    groups = [(name, [one for one in outcomes if one.family == name]) for name in sorted({o.family for o in outcomes})]
    groups += [
        (f"wrap: {wrap}", [o for o in outcomes if o.wrap == wrap]) for wrap in sorted({o.wrap for o in outcomes})
    ]
    for place, (_, some) in enumerate(groups):
        low, high = band(0.8, len(some))
        axes.plot([low, high], [place, place], color=PALE, linewidth=6, solid_capstyle="butt")
        axes.plot(sum(one.target.in_80 for one in some) / len(some), place, "o", color=ENGINE, markersize=4)
    axes.axvline(0.8, color=RIVALS[1], linewidth=0.8)
    axes.set_yticks(range(len(groups)), [f"{name} ({len(some)})" for name, some in groups])
    axes.set_xlabel("share of times inside the 80 % interval; bar: where 95 % of fair samples lie")
    return figure


def _cooks() -> Figure:
    figure = Figure(figsize=(7.2, 5.4))
    cooks = {cook.id: cook for cook in all_cooks()}
    for axes, name in zip(figure.subplots(2, 2).flat, SHOWN, strict=True):
        _one(axes, cooks[name])
    figure.supxlabel("hours since meat on")
    figure.supylabel("core [°F]")
    figure.tight_layout()
    return figure


def _one(axes: Axes, cook: Cooked) -> None:
    """Draw what was known at the second stage, the fan from there, and what came."""
    known = stages(cook)
    stage = known[min(1, len(known) - 1)]
    foretold = forecast(stage.question)
    minutes = [stage.minute + 15 * step for step in range(60)]
    fan = [
        [foretold.core_c(ON_AT + dt.timedelta(minutes=minute), p) * 1.8 + 32 for minute in minutes]
        for p in (0.1, 0.5, 0.9)
    ]
    hours = [minute / 60 for minute in minutes]
    axes.fill_between(hours, fan[0], fan[2], color=PALE, linewidth=0)
    axes.plot(hours, fan[1], color=ENGINE)
    axes.plot([minute / 60 for minute, _ in stage.points], [core for _, core in stage.points], "o", color="black", ms=3)
    true = [
        (float(at) / 60, int(key[1:4])) for key, at in cook.told.items() if key[:1] == "f" and key[1:4].isdigit() and at
    ]
    axes.plot([hour for hour, _ in true], [core for _, core in true], "x", color=RIVALS[0], ms=4)
    axes.axhline(cook.target_f, color=RIVALS[2], linewidth=0.8)
    axes.set_title(f"{cook.told['said']}, pit {cook.told['told_pit_f']} °F", fontsize=9)
    axes.set_xlim(0, 1.25 * max(hour for hour, _ in true))
    axes.set_ylim(30, 215)
