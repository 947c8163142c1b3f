"""A Kalman filter on y = log(T_end - T), which falls at the rate that the trade's durations give, times a pace.

The state is y and the logarithm of the pace in two parts, one that lasts and one that fades. T_end is the pit's set
point; inside the stall band y falls at the stall's own rate, outside at one other, and a wrap speeds it up. No
conduction and no evaporation are known.
"""

from __future__ import annotations

import dataclasses

import numpy as np
from numpy.typing import NDArray

from scheduler.cuts import Cut
from scheduler.facts import Wrap
from scheduler.forecast import Question, anchors
from scheduler.forecast.draws import dice
from scheduler.forecast.inputs import Inputs, inputs
from tests.comparison.answer import SAMPLE, Answer, from_sample

Array = NDArray[np.float64]

SAVED = {Wrap.NONE: 0.0, Wrap.BOAT: 0.10, Wrap.PAPER: 0.17, Wrap.FOIL: 0.28}
"""Share of the remaining time that a wrap saves; common practice, no source."""

PACE_WANDERS = 0.25
"""How far the logarithm of the pace wanders in an hour; an assumption, made before any score was seen."""
PACE_LASTS_H = 2.0
"""Hours in which the wandering part fades, an assumption. One pace that only wanders was tried first: what the readings
say before the stall then rules the hours inside it, and on sixty virtual cooks the errors were larger by half."""
LEVEL_WANDERS = 0.02
"""The same for y: what a rate in two pieces leaves out."""

_STEP_H = 1 / 12
_HORIZON_H = 31.0
_LEAST_ROOM_C = 2.0
_MOST_STALL = 0.6
_SUSPECT = 3.0
_DEGREES_OF_FREEDOM = 4.0
_WIDTH_80 = 2.563


@dataclasses.dataclass(frozen=True, kw_only=True)
class Trade:
    """Rates [1/h] at which y falls, bare: inside the stall band [°C] and outside it; spread of the logarithm."""

    stall_c: tuple[float, float]
    inside: float
    outside: float
    spread: float

    def rate(self, core_c: Array, saved: Array) -> Array:
        """Return the rate at a core temperature under a wrap that saves this share of the time."""
        low_c, high_c = self.stall_c
        bare = np.where((core_c > low_c) & (core_c < high_c), self.inside, self.outside)
        rate: Array = bare / (1.0 - saved)
        return rate


def predict(question: Question, target_c: float) -> Answer:
    """Return when the core passes a target [°C]."""
    of = inputs(question)
    rates = trade(of.cut, of.mass_kg, of.thickness_m)
    mean, cov = _filtered(of, rates)
    return from_sample((60.0 * _run_on(of, rates, mean, cov, target_c)).tolist())


def trade(cut: Cut, mass_kg: float | None, thickness_m: float | None) -> Trade:
    """Return the rates at which the cut's usual cook, in its usual wrap, takes its usual time.

    Time grows with the told thickness, or the cube root of the mass, to the power 1.5.
    """
    end_c, (low_c, high_c), usual_c = cut.duration_pit_c, cut.stall_c, cut.target_c.typical
    high_c = min(high_c, usual_c)
    wrap_c, saved = cut.bark_look_c, SAVED[cut.duration_wrap]
    start_c = anchors.START_C.median

    def fall(from_c: float, to_c: float) -> float:
        """Return how far y falls between two cores, weighted with the time that the wrap leaves of it."""
        to_c, from_c = min(to_c, usual_c), min(from_c, usual_c)
        bare_to = min(max(wrap_c, from_c), to_c)
        bare = np.log((end_c - from_c) / (end_c - bare_to))
        return float(bare + (1.0 - saved) * np.log((end_c - bare_to) / (end_c - to_c)))

    total_h = cut.duration_h.typical
    band, rest = float(np.log((end_c - low_c) / (end_c - high_c))), fall(start_c, low_c) + fall(high_c, usual_c)
    stall_h = cut.stall_h.typical
    if low_c >= usual_c or stall_h <= 0.0:
        outside = fall(start_c, usual_c) / total_h
        inside = outside
    else:
        spent_h = min(_MOST_STALL * total_h, stall_h * fall(low_c, high_c) / band)
        inside, outside = fall(low_c, high_c) / spent_h, rest / (total_h - spent_h)
    if thickness_m is not None:
        longer = (thickness_m / cut.thickness_m.typical) ** 1.5
    elif mass_kg is not None and not cut.bone_plate:
        longer = (mass_kg / cut.duration_kg) ** 0.5
    else:
        longer = 1.0
    spread = float(np.log(cut.duration_h.high / cut.duration_h.low)) / _WIDTH_80
    return Trade(stall_c=cut.stall_c, inside=inside / longer, outside=outside / longer, spread=spread)


def _end_c(of: Inputs, at_h: float, least_c: float) -> float:
    """Return the set point at an instant [°C], never below what has been reached."""
    return max(least_c + _LEAST_ROOM_C, [temp_c for at_s, temp_c in of.pit if at_s <= 3600.0 * at_h + 1.0][-1])


def _wrap(of: Inputs, at_h: float) -> Wrap:
    worn = [wrap for at_s, wrap in of.wraps if at_s <= 3600.0 * at_h + 1.0]
    return worn[-1] if worn else Wrap.NONE


