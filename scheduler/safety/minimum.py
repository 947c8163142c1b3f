"""The safety gate: has the published minimum been measured at the lowest spot?

A missing reading never counts as safe, and no forecast opens the gate.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut, Cuts
from scheduler.facts import Slot
from scheduler.state import CookState, ReadingAt


@dataclasses.dataclass(frozen=True, kw_only=True)
class SafeGate:
    """Whether serving is open, and by which reading.

    `lowest` is the hottest reading of the coldest spot so far (None: nothing measured). `open_at` is when the minimum
    was measured at every spot read, plus the rest that belongs to the class.
    """

    minimum_c: float
    rest_min: float
    lowest: ReadingAt | None
    open_at: dt.datetime | None

    def is_open(self, now: dt.datetime) -> bool:
        """Return whether the piece may be called ready to serve at `now`."""
        return self.open_at is not None and now >= self.open_at


def safe_gate(state: CookState, cut: Cut, cuts: Cuts) -> SafeGate:
    """Return the safety gate of a piece from its readings.

    Only readings since the meat went on count; of a reading given as a range the low edge is compared, with the
    published
    Fahrenheit limit converted and rounded to 0.1 C. Each named spot must have reached the minimum.
    """
    minimum_c = cuts.minimum_c(cut)
    rest_min = cuts.safety[cut.safety_class].rest_min
    on_at = state.at("meat_on")
    spots: dict[str, list[ReadingAt]] = {}
    for reading in state.read(Slot.CORE):
        if on_at is not None and reading.at >= on_at:
            spots.setdefault((reading.spot or "").casefold(), []).append(reading)
    if not spots:
        return SafeGate(minimum_c=minimum_c, rest_min=rest_min, lowest=None, open_at=None)
    hottest = [max(readings, key=_low_edge) for readings in spots.values()]
    lowest = min(hottest, key=_low_edge)
    open_at = None
    if _passes(lowest, minimum_c):
        first = [next(r.at for r in readings if _passes(r, minimum_c)) for readings in spots.values()]
        open_at = max(first) + dt.timedelta(minutes=rest_min)
    return SafeGate(minimum_c=minimum_c, rest_min=rest_min, lowest=lowest, open_at=open_at)


def _low_edge(reading: ReadingAt) -> float:
    return reading.value_c - reading.spread_c


def _passes(reading: ReadingAt, minimum_c: float) -> bool:
    return round(_low_edge(reading), 1) >= minimum_c
