"""Asks the forecast at every core reading of a log, from that row and earlier ones alone.

It must never look ahead: a log that is cut off after a row gives the same forecasts up to that row.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import statistics
from collections.abc import Iterator, Sequence

from bot.backtest.events import Covered, Event, Opened, PitSet, Pulled
from bot.backtest.log import Log, Row
from scheduler.cuts import Cut
from scheduler.forecast import Observation, OpeningEvent, PitEvent, Question, WrapEvent, forecast

ON_AT = dt.datetime(2026, 1, 1, tzinfo=dt.UTC)
"""Meat on, for every log: the forecast of a cook does not depend on its date, nor on the name of its file."""
PROBABILITIES = (0.1, 0.5, 0.9)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Answer:
    """When a target is reached: the minutes since meat on before which it is with 10, 50 and 90 %, None beyond the
    horizon.
    """

    p10: float | None
    p50: float | None
    p90: float | None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Asked:
    """The forecast as of one row: minutes since meat on, core [°C], and an answer for each target."""

    minute: float
    core_c: float
    answers: tuple[Answer, ...]


def replay(log: Log, cut: Cut, targets_c: Sequence[float]) -> Iterator[Asked]:
    """Yield the forecast at each core reading from meat on until the meat is pulled, one after the other."""
    cooked = on_the_fire(log)
    for place, row in enumerate(cooked):
        if row.core_c is not None and row.minute >= 0:
            known = forecast(question(log, cut, cooked[: place + 1]))
            crossings = [known.crossing(target_c) for target_c in targets_c]
            answers = [Answer(**_quantiles([c.quantile(p) for p in PROBABILITIES])) for c in crossings]
            yield Asked(minute=row.minute, core_c=row.core_c, answers=tuple(answers))


def on_the_fire(log: Log) -> tuple[Row, ...]:
    """Return the rows up to the one in which the meat was pulled."""
    for place, row in enumerate(log.rows):
        if Pulled() in row.events:
            return log.rows[: place + 1]
    return log.rows


def question(log: Log, cut: Cut, rows: Sequence[Row]) -> Question:
    """Return what is known of a cook when the last of `rows` was written, and no more."""
    happened = [(max(0.0, row.minute), event) for row in rows for event in row.events]
    cold = [row.core_c for row in rows if row.core_c is not None and row.minute < 0]
    return Question(
        cook="backtest",
        piece=cut.id,
        cut=cut,
        mass_kg=log.head.mass_kg,
        thickness_m=log.head.thickness_m,
        on_at=ON_AT,
        pit=_pit(log, cut, rows, happened),
        readings=tuple(
            Observation(at=_at(row.minute), value_c=row.core_c)
            for row in rows
            if row.core_c is not None and row.minute >= 0
        ),
        pit_readings=tuple(
            Observation(at=_at(row.minute), value_c=row.pit_c)
            for row in rows
            if row.pit_c is not None and row.minute >= 0
        ),
        wraps=tuple(WrapEvent(at=_at(at), wrap=event.wrap) for at, event in happened if isinstance(event, Covered)),
        wrap_plan=log.head.wrap,
        openings=tuple(
            OpeningEvent(at=_at(at), kind=event.kind) for at, event in happened if isinstance(event, Opened)
        ),
        start_c=cold[-1] if cold else None,
    )


def _pit(log: Log, cut: Cut, rows: Sequence[Row], happened: Sequence[tuple[float, Event]]) -> tuple[PitEvent, ...]:
    """Return the pit as it was set: by the head of the log or else as it was read so far, then by each event.

    Readings before the first event count (their median), or those from before meat on, or the usual pit of the cut.
    """
    events = [
        PitEvent(at=_at(at), low_c=event.low_c, high_c=event.high_c)
        for at, event in happened
        if isinstance(event, PitSet)
    ]
    if events and events[0].at == ON_AT:
        return tuple(events)
    until = events[0].at if events else None
    read = [
        (row.minute, row.pit_c) for row in rows if row.pit_c is not None and (until is None or _at(row.minute) < until)
    ]
    begun = [pit_c for minute, pit_c in read if minute >= 0] or [pit_c for _, pit_c in read]
    middle_c = statistics.median(begun) if begun else cut.pit_c.typical
    low_c, high_c = log.head.pit_c or (middle_c, middle_c)
    return (PitEvent(at=ON_AT, low_c=low_c, high_c=high_c), *events)


def _at(minute: float) -> dt.datetime:
    return ON_AT + dt.timedelta(minutes=minute)


def _quantiles(instants: Sequence[dt.datetime | None]) -> dict[str, float | None]:
    minutes = [None if at is None else round((at - ON_AT) / dt.timedelta(minutes=1), 1) for at in instants]
    return dict(zip(("p10", "p50", "p90"), minutes, strict=True))
