"""When people eat: wall time in the cook's own zone, converted only when planning."""

from __future__ import annotations

import dataclasses
import datetime as dt
from zoneinfo import ZoneInfo

from scheduler.facts.choices import ServingKind


@dataclasses.dataclass(frozen=True, kw_only=True)
class Serving:
    """When people eat, as wall time in the cook's own zone (converted only when planning).

    `start` and `end` are naive wall times; both are None for WHEN_READY, `end` is None for AT.
    """

    kind: ServingKind
    zone: str
    start: dt.datetime | None = None
    end: dt.datetime | None = None

    def starts_at(self) -> dt.datetime | None:
        """Return the first instant at which people want to eat (UTC), or None when dinner follows the meat."""
        return None if self.start is None else _instant(self.start, self.zone)

    def ends_at(self) -> dt.datetime | None:
        """Return the last acceptable instant (UTC), equal to the start unless a window was given."""
        wall = self.end or self.start
        return None if wall is None else _instant(wall, self.zone)


def _instant(wall: dt.datetime, zone: str) -> dt.datetime:
    return wall.replace(tzinfo=ZoneInfo(zone)).astimezone(dt.UTC)
