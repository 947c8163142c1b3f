"""Which stops order the bin, and which may still be mended by heat or a reading: what a message may order.

It judges no food; whether a stop stands is the engine's business.
"""

from __future__ import annotations

from scheduler.safety.findings import orders_bin

__all__ = ["READ_AGAIN", "orders_bin"]

READ_AGAIN = frozenset(
    {"minimum_not_measured", "pulled_under_minimum", "held_under_floor", "served_under_floor", "reheat_under"}
)
"""Stops that a new reading may end."""
