"""The stall (evaporative plateau) as the runs show it: when each member hardly rises, and since when.

Times only; nothing is moved here.
"""

from __future__ import annotations

import datetime as dt

import numpy as np
from numpy.typing import NDArray

from scheduler.forecast.ensemble import Runs
from scheduler.forecast.interface import StallOutlook, StallPhase
from scheduler.forecast.passing import passing

Array = NDArray[np.float64]

RISE_C_PER_H = 5.0
"""Rise below which a core counts as stalled [°C/h]: the trade's stall takes three hours from 65 to 77 C, 4 C an hour;
about 1 C in 25 minutes within its flattest part (common practice, no source)."""

_EVERY_S = 900.0
_BELOW_C, _ABOVE_C = 7.0, 8.0
"""How far outside the trade's band (65 to 77 C) a plateau may lie [°C]: measured ones were seen from 60 C on."""

_FEW = 0.5
"""Share of members that must stall for one to be expected."""


def stall(runs: Runs, on_at: dt.datetime, weights: Array) -> StallOutlook:
    """Return where the piece stands with its stall as of the last reading, meat on when there is none."""
    times_s, cores_c = _sampled(runs)
    slow = np.diff(cores_c, axis=0) / (np.diff(times_s)[:, None] / 3600.0) < RISE_C_PER_H
    low_c, high_c = runs.of.cut.stall_c
    middle_c = 0.5 * (cores_c[1:] + cores_c[:-1])
    slow &= (middle_c > low_c - _BELOW_C) & (middle_c < high_c + _ABOVE_C)
    any_ = slow.any(axis=0)
    first = np.argmax(slow, axis=0)
    last = len(slow) - 1 - np.argmax(slow[::-1], axis=0)
    begins_s = np.where(any_, times_s[first], np.inf)
    ends_s = np.where(any_, times_s[last + 1], np.inf)
    now_s = runs.of.last_s
    shares = {
        StallPhase.AHEAD: float(weights[any_ & (begins_s > now_s)].sum()),
        StallPhase.WITHIN: float(weights[any_ & (begins_s <= now_s) & (ends_s > now_s)].sum()),
        StallPhase.BEHIND: float(weights[any_ & (ends_s <= now_s)].sum()),
    }
    expected = sum(shares.values())
    if expected < _FEW:
        return StallOutlook(phase=StallPhase.UNLIKELY, share=1.0 - expected, begins=None, ends=None)
    phase = max(shares, key=lambda one: shares[one])
    stalled = np.where(any_, weights, 0.0)
    return StallOutlook(
        phase=phase,
        share=shares[phase],
        begins=passing(on_at, begins_s, stalled),
        ends=passing(on_at, ends_s, stalled),
    )


def _sampled(runs: Runs) -> tuple[Array, Array]:
    """Return times [s] every quarter of an hour and the cores of all members (k, choices * n), past and future."""
    past = runs.analysis
    times_s = np.concatenate((past.times_s[:-1], runs.future_s))
    cores_c = np.concatenate((np.tile(past.cores_c[:-1], (1, len(runs.choices))), runs.future_c))
    even = np.arange(0.0, float(runs.future_s[-1]), _EVERY_S)
    above = np.clip(np.searchsorted(times_s, even, side="right"), 1, len(times_s) - 1)
    share = ((even - times_s[above - 1]) / (times_s[above] - times_s[above - 1]))[:, None]
    return even, (1.0 - share) * cores_c[above - 1] + share * cores_c[above]
