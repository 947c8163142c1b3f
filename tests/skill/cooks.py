"""The cooks of tests/data/kitchen, as logs that a person could have kept, with the truth beside them.

A question never holds a row that came after its stage, nor anything of the truth.
"""

from __future__ import annotations

import csv
import dataclasses
import functools
from pathlib import Path

from bot.backtest.kinds import all_cuts
from bot.backtest.log import Log
from bot.backtest.reading import read_log
from bot.backtest.replay import on_the_fire, question
from scheduler.cuts import Cut
from scheduler.forecast import Question

DATA = Path(__file__).parents[1] / "data" / "kitchen"
STAGES_F = (150, 165, 180)
BEFORE_TARGET_F = (45, 30, 15)
"""Stages of a piece that is done at a temperature: so far below its target."""
BIG_TARGET_F = 195
SLIPS = ("unit", "typo")


@dataclasses.dataclass(frozen=True, kw_only=True)
class Typed:
    """One row of a log: minute, core as typed in the unit of the log, pit [°F], event, and what was wrong with it."""

    minute: int
    core: str
    pit_f: str
    event: str
    slip: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Cooked:
    """A cook: what was told and typed, and the truth in minutes since meat on (None: never)."""

    id: str
    family: str
    cut: Cut
    told: dict[str, str]
    rows: tuple[Typed, ...]
    target_f: int
    """Whose crossing is foretold: 195 °F, or the own target of a piece that is done at a temperature."""
    target_min: float | None
    ready_min: float | None
    wrap: str
    """What was wrapped in the end."""

    @property
    def by_temperature(self) -> bool:
        """True for roasts and birds that are done at a temperature."""
        return self.cut.doneness == "temperature"

    @property
    def stages_f(self) -> tuple[int, ...]:
        """Core temperatures at whose first reading a forecast is judged."""
        if self.by_temperature:
            return tuple(self.target_f - below for below in BEFORE_TARGET_F)
        return STAGES_F


@dataclasses.dataclass(frozen=True, kw_only=True)
class Stage:
    """A moment at which the future is asked for: place 0 to 2, the minute, and the readings so far [min, °F]."""

    place: int
    minute: float
    points: tuple[tuple[float, float], ...]
    question: Question
    pit_f: float


def _rows(name: str) -> list[dict[str, str]]:
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@functools.cache
def all_cooks() -> tuple[Cooked, ...]:
    """Return every cook of the data, in the order of the file."""
    typed: dict[str, list[Typed]] = {}
    for row in _rows("logs.csv"):
        typed.setdefault(row["id"], []).append(
            Typed(
                minute=int(row["minute"]),
                core=row["core_f"] or row["core_c"],
                pit_f=row["pit_f"],
                event=row["event"],
                slip=row["slip"],
            )
        )
    cuts = all_cuts()
    return tuple(_cook(told, cuts.get(told["cut"]), typed[told["id"]]) for told in _rows("cooks.csv"))


def _cook(told: dict[str, str], cut: Cut, rows: list[Typed]) -> Cooked:
    target_f = int(told["target_f"]) if cut.doneness == "temperature" else BIG_TARGET_F
    at, ready = told[f"f{target_f}_min"], told["tender_min"]
    return Cooked(
        id=told["id"],
        family=told["family"],
        cut=cut,
        told=told,
        rows=tuple(rows),
        target_f=target_f,
        target_min=float(at) if at else None,
        ready_min=float(ready) if ready else None,
        wrap=told["wrap"],
    )


def fixed_forty() -> tuple[Cooked, ...]:
    """Return forty cooks spread over all families, always the same."""
    cooks = all_cooks()
    return tuple(cooks[place * len(cooks) // 40] for place in range(40))


def as_log(cook: Cooked) -> str:
    """Return a cook as the text of a log for `slowbell backtest`."""
    told = cook.told
    head = [f"# cut: {told['said']}", f"# pit: {told['told_pit_f']} F"]
    if told["told_kg"]:
        head.append(f"# mass: {told['told_kg']} kg")
    if told["told_mm"]:
        head.append(f"# thickness: {int(told['told_mm']) / 10:g} cm")
    if told["told_wrap"]:
        head.append(f"# wrap: {told['told_wrap']}")
    body = [f"{row.minute},{row.core},{row.pit_f},{row.event}" for row in cook.rows]
    return "\n".join([*head, f"minute,core_{told['unit'].casefold()},pit_f,event", *body]) + "\n"


def read(cook: Cooked) -> Log:
    """Return the log of a cook as the program reads it."""
    log = read_log(as_log(cook))
    assert isinstance(log, Log), log
    return log


def stages(cook: Cooked) -> tuple[Stage, ...]:
    """Return the moments at which forecasts of this cook are judged.

    Each is the row in which a reading first shows a stage's temperature; a slip of the pen sets no stage, but stays
    among the earlier rows. A stage at which the target has truly been passed is none, nor is one in the row of another.
    """
    log = read(cook)
    fire = on_the_fire(log)
    slipped = {row.minute for row in cook.rows if row.slip in SLIPS}
    found: list[Stage] = []
    for place, stage_f in enumerate(cook.stages_f):
        for count, row in enumerate(fire, start=1):
            if row.core_c is None or row.minute in slipped or row.core_c * 1.8 + 32 < stage_f:
                continue
            late = cook.target_min is None or row.minute >= cook.target_min
            if not late and not any(one.minute == row.minute for one in found):
                points = [(one.minute, one.core_c * 1.8 + 32) for one in fire[:count] if one.core_c is not None]
                found.append(
                    Stage(
                        place=place,
                        minute=row.minute,
                        points=tuple(points),
                        question=question(log, cook.cut, fire[:count]),
                        pit_f=float(cook.told["told_pit_f"]),
                    )
                )
            break
    return tuple(found)
