"""The whole ensemble, past and future: learned from the readings, run on to the horizon once for each wrap to come.

It answers no question about times; `scheduler.forecast.outlook` does.
"""

from __future__ import annotations

import dataclasses

import numpy as np
from numpy.typing import NDArray

from scheduler.facts import Wrap
from scheduler.forecast import anchors, course, simulate
from scheduler.forecast.anchors import Anchor, Doubt
from scheduler.forecast.assimilate import OUTLIER_INFLATION, Analysis, analyse
from scheduler.forecast.draws import Dice, dice
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.interface import WrapChoice
from scheduler.thermal import geometry, surface
from scheduler.thermal.properties import properties_at

Array = NDArray[np.float64]

PROPERTIES_AT_C = 50.0
"""Temperature at which the properties of the meat are taken: the middle of a long cook [°C]."""

_WIDE_GAP_C = 3.0
_MOST_ROOM = 0.9
_SOON_C = 1.0
_LEAST_SHARE = 0.02
"""A wrap less likely than this is not run."""
_NEVER_TOLD = 0.3
"""Share of wraps that may still come although the core has passed where they usually go on: nobody may have looked."""


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Runs:
    """Every member so far and from now on, in seconds since meat on.

    `future_c` (k, choices * n) holds the members once for each wrap they may get, in the order of `choices`. `passed`
    are the trusted readings that were higher than all before: (times [s], values [°C]), empty before the first.
    """

    of: Inputs
    model: simulate.Model
    dice: Dice
    analysis: Analysis
    choices: tuple[WrapChoice, ...]
    future_s: Array
    future_c: Array
    passed: tuple[Array, Array]


def model_of(of: Inputs, anchor: Anchor) -> simulate.Model:
    """Return what is taken as known of the piece."""
    meat = properties_at(of.cut.composition, PROPERTIES_AT_C)
    start = anchors.START_C
    if of.start_c is not None:
        start = Doubt(median=of.start_c, spread=anchors.TOLD_START_C, absolute=True)
    return simulate.Model(body=geometry.body(of.cut, of.mass_kg, of.thickness_m), meat=meat, anchor=anchor, start=start)


def runs(of: Inputs, anchor: Anchor, members: int) -> Runs:
    """Return the runs of the ensemble for these inputs."""
    model = model_of(of, anchor)
    thrown = dice(of.seed, members)
    analysis = analyse(of, model, thrown)
    choices = _choices(of, analysis, thrown)
    many = analysis.pieces.repeated(len(choices))
    times_s = course.future_times(model.body, model.meat.diffusivity_m2_s, of.last_s)
    span = course.span(times_s, of, many, np.tile(analysis.pit_path, (1, len(choices))))
    planned = _planned(of, analysis, thrown, choices)
    _, future_c = simulate.run(many, analysis.now.repeated(len(choices)), span, planned)
    passed = _passed(of, analysis)
    return Runs(
        of=of, model=model, dice=thrown, analysis=analysis, choices=choices,
        future_s=times_s, future_c=_nudged(future_c, of, analysis), passed=passed,
    )  # fmt: skip


def _triggers_c(of: Inputs, thrown: Dice) -> Array:
    """Return the core temperature at which each member would be wrapped (n,) [°C]."""
    latest_c = max(of.cut.bark_look_c + 1.0, of.cut.wrap_until_c)
    triggers: Array = np.minimum(of.cut.bark_look_c + anchors.TRIGGER_SPREAD_C * thrown.trigger, latest_c)
    return triggers


def _choices(of: Inputs, analysis: Analysis, thrown: Dice) -> tuple[WrapChoice, ...]:
    """Return the wraps still to come, with weights: one when it is known or decided, a mixture when it is not.

    The longer the core has passed the temperatures at which pieces are wrapped, the likelier it stays bare.
    """
    if of.wraps:
        return (WrapChoice(wrap=of.wraps[-1][1], weight=1.0),)
    pays = float(np.mean(analysis.now.core_c < of.cut.wrap_until_c))
    if of.wrap_plan is not None:
        weights = {of.wrap_plan: pays}
        weights[Wrap.NONE] = weights.get(Wrap.NONE, 0.0) + 1.0 - pays
        return _weighed(weights)
    ahead = float(np.mean(_triggers_c(of, thrown) > analysis.now.core_c))
    still = pays * (_NEVER_TOLD + (1.0 - _NEVER_TOLD) * ahead)
    others = [wrap for wrap in of.cut.wraps if wrap is not of.cut.usual_wrap]
    share = (1.0 - anchors.UNDECIDED_USUAL) / max(1, len(others))
    weights = {of.cut.usual_wrap: anchors.UNDECIDED_USUAL} | dict.fromkeys(others, share)
    weights = {wrap: weight * (1.0 if wrap is Wrap.NONE else still) for wrap, weight in weights.items()}
    weights.setdefault(Wrap.NONE, (1.0 - still) * anchors.UNDECIDED_USUAL)
    return _weighed(weights)


def _weighed(weights: dict[Wrap, float]) -> tuple[WrapChoice, ...]:
    total = sum(weights.values())
    shares = {wrap: weight / total for wrap, weight in weights.items()}
    kept = {wrap: share for wrap, share in shares.items() if share >= _LEAST_SHARE}
    return tuple(WrapChoice(wrap=wrap, weight=share / sum(kept.values())) for wrap, share in kept.items())


def _planned(of: Inputs, analysis: Analysis, thrown: Dice, choices: tuple[WrapChoice, ...]) -> simulate.Planned | None:
    if of.wraps or all(choice.wrap is Wrap.NONE for choice in choices):
        return None
    triggers_c = np.maximum(_triggers_c(of, thrown), analysis.now.core_c + _SOON_C)
    resistance = np.concatenate([analysis.pieces.resistance(choice.wrap) for choice in choices])
    return simulate.Planned(resistance=resistance, from_c=np.tile(triggers_c, len(choices)))


def _passed(of: Inputs, analysis: Analysis) -> tuple[Array, Array]:
    """Return times and values of the trusted readings that were higher than all before: when each level was first
    reached.
    """
    at: list[float] = []
    values: list[float] = []
    for sample, inflation in zip(of.readings, analysis.inflation.tolist(), strict=True):
        if inflation <= OUTLIER_INFLATION and (not values or sample.value_c > values[-1]):
            at.append(sample.at_s)
            values.append(sample.value_c)
    return np.array(at), np.array(values)


def _nudged(future_c: Array, of: Inputs, analysis: Analysis) -> Array:
    """Return the future moved toward the last reading: half way for a small gap, nearly all of it for a wide one, the
    less the less it is trusted.

    The move fades as the core nears boiling, keeps the order of the members and keeps each path rising.
    """
    if not of.readings:
        return future_c
    middle_c = float(future_c[0].mean())
    room_c = max(0.5, surface.BOILING_C - middle_c)
    lag_c = float(np.clip(of.readings[-1].value_c - middle_c, -_MOST_ROOM * room_c, _MOST_ROOM * room_c))
    share = 1.0 - 0.5 / (1.0 + (lag_c / _WIDE_GAP_C) ** 2)
    share /= 1.0 + ((float(analysis.inflation[-1]) - 1.0) / OUTLIER_INFLATION) ** 2
    nudged: Array = future_c + (share * lag_c / room_c) * (surface.BOILING_C - future_c)
    return nudged
