"""What people wish of the plan, as facts: watches and quiet hours. Answered with what it changes.

Words are made in `bot.messages`, times by the engine.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.announcements import answer, reply, turn
from bot.application.visit import Visit, Work
from bot.application.voices import voice_of
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.messages.watches import missing
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Refusal, Report, Situation, decide
from scheduler.facts import Body, WatchesTold
from scheduler.planning.watching import Turn, placed

Wish = say.WatchesSaid


def take(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wish: Wish) -> None:
    """Write a wish down as the fact that it is, and answer with what becomes of the plan."""
    result = decided(visit, snapshot, _watches(visit, situation, wish))
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, voice_of(situation, visit.now))))
        return
    done = turn(snapshot.facts, result, visit=visit)
    after = done.after
    answer(visit, work, snapshot, done, asks=Message(text=missing(after, voice_of(after, visit.now))))


def decided(visit: Visit, snapshot: CookSnapshot, *bodies: Body, piece: str | None = None) -> Changes | Refusal:
    """Return what facts of one message change."""
    reports = tuple(
        Report(
            body=body, happened_at=visit.incoming.sent_at, by=visit.person.name, message=visit.incoming.message,
            piece=piece,
        )
        for body in bodies
    )  # fmt: skip
    return decide(snapshot.facts, reports, now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)


def _watches(visit: Visit, situation: Situation, wish: say.WatchesSaid) -> WatchesTold:
    """Return watches and quiet hours as they are now: what was not said stays."""
    old = situation.state.watches or WatchesTold()
    if wish.watches is None:
        return WatchesTold(watches=old.watches, quiet=wish.quiet)
    turns = [
        Turn(name=visit.person.name if one.name == "i" else one.name, start=one.start, end=one.end)
        for one in wish.watches
    ]
    new = placed(situation.state, situation.deciding.outlook, turns)
    return WatchesTold(watches=new, quiet=wish.quiet or old.quiet)
