"""What is known of a piece after the pull, and what a rest answers.

Values and protocols only: no model, no numerics.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum
from typing import Protocol

from scheduler.cuts import Cut
from scheduler.facts import Wrap
from scheduler.forecast.interface import Air, Crossing

HELD_TO_C = 63.0
"""Core at which held meat is acted on [°C]: house rule above the holding floor of 60 C."""

HORIZON = dt.timedelta(hours=30)
"""How far after the reading a fall is foreseen."""


class Place(StrEnum):
    """Where the meat is after the pull."""

    BOARD = "board"
    """In the air: venting, resting, carving."""
    BOX = "box"
    """An insulated box, towels around the meat."""
    OVEN = "oven"
    """A warm oven or a cooker turned down (`Held.oven_c`)."""
    FRIDGE = "fridge"
    ICE_BATH = "ice bath"
    """Ice water, the meat in a bag."""
    BLAST = "blast"
    """Cold air with a strong fan."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Held:
    """What is known of a piece after the pull.

    `core_c` [°C] give or take `spread_c` was read at `at` (UTC). `pit_c` is the pit it came from: with it and without
    `off_at` it has just been pulled, so that the outside is hotter than the middle; with `off_at` it left the fire
    then and has been in `place` since; without `pit_c` it has been off the fire for long (towels are then taken as
    cold: the cautious side). `on_at` is when it went on the fire: a short cook leaves a steeper profile and a wetter
    surface than a long one (None: a long one). `vented` is how long it lies open in the air before it goes into its
    place. `oven_c` is the set point of a warm oven [°C].
    """

    cut: Cut
    mass_kg: float | None
    thickness_m: float | None
    core_c: float
    spread_c: float
    at: dt.datetime
    wrap: Wrap
    place: Place
    air: Air = Air()  # noqa: RUF009 - a frozen value, shared safely
    pit_c: float | None = None
    off_at: dt.datetime | None = None
    on_at: dt.datetime | None = None
    vented: dt.timedelta = dt.timedelta()
    oven_c: float = 74.0


@dataclasses.dataclass(frozen=True, kw_only=True)
class Peak:
    """The highest core after the pull [°C], one in ten below `low_c` and one in ten above `high_c`, and when (UTC)."""

    at: dt.datetime
    low_c: float
    middle_c: float
    high_c: float


class Holding(Crossing, Protocol):
    """The time of falling to the floor; `quantile(0.1)` is the cautious answer."""

    def fall(self, core_c: float) -> Crossing:
        """Return when the core falls to another temperature [°C]; one that lies above it already gives `Held.at`."""

    def core_c(self, when: dt.datetime, p: float = 0.5) -> float:
        """Return the `p` quantile of the core [°C] at `when` (UTC), held at either end."""

    def peak(self) -> Peak:
        """Return the highest core still to come: the carry-over."""
