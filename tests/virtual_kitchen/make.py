"""Cook all the cooks and write them down: `python -m tests.virtual_kitchen.make [--cooks 20] [--into FOLDER]`.

The only room of this kitchen that writes files. One core, about three minutes.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from tests.virtual_kitchen.cook import Cook, happen
from tests.virtual_kitchen.families import FAMILIES
from tests.virtual_kitchen.writing import COOK_COLUMNS, LOG_COLUMNS, cook_fields, log_fields, table

SEED = 20240607
COOKS_A_FAMILY = 20
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


def notes(cooks: int) -> tuple[str, ...]:
    """Return the first lines of both tables."""
    return ORIGIN, f"Seed {SEED}, {cooks} cooks of each family; python -m tests.virtual_kitchen.make"


def all_cooks(count: int) -> list[Cook]:
    """Return every cook, family by family."""
    return [happen(family, number, SEED) for family in FAMILIES for number in range(count)]


def main() -> None:
    """Write both tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cooks", type=int, default=COOKS_A_FAMILY)
    parser.add_argument("--into", type=Path, default=DATA)
    asked = parser.parse_args()
    cooks = all_cooks(asked.cooks)
    asked.into.mkdir(parents=True, exist_ok=True)
    head = notes(asked.cooks)
    told = table((*head, *COOK_NOTES), COOK_COLUMNS, (cook_fields(cook) for cook in cooks))
    typed = table((*head, *LOG_NOTES), LOG_COLUMNS, (row for cook in cooks for row in log_fields(cook)))
    (asked.into / "cooks.csv").write_text(told, encoding="utf-8")
    (asked.into / "logs.csv").write_text(typed, encoding="utf-8")


if __name__ == "__main__":
    main()
