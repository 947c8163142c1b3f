"""What time brings to people of the crew: tests of the wake-up, who cannot be woken, questions that nobody decided.

Writes messages for single people; what is due at the fire is announced elsewhere.
"""

from __future__ import annotations

from collections.abc import Callable

from bot.application.manners import manner_of, voice_of
from bot.application.private import rooms_of
from bot.application.visit import House, Work
from bot.chat import Address
from bot.commands import SafeDefault
from bot.messages import crew, crew_sound
from bot.messages.crew_asked import lever_text
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.words import speaking
from bot.ports import CookSnapshot
from scheduler.cook import Changes, ChecksDue, LeverSilent, NotWakeable, Situation
from scheduler.planning.nights import is_quiet, lead_of


def reachable(house: House) -> frozenset[str]:
    """Return the names of everybody who has a private chat, or a window in the terminal."""
    return frozenset(one.name for one in house.store.people() if rooms_of(house.store, one.name))


def tell_news(house: House, work: Work, snapshot: CookSnapshot, changes: Changes, *, key: str) -> int:
    """Write what is news to single people of the crew; return how many messages."""
    before = len(work.outbox)
    for event in changes.events:
        if isinstance(event, ChecksDue):
            for name in event.names:
                send_test(house, work, changes.after, name, key=f"sound:{key}")
        elif isinstance(event, LeverSilent):
            _silent(house, work, snapshot, changes.after, event, key)
    deaf = tuple(event for event in changes.events if isinstance(event, NotWakeable))
    if deaf:
        _not_wakeable(house, work, snapshot, changes.after, deaf, key)
    return len(work.outbox) - before


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
