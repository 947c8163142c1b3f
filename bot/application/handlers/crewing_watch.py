"""The watch handed over, taken, declined. Only an acceptance in so many words moves it; a nod is answered with the
button.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.handlers.crewing_levers import to_alone
from bot.application.handlers.wishes import decided
from bot.application.private import rooms_of
from bot.application.turns import trip_of, turn
from bot.application.visit import Visit, Work
from bot.messages import crew_watch
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.ports import CookSnapshot
from scheduler.cook import Already, Changes, Refusal, Situation, WatchTaken
from scheduler.facts import Body, HandoverAsked, HandoverDeclined, HandoverTaken
from scheduler.planning.escalation import STAGE_MIN
from scheduler.planning.handover import coming_change
from scheduler.planning.nights import watching

Said = say.HandOver | say.TakeWatch | say.DeclineWatch | say.Nod


def handle(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: Said) -> None:
    """Offer the watch, take it, decline it, or answer a nod."""
    match said:
        case say.HandOver():
            _offer(visit, work, snapshot, situation, said)
        case say.TakeWatch():
            _take(visit, work, snapshot, situation, said)
        case say.DeclineWatch():
            _decline(visit, work, snapshot, situation)
        case say.Nod():
            reply(visit, work, situation, crew_watch.no_nod(watching(situation.state, visit.now)))


def _written(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, body: Body
) -> Changes | None:  # fmt: skip
    result = decided(visit, snapshot, body)
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, visit.voice(situation))))
        return None
    return result


def _offer(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.HandOver) -> None:
    """Offer the watch: whoever has it keeps it, and is told what happens when nobody answers."""
    change = coming_change(situation.state)
    to = said.to or (None if change is None else change.incoming)
    if to is None:
        reply(visit, work, situation, Message(text=crew_watch.to_whom()))
        return
    if to == visit.person.name:
        _take(visit, work, snapshot, situation, say.TakeWatch(until=said.until))
        return
    result = _written(visit, work, snapshot, situation, HandoverAsked(to=to, until=said.until))
    if result is None:
        return
    done = turn(snapshot.facts, result, visit=visit)
    trip = trip_of(done.rung)
    called = () if trip is None else next((p.escalation for p in trip.trip.prompts if p.step.id == "handover"), None)
    asked = tuple(called.names) if called else (to,)
    coming = coming_change(done.after.state)
    rest = () if coming is None else tuple(one for one in coming.asked if one not in {*asked, to, visit.person.name})
    text = crew_watch.offered(to, asked, STAGE_MIN, rest[0] if rest else None)
    answer(visit, work, snapshot, done, asks=Message(text=text), others=Message(text=""))


def _take(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.TakeWatch) -> None:
    """Somebody takes the watch; whoever had it is told, and may sleep."""
    result = _written(visit, work, snapshot, situation, HandoverTaken(until=said.until))
    if result is None:
        return
    name = visit.person.name
    if any(isinstance(event, Already) for event in result.events):
        reply(visit, work, situation, Message(text=crew_watch.not_to_yourself()))
        return
    taken = next((event for event in result.events if isinstance(event, WatchTaken)), None)
    before, until = (None, said.until) if taken is None else (taken.before, taken.until)
    voice = visit.voice(situation)
    own = crew_watch.taken(until, before, voice)
    answer(
        visit, work, snapshot, turn(snapshot.facts, result, visit=visit), asks=Message(text=own),
        others=lambda there: Message(text=crew_watch.taken_by(name, there)),
    )  # fmt: skip
    if before is not None and before != name:
        told = {row.outgoing.address for row in work.outbox if row.outgoing.key.startswith("echo:")}
        rooms = rooms_of(visit.house.store, before)
        if not told.intersection(rooms) and rooms:
            over = crew_watch.yours_is_over
            to_alone(
                visit, work, snapshot, situation, before, lambda there: Message(text=over(name, there)), key="over"
            )


def _decline(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> None:
    """Somebody does not take the watch: whoever has it keeps it and is told by sound."""
    name, has_it = visit.person.name, watching(situation.state, visit.now)
    result = _written(visit, work, snapshot, situation, HandoverDeclined())
    if result is None:
        return
    done = turn(snapshot.facts, result, visit=visit)
    answer(
        visit, work, snapshot, done, asks=Message(text=crew_watch.declined(has_it)), others=Message(text="")
    )  # fmt: skip
    if has_it is not None and has_it != name:
        still = Message(text=crew_watch.still_yours(name))
        to_alone(visit, work, snapshot, situation, has_it, lambda _v: still, key="declined", loud=True)
