"""The sound check by hand, and its answer: who heard the test can be woken.

When tests are due, and who cannot be woken, is decided by the engine.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.crew_news import send_test
from bot.application.handlers.wishes import decided
from bot.application.private import rooms_of
from bot.application.routing import crew_names
from bot.application.turns import turn
from bot.application.visit import Visit, Work
from bot.application.writing import add_facts
from bot.messages import crew_sound
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.ports import CookSnapshot
from scheduler.cook import Refusal, Situation
from scheduler.facts import Fact, SoundHeard, SoundSent
from scheduler.planning.nights import lead_of, watches
from scheduler.state import FIRST


def handle(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.SoundCheck | say.HeardIt
) -> None:
    """Send tests now, or take that one was heard."""
    if isinstance(said, say.HeardIt):
        _heard(visit, work, snapshot, situation)
    else:
        _check(visit, work, snapshot, situation)


def _heard(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> None:
    result = decided(visit, snapshot, SoundHeard(name=visit.person.name))
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, visit.voice(situation))))
        return
    done = turn(snapshot.facts, result, visit=visit)
    text = crew_sound.heard()
    answer(visit, work, snapshot, done, asks=Message(text=text), others=Message(text=""))


def _check(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> None:
    """Test everybody who watches or leads, now."""
    on_list = {name for name, _start, _end in watches(situation.state)}
    names = sorted(on_list | {lead_of(situation.state) or visit.person.name} & crew_names(situation) | on_list)
    able = [name for name in names if rooms_of(visit.house.store, name)]
    facts = tuple(
        Fact(
            id=f"{visit.seed}.sound{number}",
            cook=snapshot.id,
            piece=FIRST,
            happened_at=visit.now,
            recorded_at=visit.now,
            by=None,
            body=SoundSent(name=name, private=name in able),
        )
        for number, name in enumerate(names)
    )
    add_facts(work.cooks, snapshot, *facts, catalogue=visit.house.catalogue)
    for name in able:
        send_test(visit.house, work, situation, name, key=f"sound:{visit.row_id}")
    without = [name for name in names if name not in able]
    reply(visit, work, situation, Message(text=crew_sound.tests_sent(able, without)))
