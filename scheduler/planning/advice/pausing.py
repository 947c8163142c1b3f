"""Half-cooked meat is never paused: why not, and what to do instead.

The one thing that is refused whatever it would gain.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.planning.advice.advise import Option, option_of
from scheduler.planning.advice.conditions import DANGER_C
from scheduler.planning.outlook import Outlook
from scheduler.planning.remedies import Remedies
from scheduler.state import CookState, Stage


@dataclasses.dataclass(frozen=True, kw_only=True)
class NotPaused:
    """Why a pause is refused: the core has to keep climbing through `limit_c` [°C], it is near `core_c`.

    `oven` is the way out when the fire cannot go on, None before meat on and after the pull.
    """

    core_c: float | None
    limit_c: float
    oven: Option | None


def not_paused(
    state: CookState, cut: Cut, outlook: Outlook, remedies: Remedies, now: dt.datetime, *, safe: bool = True
) -> NotPaused | None:
    """Return why meat cannot be paused that is on the fire, or off it before it was read `safe`; None when none is."""
    if state.stage is not Stage.COOKING and (safe or state.stage is not Stage.RESTING):
        return None
    oven = option_of(state, cut, outlook, remedies, "late_oven", now)
    core_c = outlook.forecast.core_c(now)
    return NotPaused(core_c=core_c, limit_c=DANGER_C, oven=oven)
