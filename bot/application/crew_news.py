"""What time brings to people of the crew: tests of the wake-up, who cannot be woken, questions that nobody decided.

Writes messages for single people; what is due at the fire is announced elsewhere.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from bot.application.manners import manner_of, voice_of
from bot.application.private import rooms_of
from bot.application.visit import House, Work
from bot.application.writing import add_facts
from bot.chat import Address
from bot.commands import SafeDefault
from bot.messages import crew, crew_sound
from bot.messages.crew_asked import lever_text
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.words import speaking
from bot.ports import CookSnapshot
from scheduler.cook import Changes, ChecksDue, LeverSilent, NotWakeable, Situation
from scheduler.facts import Fact, SoundHeard, SoundSent
from scheduler.planning.nights import is_quiet, lead_of
from scheduler.state import FIRST

ONE_EVENING = dt.timedelta(hours=12)
"""A test so short a time ago counts for every cook of the evening: house rule."""


def reachable(house: House) -> frozenset[str]:
    """Return the names of everybody who has a private chat, or a window in the terminal."""
    return frozenset(one.name for one in house.store.people() if rooms_of(house.store, one.name))


def tell_news(house: House, work: Work, snapshot: CookSnapshot, changes: Changes, *, key: str) -> int:
    """Write what is news to single people of the crew; return how many messages."""
    before = len(work.outbox)
    for event in changes.events:
        if isinstance(event, ChecksDue):
            for name in event.names:
                if tested_beside(house, snapshot.id, name, work.now):
                    continue  # one evening, one test: the answer counts for each cook
                send_test(house, work, changes.after, name, key=f"sound:{key}")
        elif isinstance(event, LeverSilent):
            _silent(house, work, snapshot, changes.after, event, key)
    deaf = tuple(event for event in changes.events if isinstance(event, NotWakeable))
    if deaf:
        _not_wakeable(house, work, snapshot, changes.after, deaf, key)
    return len(work.outbox) - before


def tested_beside(house: House, cook: str, name: str, now: dt.datetime) -> bool:
    """Return whether somebody was sent the test of this evening in another cook that is open."""
    others = (house.store.cook(other) for other in house.store.open_cooks() if other != cook)
    return any(
        isinstance(fact.body, SoundSent) and fact.body.private and fact.body.name == name
        and now - fact.happened_at < ONE_EVENING
        for other in others if other is not None for fact in other.facts
    )  # fmt: skip


def heard_beside(house: House, work: Work, snapshot: CookSnapshot, changes: Changes) -> None:
    """Count an answer that somebody gave to the test of another cook this evening for this one, too."""
    names = {name for event in changes.events if isinstance(event, ChecksDue) for name in event.names}
    others = [house.store.cook(other) for other in house.store.open_cooks() if other != snapshot.id and names]
    heard = {
        fact.body.name
        for other in others if other is not None for fact in other.facts
        if isinstance(fact.body, SoundHeard) and work.now - fact.happened_at < ONE_EVENING
    } & names  # fmt: skip
    for name in sorted(heard):
        fact = Fact(
            id=f"{snapshot.id}.v{snapshot.version}.heard.{name}",
            cook=snapshot.id,
            piece=FIRST,
            happened_at=work.now,
            recorded_at=work.now,
            by=name,
            body=SoundHeard(name=name),
        )
        add_facts(work.cooks, snapshot, fact, catalogue=house.catalogue)


def send_test(house: House, work: Work, situation: Situation, name: str, *, key: str) -> None:
    """Send somebody the test, by sound, where a wake-up will come."""
    for room in rooms_of(house.store, name):
        with speaking(manner_of(house.store, room).language):
            work.say(crew_sound.test(name), to=room, key=f"{key}:{name}", cook=situation.state.cook)


def _say(
    house: House, work: Work, situation: Situation, room: Address, words: Callable[[Voice], Message], key: str,
    *, loud: bool,
) -> None:  # fmt: skip
    manner = manner_of(house.store, room)
    with speaking(manner.language):
        message = words(voice_of(situation, work.now, manner))
        work.say(message, to=room, key=key, cook=situation.state.cook, silent=not loud)


def _not_wakeable(
    house: House, work: Work, snapshot: CookSnapshot, after: Situation, news: tuple[NotWakeable, ...], key: str
) -> None:
    """Name those who cannot be woken to the group, or to whoever leads; and tell each of them themselves."""
    groups = tuple(room.address for room in house.store.rooms() if room.group and room.address in snapshot.rooms)
    loud = not is_quiet(after.state, work.now)

    def told(there: Voice) -> Message:
        texts = [crew_sound.cannot_wake(one.name, one.alarms, there, private=one.private) for one in news]
        return Message(text=lines(*texts, crew_sound.passed_over()))

    for room in groups or rooms_of(house.store, lead_of(after.state)):
        _say(house, work, after, room, told, f"deaf:{key}", loud=loud)
    for one in news:

        def own(there: Voice, one: NotWakeable = one) -> Message:
            text = crew_sound.you_cannot_be_woken(one.alarms, there)
            return Message(text=text, choices=crew_sound.test(one.name).choices)

        for room in rooms_of(house.store, one.name):
            _say(house, work, after, room, own, f"deaf:{key}:{one.name}", loud=loud)


def _silent(house: House, work: Work, snapshot: CookSnapshot, after: Situation, news: LeverSilent, key: str) -> None:
    """Tell the watch that nobody decided, and the one thing that may be done now; whoever asked hears it, too."""
    wait = news.wait
    watch = news.watch or wait.by
    for name in dict.fromkeys(one for one in (watch, wait.by) if one is not None):

        def words(_there: Voice, name: str = name) -> Message:
            text = crew.nobody_decided(lever_text(wait.lever), wait.decider, crew.safe_default(wait.default))
            mine = SafeDefault(lever=wait.lever)
            rows = (((crew.do_default(wait.default), mine),),) if name == watch else ()
            return Message(text=text, choices=rows)

        rooms = rooms_of(house.store, name) or snapshot.rooms[:1]
        for room in rooms:
            _say(house, work, after, room, words, f"silent:{key}:{wait.lever}", loud=name == watch)
