"""A cooker that is lit and comes up: coals that catch from one another, hot gas, thick walls, a draught that grows.

It knows nothing of the engine; its equations share none with it. Temperatures are in °C, one step is ten seconds.
"""

from __future__ import annotations

import dataclasses
import math

import numpy as np

STEP_S = 10.0
LONGEST_MIN = 300
SETS_F = (225, 250, 275, 300)
BEFORE_F = (20, 25)
"""Vents begin to close so far before the set point [°F]."""
EMIT = 5.67e-8 * 0.8
GAS_J = 1050.0


@dataclasses.dataclass(frozen=True, kw_only=True)
class Build:
    """What a cooker is made of: typical values, each drawn with a spread."""

    wall_j_per_k: float
    inner_m2: float
    outside_w_per_k: float
    full_w: float
    draught_kg_s: float
    seen: float
    """Share of the fire's heat that goes to the walls as radiation."""


BUILDS = {
    "ceramic": Build(wall_j_per_k=42e3, inner_m2=1.0, outside_w_per_k=4.5, full_w=5200, draught_kg_s=0.012, seen=0.35),
    "kettle": Build(wall_j_per_k=9e3, inner_m2=1.1, outside_w_per_k=14, full_w=4800, draught_kg_s=0.010, seen=0.4),
    "offset": Build(wall_j_per_k=30e3, inner_m2=1.9, outside_w_per_k=26, full_w=8500, draught_kg_s=0.022, seen=0.3),
    "drum": Build(wall_j_per_k=14e3, inner_m2=1.9, outside_w_per_k=20, full_w=5500, draught_kg_s=0.014, seen=0.35),
    "cabinet": Build(wall_j_per_k=38e3, inner_m2=2.4, outside_w_per_k=10, full_w=5000, draught_kg_s=0.014, seen=0.3),
}
"""Masses times heat capacities of steel and ceramic, areas and flames: own guesses, no source."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Rise:
    """One evening: what people read, and when the true pit passed the mark at which vents begin to close."""

    id: str
    kind: str
    set_f: int
    mark_f: int
    crossing_min: float
    readings: tuple[tuple[float, float], ...]
    """(minutes since lighting, read [°F]), up to the mark."""


def _air_c(fire_w: float, wall_c: float, outside_c: float, build: Build) -> float:
    """Return the gas temperature at which the fire's heat goes to walls and up the flue, by bisection."""
    low, high = outside_c, 900.0
    for _ in range(40):
        air_c = (low + high) / 2
        flow = build.draught_kg_s * math.sqrt(max(air_c - outside_c, 1.0) / 250.0)
        still = 1.6 * max(abs(air_c - wall_c), 0.1) ** 0.33  # natural convection inside, from memory
        radiant = EMIT * 0.25 * ((air_c + 273.0) ** 4 - (wall_c + 273.0) ** 4)
        gone = flow * GAS_J * (air_c - outside_c) + build.inner_m2 * (still * (air_c - wall_c) + radiant)
        low, high = (air_c, high) if gone < (1.0 - build.seen) * fire_w else (low, air_c)
    return (low + high) / 2


def _drawn(usual: Build, rng: np.random.Generator) -> Build:
    return Build(
        wall_j_per_k=usual.wall_j_per_k * math.exp(0.25 * rng.standard_normal()),
        inner_m2=usual.inner_m2 * math.exp(0.12 * rng.standard_normal()),
        outside_w_per_k=usual.outside_w_per_k * math.exp(0.25 * rng.standard_normal()),
        full_w=usual.full_w * math.exp(0.25 * rng.standard_normal()),
        draught_kg_s=usual.draught_kg_s * math.exp(0.2 * rng.standard_normal()),
        seen=usual.seen,
    )


def true_path(kind: str, rng: np.random.Generator) -> list[float]:
    """Return the pit beside the grate, minute by minute since lighting [°C]."""
    build = _drawn(BUILDS[kind], rng)
    outside_c = rng.uniform(2.0, 26.0)
    chimney_min = rng.uniform(10.0, 20.0) if rng.random() < 0.6 else 0.0
    lit = 0.35 if chimney_min else rng.uniform(0.02, 0.06)  # share of the coals that glow when they lie inside
    doubling_min = rng.uniform(6.0, 14.0)
    settling_min = rng.uniform(0.0, 12.0)  # lid off, parts going in
    gust, gust_min, gust_w = 0.0, rng.uniform(4.0, 15.0), rng.uniform(0.03, 0.12)
    wall_c, glow, path = outside_c, lit, []
    shown = outside_c
    for step in range(int(LONGEST_MIN * 60 / STEP_S)):
        minute = step * STEP_S / 60.0
        if step % 6 == 0:
            path.append(shown)
            gust += -gust / gust_min + gust_w * math.sqrt(2 / gust_min) * rng.standard_normal()
        if minute >= chimney_min:
            glow += glow * (1.0 - glow) * math.log(2.0) / doubling_min * STEP_S / 60.0
        inside = 0.0 if minute < chimney_min else 0.35 if minute < chimney_min + settling_min else 1.0
        fire_w = inside * build.full_w * glow * max(0.2, 1.0 + gust)
        air_c = _air_c(fire_w, wall_c, outside_c, build)
        to_walls = fire_w - build.draught_kg_s * math.sqrt(max(air_c - outside_c, 1.0) / 250.0) * GAS_J * (
            air_c - outside_c
        )
        out_w = build.outside_w_per_k * (wall_c - outside_c) * (1.0 + 0.002 * (wall_c - outside_c))
        wall_c += (to_walls - out_w) * STEP_S / build.wall_j_per_k
        beside = 0.6 * air_c + 0.4 * wall_c  # a probe at the grate sees both
        shown += (beside - shown) * STEP_S / 90.0
    return path


def _passes(path: list[float], mark_c: float) -> float | None:
    for minute in range(1, len(path)):
        if path[minute] >= mark_c > path[minute - 1]:
            return minute - 1 + (mark_c - path[minute - 1]) / (path[minute] - path[minute - 1])
    return None


def rise(kind: str, number: int, seed: int) -> Rise:
    """Return one evening of a kind of cooker; a fire that never comes up is lit again."""
    rng = np.random.default_rng([seed, sorted(BUILDS).index(kind), number])  # noqa: TID251 - this kitchen draws its own chance, seeded
    set_f = int(rng.choice(SETS_F))
    mark_f = set_f - int(rng.choice(BEFORE_F))
    while True:
        path = true_path(kind, rng)
        crossing = _passes(path, (mark_f - 32) / 1.8)
        if crossing is not None and crossing > 14.0:
            break
    noise_c = rng.uniform(1.0, 2.0)
    minute, pause = rng.uniform(8.0, 25.0), rng.uniform(5.0, 14.0)
    read = []
    while minute < crossing:
        whole = int(minute)
        true_c = path[whole] + (path[whole + 1] - path[whole]) * (minute - whole)
        read.append((round(minute, 1), float(round((true_c + noise_c * rng.standard_normal()) * 1.8 + 32))))
        minute += max(3.0, pause * math.exp(0.3 * rng.standard_normal()))
    name = f"{kind}-{number:02d}"
    return Rise(id=name, kind=kind, set_f=set_f, mark_f=mark_f, crossing_min=crossing, readings=tuple(read))
