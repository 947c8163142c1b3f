"""The parts that messages about a cook are made of, for one room: in its voice and its language.

Puts words of `bot.messages` in order; who hears what is chosen in `bot.application.routing`.
"""

from __future__ import annotations

import dataclasses

from bot.application.boards import PAPER
from bot.application.papers import offer, offer_record
from bot.application.turns import Turn, has, lapsed_of, lifted
from bot.chat import Address
from bot.messages.advice import turned_advice
from bot.messages.contests import both_named
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.moves import shift_text
from bot.messages.stops import closing_line, lifted_text, over_text, riding_text, standing_lines
from bot.messages.trip import away, next_line, over, trip_message
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Over, Shifted, Situation, SpotAsked, TripDue
from scheduler.facts import LeverTaken, Planned
from scheduler.planning.advice import advise
from scheduler.planning.trips import OUTAGE
from scheduler.state import Stage


def paper_offer(snapshot: CookSnapshot, done: Turn) -> Message:
    """Return the offer of new papers, when this message tells that something moved or that there is other meat."""
    pieces = {view.piece for view in done.after.views}
    before = pieces if done.reported.before is None else {view.piece for view in done.reported.before.views}
    told = has(done.reported, Shifted) or has(done.rung, Shifted) or pieces != before
    return offer((*snapshot.facts, *done.facts), done.after) if told else Message(text="")


def levers_of(done: Turn, trip: TripDue | None, voice: Voice) -> Message:
    """Return what can be done, once, in the message in which dinner turned late or early; not right after a choice."""
    chosen = any(isinstance(fact.body, LeverTaken | Planned) for fact in done.reported.facts)
    return Message(text="") if chosen else turned(done.reported, trip, voice)


def turned(changes: Changes, trip: TripDue | None, voice: Voice) -> Message:
    """Return what can be done now that dinner turned late or early; nothing while it did not."""
    has_turned = any(isinstance(event, Shifted) and event.shift.turned for event in changes.events)
    pull = trip is not None and any(prompt.step.id == "pull" for prompt in trip.trip.prompts)
    if pull or not has_turned:  # the moment to pull is a message about nothing else
        return Message(text="")
    seen = changes.after.deciding
    return turned_advice(advise(seen.state, seen.cut, seen.outlook, seen.catalogue.remedies, voice.now), seen, voice)


def riding(rung: Changes, trip: TripDue | None, voice: Voice) -> Message:
    """Return what is due at once and rides in an answer.

    It comes of what was just said, so nobody expected it at another time; only when the time told last has gone by (the
    program was away, or a reply waited) does it say so, and what passed unasked.
    """
    told_at = None if trip is None else trip.trip.told_at
    missed = told_at is not None and told_at < voice.now
    lapsed = lapsed_of(rung)
    if trip is None:
        told = None if rung.before is None or rung.before.state.told is None else rung.before.state.told.next_at
        gone = told is not None and voice.now - told > OUTAGE
        return away(told, lapsed, voice) if lapsed and told is not None and gone else Message(text="")
    if missed:
        return trip_message(trip.trip, rung.after, voice, lapsed)
    return trip_message(dataclasses.replace(trip.trip, told_at=None, late=()), rung.after, voice)


def warned(changes: Changes, voice: Voice, said: str = "") -> Message:
    """Return what goes before everything else in a message: that a stop is over, cautions, notes not `said` in it."""
    return Message(text=lines(over_text(changes, voice), riding_text(changes, voice, said=said)))


def taken_back(done: Turn, voice: Voice) -> Message:
    """Return that cautions are taken back with what raised them, to be heard where they were told."""
    return Message(text=lifted_text(lifted(done), done.after, voice))


def differing(done: Turn, said: Message, voice: Voice) -> Message:
    """Return a receipt with the caution that two readings differ, unless it says so already."""
    if has(done.reported, SpotAsked) or both_named(said.text):
        return said
    told = riding_text(done.rung, voice, differing=True)
    return dataclasses.replace(said, text=lines(said.text, told))


def lettered(message: Message, stop: Message, room: Address) -> Message:
    """Return a message that follows a stop, with the buttons of the stop before its own where buttons have letters.

    Letters are those of the newest message with buttons: "a" goes on to mean what it meant under the stop.
    """
    if room.transport not in PAPER or not message.choices:
        return message
    return dataclasses.replace(message, choices=tuple(dict.fromkeys((*stop.choices, *message.choices))))


def still_standing(changes: Changes, voice: Voice) -> str:
    """Return what stands although the cook has just ended by itself; nothing while it goes on."""
    if changes.before is None or not has(changes, Over):
        return ""
    return closing_line(changes.before, voice, by_itself=True)


def with_next(
    message: Message,
    situation: Situation,
    voice: Voice,
    told: str = "",
    rung: Changes | None = None,
    *,
    first: bool = False,
) -> Message:
    """Return a message that begins with the stops that stand (but for those `told` now) and ends with what comes; of a
    cook that `rung` ended, with what stands all the same.

    Where people are in danger the message comes `first`, and the stops after it.
    """
    if situation.state.stage is Stage.CLOSED:
        ends = "" if rung is None else still_standing(rung, voice)
        return message.then(Message(text=ends)).then(over())
    standing = standing_lines(situation, voice, f"{told}\n{message.text}")
    still = Message(text=lines(*standing))
    message = message.then(still) if first else still.then(message)
    last = next_line(situation, voice)
    if any(line in message.text for line in (last, next_line(situation, voice, owner=True))):
        return message
    return dataclasses.replace(message, text=f"{message.text}\n{last}" if message.text else last)


def due_message(changes: Changes, voice: Voice, trip: TripDue | None, lapsed: tuple[str, ...]) -> Message | None:
    """Return what time has brought: the trip, what passed unasked, what moved, cautions, the end; None: nothing."""
    message = None
    if trip is not None:
        message = trip_message(trip.trip, changes.after, voice, lapsed)
    elif lapsed and changes.before is not None and changes.before.state.told is not None:
        since = changes.before.state.told.next_at
        message = None if since is None else away(since, lapsed, voice)
    moved = [e for e in changes.events if isinstance(e, Shifted)]
    if moved:
        news = Message(text=shift_text(moved[0], changes, voice)).then(turned(changes, trip, voice))
        off = trip is None or trip.trip.told_at is not None
        # A message that is off what was told says so first.
        message = news if message is None else message.then(news) if off else news.then(message)
    before = Message(text=lines(warned(changes, voice).text, riding_text(changes, voice, differing=True)))
    if before.text:
        message = before if message is None else before.then(message)
    if has(changes, Over):
        end = Message(text=still_standing(changes, voice)).then(over()).then(offer_record(changes))
        message = end if message is None else message.then(end)
    return message
