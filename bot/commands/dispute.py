"""What is said about two readings that differ. Values only."""

from __future__ import annotations

from typing import Literal

from bot.commands.intent import Said


class TwoSpots(Said):
    """Both readings are right: they were of two spots."""

    kind: Literal["two_spots"] = "two_spots"
    piece: str | None = None
