"""Somebody cannot do a watch of theirs, or calls somebody to the fire: who is asked, and who is told.

Nothing moves the watch but an acceptance; whoever has it keeps it until then.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.announcements import reply
from bot.application.handlers import crewing_watch
from bot.application.handlers.crewing_levers import to_alone
from bot.application.private import rooms_of
from bot.application.visit import Visit, Work
from bot.messages import crew_relief
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.ports import CookSnapshot
from scheduler.cook import Situation
from scheduler.planning.handover import coming_change
from scheduler.planning.nights import at_the_fire, lead_of, watches, watching


def cannot(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> None:
    """Offer the watch that somebody has to the next name, or ask who takes one that is to come; the lead is told."""
    name, state = visit.person.name, situation.state
    if watching(state, visit.now) == name:
        _offered(visit, work, snapshot, situation)
        return
    mine = next(((start, end) for who, start, end in watches(state) if who == name and end > visit.now), None)
    if mine is None:
        reply(visit, work, situation, Message(text=crew_relief.no_watch_of_yours()))
        return
    reply(visit, work, situation, Message(text=crew_relief.yours_until_taken(mine, visit.voice(situation))))
    for other in _told(situation, name):

        def words(there: Voice) -> Message:
            return Message(text=crew_relief.who_takes(name, mine, there))

        to_alone(visit, work, snapshot, situation, other, words, key="relief")


def _offered(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> None:
    """Offer the watch to who comes next, else to who leads, else to anybody at the fire."""
    name, change = visit.person.name, coming_change(situation.state)
    asked = () if change is None else change.asked
    others = [
        one for one in (*asked, lead_of(situation.state), *at_the_fire(situation.state)) if one not in {None, name}
    ]
    if not others:
        reply(visit, work, situation, Message(text=crew_relief.nobody_else()))
        return
    crewing_watch.handle(visit, work, snapshot, situation, say.HandOver(to=others[0]))
    lead = lead_of(situation.state)
    if lead not in {None, name, others[0]}:

        def words(_there: Voice) -> Message:
            return Message(text=crew_relief.wants_relief(name, str(others[0])))

        to_alone(visit, work, snapshot, situation, str(lead), words, key="relief")


def _told(situation: Situation, name: str) -> tuple[str, ...]:
    """Return who hears that a watch to come is without anybody: who leads, else everybody at the fire."""
    lead = lead_of(situation.state)
    if lead is not None and lead != name:
        return (lead,)
    return tuple(one for one in at_the_fire(situation.state) if one != name)


def call(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.CallName) -> None:
    """Call somebody to the fire by sound, at any hour; without a private room, in the group."""
    name = said.name or lead_of(situation.state)
    if name is None or name == visit.person.name:
        reply(visit, work, situation, Message(text=crew_relief.call_whom()))
        return
    alone = bool(rooms_of(visit.house.store, name))
    reply(visit, work, situation, Message(text=crew_relief.called(name, alone=alone)))

    def words(_there: Voice) -> Message:
        return Message(text=crew_relief.come(str(name), visit.person.name))

    to_alone(visit, work, snapshot, situation, name, words, key="call", loud=True)
