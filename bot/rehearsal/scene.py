"""The invented evening: who cooks what for whom, and where. Invented data throughout; nobody here exists."""

from __future__ import annotations

import datetime as dt
from typing import Final
from zoneinfo import ZoneInfo

ZONE: Final = "Europe/London"
INES: Final = "Ines"
TOMAS: Final = "Tomas"
CREW: Final = (INES, TOMAS)

CLOCK: Final = ZoneInfo(ZONE)
"""What the clock in the hut shows."""


def local(day: int, hour: int, minute: int = 0) -> dt.datetime:
    """Return an instant (UTC) of that September on the clock of the allotments."""
    return dt.datetime(2026, 9, day, hour, minute, tzinfo=CLOCK).astimezone(dt.UTC)


BEGINS_AT: Final = local(18, 11, 30)
"""Friday, before noon."""
DINNER_AT: Final = local(19, 18)
"""Saturday, six o'clock."""
WISH: Final = "7 racks of short ribs, dinner 18:00 Saturday, pit 275"
OUTAGE_FOR: Final = dt.timedelta(minutes=62)
"""How long nobody notices that the program is dead."""
ENDS_AT: Final = local(24, 12)
"""If the cook has not closed itself by then, something is wrong."""
KILLED_AT: Final = local(19, 12, 40)
"""In the stall, with a question open."""
