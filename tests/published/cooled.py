"""Published cooling runs of cooked joints as cases for `scheduler.thermal.resting`: what was told, what was assumed.

Nothing here is fitted to the runs.
"""

from __future__ import annotations

import dataclasses
import re

import numpy as np

from scheduler.thermal import conduction, cooling, resting
from tests.published.heated import Array, rows

DIFFUSIVITY_M2_S, CONDUCTIVITY_W_MK, DENSITY_KG_M3 = 1.13e-7, 0.38, 1040.0
"""Cooked meat near 30 C by Choi and Okos, mixed conductivity (roasted shoulder; lean turkey 1.18, braised fat 1.08)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Run:
    """One run: half dimensions [m] (shortest first), medium, start, and the spans timed as (from, to, hours)."""

    name: str
    halves_m: tuple[float, float, float]
    round_: bool
    medium: str
    medium_c: float
    speed_m_s: float
    wet: bool
    start_c: float
    spans: tuple[tuple[float, float, float], ...]

    def exponent(self, end_effect: float = 1.0) -> float:
        """Return m = (L/b)^2 + (L/c)^2, each axis but those of a round section weakened by `end_effect`."""
        first, second, third = self.halves_m
        around = (first / second) ** 2
        return min(2.0, (around if self.round_ else end_effect * around) + end_effect * (first / third) ** 2)


def runs() -> tuple[Run, ...]:
    """Return the runs in air and water whose dimensions were told or follow from diameter and mass."""
    return tuple(run for row in rows("cooling_times_cooked_joints.csv") if (run := _run(row)) is not None)


def _run(row: dict[str, str]) -> Run | None:
    regime, halves = row["cooling_regime"], _halves(row)
    if halves is None or "vacuum" in regime or "shower" in regime or "spray" in regime or "bottom rack" in regime:
        return None
    if "then" in regime or " 7 h" in regime:
        return None
    numbers = [float(found) for found in re.findall(r"-?\d+\.?\d*", regime.replace("m/s", "").replace("/", " "))]
    water = "immersion" in regime or "water" in regime
    speed = numbers.pop() if "m/s" in regime else 0.0
    spans = [(*span, float(row[name])) for name, span in _SPANS.items() if row[name] and not row[name].startswith("<")]
    start_c = float(row["start_C"] or 70.0)
    if row["h_start_50"]:
        spans.append((start_c, 50.0, float(row["h_start_50"])))
    if row["h_start_10"] and float(np.mean(numbers)) < 8.0:  # a room that cools from 17 to 6 C has no one temperature
        spans.append((start_c, 10.0, float(row["h_start_10"])))
    return Run(
        name=f"{row['item']}, {regime}", halves_m=halves, round_="dia" in row["dims_mm"], start_c=start_c,
        medium="water" if water else "air", medium_c=float(np.mean(numbers)), speed_m_s=speed,
        wet="Burfoot" in row["source"], spans=tuple(spans),
    )  # fmt: skip


_SPANS = {"h_70_5": (70.0, 5.0), "h_70_10": (70.0, 10.0), "h_70_50": (70.0, 50.0), "h_70_8": (70.0, 8.0)}


def _halves(row: dict[str, str]) -> tuple[float, float, float] | None:
    told = [float(found) / 1000.0 for found in re.findall(r"\d+", row["dims_mm"])]
    if not told:
        return None
    volume_m3 = float(row["mass_kg"]) / DENSITY_KG_M3
    if len(told) == 3:
        first, second, third = sorted(told)
    elif "dia" in row["dims_mm"]:
        first = second = told[0]
        third = max(first, volume_m3 / (np.pi / 4.0 * first**2))
    else:
        first = told[0]
        second = third = float(np.sqrt(volume_m3 / first))
    return 0.5 * first, 0.5 * second, 0.5 * third


def predicted_h(run: Run, from_c: float, to_c: float, end_effect: float = 1.0) -> float:
    """Return how long the model takes from one core temperature to another [h], from an even start."""
    one = np.ones(1)
    across_m = 2.0 * run.halves_m[0]
    exponent = np.array([run.exponent(end_effect)])
    first, second, third = run.halves_m
    around_m = 1.0 / first if run.round_ else 1.0 / second
    per_volume = 1.0 / first + around_m + 1.0 / third
    piece = resting.Piece(
        half_thickness_m=first * one,
        exponent=exponent,
        area_ratio=per_volume * first / (1.0 + exponent),
        diffusivity_m2_s=DIFFUSIVITY_M2_S * one,
        conductivity_w_mk=CONDUCTIVITY_W_MK * one,
    )
    if run.medium == "water":
        heat_w_m2k, emissivity = cooling.WATER_BATH_W_M2K, 0.0
    else:
        over_k = 0.5 * (0.5 * (from_c + to_c) - run.medium_c)
        heat_w_m2k = cooling.air_w_m2k(run.speed_m_s, over_k, across_m)
        emissivity = resting.MEAT_EMISSIVITY
    around = resting.Surroundings(
        air_c=run.medium_c * one, convection_w_m2k=heat_w_m2k * one, emissivity=emissivity,
        wetness=1.0 if run.wet and run.medium == "air" else 0.0,
    )  # fmt: skip
    modes = conduction.modes(exponent)
    even = resting.Profile(amplitudes=modes.start * run.start_c, core_c=run.start_c * one, surface_c=run.start_c * one)
    found = resting.course(piece, even, (resting.Stay(around=around, length_s=30 * 3600.0, step_s=60.0),))
    cores = found.core_c[:, 0]
    times: Array = np.interp([-from_c, -to_c], -cores, found.times_s)
    return float(times[1] - (0.0 if from_c >= run.start_c else times[0])) / 3600.0
