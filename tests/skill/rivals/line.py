"""The rival to beat: a straight line through the last three readings. It knows nothing of meat."""

from __future__ import annotations

import numpy as np

from tests.skill.rivals import LONGEST_MIN

LAST = 3


def foretell(points: tuple[tuple[float, float], ...], target_f: float) -> float:
    """Return when the line through the last readings [min, °F] reaches the target [min since meat on].

    The line starts at the newest reading, and a single reading gets the fridge as its other end.
    """
    minutes, cores = np.array(((0.0, 40.0), *points)[-LAST:]).T
    slope = np.polyfit(minutes - minutes[-1], cores, 1)[0] if np.ptp(minutes) > 0 else 0.0
    if slope * LONGEST_MIN <= target_f - cores[-1]:
        return LONGEST_MIN
    return float(minutes[-1] + max(0.0, (target_f - cores[-1]) / slope))
