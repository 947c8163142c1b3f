"""The whole ensemble, past and future: learned from the readings, run on to the horizon once for each wrap to come.

It answers no question about times; `scheduler.forecast.outlook` does.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scheduler.facts import Wrap
from scheduler.forecast import anchors, course, simulate
from scheduler.forecast.anchors import Anchor
from scheduler.forecast.assimilate import OUTLIER_INFLATION, Analysis, analyse
from scheduler.forecast.draws import dice
from scheduler.forecast.inputs import Inputs
from scheduler.forecast.outlook import Paths
from scheduler.thermal import geometry, surface

Array = NDArray[np.float64]

_WIDE_GAP_C = 3.0
_MOST_ROOM = 0.9


def paths(of: Inputs, anchor: Anchor, members: int) -> Paths:
    """Return the paths of the ensemble for these inputs."""
    body = geometry.body(of.cut, of.mass_kg, of.thickness_m)
    thrown = dice(of.seed, members)
    analysis = analyse(of, body, anchor, thrown)
    options = _options(of)
    many = analysis.pieces.repeated(len(options))
    span = course.span(
        course.future_times(body, float(analysis.times_s[-1])), of, many, np.tile(analysis.pit_path, (1, len(options)))
    )
    wraps = np.concatenate([analysis.pieces.resistance(wrap) for wrap, _ in options])
    planned = simulate.Planned(resistance=wraps, from_c=of.cut.bark_look_c, until_c=of.cut.wrap_until_c)
    may_wrap = any(wrap is not Wrap.NONE for wrap, _ in options)
    _, future_c = simulate.run(many, _side_by_side(analysis, len(options)), span, planned if may_wrap else None)
    passed = _passed(of, analysis)
    return Paths(
        past_s=analysis.times_s,
        past_c=analysis.cores_c,
        future_s=span.times_s,
        future_c=_nudged(future_c, passed),
        weights=np.repeat([weight / members for _, weight in options], members),
        passed=passed,
        blur=np.tile(thrown.blur, (1, len(options))),
        target_z=np.tile(thrown.target, len(options)),
        target_c=of.cut.target_c,
    )


def _options(of: Inputs) -> tuple[tuple[Wrap, float], ...]:
    """Return the wraps still to come, with weights: one when it is known or decided, a mixture when it is not."""
    if of.wraps:
        return ((Wrap.NONE, 1.0),)
    if of.wrap_plan is not None:
        return ((of.wrap_plan, 1.0),)
    others = [wrap for wrap in of.cut.wraps if wrap is not of.cut.usual_wrap]
    if not others:
        return ((of.cut.usual_wrap, 1.0),)
    share = (1.0 - anchors.UNDECIDED_USUAL) / len(others)
    return ((of.cut.usual_wrap, anchors.UNDECIDED_USUAL), *((wrap, share) for wrap in others))


def _side_by_side(analysis: Analysis, times: int) -> simulate.State:
    now = analysis.now
    return simulate.State(
        amplitudes=np.tile(now.amplitudes, (1, times)),
        evaporated_kg_m2=np.tile(now.evaporated_kg_m2, times),
        surface_c=np.tile(now.surface_c, times),
        core_c=np.tile(now.core_c, times),
    )


def _passed(of: Inputs, analysis: Analysis) -> tuple[Array, Array]:
    """Return times and values of the trusted readings, made strictly rising so that each level has one time."""
    trusted = [
        sample
        for sample, inflation in zip(of.readings, analysis.inflation, strict=True)
        if inflation <= OUTLIER_INFLATION
    ]
    at: list[float] = []
    values: list[float] = []
    for at_s, value_c in zip([sample.at_s for sample in trusted], _rising([s.value_c for s in trusted]), strict=True):
        if not values or value_c > values[-1]:
            at.append(at_s)
            values.append(value_c)
    return np.array(at), np.array(values)


def _nudged(future_c: Array, passed: tuple[Array, Array]) -> Array:
    """Return the future moved toward the last trusted reading: half way for a small gap, nearly all of it for a wide
    one.

    The move fades as the core nears boiling, keeps the order of the members and keeps each path rising.
    """
    if not len(passed[1]):
        return future_c
    middle_c = float(future_c[0].mean())
    room_c = max(0.5, surface.BOILING_C - middle_c)
    lag_c = float(np.clip(passed[1][-1] - middle_c, -_MOST_ROOM * room_c, _MOST_ROOM * room_c))
    share = 1.0 - 0.5 / (1.0 + (lag_c / _WIDE_GAP_C) ** 2)
    nudged: Array = future_c + (share * lag_c / room_c) * (surface.BOILING_C - future_c)
    return nudged


def _rising(values: list[float]) -> list[float]:
    """Return the non-decreasing sequence nearest to `values` (pool adjacent violators)."""
    blocks: list[tuple[float, int]] = []
    for value in values:
        mean, count = value, 1
        while blocks and blocks[-1][0] >= mean:
            earlier, number = blocks.pop()
            mean, count = (mean * count + earlier * number) / (count + number), count + number
        blocks.append((mean, count))
    return [mean for mean, count in blocks for _ in range(count)]
