"""Making the prior agree with the trade: two numbers per cut, found by running the prior itself.

Nothing is fitted to readings, to measured cooks or to a simulator here.
"""

from __future__ import annotations

import dataclasses
import functools

import numpy as np
from numpy.typing import NDArray

from scheduler.cuts import Cut
from scheduler.forecast import anchors, course, ensemble, fitted, tenderness, timing
from scheduler.forecast.anchors import Anchor
from scheduler.forecast.inputs import Inputs

Array = NDArray[np.float64]

_MEMBERS = 240
_ROUNDS = 5
_LEAST_KEPT, _MOST_KEPT = 0.1, 2.0


@dataclasses.dataclass(frozen=True, kw_only=True)
class Fitted:
    """The anchor of a cut and the dose that its usual cook has gathered at its typical end point [h at 95 C]."""

    anchor: Anchor
    dose_h: float


@functools.lru_cache(maxsize=64)
def of_cut(cut: Cut) -> Fitted:
    """Return the fit of a cut: the recorded one, or made anew when its figures are not the recorded ones."""
    recorded = fitted.RECORDED.get(cut.id)
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
    Four rounds settle within two per cent.
    """
    wanted = cut.duration_h
    spread = float(np.log(wanted.high / wanted.low))
    found = anchors.kind(cut) if start is None else start
    for round_ in range(_ROUNDS):
        times_h, parameters, _ = _usual(cut, found)
        if round_ == 0:
            logs = np.log(times_h)
            slope = np.linalg.lstsq(parameters.T, logs - logs.mean(), rcond=None)[0]
            found = dataclasses.replace(found, lasting=tuple((slope / np.linalg.norm(slope)).tolist()))
        low, middle, high = _quantiles(times_h)
        kept = found.kept * (spread / np.log(high / low)) ** 1.5
        found = dataclasses.replace(
            found,
            thick=float(np.clip(found.thick * (found.longer * wanted.typical / middle) ** (1.0 / 1.5), 0.2, 4.0)),
            kept=float(np.clip(kept, _LEAST_KEPT, _MOST_KEPT)),
        )
    return Fitted(anchor=found, dose_h=_usual(cut, found)[2])


def durations_h(cut: Cut, using: Anchor, seed: str = "anchor") -> tuple[float, float, float]:
    """Return the prior's 10, 50 and 90 % durations from meat on to the typical target [h]."""
    return _quantiles(_usual(cut, using, seed)[0])


def _quantiles(times_h: Array) -> tuple[float, float, float]:
    ordered = np.sort(times_h)
    places = [round(p * len(ordered)) for p in (0.1, 0.5, 0.9)]
    low, middle, high = (0.5 * float(ordered[place - 1] + ordered[place]) for place in places)
    return low, middle, high


def _usual(cut: Cut, using: Anchor, seed: str = "anchor") -> tuple[Array, Array, float]:
    """Return the durations of the members of the usual cook (n,) [h], their parameters (12, n), and the median dose at
    the typical target [h at 95 C].
    """
    asked = Inputs(
        seed=seed, cut=cut, mass_kg=cut.duration_kg, thickness_m=None, pit=((0.0, cut.duration_pit_c),),
        wraps=(), wrap_plan=cut.duration_wrap, readings=(), pit_readings=(),
    )  # fmt: skip
    runs = ensemble.runs(asked, using, _MEMBERS)
    times = timing.crossing_s(runs, np.full(_MEMBERS, cut.target_c.typical))
    middle_c = np.median(runs.future_c, axis=1, keepdims=True)
    dose_h = float(np.interp(cut.target_c.typical, middle_c[:, 0], tenderness.doses_h(runs.future_s, middle_c)[:, 0]))
    return np.minimum(times, course.HORIZON_S) / 3600.0, runs.dice.parameters, dose_h
