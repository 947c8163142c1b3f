"""One piece of meat on the chart: its fan, its readings, its window, its stall and what was done to it, as values.

Nothing is placed and nothing is drawn here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

import numpy as np

from bot.messages import chart as words
from bot.messages.figures import Voice
from bot.messages.naming import piece_name
from bot.papers.chart_axes import levels, span_of
from bot.papers.chart_values import ChartPerson, ChartPiece, Deed, Dot, Event, Level, Stretch
from scheduler.facts import Slot
from scheduler.forecast import FanPoint, StallPhase
from scheduler.planning.outlook import Window, after_pull
from scheduler.planning.views import PieceView
from scheduler.state import ReadingAt

_STEPS_OF_A_FAN = 60
_FINEST = dt.timedelta(minutes=5)
_START_WITHIN = dt.timedelta(minutes=30)
"""A core read so long before meat on still lies on the chart."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Frame:
    """From when to when a chart is drawn, when dinner is, and whether it is that of the end."""

    begin_at: dt.datetime
    end_at: dt.datetime
    dinner_at: dt.datetime
    over: bool

    def shows(self, at: dt.datetime) -> bool:
        """Return whether an instant lies on the chart."""
        return self.begin_at <= at <= self.end_at


def piece_of(
    view: PieceView,
    expected: PieceView | None,
    frame: Frame,
    people: tuple[ChartPerson, ...],
    voice: Voice,
    *,
    several: bool,
    whole: bool = True,
) -> ChartPiece:
    """Return a panel; `expected` is the piece as it was forecast at meat on, for the chart of the end."""
    state, outlook = view.state, view.outlook
    pulled_at = state.at("pull")
    fan = _fan(view, expected, frame)
    dots = dots_of(state.read(Slot.CORE, doubtful=True), frame, people)
    target_c = _target_c(view)
    values = [target_c, *(dot.value_c for dot in dots)]
    low_c, high_c = span_of([*values, *(p.low_c for p in fan), *(p.high_c for p in fan)])
    newest = state.last(Slot.CORE)
    newest = newest if newest is not None and frame.shows(newest.at) else None
    gone = bool(state.discarded) and not state.did("serve")
    return ChartPiece(
        name=piece_name(view),
        newest=words.readings(len(dots)) if frame.over else words.newest(newest, voice),
        off=_off(view, voice, frame, gone=gone),
        dinner_at=outlook.serve_at or frame.dinner_at,
        dinner_until=outlook.serve_end or outlook.serve_at or frame.dinner_at,
        fan=() if gone else fan,
        window=_window(view, expected, gone=gone),
        off_by=None if gone else (outlook.serve_at or frame.dinner_at) - after_pull(view.cut),
        pulled_at=pulled_at,
        readings=dots,
        newest_words="" if newest is None else voice.read(newest.value_c),
        stall=_stall(view, fan, frame),
        events=_events(view, frame),
        target=Level(temp_c=target_c, words=words.done_at(target_c, voice)),
        levels=levels(low_c, high_c, voice, 3 if several else 5),
        low_c=low_c,
        high_c=high_c,
        whole=whole,
    )


def dots_of(readings: tuple[ReadingAt, ...], frame: Frame, people: tuple[ChartPerson, ...]) -> tuple[Dot, ...]:
    """Return the readings that lie on the chart, in order of time, each with whoever made it."""
    places = {person.name: person.number for person in people}
    return tuple(
        Dot(at=r.at, value_c=r.value_c, person=None if r.by is None else places.get(r.by), doubtful=r.doubtful)
        for r in readings
        if frame.shows(r.at)
    )


def _target_c(view: PieceView) -> float:
    """Return the core at which it is done, never below the safe minimum unless somebody chose it for this piece."""
    usual = view.cut.done_c == view.cut.target_c.typical
    return max(view.cut.done_c, view.gate.minimum_c) if usual else view.cut.done_c


def _off(view: PieceView, voice: Voice, frame: Frame, *, gone: bool) -> str:
    pulled_at = view.state.at("pull")
    if gone:
        return words.thrown_away()
    when = words.off(view.outlook.pull, voice) if pulled_at is None else words.came_off(pulled_at, voice)
    own = view.outlook.serve_at
    return when if own is None or own == frame.dinner_at else words.for_its_dinner(when, own, voice)


def _window(view: PieceView, expected: PieceView | None, *, gone: bool) -> Window | None:
    """Return when it will be ready; once it came off nothing is to be foretold, but at the end what had been."""
    if gone:
        return None
    if view.state.at("pull") is None:
        return view.outlook.pull
    return None if expected is None else expected.outlook.pull


def _fan(view: PieceView, expected: PieceView | None, frame: Frame) -> tuple[FanPoint, ...]:
    """Return the forecast up to the right edge, of a piece that came off up to that; at the end the one of meat on."""
    source = view if expected is None else expected
    pulled_at = view.state.at("pull")
    until = frame.end_at if expected is not None or pulled_at is None else min(pulled_at, frame.end_at)
    on_at = source.outlook.on_at
    if until <= on_at:
        return ()
    every = max(_FINEST, (until - on_at) / _STEPS_OF_A_FAN)
    return source.outlook.forecast.fan(until, every=every)


def _stall(view: PieceView, fan: tuple[FanPoint, ...], frame: Frame) -> Stretch | None:
    """Return the stall as it was seen, or is foreseen; none where none is expected."""
    plateau = view.plateau
    begins, ends = plateau.begins, plateau.ends
    start = plateau.since or (None if begins is None else begins.likely)
    end = None if ends is None else ends.likely
    if plateau.phase is StallPhase.UNLIKELY or start is None or end is None or not fan:
        return None
    pulled_at = view.state.at("pull")
    start, end = max(start, view.outlook.on_at), min(end, pulled_at or frame.end_at, frame.end_at)
    if end - start < _FINEST:
        return None
    times = np.array([point.at.timestamp() for point in fan])
    cores_c = np.array([point.middle_c for point in fan])
    core_c = plateau.core_c or float(np.interp((start + (end - start) / 2).timestamp(), times, cores_c))
    return Stretch(start=start, end=end, core_c=core_c, word=words.stall())


def _events(view: PieceView, frame: Frame) -> tuple[Event, ...]:
    state = view.state
    found = []
    for step, deed in (("meat_on", Deed.MEAT_ON), ("pull", Deed.PULL)):
        done = state.at(step)
        if done is not None:
            found.append(Event(at=done, deed=deed))
    found += [Event(at=spell.pulled_at, deed=Deed.PULL) for spell in state.off_spells]
    found += [Event(at=spell.back_at, deed=Deed.MEAT_ON) for spell in state.off_spells]
    found += [Event(at=at, deed=Deed.WRAP, word=words.wrap(wrapped.wrap)) for at, wrapped in state.wraps]
    return tuple(sorted((event for event in found if frame.shows(event.at)), key=lambda event: event.at))
