"""Making the prior agree with the trade: two numbers per cut, found by running the prior itself.

Nothing is fitted to readings, to measured cooks or to a simulator here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools

import numpy as np
from numpy.typing import NDArray

from scheduler.cuts import Cut
from scheduler.forecast import anchors, course, ensemble, fitted, tenderness, timing
from scheduler.forecast.anchors import Anchor
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.passing import passing

Array = NDArray[np.float64]

_MEMBERS = 240
_ROUNDS = 5
_NO_DAY = dt.datetime(2000, 1, 1, tzinfo=dt.UTC)
"""Meat on, where the day does not matter."""
_LEAST_KEPT, _MOST_KEPT = 0.1, 2.0


@dataclasses.dataclass(frozen=True, kw_only=True)
class Fitted:
    """The anchor of a cut and the dose that its usual cook has gathered at its typical end point [h at 95 C]."""

    anchor: Anchor
    dose_h: float


@functools.lru_cache(maxsize=64)
def of_cut(cut: Cut) -> Fitted:
    """Return the fit of a cut: the recorded one (that of the cut it is like for a person's own), or made anew when its
    figures are not the recorded ones, which takes about 0.05 s.
    """
    recorded = fitted.RECORDED.get(cut.like or cut.id)
    if recorded is not None and recorded.figures == fitted.figures(cut):
        anchor = dataclasses.replace(
            anchors.kind(cut), thick=recorded.thick, lasting=recorded.lasting, kept=recorded.kept
        )
        return Fitted(anchor=anchor, dose_h=recorded.dose_h)
    return made(cut)


def made(cut: Cut, start: Anchor | None = None) -> Fitted:
    """Return the anchor at which the prior's 10, 50 and 90 % durations match the cut's own, and its usual dose.

    The thickness moves the median: time grows with it to a power near 1.5. The spread is narrowed along one direction
    of the parameters only, the one along which the duration changes (found by regression), until it is the trade's.
    Five rounds settle within two per cent.
    """
    wanted = cut.duration_h
    spread = float(np.log(wanted.high / wanted.low))
    found = anchors.kind(cut) if start is None else start
    slope = _slope(_usual(cut, found))
    found = dataclasses.replace(found, lasting=tuple((slope / np.linalg.norm(slope)).tolist()))
    for _ in range(_ROUNDS):
        low, middle, high = durations_h(cut, found)
        found = dataclasses.replace(
            found,
            thick=float(np.clip(found.thick * (found.longer * wanted.typical / middle) ** (1.0 / 1.5), 0.2, 4.0)),
            kept=float(np.clip(found.kept * (spread / np.log(high / low)) ** 1.5, _LEAST_KEPT, _MOST_KEPT)),
        )
    return Fitted(anchor=found, dose_h=_usual_dose_h(_usual(cut, found)))


def durations_h(cut: Cut, using: Anchor, seed: str = "anchor") -> tuple[float, float, float]:
    """Return the prior's 10, 50 and 90 % durations from meat on to the typical target [h]."""
    runs = _usual(cut, using, seed)
    times_s = timing.crossing_s(runs, np.full(_MEMBERS, cut.target_c.typical))
    spread = passing(_NO_DAY, *timing.blurred(runs, times_s, np.full(_MEMBERS, 1.0 / _MEMBERS)))
    low, middle, high = (min(spread.seconds(p), course.HORIZON_S) / 3600.0 for p in (0.1, 0.5, 0.9))
    return low, middle, high


def _usual(cut: Cut, using: Anchor, seed: str = "anchor") -> ensemble.Runs:
    """Return the runs of the cut's usual cook, as the trade states its duration."""
    asked = Inputs(
        seed=seed, cut=cut, mass_kg=cut.duration_kg, thickness_m=None, pit=((0.0, cut.duration_pit_c),),
        wraps=(), wrap_plan=cut.duration_wrap, readings=(), pit_readings=(),
    )  # fmt: skip
    return ensemble.runs(asked, using, _MEMBERS)


def _slope(runs: ensemble.Runs) -> Array:
    """Return how the logarithm of the duration answers to each parameter (12,), by linear regression."""
    times_s = timing.crossing_s(runs, np.full(_MEMBERS, runs.of.cut.target_c.typical))
    logs = np.log(np.minimum(times_s, course.HORIZON_S))
    found: Array = np.linalg.lstsq(runs.dice.parameters.T, logs - logs.mean(), rcond=None)[0]
    return found


def _usual_dose_h(runs: ensemble.Runs) -> float:
    """Return the dose that the median core has gathered at the typical target [h at 95 C]."""
    middle_c = np.median(runs.future_c, axis=1, keepdims=True)
    gathered_h = tenderness.doses_h(runs.future_s, middle_c)[:, 0]
    return float(np.interp(runs.of.cut.target_c.typical, middle_c[:, 0], gathered_h))
