"""What is said about a stop: thrown away, read again, waved off. Values only."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from bot.commands.intent import Said


class Discard(Said):
    """A piece, or what was left of it, was thrown away."""

    kind: Literal["discard"] = "discard"
    every: bool = False
    """True when all of it was thrown away."""
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""
    at: dt.datetime | None = None
    """When, as told; None: now."""


class BackOn(Said):
    """Meat that was off the heat went back on."""

    kind: Literal["back_on"] = "back_on"
    piece: str | None = None
    at: dt.datetime | None = None
    """When, as told; None: now."""


class ReadAgain(Said):
    """The spot that stopped the meat is read again: what to read, and where."""

    kind: Literal["read_again"] = "read_again"
    piece: str | None = None


class WaveOff(Said):
    """A stop is to be forgotten: asked for, and never done."""

    kind: Literal["wave_off"] = "wave_off"
    piece: str | None = None
