"""Which stops order the bin, and which may still be mended by heat or a reading: what a message may order.

It judges no food; whether a stop stands is the engine's business.
"""

from __future__ import annotations

from scheduler.safety import Finding
from scheduler.safety.findings import FOR_THE_BIN

READ_AGAIN = frozenset(
    {"minimum_not_measured", "pulled_under_minimum", "held_under_floor", "served_under_floor", "reheat_under"}
)
"""Stops that a new reading may end."""


def orders_bin(finding: Finding) -> bool:
    """Return whether a stop orders the food into the bin: no reading of now ends it, or its time is over."""
    if finding.unread:
        return False
    lasted, most = finding.found_min, finding.limit_min
    return finding.rule in FOR_THE_BIN or (lasted is not None and most is not None and lasted > most)
