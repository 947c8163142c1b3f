"""How long frozen meat thaws, in the fridge and in cold water, by its mass.

Pure figures; when the thaw begins is decided in `scheduler.planning.anchors`.
"""

from __future__ import annotations

import datetime as dt

from scheduler.cuts import Cut
from scheduler.state import CookState

THAW_KG_PER_DAY = 2.05
"""What the fridge thaws in 24 h, of each piece [kg]: the middle of 1.8 to 2.3 kg (4 to 5 lb), USDA FSIS."""

THAW_EXTRA_H = 12.0
"""So much longer, that no ice is left by the time of the salt [h]; common practice, no source."""

THAW_WATER_KG_PER_H = 0.91
"""What cold water thaws in an hour [kg]: 30 min for each 0.45 kg (1 lb), USDA FSIS."""

THAW_RESCUE = dt.timedelta(hours=20)
"""Ice that is felt earlier than this before meat on still thaws in the fridge; common practice, no source."""


def thaw(state: CookState, cut: Cut) -> dt.timedelta:
    """Return how long a frozen piece thaws in the fridge: by its mass where that is known, else as is usual."""
    mass_kg = state.planned.mass_kg
    return dt.timedelta(days=cut.thaw_days if mass_kg is None else max(1.0, mass_kg / THAW_KG_PER_DAY))


def thaw_in_water(state: CookState, cut: Cut) -> dt.timedelta:
    """Return how long a frozen piece thaws in cold water that is changed every half hour."""
    return dt.timedelta(hours=(state.planned.mass_kg or cut.mass_kg.typical) / THAW_WATER_KG_PER_H)
