"""Making the prior agree with the trade: two numbers per cut, found by running the prior itself.

Nothing is fitted to readings or to measured cooks here.
"""

from __future__ import annotations

import dataclasses
import functools

import numpy as np
from numpy.typing import NDArray

from scheduler.cuts import Cut
from scheduler.forecast import anchors, ensemble
from scheduler.forecast.anchors import Anchor
from scheduler.forecast.inputs import Inputs

Array = NDArray[np.float64]

_MEMBERS = 240
_ROUNDS = 4
_SEEDS = ("anchor",)


def anchor(cut: Cut) -> Anchor:
    """Return pace and width for a cut: the recorded ones, or fitted anew when its figures are not the recorded ones."""
    recorded = anchors.FITTED.get(cut.id)
    if recorded is not None and recorded[0] == anchors.figures(cut):
        return dataclasses.replace(anchors.kind(cut), pace=recorded[1], width=recorded[2])
    return fitted(cut)


@functools.lru_cache(maxsize=16)
def fitted(cut: Cut, seeds: tuple[str, ...] = _SEEDS) -> Anchor:
    """Return the pace and width at which the prior's 10, 50 and 90 % durations match the cut's own.

    Pace scales time, so its rule is a ratio; width scales the spread of the logarithm. Four rounds of both settle
    within one per cent.
    """
    wanted = cut.duration_h
    spread = np.log(wanted.high / wanted.low)
    found = anchors.kind(cut)
    for _ in range(_ROUNDS):
        low, middle, high = np.mean([durations_h(cut, found, seed) for seed in seeds], axis=0)
        ratio = wanted.typical / middle
        wider = spread / np.log(high / low)
        found = dataclasses.replace(
            found,
            pace=float(np.clip(found.pace * ratio, 0.1, 10.0)),
            width=float(np.clip(found.width * wider**1.3, found.narrowest, 3.0)),
        )
    return found


def durations_h(cut: Cut, using: Anchor, seed: str = "anchor") -> tuple[float, float, float]:
    """Return the 10, 50 and 90 % durations of the prior from meat on to the typical target [h]."""
    asked = Inputs(
        seed=seed, cut=cut, mass_kg=cut.duration_kg, thickness_m=None, pit=((0.0, cut.duration_pit_c),),
        wraps=(), wrap_plan=cut.duration_wrap, readings=(), pit_readings=(),
    )  # fmt: skip
    times: Array = np.sort(ensemble.paths(asked, using, _MEMBERS).times_s(np.full(_MEMBERS, cut.target_c.typical)))
    places = [round(p * _MEMBERS) for p in (0.1, 0.5, 0.9)]
    low, middle, high = (0.5 * float(times[place - 1] + times[place]) / 3600.0 for place in places)
    return low, middle, high
