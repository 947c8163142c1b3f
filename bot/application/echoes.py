"""What somebody did as the other rooms of a cook hear it, and what all of them hear of the crew beside what is due.

Words are made in `bot.messages`; who hears what is chosen in `bot.application.routing`.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

from bot.application.composing import (
    differing,
    lettered,
    levers_of,
    paper_offer,
    riding,
    taken_back,
    warned,
    with_next,
)
from bot.application.manners import voice_of
from bot.application.papers import offer_record
from bot.application.pictures import riding_picture
from bot.application.routing import Listener, Loudness, crew_names, of_a_trip, of_an_echo, owners_of
from bot.application.turns import Turn, calms, has, trip_of
from bot.application.visit import Visit, Work
from bot.messages.crew import escalation_line
from bot.messages.crew_claims import mine_rows
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.receipts import by_name, echo, settling
from bot.messages.stops import stop_message, without_discarded
from bot.messages.trip import wake_line, woken_by
from bot.messages.words import speaking
from bot.ports import CookSnapshot
from scheduler.cook import Found, Situation, StopOver, TripDue
from scheduler.planning.nights import is_quiet

Words = Message | Callable[[Voice], Message]
"""A message, or how it is said in the voice of a room; what other rooms hear is given so."""

NOTHING = Message(text="")


def said_in(words: Words | None, voice: Voice) -> Message:
    """Return words in the voice of a room."""
    return NOTHING if words is None else words(voice) if callable(words) else words


def how_others(
    listener: Listener, everybody: tuple[Listener, ...], done: Turn, *, urgent: bool
) -> tuple[Loudness, Loudness]:
    """Return how what somebody did, and what is due because of it, comes to another room."""
    trip, found = trip_of(done.rung), has(done.rung, Found)
    echo = of_an_echo(listener, everybody, done.after, done.reported.facts, urgent=urgent or found)
    if echo is Loudness.NOTHING and calms(done):
        echo = Loudness.SILENT
    if trip is None:
        return echo, Loudness.NOTHING
    return echo, of_a_trip(listener, everybody, trip.trip, done.after, urgent=found)


def tell_others(
    visit: Visit,
    work: Work,
    listener: Listener,
    snapshot: CookSnapshot,
    done: Turn,
    body: Words | None,
    *,
    first: Words | None,
    how: tuple[Loudness, Loudness],
    instead: Words | None,
) -> None:
    """Write one line about what somebody did, or what is said `instead`, and the trip that came of it; `first` is about
    danger.
    """
    if how == (Loudness.NOTHING, Loudness.NOTHING) and not has(done.rung, StopOver):
        return  # whoever heard a stop hears its end, too
    voice = voice_of(done.after, visit.now, listener.manner)
    with speaking(listener.manner.language):
        message, stop, stopping = _others_hear(
            visit, snapshot, done, body, voice=voice, first=first, how=how, instead=instead
        )
        if not message.text:
            return
        trip = trip_of(done.rung) if how[1] is not Loudness.NOTHING else None
        woken = named_in(listener, trip, done.after)
        message = with_crew(message, listener, trip, done.after, voice)
        told = with_next(message, done.after, voice, told=stop.text, rung=done.rung, first=first is not None)
        told = dataclasses.replace(told, text=lines(wake_line(woken), told.text))
        work.say(
            lettered(told, stop, listener.room),
            to=listener.room,
            key=f"echo:{visit.row_id}",
            cook=done.after.state.cook,
            silent=not stopping and Loudness.LOUD not in how,
            urgent=stopping,
            document=riding_picture(
                visit.house,
                (*snapshot.facts, *done.facts),
                (done.reported, done.rung),
                voice=voice,
                room=listener.room,
                message=told,
                urgent=stopping,
            ),
        )


def _others_hear(
    visit: Visit,
    snapshot: CookSnapshot,
    done: Turn,
    body: Words | None,
    *,
    voice: Voice,
    first: Words | None,
    how: tuple[Loudness, Loudness],
    instead: Words | None,
) -> tuple[Message, Message, bool]:
    """Return what another room hears, the stop that it hears by itself, and whether it must hear at once."""
    reported = without_discarded(done.reported, done.rung)
    whole = said_in(body, voice)
    name = visit.person.name
    told = Message(text=echo(reported, name, voice) if body is None else by_name(name))
    told = differing(done, dataclasses.replace(told, choices=settling(reported, voice, others=True)), voice)
    if instead is not None:
        told, whole = said_in(instead, voice), NOTHING
    before = warned(done.rung, voice, whole.text)
    offered = paper_offer(snapshot, done).then(offer_record(done.reported))
    message = taken_back(done, voice).then(before).then(told).then(whole).then(offered)
    if how[0] is Loudness.NOTHING:
        message = before
    trip = trip_of(done.rung) if how[1] is not Loudness.NOTHING else None
    message = said_in(first, voice).then(message).then(riding(done.rung, trip, voice))
    if first is None and how[0] is not Loudness.NOTHING:
        message = message.then(levers_of(done, trip, voice))
    return message, stop_message(done.rung, voice), bool(before.text) or first is not None


def named_in(listener: Listener, trip: TripDue | None, after: Situation) -> tuple[str, ...]:
    """Return whose a message is: of those it wakes, and by day in a group of whoever is to do it."""
    if trip is None:
        return ()
    woken = woken_by(trip.trip, after) if is_quiet(after.state, after.state.as_of) else ()
    return woken or (owners_of(trip.trip, after) if listener.group else ())


def with_crew(message: Message, listener: Listener, trip: TripDue | None, after: Situation, voice: Voice) -> Message:
    """Return what is due with who is called next when nobody answers, and in a group of several with "mine".

    While hands are full, from the probe going in to meat on, it comes without.
    """
    if trip is None or after.hands_full_until() is not None:
        return message
    several = len(crew_names(after) | after.state.people) > 1
    following = escalation_line(trip.trip, after, voice) if several else ""
    rows = mine_rows(trip.trip.prompts, after) if listener.group and several else ()
    return Message(text=lines(message.text, following), choices=(*message.choices, *rows))
