"""Whoever did not answer the test and does something all the same is awake: they are called again from then on.

Decides nothing about who is called for what (`scheduler.planning.escalation`); makes no words.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from bot.application.among import Running
from bot.application.manners import manner_of
from bot.application.private import rooms_of
from bot.application.visit import Visit, Work
from bot.application.writing import add_facts
from bot.messages import crew_sound
from bot.messages.message import Message
from bot.messages.words import speaking
from scheduler.facts import Fact, SoundHeard
from scheduler.planning.nights import lead_of, watching
from scheduler.state import FIRST

JUST_NOW = dt.timedelta(minutes=15)
"""Whatever was sent longer ago does not say that somebody is up now: house rule."""


def stirred(visit: Visit, work: Work, cooks: Iterable[Running]) -> None:
    """Count anything that somebody does as the answer to the test they had not answered, and say so to the watch."""
    name = visit.person.name
    if visit.now - visit.incoming.sent_at > JUST_NOW:
        return
    said = any(
        isinstance(fact.body, SoundHeard) and fact.body.name == name for one in work.cooks for fact in one.facts
    )  # fmt: skip
    for cook in cooks:
        written = [fact for one in work.cooks if one.cook == cook.id for fact in one.facts]
        answered = any(isinstance(fact.body, SoundHeard) for fact in written)
        deaf = name in cook.situation.not_wakeable(visit.now) and bool(rooms_of(visit.house.store, name))
        waits = said and _waits(cook, name)  # the test that was answered was that of another cook of the evening
        if answered or not (deaf or waits):
            continue
        heard = Fact(
            id=f"{visit.seed}.awake",
            cook=cook.id,
            piece=FIRST,
            happened_at=visit.now,
            recorded_at=visit.now,
            by=name,
            body=SoundHeard(name=name),
        )
        add_facts(work.cooks, cook.snapshot, heard, catalogue=visit.house.catalogue)
        if deaf:
            _tell(visit, work, cook, name)


def _waits(cook: Running, name: str) -> bool:
    """Return whether a cook still waits for somebody's answer to its test."""
    sound = cook.situation.state.sound.get(name)
    if sound is None or sound.sent_at is None:
        return False
    return sound.heard_at is None or sound.heard_at < sound.sent_at


def _tell(visit: Visit, work: Work, cook: Running, name: str) -> None:
    """Tell whoever has the watch, or leads, without a sound."""
    state = cook.situation.state
    told = watching(state, visit.now) or lead_of(state)
    if told == name:
        return
    for room in rooms_of(visit.house.store, told):
        if room != visit.address:
            with speaking(manner_of(visit.house.store, room).language):
                said = Message(text=crew_sound.awake_again(name))
                work.say(said, to=room, key=f"awake:{visit.row_id}", cook=cook.id, silent=True)
