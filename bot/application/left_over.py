"""What still stands about the last cook of a room once it is over: closing it made no food safe.

It answers, and records that the food was thrown away; it opens no cook again.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.visit import Visit, Work
from bot.application.writing import cook_write
from bot.crew import Right, may
from bot.messages import stops
from bot.messages.message import Message
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Report, Situation, assess, decide
from scheduler.facts import Discarded


def about_the_last_cook(visit: Visit, work: Work, said: say.Intent) -> bool:
    """Answer whether the food is safe, or record that it was thrown away, while a stop of a cook that is over stands;
    return whether it was that.
    """
    asked = said == say.Ask(topic=say.Topic.SAFE)
    thrown = isinstance(said, say.Discard) and may(visit.person.role, Right.DISCARD)
    last = _last(visit) if asked or thrown else None
    if last is None:
        return False
    snapshot, situation = last
    message = stops.left_standing(situation, visit.voice(situation))
    if thrown:
        message = _thrown_away(visit, work, snapshot, situation) or message
    work.say(message, to=visit.address, key=f"answer:{visit.row_id}")  # of no cook that runs: its button still counts
    return True


def _last(visit: Visit) -> tuple[CookSnapshot, Situation] | None:
    """Return the newest cook of a room when it is over and a stop of it stands."""
    for cook in visit.house.store.recent_cooks(visit.address, 1):
        snapshot = visit.house.store.cook(cook)
        if snapshot is not None:
            situation = assess(snapshot.facts, visit.house.catalogue, visit.now)
            return (snapshot, situation) if situation.left_standing else None
    return None


def _thrown_away(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> Message | None:
    """Record that everything with a stop was thrown away."""
    reports = tuple(
        Report(
            body=Discarded(),
            happened_at=visit.incoming.sent_at,
            by=visit.person.name,
            message=visit.incoming.message,
            piece=piece if situation.several else None,
        )
        for piece in dict.fromkeys(piece for piece, _finding in situation.left_standing)
    )
    result = decide(snapshot.facts, reports, now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if not isinstance(result, Changes):
        return None
    work.cooks.append(cook_write(result.after, result.facts, version=snapshot.version))
    seen = result.after.seen_from(reports[0].piece)
    return Message(text=stops.discarded_line(seen, visit.voice(situation)))
