"""A rival with Newton's law: the core approaches the pit exponentially, at a rate fitted to all readings so far."""

from __future__ import annotations

import numpy as np

from tests.skill.rivals import LONGEST_MIN


def foretell(points: tuple[tuple[float, float], ...], target_f: float, pit_f: float) -> float:
    """Return when the fitted approach to the pit [°F] passes the target [min since meat on].

    The logarithm of pit minus core is fitted by a line through all readings and 40 °F in the first half hour of lag.
    """
    known = [(minute, core) for minute, core in ((30.0, 40.0), *points) if core < pit_f - 2]
    if len(known) < 2:
        return LONGEST_MIN
    minutes, cores = np.array(known).T
    rate, level = np.polyfit(minutes, np.log(pit_f - cores), 1)
    if rate >= 0:
        return LONGEST_MIN
    at = (np.log(pit_f - target_f) - level) / rate
    return float(np.clip(at, points[-1][0], LONGEST_MIN))
