"""What the log says of the world around the meat: the lid, the air outside, how cold the meat was when it went on.

Facts are read here and turned into what a forecast understands; nothing is assumed: what nobody told stays unknown.
"""

from __future__ import annotations

import datetime as dt

from scheduler.facts import Slot, Wrap
from scheduler.forecast import Air, AirWord, Opening, OpeningEvent, Wind
from scheduler.state import CookState, ReadingAt

OPENED_BY = {
    "first_look": Opening.LID,
    "wood_add": Opening.LID,
    "bark_check": Opening.LID,
    "spritz": Opening.SPRITZ,
    "refuel": Opening.REFUEL,
}
"""Steps of the catalogue for which the cooker is opened. The feel for tenderness and the wrap belong to every cook, so
that the durations of the trade hold them already."""

ONE_OPENING = dt.timedelta(minutes=5)
"""What is done within this is done under one open lid; common practice, no source."""

START_WITHIN = dt.timedelta(hours=1)
"""A core read at most so long before meat on says how cold it went on: house rule."""

START_UP_TO_C = 30.0
"""A warmer core at meat on is no raw meat from a fridge or a table: it counts as a reading, not as a start [°C]."""

_BUSY = (Opening.REFUEL, Opening.SPRITZ, Opening.LID)


def openings_of(state: CookState, on_at: dt.datetime) -> tuple[OpeningEvent, ...]:
    """Return when and why the cooker was opened from meat on to the pull; a look while spritzing is one opening."""
    until = state.at("pull")
    found = sorted(
        (
            OpeningEvent(at=done.at, kind=kind)
            for step, kind in OPENED_BY.items()
            if not (step == "wood_add" and state.cooker is not None and state.cooker.wood_by == "firebox")
            for done in state.done.get(step, ())
            if done.at >= on_at and (until is None or done.at <= until)
        ),
        key=lambda event: (event.at, _BUSY.index(event.kind)),
    )
    return tuple(event for event in found if not _goes_without_saying(event, found))


def _goes_without_saying(event: OpeningEvent, found: list[OpeningEvent]) -> bool:
    """Return whether an opening is part of another one: of a busier one, or of the same kind a moment before."""
    near = [other for other in found if other is not event and abs(other.at - event.at) <= ONE_OPENING]
    return any(
        _BUSY.index(other.kind) < _BUSY.index(event.kind) or (other.kind is event.kind and other.at < event.at)
        for other in near
    )


def air_of(state: CookState) -> Air:
    """Return the air around the cooker as told, unknown where nobody said."""
    told = state.air
    temp = told.temp_c if told.temp_c is not None else None if told.word is None else AirWord(told.word)
    return Air(temp=temp, wind=None if told.wind is None else Wind(told.wind))


def start_of(state: CookState, on_at: dt.datetime) -> ReadingAt | None:
    """Return the core reading that says how cold the meat went on: the last undoubted one of the hour before."""
    before = [r for r in state.read(Slot.CORE) if on_at - START_WITHIN <= r.at <= on_at]
    return before[-1] if before and before[-1].value_c <= START_UP_TO_C else None


def wrap_of(state: CookState) -> Wrap:
    """Return what lies around the meat by what was told."""
    return state.wraps[-1][1].wrap if state.wraps else Wrap.NONE
