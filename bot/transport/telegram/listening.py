"""When this bot was last listened to: kept in a file, so that a new start knows how long nobody did.

It must not decide whether that matters, nor say anything.
"""

from __future__ import annotations

import datetime as dt
import os
from pathlib import Path

from bot.ports import Json
from bot.transport.telegram.updates import GAP

EVERY = dt.timedelta(minutes=1)
"""How exact the file is."""


class Listening:
    """The file that says when the messenger was last heard. `path` lies in the data folder."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._written_at: dt.datetime | None = None

    def last_at(self) -> dt.datetime | None:
        """Return when it was last heard by an earlier process; None when nobody knows."""
        try:
            return dt.datetime.fromisoformat(self._path.read_text("ascii").strip()).astimezone(dt.UTC)
        except (OSError, ValueError):
            return None

    def heard(self, now: dt.datetime) -> None:
        """Remember that it is heard now; a disk that is full costs only this knowledge."""
        if self._written_at is not None and abs(now - self._written_at) < EVERY:
            return
        fresh = self._path.with_name(f"{self._path.name}.{os.getpid()}")
        try:
            fresh.write_text(f"{now.isoformat()}\n", "ascii")
            fresh.replace(self._path)
        except OSError:
            return
        self._written_at = now


def gap_row(since: dt.datetime, until: dt.datetime) -> tuple[str, Json]:
    """Return key and raw row of the inbox for a span in which nobody listened."""
    first, last = int(since.timestamp()), int(until.timestamp())
    return f"gap-{first}", {"update_id": 0, GAP: {"since": first, "until": last}}