def _filtered(of: Inputs, rates: Trade) -> tuple[Array, Array]:
    """Return mean and covariance of the core [°C] and the two parts of the log pace at the last reading."""
    start_c = anchors.START_C.median if of.start_c is None else of.start_c
    end_c = _end_c(of, 0.0, start_c)
    mean = np.array([np.log(end_c - start_c), 0.0, 0.0])
    wandering = 0.5 * PACE_LASTS_H * PACE_WANDERS**2
    cov = np.diag([(anchors.START_C.spread / (end_c - start_c)) ** 2, rates.spread**2, wandering])
    now_h = 0.0
    for sample in of.readings:
        while now_h < sample.at_s / 3600.0 - 1e-9:
            step_h = min(_STEP_H, sample.at_s / 3600.0 - now_h)
            core_c = end_c - float(np.exp(mean[0]))
            fall = step_h * float(
                np.exp(mean[1] + mean[2]) * rates.rate(np.array(core_c), np.array(SAVED[_wrap(of, now_h)]))
            )
            fades = float(np.exp(-step_h / PACE_LASTS_H))
            moved = np.array([[1.0, -fall, -fall], [0.0, 1.0, 0.0], [0.0, 0.0, fades]])
            mean = np.array([mean[0] - fall, mean[1], fades * mean[2]])
            cov = moved @ cov @ moved.T + step_h * np.diag([LEVEL_WANDERS**2, 0.0, PACE_WANDERS**2])
            now_h += step_h
            end_c, mean, cov = _set(mean, cov, end_c, _end_c(of, now_h, sample.value_c))
        room_c = max(_LEAST_ROOM_C, end_c - sample.value_c)
        mean, cov = _updated(mean, cov, float(np.log(room_c)), _noise_c2(sample.spread_c) / room_c**2)
    return np.array([end_c - np.exp(mean[0]), *mean[1:]]), _of_core(mean, cov)


def _noise_c2(spread_c: float) -> float:
    return anchors.READING_C**2 + anchors.SHARED_C**2 + spread_c**2


def _set(mean: Array, cov: Array, before_c: float, after_c: float) -> tuple[float, Array, Array]:
    """Return y of the same core under another T_end."""
    if after_c == before_c:
        return after_c, mean, cov
    room_c = max(_LEAST_ROOM_C, after_c - (before_c - float(np.exp(mean[0]))))
    scale = np.diag([float(np.exp(mean[0])) / room_c, 1.0, 1.0])
    return after_c, np.array([np.log(room_c), *mean[1:]]), scale @ cov @ scale


def _updated(mean: Array, cov: Array, told: float, noise: float) -> tuple[Array, Array]:
    """Return the state after a reading; one that lies far off gets the weight that Student's t gives it."""
    off = (told - mean[0]) / np.sqrt(cov[0, 0] + noise)
    if abs(off) > _SUSPECT:
        noise *= (_DEGREES_OF_FREEDOM + off**2) / (_DEGREES_OF_FREEDOM + 1.0)
    gain = cov[:, 0] / (cov[0, 0] + noise)
    return mean + gain * (told - mean[0]), cov - np.outer(gain, cov[0])


def _of_core(mean: Array, cov: Array) -> Array:
    """Return the covariance with the core [°C] in place of y."""
    scale = np.diag([-float(np.exp(mean[0])), 1.0, 1.0])
    turned: Array = scale @ cov @ scale
    return turned


def _run_on(of: Inputs, rates: Trade, mean: Array, cov: Array, target_c: float) -> Array:
    """Return when each of a sample of states passes the target [h since meat on], now if it already has."""
    thrown = dice(of.seed, SAMPLE)
    states = mean[:, None] + np.linalg.cholesky(cov + 1e-9 * np.eye(3)) @ thrown.parameters[:3]
    core_c, lasting, wandering = states
    saved = SAVED[_wrap(of, of.last_s / 3600.0)] * np.ones(SAMPLE)
    planned, from_c = _planned(of, core_c, thrown.trigger)
    now_h, found = of.last_s / 3600.0, np.full(SAMPLE, np.inf)
    until_h = now_h + _HORIZON_H
    while now_h < until_h and not np.isfinite(found).all():
        passed = ~np.isfinite(found) & (core_c >= target_c)
        found[passed] = now_h
        end_c = _end_c(of, now_h, target_c)
        saved = np.where(core_c >= from_c, np.maximum(saved, planned), saved)
        fall = _STEP_H * np.exp(lasting + wandering) * rates.rate(core_c, saved)
        core_c = end_c - np.maximum(end_c - core_c, 0.0) * np.exp(-fall)
        hour = min(len(thrown.heat) - 1, int(now_h))
        wandering = (1.0 - _STEP_H / PACE_LASTS_H) * wandering + PACE_WANDERS * _STEP_H * thrown.heat[hour]
        now_h += _STEP_H
    return found


def _planned(of: Inputs, core_c: Array, trigger: Array) -> tuple[Array, Array]:
    """Return what the wrap to come of each member saves, and the core from which it is on [°C]."""
    late = float(np.mean(core_c)) > of.cut.wrap_until_c
    if of.wraps or late or of.wrap_plan is Wrap.NONE:
        return np.zeros(SAMPLE), np.full(SAMPLE, np.inf)
    from_c = np.maximum(of.cut.bark_look_c + anchors.TRIGGER_SPREAD_C * trigger, core_c + 1.0)
    if of.wrap_plan is not None:
        return np.full(SAMPLE, SAVED[of.wrap_plan]), from_c
    # Undecided: half of the members get the usual wrap, the others share the rest, in turn.
    others = [wrap for wrap in of.cut.wraps if wrap is not of.cut.usual_wrap] or [of.cut.usual_wrap]
    turns = [of.cut.usual_wrap if place % 2 == 0 else others[place // 2 % len(others)] for place in range(SAMPLE)]
    return np.array([SAVED[wrap] for wrap in turns]), from_c
