"""What a lever changes: the question to the engine, and the facts that say that it was chosen.

Both come from one place, so that what was promised is what the plan does afterwards.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import (
    Body,
    Divided,
    LeverTaken,
    MovedToOven,
    PitMoved,
    PutOff,
    RestPlace,
    RestTold,
    Serving,
    ServingMoved,
    Slot,
    Wrap,
    Wrapped,
    WrapPlanned,
)
from scheduler.forecast import Opening, OpeningEvent, PitEvent, Question, WrapEvent
from scheduler.planning.advice.moment import Moment
from scheduler.planning.asking import indoors, question_of
from scheduler.planning.remedies import Lever

_SOON = dt.timedelta(minutes=10)
_EVERY = dt.timedelta(minutes=45)
"""How often a cooker is opened when nobody says; common practice, no source."""

_MOST_OPENINGS = 8


def asked(at: Moment) -> Question:
    """Return the question about the piece as it is."""
    return question_of(at.state, at.cut, at.outlook.on_at)


def with_pit(question: Question, when: dt.datetime, low_c: float, high_c: float) -> Question:
    """Return the question with the pit in another band [°C] from an instant on.

    A reading of that very instant is one of the pit as it was: the change comes a second after it.
    """
    if question.pit_readings and question.pit_readings[-1].at == when:
        when += dt.timedelta(seconds=1)
    earlier = tuple(event for event in question.pit if event.at < when)
    return dataclasses.replace(question, pit=(*earlier, PitEvent(at=when, low_c=low_c, high_c=high_c)))


def with_wrap(question: Question, when: dt.datetime, wrap: Wrap) -> Question:
    """Return the question with a wrap: planned while none was told, else put on at an instant."""
    if not question.wraps:
        return dataclasses.replace(question, wrap_plan=wrap)
    return dataclasses.replace(question, wraps=(*question.wraps, WrapEvent(at=when, wrap=wrap)), wrap_plan=wrap)


def in_oven(question: Question, when: dt.datetime, oven_c: float) -> Question:
    """Return the question about meat that goes on in an oven of that temperature [°C]."""
    return indoors(with_pit(question, when, oven_c, oven_c), when)


def wrapped_now(question: Question, when: dt.datetime, wrap: Wrap) -> Question:
    """Return the question with the meat wrapped at an instant."""
    return dataclasses.replace(question, wraps=(*question.wraps, WrapEvent(at=when, wrap=wrap)), wrap_plan=wrap)


def opened(question: Question, at: Moment, kind: Opening, times: int) -> Question:
    """Return the question with the cooker opened so many times more, spread over what is left."""
    left = dt.timedelta(minutes=at.left_min or 0.0)
    every = min(_EVERY, left / (times + 1)) if times else _EVERY
    more = tuple(OpeningEvent(at=at.now + _SOON + every * n, kind=kind) for n in range(times))
    return dataclasses.replace(question, openings=(*question.openings, *more))


def openings_ahead(at: Moment) -> int:
    """Return how often the cooker will be opened until the pull if people go on as in the last two hours."""
    recent = [e for e in asked(at).openings if at.now - e.at <= dt.timedelta(hours=2) and e.kind is not Opening.REFUEL]
    on_for = min(dt.timedelta(hours=2), at.now - at.outlook.on_at)
    if not recent or on_for <= dt.timedelta() or at.left_min is None:
        return 0
    pace = len(recent) / (on_for / dt.timedelta(minutes=1))
    return min(_MOST_OPENINGS, round(pace * at.left_min))


def unwrapped(question: Question, at: Moment, minutes: float) -> Question:
    """Return the question with the wrap open for so long."""
    around = at.wrap or Wrap.PAPER
    shut_at = at.now + dt.timedelta(minutes=minutes)
    wraps = (*question.wraps, WrapEvent(at=at.now, wrap=Wrap.NONE), WrapEvent(at=shut_at, wrap=around))
    return dataclasses.replace(question, wraps=wraps)


def pit_now(at: Moment) -> float:
    """Return what the pit reads, or should [°C]."""
    last = at.state.last(Slot.PIT)
    return at.state.pit_c if last is None else last.value_c


def facts_of(lever: Lever, at: Moment) -> tuple[Body, ...]:
    """Return the facts that say that a lever was chosen now; the first names the lever."""
    return (LeverTaken(lever=lever.id), *_changes(lever, at))


def _changes(lever: Lever, at: Moment) -> tuple[Body, ...]:
    band = at.state.pit[-1]
    match lever.change:
        case "pit":
            return (PitMoved(pit_low_c=band.low_c + lever.by, pit_high_c=band.high_c + lever.by),)
        case "wrap":
            assert lever.wrap is not None
            return (_wrapping(lever.wrap, at),)
        case "bare":
            return (WrapPlanned(wrap=Wrap.NONE),)
        case "unwrap":
            return (Wrapped(wrap=Wrap.NONE),)
        case "oven":
            moved_in = MovedToOven(oven_c=lever.oven_c or at.state.pit_c)
            return (moved_in,) if at.wrapped else (Wrapped(wrap=Wrap.FOIL), moved_in)
        case "divide":
            cut = (Divided(parts=round(lever.by)),)
            return cut if lever.wrap is None or at.wrapped else (*cut, Wrapped(wrap=lever.wrap))
        case "rest":
            return (RestTold(minutes=at.cut.vent_min + at.cut.rest_min_min),)
        case "hold":
            return (RestTold(place=lever.place, oven_c=lever.oven_c if lever.place is RestPlace.OVEN else None),)
        case "dinner":
            return (ServingMoved(serving=moved(at.state.serving, lever.by)),)
        case "delay_on":
            return (PutOff(step="meat_on", until=max(at.outlook.on_at, at.now)),)
        case _:
            return ()


def _wrapping(wrap: Wrap, at: Moment) -> Body:
    """Return the decision to wrap; where it was already said to stay bare, the wrap itself."""
    return Wrapped(wrap=wrap) if at.state.wraps else WrapPlanned(wrap=wrap)


def moved(serving: Serving, minutes: float) -> Serving:
    """Return the serving time so many minutes later (wall time); one that follows the meat stays as it is."""
    if serving.start is None:
        return serving
    by = dt.timedelta(minutes=minutes)
    end = None if serving.end is None else serving.end + by
    return dataclasses.replace(serving, start=serving.start + by, end=end)
