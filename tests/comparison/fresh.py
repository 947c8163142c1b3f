"""Virtual cooks that nobody has looked at: made in memory with a seed of their own, in the form of the committed ones.

The committed cooks were looked at while the engine's spreads were chosen, so that scores on them flatter it.
"""

from __future__ import annotations

from bot.backtest.kinds import all_cuts
from tests.skill.cooks import BIG_TARGET_F, Cooked, Typed
from tests.virtual_kitchen.cook import Cook, happen
from tests.virtual_kitchen.families import FAMILIES
from tests.virtual_kitchen.writing import COOK_COLUMNS, LOG_COLUMNS, cook_fields, log_fields


def fresh_cooks(seed: int, a_family: int) -> tuple[Cooked, ...]:
    """Return so many cooks of each family; slow, most of a second for each."""
    return tuple(_cooked(happen(family, number, seed)) for family in FAMILIES for number in range(a_family))


def _cooked(cook: Cook) -> Cooked:
    told = dict(zip(COOK_COLUMNS, cook_fields(cook), strict=True))
    typed = [dict(zip(LOG_COLUMNS, fields, strict=True)) for fields in log_fields(cook)]
    cut = all_cuts().get(told["cut"])
    target_f = int(told["target_f"]) if cut.doneness == "temperature" else BIG_TARGET_F
    at, ready = told[f"f{target_f}_min"], told["tender_min"]
    return Cooked(
        id=told["id"],
        family=told["family"],
        cut=cut,
        told=told,
        rows=tuple(
            Typed(
                minute=int(row["minute"]),
                core=row["core_f"] or row["core_c"],
                pit_f=row["pit_f"],
                event=row["event"],
                slip=row["slip"],
            )
            for row in typed
        ),
        target_f=target_f,
        target_min=float(at) if at else None,
        ready_min=float(ready) if ready else None,
        wrap=told["wrap"],
    )
