"""Intents of a crew and of a room in the short words of these tests. Words of tests only."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from bot.commands import HandOver, Intent, MannerSaid, TakeWatch


def crew_in_words(intent: Intent, clock: Callable[[dt.datetime | None], str]) -> str:
    """Return what somebody said of the watch or of the room; of anything else its kind."""
    match intent:
        case HandOver():
            return f"hand over to {intent.to}{clock(intent.until).replace(' at ', ' until ')}"
        case TakeWatch():
            return f"take the watch{clock(intent.until).replace(' at ', ' until ')}"
        case MannerSaid():
            return f"speak {intent.language or intent.unit}"
        case _:
            return intent.kind.replace("_", " ")
