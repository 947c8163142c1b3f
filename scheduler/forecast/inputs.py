"""The question as the model sees it: seconds since meat on, readings in order, one per minute.

Nothing is judged here but order and doubles; outliers are the business of the assimilation.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Wrap
from scheduler.forecast.interface import Air, Observation, Opening, Question

MAX_READINGS = 48
"""More than this many minutes with a reading are thinned, the newest half kept whole."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Sample:
    """A temperature [°C] at `at_s` seconds after meat on, with the half width of doubt [°C]."""

    at_s: float
    value_c: float
    spread_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Inputs:
    """Everything that moves a forecast, free of clock times: two cooks alike in this have the same forecast."""

    seed: str
    cut: Cut
    mass_kg: float | None
    thickness_m: float | None
    pit: tuple[tuple[float, float], ...]
    """(seconds, middle of the band [°C]) in order, the first at or before 0."""
    wraps: tuple[tuple[float, Wrap], ...]
    wrap_plan: Wrap | None
    readings: tuple[Sample, ...]
    pit_readings: tuple[Sample, ...]
    openings: tuple[tuple[float, Opening], ...] = ()
    """(seconds, why) in order, from meat on."""
    air: Air = Air()  # noqa: RUF009 - a frozen value, shared safely
    start_c: float | None = None

    @property
    def last_s(self) -> float:
        """Return the time of the last reading, 0 when there is none [s]."""
        return self.readings[-1].at_s if self.readings else 0.0


def inputs(question: Question) -> Inputs:
    """Return the question in seconds since meat on. Readings from before meat on are left out."""
    on_at = question.on_at

    def since_on(at: dt.datetime) -> float:
        return (at - on_at).total_seconds()

    events = sorted(((since_on(event.at), 0.5 * (event.low_c + event.high_c)) for event in question.pit), key=_first)
    before = [middle_c for at_s, middle_c in events if at_s <= 0.0]
    start_c = before[-1] if before else events[0][1] if events else question.cut.pit_c.typical
    wraps = sorted(((max(0.0, since_on(event.at)), event.wrap) for event in question.wraps), key=_first)
    return Inputs(
        seed=f"{question.cook}/{question.piece}",
        cut=question.cut,
        mass_kg=question.mass_kg,
        thickness_m=question.thickness_m,
        pit=((0.0, start_c), *((at_s, middle_c) for at_s, middle_c in events if at_s > 0.0)),
        wraps=tuple(wraps),
        wrap_plan=question.wrap_plan,
        readings=_thinned(_by_minute(question.readings, on_at)),
        pit_readings=_thinned(_by_minute(question.pit_readings, on_at)),
        openings=tuple(
            sorted((at_s, event.kind) for event in question.openings if (at_s := since_on(event.at)) >= 0.0)
        ),
        air=question.air,
        start_c=question.start_c,
    )


def _first(event: tuple[float, object]) -> float:
    return event[0]


def _by_minute(readings: tuple[Observation, ...], on_at: dt.datetime) -> list[Sample]:
    minutes: dict[int, list[Sample]] = {}
    for reading in readings:
        at_s = (reading.at - on_at).total_seconds()
        if at_s >= 0.0:
            sample = Sample(at_s=at_s, value_c=reading.value_c, spread_c=reading.spread_c)
            minutes.setdefault(int(at_s // 60.0), []).append(sample)
    return [_merged(minutes[minute]) for minute in sorted(minutes)]


def _merged(samples: list[Sample]) -> Sample:
    """Return the mean of the readings of one minute, sorted first so that their order cannot matter."""
    if len(samples) == 1:
        return samples[0]
    samples = sorted(samples, key=lambda sample: (sample.at_s, sample.value_c, sample.spread_c))
    values = [sample.value_c for sample in samples]
    return Sample(
        at_s=sum(sample.at_s for sample in samples) / len(samples),
        value_c=sum(values) / len(values),
        spread_c=max(0.5 * (max(values) - min(values)), *(sample.spread_c for sample in samples)),
    )


def _thinned(samples: list[Sample]) -> tuple[Sample, ...]:
    if len(samples) <= MAX_READINGS:
        return tuple(samples)
    keep = MAX_READINGS // 2
    older = samples[:-keep]
    chosen = [older[index * len(older) // keep] for index in range(keep)]
    return (*chosen, *samples[-keep:])
