"""From changes of a cook to messages: the answer to whoever reported, a line for the others, a trip for all.

Chooses who hears what; the words are made in `bot.messages`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.application.boards import PAPER, keep_boards
from bot.application.papers import offer, offer_record
from bot.application.visit import Visit, Work
from bot.application.voices import voice_of
from bot.application.writing import cook_write, tell
from bot.chat import Address
from bot.messages.advice import turned_advice
from bot.messages.board import board
from bot.messages.contests import both_named
from bot.messages.dinner import dinner_line
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.moves import shift_text
from bot.messages.receipts import by_name, echo, receipt, still_open
from bot.messages.stops import (
    closing_line,
    over_text,
    riding_text,
    says_minimum,
    standing_lines,
    stop_message,
    without_discarded,
)
from bot.messages.trip import away, next_line, over, trip_message, wake_line, woken_by
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Found, Lapsed, Over, Shifted, Situation, SpotAsked, TripDue, ring
from scheduler.facts import Fact, LeverTaken, Planned, Warned
from scheduler.planning.advice import advise
from scheduler.planning.outlook import Verdict
from scheduler.planning.trips import OUTAGE
from scheduler.state import Stage


@dataclasses.dataclass(frozen=True, kw_only=True)
class Turn:
    """A report and what was due right after it: both go into one write and one message."""

    reported: Changes
    rung: Changes
    facts: tuple[Fact, ...]

    @property
    def after(self) -> Situation:
        """Return the situation at the end."""
        return self.rung.after


def alone(reported: Changes) -> Turn:
    """Return a report by itself: what is due comes as a message of its own."""
    quiet = dataclasses.replace(reported, facts=(), events=())
    return Turn(reported=reported, rung=quiet, facts=reported.facts)


def turn(log: tuple[Fact, ...], reported: Changes, *, visit: Visit) -> Turn:
    """Return a report together with what is due at once because of it."""
    facts = (*log, *reported.facts)
    rung = ring(facts, now=visit.now, seed=f"{visit.seed}r", catalogue=visit.house.catalogue, answering=True)
    return Turn(reported=reported, rung=rung, facts=(*reported.facts, *rung.facts))


def answer(
    visit: Visit,
    work: Work,
    snapshot: CookSnapshot,
    done: Turn,
    *,
    body: Message | None = None,
    asks: Message | None = None,
    lead: Message | None = None,
    last: Message | None = None,
    danger: bool = False,
) -> None:
    """Write the answer for the person who reported, one line for the other rooms, and the facts.

    `body` replaces the receipt (the plan of a new cook); `lead` goes before it, `asks` is a question that follows it,
    `last` one that can wait until all that is due was said.
    With `danger` people are in danger: the lead comes first, loud, in every room. A stop has a message of its own.
    """
    voice = voice_of(done.after, visit.now)
    said = receipt(without_discarded(done.reported, done.rung), voice) if body is None else body
    stop = _say_stops(work, done.rung, (visit.address, *snapshot.rooms), voice, f"stop:{visit.row_id}")
    said = _differing(done, said, voice)
    first = lead or Message(text="")
    said = said if asks is None else said.then(asks)
    warned = _warned(done.rung, voice, said.text)
    said = first.then(warned).then(said) if danger else warned.then(first.then(said))
    all_of_it = body is not None or _has(done.reported, Shifted)
    trip = _trip(done.rung)
    riding = () if trip is None else trip.trip.keys
    paper = _paper_offer(snapshot, done).then(offer_record(done.reported))
    text_for_me = said.then(paper).then(_riding(done.rung, trip, voice))
    levers = Message(text="") if danger else _levers(done, trip, voice)
    text_for_me = text_for_me.then(levers).then(last or Message(text=""))
    text_for_me = dataclasses.replace(text_for_me, text=lines(text_for_me.text, still_open(done.after, riding)))
    late = done.after.deciding.outlook.verdict is Verdict.LATE and dinner_line(done.after, voice) in said.text
    told = tell(done.after, seed=visit.seed, now=visit.now, all_of_it=all_of_it, plates=late)
    stopping = bool(warned.text) or danger
    work.say(
        _lettered(
            _with_next(text_for_me, done.after, visit, told=stop.text, rung=done.rung, first=danger),
            stop,
            visit.address,
        ),
        to=visit.address,
        key=f"answer:{visit.row_id}",
        cook=snapshot.id,
        urgent=stopping,
    )
    for room in snapshot.rooms:
        if room != visit.address:
            before = first if danger else Message(text="")
            _tell_others(visit, work, room, done, body, paper, first=before, levers=levers, stopping=stopping)
    noted = () if body is None else _noted(done.after, said.text, seed=visit.seed, now=visit.now)
    facts = (*done.facts, *noted, told)
    work.cooks.append(cook_write(done.after, facts, version=snapshot.version, add_rooms=_new_rooms(snapshot, visit)))
    new = _new_rooms(snapshot, visit) if snapshot.version else ()
    keep_boards(snapshot, done.after, work, new)


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
    return snapshot.rooms if snapshot.version == 0 else () if visit.address in snapshot.rooms else (visit.address,)


def _paper_offer(snapshot: CookSnapshot, done: Turn) -> Message:
    """Return the offer of new papers, when this message tells that something moved or that there is other meat."""
    pieces = {view.piece for view in done.after.views}
    before = pieces if done.reported.before is None else {view.piece for view in done.reported.before.views}
    told = _has(done.reported, Shifted) or _has(done.rung, Shifted) or pieces != before
    return offer((*snapshot.facts, *done.facts), done.after) if told else Message(text="")


def _levers(done: Turn, trip: TripDue | None, voice: Voice) -> Message:
    """Return what can be done, once, in the message in which dinner turned late or early; not right after a choice."""
    chosen = any(isinstance(fact.body, LeverTaken | Planned) for fact in done.reported.facts)
    return Message(text="") if chosen else _turned(done.reported, trip, voice)


def _turned(changes: Changes, trip: TripDue | None, voice: Voice) -> Message:
    turned = any(isinstance(event, Shifted) and event.shift.turned for event in changes.events)
    pull = trip is not None and any(prompt.step.id == "pull" for prompt in trip.trip.prompts)
    if pull or not turned:  # the moment to pull is a message about nothing else
        return Message(text="")
    seen = changes.after.deciding
    return turned_advice(advise(seen.state, seen.cut, seen.outlook, seen.catalogue.remedies, voice.now), seen, voice)


def _tell_others(
    visit: Visit,
    work: Work,
    room: Address,
    done: Turn,
    body: Message | None,
    paper: Message,
    *,
    first: Message,
    levers: Message,
    stopping: bool,
) -> None:
    """Write one line about what somebody did, and the trip that came of it; `first` is about danger, `levers` last."""
    voice = voice_of(done.after, visit.now)
    reported = without_discarded(done.reported, done.rung)
    text = echo(reported, visit.person.name, voice) if body is None else by_name(visit.person.name)
    told = _differing(done, Message(text=text), voice)
    message = (
        _warned(done.rung, voice, "" if body is None else body.text)
        .then(told)
        .then(body or Message(text=""))
        .then(paper)
    )
    message = first.then(message).then(_riding(done.rung, _trip(done.rung), voice)).then(levers)
    if message.text:
        stop = stop_message(done.rung, voice)
        work.say(
            _lettered(
                _with_next(message, done.after, visit, told=stop.text, rung=done.rung, first=bool(first.text)),
                stop,
                room,
            ),
            to=room,
            key=f"echo:{visit.row_id}",
            cook=done.after.state.cook,
            silent=not stopping,
            urgent=stopping,
        )


def _riding(rung: Changes, trip: TripDue | None, voice: Voice) -> Message:
    """Return what is due at once and rides in an answer.

    It comes of what was just said, so nobody expected it at another time; only when the time told last has gone by (the
    program was away, or a reply waited) does it say so, and what passed unasked.
    """
    told_at = None if trip is None else trip.trip.told_at
    missed = told_at is not None and told_at < voice.now
    lapsed = _lapsed(rung)
    if trip is None:
        told = None if rung.before is None or rung.before.state.told is None else rung.before.state.told.next_at
        gone = told is not None and voice.now - told > OUTAGE
        return away(told, lapsed, voice) if lapsed and told is not None and gone else Message(text="")
    if missed:
        return trip_message(trip.trip, rung.after, voice, lapsed)
    return trip_message(dataclasses.replace(trip.trip, told_at=None, late=()), rung.after, voice)


def _lapsed(changes: Changes) -> tuple[str, ...]:
    return tuple(step for event in changes.events if isinstance(event, Lapsed) for step in event.steps)


def _warned(changes: Changes, voice: Voice, said: str = "") -> Message:
    """Return what goes before everything else in a message: that a stop is over, cautions, notes not `said` in it."""
    return Message(text=lines(over_text(changes, voice), riding_text(changes, voice, said=said)))


def _differing(done: Turn, said: Message, voice: Voice) -> Message:
    """Return a receipt with the caution that two readings differ, unless it says so already."""
    if _has(done.reported, SpotAsked) or both_named(said.text):
        return said
    told = riding_text(done.rung, voice, differing=True)
    return dataclasses.replace(said, text=lines(said.text, told))


def _say_stops(work: Work, changes: Changes, rooms: tuple[Address, ...], voice: Voice, key: str) -> Message:
    """Write the stops that are told now, in a message about nothing else, loud, to every room; return it.

    Nothing that people wish about messages is asked here: no kind, no detail, no quiet hour, no putting off.
    """
    stop = stop_message(changes, voice)
    if stop.text:
        cook = changes.after.state.cook
        whole = dataclasses.replace(stop, text=lines(stop.text, next_line(changes.after, voice)))
        for room in dict.fromkeys(rooms):
            work.say(whole, to=room, key=key, cook=cook, urgent=True)
    return stop


def _lettered(message: Message, stop: Message, room: Address) -> Message:
    """Return a message that follows a stop, with the buttons of the stop before its own where buttons have letters.

    Letters are those of the newest message with buttons: "a" goes on to mean what it meant under the stop.
    """
    if room.transport not in PAPER or not message.choices:
        return message
    return dataclasses.replace(message, choices=tuple(dict.fromkeys((*stop.choices, *message.choices))))


def _still_standing(changes: Changes, voice: Voice) -> str:
    """Return what stands although the cook has just ended by itself; nothing while it goes on."""
    if changes.before is None or not _has(changes, Over):
        return ""
    return closing_line(changes.before, voice, by_itself=True)


def _with_next(
    message: Message,
    situation: Situation,
    visit: Visit,
    told: str = "",
    rung: Changes | None = None,
    *,
    first: bool = False,
) -> Message:
    """Return a message that begins with the stops that stand (but for those `told` now) and ends with what comes; of a
    cook that `rung` ended, with what stands all the same.

    Where people are in danger the message comes `first`, and the stops after it.
    """
    voice = voice_of(situation, visit.now)
    if situation.state.stage is Stage.CLOSED:
        ends = "" if rung is None else _still_standing(rung, voice)
        return message.then(Message(text=ends)).then(over())
    standing = standing_lines(situation, voice, f"{told}\n{message.text}")
    still = Message(text=lines(*standing))
    message = message.then(still) if first else still.then(message)
    last = next_line(situation, voice)
    if any(line in message.text for line in (last, next_line(situation, voice, owner=True))):
        return message
    return dataclasses.replace(message, text=f"{message.text}\n{last}" if message.text else last)


def announce(snapshot: CookSnapshot, changes: Changes, work: Work) -> int:
    """Write what time has brought: the trip, or the summary after an outage, to every room; return messages written."""
    voice = voice_of(changes.after, work.now)
    trip = _trip(changes)
    lapsed = _lapsed(changes)
    stop = _say_stops(work, changes, snapshot.rooms, voice, f"stop:{snapshot.id}:{snapshot.version}")
    message = _due_message(changes, voice, trip, lapsed)
    if message is not None and _has(changes, Shifted):
        message = message.then(offer((*snapshot.facts, *changes.facts), changes.after))
    facts = changes.facts
    if message is not None:
        shifted = _has(changes, Shifted)
        seed = f"{snapshot.id}.v{snapshot.version}"
        facts = (*facts, tell(changes.after, seed=seed, now=work.now, all_of_it=shifted))
        text = message.text if _has(changes, Over) else f"{message.text}\n{next_line(changes.after, voice)}"
        urgent = _has(changes, Found)
        woken = () if trip is None else woken_by(trip.trip, changes.after)
        standing = standing_lines(changes.after, voice, f"{stop.text}\n{text}")
        text = lines(wake_line(woken), *standing, text)
        quiet = trip is not None and not urgent and not shifted and all(p.silent for p in trip.trip.prompts)
        for number, room in enumerate(snapshot.rooms):
            work.say(
                _lettered(dataclasses.replace(message, text=text), stop, room),
                to=room,
                key=_key(snapshot, trip),
                cook=snapshot.id,
                silent=quiet or (number > 0 and not urgent and not woken),
                urgent=urgent,
            )
    elif stop.text:
        facts = (*facts, tell(changes.after, seed=f"{snapshot.id}.v{snapshot.version}", now=work.now, all_of_it=False))
    work.cooks.append(cook_write(changes.after, facts, version=snapshot.version))
    keep_boards(snapshot, changes.after, work)
    return len(snapshot.rooms) * ((message is not None) + bool(stop.text))


def reply(visit: Visit, work: Work, situation: Situation | None, message: Message, *, urgent: bool = False) -> None:
    """Say something that changes nothing; while a cook is running it ends with when the next message comes, too."""
    said = message if situation is None else _with_next(message, situation, visit)
    cook = None if situation is None else situation.state.cook
    work.say(said, to=visit.address, key=f"answer:{visit.row_id}", cook=cook, urgent=urgent)


def follow(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> None:
    """Let one more room follow a cook, with a board of its own."""
    work.cooks.append(cook_write(situation, (), version=snapshot.version, add_rooms=(visit.address,)))
    if visit.address.transport not in PAPER:
        text = board(situation, voice_of(situation, work.now)).text
        work.pin_board(text, to=visit.address, cook=snapshot.id, version=0)


def _due_message(changes: Changes, voice: Voice, trip: TripDue | None, lapsed: tuple[str, ...]) -> Message | None:
    message = None
    if trip is not None:
        message = trip_message(trip.trip, changes.after, voice, lapsed)
    elif lapsed and changes.before is not None and changes.before.state.told is not None:
        since = changes.before.state.told.next_at
        message = None if since is None else away(since, lapsed, voice)
    moved = [e for e in changes.events if isinstance(e, Shifted)]
    if moved:
        news = Message(text=shift_text(moved[0], changes, voice)).then(_turned(changes, trip, voice))
        off = trip is None or trip.trip.told_at is not None
        # A message that is off what was told says so first.
        message = news if message is None else message.then(news) if off else news.then(message)
    differing = riding_text(changes, voice, differing=True)
    warned = Message(text=lines(_warned(changes, voice).text, differing))
    if warned.text:
        message = warned if message is None else warned.then(message)
    if _has(changes, Over):
        end = Message(text=_still_standing(changes, voice)).then(over()).then(offer_record(changes))
        message = end if message is None else message.then(end)
    return message


def _key(snapshot: CookSnapshot, trip: TripDue | None) -> str:
    """Return the key of a due message: prompt and revision, or the version for a summary."""
    if trip is None:
        return f"summary:{snapshot.id}:{snapshot.version}"
    first = trip.trip.prompts[0]
    return f"prompt:{snapshot.id}:{first.key}.{first.asked + 1}.{snapshot.version}"


def _trip(changes: Changes) -> TripDue | None:
    return next((event for event in changes.events if isinstance(event, TripDue)), None)


def _has(changes: Changes, kind: type[object]) -> bool:
    return any(isinstance(event, kind) for event in changes.events)
