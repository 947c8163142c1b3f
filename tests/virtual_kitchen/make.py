"""Cook all the cooks and write them down: `python -m tests.virtual_kitchen.make [--cooks 20] [--into FOLDER]`.

The only room of this kitchen that writes files. One core, about three minutes.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from tests.virtual_kitchen.cook import Cook, happen
from tests.virtual_kitchen.families import FAMILIES
from tests.virtual_kitchen.warming import BUILDS, Rise, rise
from tests.virtual_kitchen.writing import (
    COOK_COLUMNS,
    LOG_COLUMNS,
    RISE_COLUMNS,
    cook_fields,
    log_fields,
    rise_fields,
    table,
)

SEED = 20240607
COOKS_A_FAMILY = 20
RISE_SEED, RISES_A_KIND = 20261126, 40
DATA = Path(__file__).resolve().parents[1] / "data" / "kitchen"
ORIGIN = "INVENTED DATA: no real cook. Made by tests/virtual_kitchen, a simulation that knows nothing of the engine."
COOK_NOTES = (
    "Times are minutes since meat on, empty where it never came. fNNN_min: the coldest meat passes NNN F; tender_min:",
    "the kitchen's own collagen dose, or the target of a tender piece. told_*: what the person said (told_wrap empty:",
    "undecided); true_* and wrap: what was.",
)
LOG_NOTES = (
    "As typed, slips and all (slip: unit, typo; bone, fat: what the probe touched; no forecast may look at it).",
)
RISE_NOTES = (
    "Pits on their way up, vents open: minutes since lighting; mark_f is where the vents begin to close, crossing_min",
    "when the true pit passes it. readings: minute:value [F] as people read them, before the mark.",
)


def notes(cooks: int) -> tuple[str, ...]:
    """Return the first lines of both tables."""
    return ORIGIN, f"Seed {SEED}, {cooks} cooks of each family; python -m tests.virtual_kitchen.make"


def all_cooks(count: int) -> list[Cook]:
    """Return every cook, family by family."""
    return [happen(family, number, SEED) for family in FAMILIES for number in range(count)]


def all_rises(count: int = RISES_A_KIND) -> list[Rise]:
    """Return every evening of a pit coming up, kind by kind."""
    return [rise(kind, number, RISE_SEED) for kind in BUILDS for number in range(count)]


def rise_table() -> str:
    """Return the table of pits on their way up."""
    head = (ORIGIN, f"Seed {RISE_SEED}, {RISES_A_KIND} evenings of each kind; python -m tests.virtual_kitchen.make")
    return table((*head, *RISE_NOTES), RISE_COLUMNS, (rise_fields(one) for one in all_rises()))


def main() -> None:
    """Write the tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cooks", type=int, default=COOKS_A_FAMILY)
    parser.add_argument("--into", type=Path, default=DATA)
    parser.add_argument("--rises-only", action="store_true")
    asked = parser.parse_args()
    asked.into.mkdir(parents=True, exist_ok=True)
    (asked.into / "warming.csv").write_text(rise_table(), encoding="utf-8")
    if asked.rises_only:
        return
    cooks = all_cooks(asked.cooks)
    head = notes(asked.cooks)
    told = table((*head, *COOK_NOTES), COOK_COLUMNS, (cook_fields(cook) for cook in cooks))
    typed = table((*head, *LOG_NOTES), LOG_COLUMNS, (row for cook in cooks for row in log_fields(cook)))
    (asked.into / "cooks.csv").write_text(told, encoding="utf-8")
    (asked.into / "logs.csv").write_text(typed, encoding="utf-8")


if __name__ == "__main__":
    main()
