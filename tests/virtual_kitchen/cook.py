"""One whole cook: draw the piece, the cooker and the person; let it happen; keep the log and the truth.

It writes no files.
"""

from __future__ import annotations

import dataclasses
import math

import numpy as np

from tests.virtual_kitchen import cooker as cookers
from tests.virtual_kitchen import people
from tests.virtual_kitchen.families import FAMILIES, Kind, Range
from tests.virtual_kitchen.piece import Shape
from tests.virtual_kitchen.roast import Nature, Roast

TRUTHS_F = (130, 135, 140, 145, 150, 155, 160, 165, 170, 180, 185, 190, 195, 198, 200, 203, 205)
PLATE = 1.22
"""Thickness with the bones over that of the meat above them, where bones lie as a plate."""
LATEST_WRAP_C = 88.0
HOT_C = 128.0
LONGEST_MIN = 34 * 60
COLLAGEN_J_PER_MOL = 200e3
"""Activation energy of connective tissue letting go: heuristic, from memory."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Row:
    """One line of a log: as typed."""

    minute: int
    core_f: str = ""
    core_c: str = ""
    pit_f: str = ""
    event: str = ""
    slip: str = ""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Truth:
    """What nobody in the kitchen knew. Minutes since meat on; None: never while it was watched."""

    crossings: dict[int, float | None]
    tender_min: float | None
    evaporated: float
    stall_begin_min: float | None
    stall_end_min: float | None
    wrap_min: int | None
    wrap: str
    true_kg: float
    true_mm: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Cook:
    """A cook as told, its log and its truth."""

    id: str
    family: str
    cut: str
    said: str
    told_kg: str
    told_mm: str
    told_pit_f: int
    told_wrap: str
    """Empty: undecided."""
    target_f: int
    fahrenheit: bool
    rows: tuple[Row, ...]
    truth: Truth


def from_range(rng: np.random.Generator, of: Range) -> float:
    """Return a draw whose 10th, 50th and 90th percentiles are those of the range, within 1.7 of these spreads."""
    low, middle, high = of
    z = float(np.clip(rng.standard_normal(), -2.2, 2.2)) / 1.2816
    return float(middle * (high / middle) ** z if z > 0 else middle * (middle / low) ** z)


def nature(rng: np.random.Generator, kind: Kind) -> Nature:
    """Return how this very piece holds and gives its juice."""

    def spread(middle: float, sd: float) -> float:
        return middle * math.exp(sd * float(np.clip(rng.standard_normal(), -2, 2)))

    return Nature(
        seep=kind.juice * spread(5e-8, 0.45),
        creep=spread(1.5e-9 if not kind.tender else 0.4e-9, 0.35),
        lost=rng.uniform(0.22, 0.42),
        letting_go_s=spread(2100.0, 0.4),
        wettable=spread(0.27 if not kind.tender else 0.13, 0.25),
        start_c=float(np.clip(rng.normal(6, 3.5), 1, 20)),
        half_water=spread(0.2, 0.3),
    )


def shape(rng: np.random.Generator, kind: Kind) -> Shape:
    """Return the size and build of a piece; heavier pieces are thicker, but only partly."""
    mass = from_range(rng, kind.mass_kg)
    lean_on = 0.35 * math.log(mass / kind.mass_kg[1])
    meat_mm = from_range(rng, kind.thickness_mm) ** 0.8 * kind.thickness_mm[1] ** 0.2 * math.exp(lean_on)
    return Shape(
        mass_kg=mass,
        thickness_m=1e-3 * meat_mm * (PLATE if kind.bone == "plate" else 1.0),
        aspect=from_range(rng, kind.aspect),
        roundness=from_range(rng, kind.roundness),
        bone=kind.bone,
        fat=from_range(rng, kind.fat),
        fat_cap=kind.fat_cap,
    )


@dataclasses.dataclass(kw_only=True)
class _Watch:
    """What is noted of the true core, minute by minute."""

    core_c: list[float] = dataclasses.field(default_factory=list)
    dose_h: float = 0.0
    tender_min: float | None = None

    def note(self, core_c: float, need_h: float) -> None:
        self.core_c.append(core_c)
        kelvin = core_c + 273.15
        self.dose_h += math.exp(-COLLAGEN_J_PER_MOL / 8.314 * (1 / kelvin - 1 / 363.15)) / 60
        if self.tender_min is None and self.dose_h >= need_h:
            self.tender_min = float(len(self.core_c))

    def crossing(self, target_f: float) -> float | None:
        target = (target_f - 32) / 1.8
        above = np.nonzero(np.asarray(self.core_c) >= target)[0]
        if not len(above):
            return None
        at = int(above[0])
        before = self.core_c[at - 1] if at else self.core_c[0]
        rise = self.core_c[at] - before
        return at + (1.0 if rise <= 0 else (target - before) / rise)

    def stall(self) -> tuple[float | None, float | None]:
        """From where the core rises by less than 6 °C an hour (between 55 and 82 °C) to where it no longer does."""
        core = np.asarray(self.core_c)
        rate = 2 * (core[30:] - core[:-30])
        middle = core[15 : len(core) - 15]
        slow = np.nonzero((rate < 6) & (middle > 55) & (middle < 82))[0]
        if len(slow) < 20:
            return None, None
        return float(slow[0] + 15), float(slow[-1] + 15)


def happen(family: str, number: int, seed: int, *, as_traded: Kind | None = None, wrap_as: str = "") -> Cook:
    """Return cook `number` of a family; the same numbers give the same cook.

    With `as_traded` it is a cook of that kind as the trade states its duration: that pit, that mass, that wrap (or
    `wrap_as`), and no change of mind.
    """
    names = list(FAMILIES)
    streams = [np.random.default_rng([seed, names.index(family), number, one]) for one in range(4)]  # noqa: TID251 - this kitchen draws its own chance, seeded
    of_piece, of_fire, of_people, of_plan = streams
    kinds = FAMILIES[family]
    kind = as_traded or kinds[number % len(kinds)]
    built = shape(of_piece, kind)
    if as_traded:
        built = dataclasses.replace(built, mass_kg=kind.trade_kg * (built.mass_kg / kind.mass_kg[1]) ** 0.3)
    roast = Roast(built, nature(of_piece, kind))
    need_h = kind.toughness_h * math.exp(0.4 * of_piece.standard_normal())
    told_pit_f = int(of_plan.choice(kind.pits_f))
    wraps, weights = zip(*kind.wraps, strict=True)
    wrap = str(of_plan.choice(wraps, p=weights))
    undecided = of_plan.random() < 0.22 and len(wraps) > 1
    forgets = of_plan.random() < 0.04
    plan = _Plan(
        wrap=wrap if not forgets else "none",
        wrap_at_c=(of_plan.uniform(*kind.wrap_core_f) - 32) / 1.8,
        target_c=(int(of_plan.choice(kind.target_f)) - 32) / 1.8,
        unwraps=bool(of_plan.random() < 0.15) and wrap == "foil",
        hotter_after=_loses_patience(of_plan, kind),
        refuels_every=of_plan.uniform(200, 420),
    )
    if as_traded:
        told_pit_f, undecided = kind.trade_pit_f, False
        wrap = wrap_as or kind.trade_wrap
        plan = dataclasses.replace(plan, wrap=wrap, unwraps=False, hotter_after=math.inf)
    habits = people.drawn(of_people, kind.trade_h[1])
    fire = cookers.Cooker(cookers.drawn(of_fire), (told_pit_f - 32) / 1.8, of_fire)
    watch = _Watch()
    side = _Fireside(roast=roast, fire=fire, habits=habits, plan=plan, kind=kind, rng=of_people)
    rows = _tend(side, watch, need_h)
    begin, end = watch.stall()
    told_kg = built.mass_kg * math.exp(0.05 * of_plan.standard_normal())
    true_mm = built.thickness_m * 1e3 / (PLATE if kind.bone == "plate" else 1.0)
    told_mm = true_mm * math.exp(0.12 * of_plan.standard_normal())
    tells_kg, tells_mm = of_plan.random() < 0.85, of_plan.random() < 0.4
    target_f = round(plan.target_c * 1.8 + 32)
    return Cook(
        id=f"{kind.cut}-{number:02d}",
        family=family,
        cut=kind.cut,
        said=str(of_plan.choice(kind.said)),
        told_kg=f"{told_kg:.1f}" if tells_kg else "",
        told_mm=f"{5 * round(told_mm / 5):d}" if tells_mm else "",
        told_pit_f=told_pit_f,
        told_wrap="" if undecided else wrap,
        target_f=target_f,
        fahrenheit=habits.fahrenheit,
        rows=rows,
        truth=Truth(
            crossings={target: watch.crossing(target) for target in TRUTHS_F},
            tender_min=watch.crossing(target_f) if kind.tender else watch.tender_min,
            evaporated=roast.evaporated_share,
            stall_begin_min=begin,
            stall_end_min=end,
            wrap_min=side.wrapped_at,
            wrap=plan.wrap if side.wrapped_at is not None else "none",
            true_kg=built.mass_kg,
            true_mm=true_mm,
        ),
    )


def _loses_patience(rng: np.random.Generator, kind: Kind) -> float:
    """Return the minute from which the fire is made hotter (or, from a hot one, milder): some early, most when late."""
    early, late = rng.random() < 0.18, rng.random() < 0.7
    if kind.tender:
        return math.inf
    when_late = kind.trade_h[2] * 60 * rng.uniform(0.9, 1.2) if late else math.inf
    return rng.uniform(0.4, 0.7) * kind.trade_h[1] * 60 if early else when_late


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Plan:
    wrap: str
    wrap_at_c: float
    target_c: float
    unwraps: bool
    hotter_after: float
    refuels_every: float


@dataclasses.dataclass(kw_only=True)
class _Fireside:
    """One person, one fire, one piece: what is done at a look."""

    roast: Roast
    fire: cookers.Cooker
    habits: people.Habits
    plan: _Plan
    kind: Kind
    rng: np.random.Generator
    worn: str = "none"
    wrapped_at: int | None = None
    seen_c: float = -math.inf
    pulled: bool = False
    hotter: bool = False

    def look(self, probe: people.Probe, minute: int, *, tender: bool) -> Row:
        """Read, decide, type."""
        habits, rng = self.habits, self.rng
        gauge = self.fire.gauge_c * 1.8 + 32
        reading = probe.read_c(self.roast)
        text, slip = people.typed(reading, habits, rng)
        silent = rng.random() < habits.skips_core
        if not slip:
            self.seen_c = reading
        event = self._act(minute, tender=tender)
        pit = ""
        if rng.random() < habits.reads_pit:
            pit = f"{5 * round(gauge / 5):d}" if habits.rounding == "five" else f"{gauge:.0f}"
        core = "" if silent and event != "pull" else text
        return Row(
            minute=minute,
            core_f=core if habits.fahrenheit else "",
            core_c="" if habits.fahrenheit else core,
            pit_f=pit,
            event=event,
            slip=(slip or probe.contact) if core else "",
        )

    def _act(self, minute: int, *, tender: bool) -> str:
        """Return what was done, as it stands in a log."""
        plan, fire, habits, rng, seen_c = self.plan, self.fire, self.habits, self.rng, self.seen_c
        feels_done = tender and seen_c >= plan.target_c - 4
        if seen_c >= plan.target_c + 2 or feels_done or (self.kind.tender and seen_c >= plan.target_c):
            self.pulled = True
            return "pull"
        if plan.wrap != "none" and self.wrapped_at is None and plan.wrap_at_c <= seen_c < LATEST_WRAP_C:
            self.worn, self.wrapped_at = plan.wrap, minute
            fire.open(120)
            return f"wrap {plan.wrap}"
        if self.worn == "foil" and plan.unwraps and seen_c >= plan.target_c - 6:
            self.worn = "none"
            fire.open(90)
            return "unwrap"
        if minute > plan.hotter_after and not self.hotter:
            self.hotter = True
            fire.set_c += (25 if fire.set_c < HOT_C else -25) / 1.8
            return f"pit {round(fire.set_c * 1.8 + 32)}F"
        if self.worn == "none" and habits.spritzes and habits.first_min < minute and rng.random() < 0.7:
            self.roast.wet(rng.uniform(0.05, 0.15))
            fire.open(40)
            return "spritz"
        if self.worn == "none" and not habits.left_in:
            fire.open(30)
            return "lid" if rng.random() < 0.25 else ""
        return ""


def _tend(side: _Fireside, watch: _Watch, need_h: float) -> tuple[Row, ...]:
    """Let the cook happen until truth and log are both complete; return the log."""
    habits, plan, kind, rng = side.habits, side.plan, side.kind, side.rng
    probe = people.Probe(habits, rng, bony=kind.bone != "none")
    rows = [Row(minute=0, event="on")]
    look, refuel, minute = habits.first_min, plan.refuels_every, 0
    last_c = max(plan.target_c + 2, 65.0) if kind.tender else 96.7
    while minute < LONGEST_MIN:
        if side.pulled and side.roast.core_c > last_c and (kind.tender or watch.tender_min is not None):
            break
        minute += 1
        side.fire.minute()
        side.roast.run(60.0, side.fire.around(), cookers.COVERS[side.worn])
        watch.note(side.roast.core_c, need_h)
        if minute >= refuel:
            refuel += plan.refuels_every
            side.fire.sag(rng.uniform(5, 25))
            side.fire.open(30)
        if not side.pulled and minute >= look:
            rows.append(side.look(probe, minute, tender=watch.tender_min is not None))
            look = people.next_look(habits, rng, minute, near=side.seen_c > plan.target_c - 7)
    return tuple(row for row in rows if row.core_f or row.core_c or row.pit_f or row.event)
