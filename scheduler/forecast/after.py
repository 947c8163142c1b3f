"""The piece after the pull: how far the core still rises, and when it falls to a floor, as distributions.

Pure functions of what was told; that held meat is hot enough is always a reading, never a forecast of this room.
"""

from __future__ import annotations

from scheduler.forecast.held import HELD_TO_C, HORIZON, Held, Holding, Peak, Place

__all__ = ["HELD_TO_C", "HORIZON", "Held", "Holding", "Peak", "Place", "hold"]


def hold(held: Held, floor_c: float = HELD_TO_C) -> Holding:
    """Return how a piece rests, holds or cools; the same question gives the same answer bit for bit."""
    from scheduler.forecast import rest  # noqa: PLC0415 - numpy is loaded when first needed: the chat starts fast

    return rest.hold(held, floor_c)
