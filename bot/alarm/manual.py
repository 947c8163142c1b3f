"""An alarm clock that is moved by hand, for the rehearsal and for tests.

It must not read the real clock and never goes backwards.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

MOST_RINGS_PER_INSTANT = 1000
"""More than this without time passing is a plan that never settles: a fault, and not waited out."""


class AlarmStuck(RuntimeError):
    """Whoever is woken arms the same instant again and again."""


class ManualAlarm:
    """Time stands still until `advance_to`; then every instant armed on the way is rung, in order."""

    def __init__(self, now: dt.datetime) -> None:
        self._now = now
        self._armed_at: dt.datetime | None = None
        self._ring: Callable[[], None] | None = None

    @property
    def armed_at(self) -> dt.datetime | None:
        """The instant of the next ring, None when disarmed."""
        return self._armed_at

    def now(self) -> dt.datetime:
        """Return the instant to which time was moved."""
        return self._now

    def start(self, ring: Callable[[], None]) -> None:
        """Ring this from now on; an instant armed before that is already past rings at the next advance."""
        self._ring = ring

    def arm(self, at: dt.datetime | None) -> None:
        """Replace the armed instant; None disarms."""
        self._armed_at = at

    def stop(self) -> None:
        """Stop ringing; time can still be moved."""
        self._ring = None

    def advance_to(self, instant: dt.datetime) -> int:
        """Move time to `instant`, ringing at each armed instant on the way; return how often it rang.

        During a ring `now()` is the armed instant (or the present, for one armed in the past), and whoever is
        rung may arm again. Raises ValueError when `instant` lies in the past.
        """
        if instant < self._now:
            raise ValueError(f"time does not go backwards: {instant} is before {self._now}")
        rings = 0
        rings_here = 0
        while self._ring is not None and self._armed_at is not None and self._armed_at <= instant:
            rings_here = 1 if self._armed_at > self._now else rings_here + 1
            if rings_here > MOST_RINGS_PER_INSTANT:
                raise AlarmStuck(f"armed {rings_here} times for {self._armed_at} or earlier")
            self._now = max(self._now, self._armed_at)
            self._armed_at = None
            self._ring()
            rings += 1
        self._now = instant
        return rings
