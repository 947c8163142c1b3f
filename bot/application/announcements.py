"""From changes of a cook to messages: the answer to whoever reported, a line for the others, a trip for all.

Each room is spoken to in its own voice and language; the words are made in `bot.messages`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterable

from bot.application.acknowledging import SIGN, needs_no_words
from bot.application.boards import begin_board, keep_boards
from bot.application.composing import (
    differing,
    due_message,
    lettered,
    levers_of,
    paper_offer,
    riding,
    taken_back,
    warned,
    with_next,
)
from bot.application.crew_news import heard_beside, tell_news
from bot.application.echoes import NOTHING, Words, how_others, named_in, said_in, tell_others, with_crew
from bot.application.manners import voice_of
from bot.application.papers import offer, offer_record
from bot.application.pictures import riding_picture
from bot.application.routing import (
    Listener,
    Loudness,
    alarmed,
    answered_by,
    beside_rooms,
    heard_by,
    listeners,
    of_a_trip,
    unheard,
)
from bot.application.settled import settle
from bot.application.turns import Turn, has, lapsed_of, trip_of
from bot.application.visit import House, Visit, Work
from bot.application.withdrawing import withdraw_answered
from bot.application.writing import cook_write, tell
from bot.chat import Address, OutgoingKind
from bot.messages.dinner import dinner_line
from bot.messages.message import Message, lines
from bot.messages.receipts import receipt, still_open
from bot.messages.stops import says_minimum, standing_lines, stop_message, without_discarded
from bot.messages.trip import next_line, wake_line
from bot.messages.words import speaking
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Found, Over, Shifted, Situation, TripDue
from scheduler.facts import Fact, Warned
from scheduler.planning.outlook import Verdict


def answer(
    visit: Visit,
    work: Work,
    snapshot: CookSnapshot,
    done: Turn,
    *,
    body: Words | None = None,
    asks: Message | None = None,
    lead: Words | None = None,
    last: Message | None = None,
    danger: bool = False,
    alarm: Words | None = None,
    others: Words | None = None,
) -> None:
    """Write the answer for the person who reported, one line for the other rooms, and the facts.

    `body` replaces the receipt (the plan of a new cook); `lead` goes before it, `asks` is a question that follows it,
    `last` one that can wait until all that is due was said; `others` is said in the other rooms in place of the body.
    With `danger` people are in danger: the lead comes first, loud, in every room. `alarm` is what whoever leads and
    whoever watches hear first and loud, also at night, when the fire goes wrong. A stop has a message of its own.
    """
    voice = visit.voice(done.after)
    rooms = (visit.address, *snapshot.rooms, *(beside_rooms(visit.house.store, snapshot) if danger else ()))
    everybody = listeners(visit.house.store, rooms, done.after)
    _say_stops(work, done.rung, everybody, f"stop:{visit.row_id}")
    settled = settle(visit, work, done)
    mine = dataclasses.replace(done, rung=answered_by(everybody[0], everybody, done.rung))
    said = _my_answer(
        visit, work, snapshot, mine, settled=settled, body=body, asks=asks, lead=lead, last=last, danger=danger
    )
    tell_news(visit.house, work, snapshot, done.rung, key=str(visit.row_id))
    for listener in everybody:
        if listener.room != visit.address:
            before = lead if danger else alarm if alarmed(listener, everybody, done.after) else None
            heard = dataclasses.replace(done, rung=heard_by(listener, done.rung))
            how = how_others(listener, everybody, heard, urgent=before is not None)
            tell_others(visit, work, listener, snapshot, heard, body, first=before, how=how, instead=others)
    all_of_it = body is not None or has(done.reported, Shifted)
    late = done.after.deciding.outlook.verdict is Verdict.LATE and dinner_line(done.after, voice) in said
    told = tell(done.after, seed=visit.seed, now=visit.now, all_of_it=all_of_it, plates=late)
    noted = () if body is None else _noted(done.after, said, seed=visit.seed, now=visit.now)
    facts = (*done.facts, *noted, told)
    work.cooks.append(cook_write(done.after, facts, version=snapshot.version, add_rooms=_new_rooms(snapshot, visit)))
    withdraw_answered(visit.house.store, work, done.after)
    new = _new_rooms(snapshot, visit) if snapshot.version else ()
    keep_boards(visit.house.store, snapshot, done.after, work, new)


def _my_answer(
    visit: Visit,
    work: Work,
    snapshot: CookSnapshot,
    done: Turn,
    *,
    settled: bool,
    body: Words | None,
    asks: Message | None,
    lead: Words | None,
    last: Message | None,
    danger: bool,
) -> str:
    """Write the answer for whoever reported; return its receipt. `settled` when the question they tapped says it."""
    voice = visit.voice(done.after)
    own = receipt(without_discarded(done.reported, done.rung), voice) if body is None else said_in(body, voice)
    stop = stop_message(done.rung, voice)
    own = differing(done, own, voice)
    first = said_in(lead, voice)
    own = own if asks is None else own.then(asks)
    before = taken_back(done, voice).then(warned(done.rung, voice, own.text))
    own = first.then(before).then(own) if danger else before.then(first.then(own))
    trip = trip_of(done.rung)
    message = own.then(paper_offer(snapshot, done).then(offer_record(done.reported)))
    message = message.then(riding(done.rung, trip, voice))
    message = message.then(NOTHING if danger else levers_of(done, trip, voice)).then(last or NOTHING)
    open_keys = () if trip is None else trip.trip.keys
    if not message.choices and needs_no_words(visit, done, own.text, message.text, settled=settled):
        if not settled:
            work.react(visit.incoming, SIGN)
        return own.text
    message = dataclasses.replace(message, text=lines(message.text, still_open(done.after, open_keys)))
    message = with_next(message, done.after, voice, told=stop.text, rung=done.rung, first=danger)
    urgent = bool(warned(done.rung, voice, own.text).text) or danger
    work.say(
        lettered(message, stop, visit.address),
        to=visit.address,
        key=f"answer:{visit.row_id}",
        cook=snapshot.id,
        urgent=urgent,
        document=riding_picture(
            visit.house,
            (*snapshot.facts, *done.facts),
            (done.reported, done.rung),
            voice=voice,
            room=visit.address,
            message=message,
            urgent=urgent,
        ),
    )
    return own.text


def _noted(situation: Situation, said: str, *, seed: str, now: dt.datetime) -> tuple[Fact, ...]:
    """Return the facts that the plan of a new cook told the stricter minimum: no note need follow."""
    told = [
        (view.piece, Warned(rule=one.rule, since=one.since))
        for view in situation.views
        for one in situation.seen_from(view.piece).findings(now)
        if says_minimum(one, said) and (one.rule, one.since) not in view.state.warned
    ]
    return tuple(
        Fact(
            id=f"{seed}.note{number}",
            cook=situation.state.cook,
            piece=piece,
            happened_at=now,
            recorded_at=now,
            by=None,
            body=body,
        )
        for number, (piece, body) in enumerate(told)
    )


def _new_rooms(snapshot: CookSnapshot, visit: Visit) -> tuple[Address, ...]:
    """Return the room that follows a cook from now on; another topic of a chat that follows it does not."""
    if snapshot.version == 0:
        return snapshot.rooms
    chats = {(room.transport, room.chat) for room in snapshot.rooms}
    return () if (visit.address.transport, visit.address.chat) in chats else (visit.address,)


def _say_stops(work: Work, changes: Changes, heard: Iterable[Listener], key: str) -> bool:
    """Write the stops that are told now, in a message about nothing else, loud, to every room; return whether any is.

    Nothing that people wish about messages is asked here: no kind, no detail, no quiet hour, no putting off.
    """
    said = False
    for listener in heard:
        voice = voice_of(changes.after, work.now, listener.manner)
        with speaking(listener.manner.language):
            stop = stop_message(changes, voice)
            if stop.text:
                whole = dataclasses.replace(stop, text=lines(stop.text, next_line(changes.after, voice)))
                work.say(whole, to=listener.room, key=key, cook=changes.after.state.cook, urgent=True)
                said = True
    return said


def announce(house: House, snapshot: CookSnapshot, changes: Changes, work: Work) -> int:
    """Write what time has brought to those whose business it is; return messages written."""
    everybody = listeners(house.store, snapshot.rooms, changes.after)
    seed = f"{snapshot.id}.v{snapshot.version}"
    stopped = _say_stops(work, changes, everybody, f"stop:{snapshot.id}:{snapshot.version}")
    written = sum(
        _announce_to(house, listener, everybody, snapshot, changes, work, loud=False) for listener in everybody
    )
    reached = {one.outgoing.address for one in work.outbox if one.outgoing.kind is OutgoingKind.MESSAGE}
    for listener in unheard(everybody, reached) if trip_of(changes) is not None else ():
        written += _announce_to(house, listener, everybody, snapshot, changes, work, loud=True)
    written += tell_news(house, work, snapshot, changes, key=f"{snapshot.id}:{snapshot.version}")
    facts = changes.facts
    if written or stopped:
        all_of_it = bool(written) and has(changes, Shifted)
        facts = (*facts, tell(changes.after, seed=seed, now=work.now, all_of_it=all_of_it))
    work.cooks.append(cook_write(changes.after, facts, version=snapshot.version))
    heard_beside(house, work, snapshot, changes)
    keep_boards(house.store, snapshot, changes.after, work)
    return written + (len(everybody) if stopped else 0)


def _announce_to(
    house: House,
    listener: Listener,
    everybody: tuple[Listener, ...],
    snapshot: CookSnapshot,
    whole: Changes,
    work: Work,
    *,
    loud: bool,
) -> bool:
    """Write what time has brought to one room, all of it and `loud` where nobody else would hear it; return whether
    there was anything for it.
    """
    changes = whole if loud else heard_by(listener, whole)
    trip = trip_of(changes)
    urgent = has(changes, Found)
    how = of_a_trip(listener, everybody, None if trip is None else trip.trip, changes.after, urgent=urgent)
    how = Loudness.LOUD if loud else how
    voice = voice_of(changes.after, work.now, listener.manner)
    with speaking(listener.manner.language):
        message = due_message(changes, voice, trip, lapsed_of(changes))
        if message is None or how is Loudness.NOTHING:
            return False
        if has(changes, Shifted):
            message = message.then(offer((*snapshot.facts, *changes.facts), changes.after))
        message = with_crew(message, listener, trip, changes.after, voice)
        text = message.text if has(changes, Over) else f"{message.text}\n{next_line(changes.after, voice)}"
        stop = stop_message(changes, voice)
        standing = standing_lines(changes.after, voice, f"{stop.text}\n{text}")
        woken = named_in(listener, trip, changes.after)
        message = dataclasses.replace(message, text=lines(wake_line(woken), *standing, text))
        work.say(
            lettered(message, stop, listener.room),
            to=listener.room,
            key=_key(snapshot, trip_of(whole)),
            cook=snapshot.id,
            silent=how is Loudness.SILENT,
            urgent=urgent,
            document=riding_picture(
                house,
                (*snapshot.facts, *changes.facts),
                (changes,),
                voice=voice,
                room=listener.room,
                message=message,
                urgent=urgent,
            ),
        )
    return True


def reply(visit: Visit, work: Work, situation: Situation | None, message: Message, *, urgent: bool = False) -> None:
    """Say something that changes nothing; while a cook is running it ends with when the next message comes, too."""
    said = message if situation is None else with_next(message, situation, visit.voice(situation))
    cook = None if situation is None else situation.state.cook
    work.say(said, to=visit.address, key=f"answer:{visit.row_id}", cook=cook, urgent=urgent)


def follow(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> None:
    """Let one more room follow a cook, with a board of its own."""
    work.cooks.append(cook_write(situation, (), version=snapshot.version, add_rooms=(visit.address,)))
    begin_board(visit.house.store, visit.address, situation, work)


def _key(snapshot: CookSnapshot, trip: TripDue | None) -> str:
    """Return the key of a due message: prompt and revision, or the version for a summary."""
    if trip is None:
        return f"summary:{snapshot.id}:{snapshot.version}"
    first = trip.trip.prompts[0]
    return f"prompt:{snapshot.id}:{first.key}.{first.asked + 1}.{snapshot.version}"
