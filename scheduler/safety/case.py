"""What a rule looks at: one piece, what is known of it, and an instant. A value."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut, Cuts
from scheduler.safety.limits import Limit
from scheduler.state import CookState


@dataclasses.dataclass(frozen=True, kw_only=True)
class Case:
    """One piece at an instant (aware, UTC)."""

    state: CookState
    cut: Cut
    cuts: Cuts
    now: dt.datetime

    def limit_c(self, limit: Limit) -> float:
        """Return the temperature that counts for this cook [°C], rounded to 0.1 as published limits are compared."""
        return limit.under(self.state.edition).c

    def limit_span(self, limit: Limit) -> dt.timedelta:
        """Return the duration that counts for this cook."""
        return dt.timedelta(minutes=limit.under(self.state.edition).value)
