"""What a room is used to: how much the people of its last cook wanted to be told when it ended.

Reads the store, writes nothing.
"""

from __future__ import annotations

from bot.application.visit import Visit
from scheduler.facts import Detail
from scheduler.state import fold


def usual_detail(visit: Visit) -> Detail | None:
    """Return the level of detail that the last cook of this room ended with, None when there was none."""
    for cook_id in visit.house.store.recent_cooks(visit.address, 1):
        cook = visit.house.store.cook(cook_id)
        if cook is not None and cook.facts:
            return fold(cook.facts).detail
    return None
