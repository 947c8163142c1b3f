"""When the meat is done on the fire: by the hand for a tough cut, by the lowest of several readings for the others.

Pure. Done is not safe: what is measured before anybody eats is judged in `scheduler.safety`.
"""

from __future__ import annotations

import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Slot
from scheduler.planning.outlook import felt_tender
from scheduler.planning.prompts import step_of
from scheduler.state import CookState

_SAME_READING = dt.timedelta(minutes=2)
"""Spots told within this of one another are one reading of the piece."""


def done_c(cut: Cut) -> float:
    """Return the core at which a cut that goes by its temperature comes off [°C]."""
    return cut.done_c


def reached(state: CookState, cut: Cut) -> bool:
    """Return whether the meat comes off now: it felt tender, or its lowest spot was read at its temperature."""
    return felt_tender(state) if cut.doneness == "feel" else measured_at(state, cut) is not None


def measured_at(state: CookState, cut: Cut) -> dt.datetime | None:
    """Return when the lowest of several spots was read at the temperature of the cut, None as long as it was not."""
    answered = [
        at
        for key, at in state.closed.items()
        if step_of(key) == "second_spot" and key not in state.withdrawn and state.stage == "cooking"
    ]
    for at in sorted(answered):
        spots = [r.value_c for r in state.read(Slot.CORE) if at - _SAME_READING <= r.at]
        if spots and min(spots) >= cut.off_c:
            return at
    return None
