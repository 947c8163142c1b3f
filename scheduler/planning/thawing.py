"""How long frozen meat of a cook thaws, in the fridge and in cold water.

By its mass, or that which is usual for the cut; the figures stand in `scheduler.planning.quantities`.
"""

from __future__ import annotations

import datetime as dt

from scheduler.cuts import Cut
from scheduler.planning.quantities import cold_water_min, thaw_days
from scheduler.state import CookState

THAW_RESCUE = dt.timedelta(hours=20)
"""Ice that is felt earlier than this before meat on still thaws in the fridge; common practice, no source."""


def thaw(state: CookState, cut: Cut) -> dt.timedelta:
    """Return how long a frozen piece thaws in the fridge."""
    return dt.timedelta(days=thaw_days(cut, state.planned.mass_kg or cut.mass_kg.typical))


def thaw_in_water(state: CookState, cut: Cut) -> dt.timedelta:
    """Return how long a frozen piece thaws in cold water that is changed every half hour."""
    return dt.timedelta(minutes=cold_water_min(state.planned.mass_kg or cut.mass_kg.typical))
