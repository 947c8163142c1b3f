"""The kitchen against the trade: durations, spread, stall, evaporated share and what foil saves, family by family.

Run `python -m tests.virtual_kitchen.check [--cooks 16]`; it prints a table and changes nothing.
"""

from __future__ import annotations

import argparse
import math

import numpy as np

from tests.virtual_kitchen.cook import Cook, happen
from tests.virtual_kitchen.families import FAMILIES, Kind, Range

SEED = 20240911
BIG_CUTS = ("brisket_packer", "pork_butt", "pork_picnic", "whole_pork_shoulder", "brisket_flat", "chuck_roast")


def hours_between(cook: Cook, low_f: int | None, high_f: int) -> float:
    """Return hours from one crossing (or meat on) to another; infinity when it never came."""
    high = cook.truth.crossings[high_f]
    low = 0.0 if low_f is None else cook.truth.crossings[low_f]
    return float("inf") if high is None or low is None else (high - low) / 60


def nearest(target_f: float, cook: Cook) -> int:
    """Return the kept crossing nearest to a target."""
    return min(cook.truth.crossings, key=lambda one: abs(one - target_f))


def compare(family: str, kind: Kind, count: int) -> str:
    """Return one line of the table."""
    cooks = [happen(family, number, SEED, as_traded=kind) for number in range(count)]
    hours = np.sort([hours_between(cook, None, nearest(kind.trade_target_f, cook)) for cook in cooks])
    low, middle, high = np.quantile(hours, [0.1, 0.5, 0.9], method="nearest")
    vapour = np.quantile([cook.truth.evaporated for cook in cooks], [0.1, 0.5, 0.9])
    line = f"{kind.cut:20s} {low:5.1f} {middle:5.1f} {high:5.1f}  {_range(kind.trade_h)}"
    line += f"  evap {100 * vapour[0]:3.0f} {100 * vapour[1]:3.0f} {100 * vapour[2]:3.0f} %"
    if kind.stall_h:
        stall = np.quantile([hours_between(cook, 150, 170) for cook in cooks], [0.1, 0.5, 0.9], method="nearest")
        line += f"  stall {stall[0]:4.1f} {stall[1]:4.1f} {stall[2]:4.1f} {_range(kind.stall_h)}"
        tender = [cook.truth.tender_min or np.inf for cook in cooks]
        line += f"  tender {np.median(tender) / 60:4.1f}"
        line += f"  core in the middle of the stall {np.median([_plateau_c(cook) for cook in cooks]):.0f} C"
    if kind.cut in BIG_CUTS:
        few = range(min(count, 8))
        until = {
            wrap: [hours_between(happen(family, one, SEED, as_traded=kind, wrap_as=wrap), None, 195) for one in few]
            for wrap in ("none", "paper", "foil")
        }
        for wrap in ("paper", "foil"):
            saved = [60 * (bare - worn) for bare, worn in zip(until["none"], until[wrap], strict=True)]
            line += f"  {wrap} saves {np.median(saved):.0f} min"
    return line


def _range(of: Range) -> str:
    return f"({of[0]:g} {of[1]:g} {of[2]:g})"


def _plateau_c(cook: Cook) -> float:
    """Return the core [°C] halfway in time between 58 and 85 °C: where it lingers."""
    at = {target: minute for target, minute in cook.truth.crossings.items() if minute is not None}
    low, high = at.get(135, math.nan), at.get(185, math.nan)
    return (float(np.interp((low + high) / 2, list(at.values()), list(at))) - 32) / 1.8


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cooks", type=int, default=16)
    parser.add_argument("--cut", default="")
    asked = parser.parse_args()
    for family, kinds in FAMILIES.items():
        for kind in kinds:
            if asked.cut in kind.cut:
                print(compare(family, kind, asked.cooks), flush=True)  # noqa: T201 - a table for the terminal


if __name__ == "__main__":
    main()
