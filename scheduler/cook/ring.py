"""What the passing of time changes: a trip goes out, prompts are given up, a cook ends. Pure."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cook.alarms import alarms, riding
from scheduler.cook.changes import Changes, Event, Found, Lapsed, Over, Shifted, TripDue
from scheduler.cook.crew import silent_levers, tests, wound_up
from scheduler.cook.situation import Situation, assess
from scheduler.cook.writing import Pen
from scheduler.facts import Asked, Closed, Fact, Withdrawn
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.cautions import caution_for
from scheduler.planning.replanning import last_half_hour
from scheduler.planning.trips import Trip, gather, wakes


def ring(
    facts: tuple[Fact, ...],
    *,
    now: dt.datetime,
    seed: str,
    catalogue: Catalogue,
    answering: bool = False,
    reachable: frozenset[str] | None = None,
) -> Changes:
    """Return what is due at `now`: at most one trip (everything late rides in it), and what is given up.

    A stop is told in any case, in a message of its own; cautions and notes only when there is a message to ride in: a
    trip, news, or the answer to somebody (`answering`). `reachable` are those who have a private chat: they, and those
    who have none, are tested on the eve of a night with watches (None: nobody is tested).
    """
    before = assess(facts, catalogue, now)
    pen = Pen(log=facts, cook=before.state.cook, piece=before.state.piece, seed=seed, now=now)
    events: list[Event] = [*alarms(pen, before), *silent_levers(pen, before), *tests(pen, before, reachable)]
    trip, late = _gathered(pen, before, catalogue)
    if late:
        events.append(Lapsed(steps=late))
    carried = answering or trip is not None or bool(late)
    first = () if trip is None else _caution(pen, catalogue, trip, warned=True)
    ridden = riding(pen, before, notes=not first) if carried else ()
    if trip is not None:
        warned = any(isinstance(e, Found) for e in ridden)
        trip = dataclasses.replace(trip, cautions=first or _caution(pen, catalogue, trip, warned=warned))
        pen.write(Asked(prompts=trip.keys, revision=1 + trip.prompts[0].asked, cautions=trip.cautions))
        events.append(TripDue(trip=trip))
    events += ridden
    after = pen.settle(before, catalogue)
    if after.ended and not wakes(after.prompts) and after.next_look_at() is None:
        pen.write(Closed())
        after = assess(pen.facts, catalogue)
        events.append(Over())
    if ended := wound_up(pen, after):
        events += ended
        after = assess(pen.facts, catalogue, now)
    shift = after.shift() if answering or before.hands_full_until() is None else None
    if shift is not None and (trip is not None or (shift.turned and _turned_by_time(facts, now, catalogue))):
        events.append(Shifted(shift=shift))
        if not carried and (ridden := riding(pen, before)):
            events += ridden
            after = pen.settle(before, catalogue)
    return Changes(facts=pen.written, before=before, after=after, events=tuple(events))


def _caution(pen: Pen, catalogue: Catalogue, trip: Trip, *, warned: bool) -> tuple[str, ...]:
    """Return the caution that rides with a trip, one or none."""
    views = assess(pen.facts, catalogue, pen.now).views
    return caution_for(pen.facts, views, catalogue.steps, trip.prompts, pen.now, warned=warned)


def _gathered(pen: Pen, before: Situation, catalogue: Catalogue) -> tuple[Trip | None, tuple[str, ...]]:
    """Give up what has gone and return the trip that is due, with the steps whose time had passed.

    What follows in a series upon one that was given up may be due as well: it rides in the same trip.
    """
    situation = before
    late: list[str] = []
    gathered = gather(situation.prompts, situation.state, pen.now)
    while gathered.given_up:
        for entry in gathered.given_up:
            pen.write(Withdrawn(prompt=entry.prompt.key, reason=entry.reason))
        late += [entry.prompt.step.id for entry in gathered.given_up if entry.reason == "too_late"]
        situation = assess(pen.facts, catalogue, pen.now)
        gathered = gather(situation.prompts, situation.state, pen.now)
    return gathered.trip, tuple(dict.fromkeys(late))


def _turned_by_time(facts: tuple[Fact, ...], now: dt.datetime, catalogue: Catalogue) -> bool:
    """Return whether the verdict had turned by the last half hour of the clock, at which a cook is looked at anyway.

    A bell that rings in between (a start, a lost cache) tells nothing that would not have been told without it.
    """
    then = assess(facts, catalogue, last_half_hour(now)).shift()
    return then is not None and then.turned
