"""Claims ("mine"): a step is taken by somebody for a quarter of an hour, or given back.

When a claim lapses, and what answers it, is decided by the engine.
"""

from __future__ import annotations

import datetime as dt

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.handlers.crewing_levers import pass_on
from bot.application.handlers.wishes import decided
from bot.application.rights import Lacking, allowed
from bot.application.turns import turn
from bot.application.visit import Visit, Work
from bot.messages import crew_claims
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.messages.talk import nothing_open
from bot.ports import CookSnapshot
from scheduler.cook import Refusal, Situation
from scheduler.facts import ClaimDropped, Claimed
from scheduler.planning.prompts import Prompt
from scheduler.state.crew import Claim as Held

SOON = dt.timedelta(hours=1)
"""With nothing open, "mine" is about what comes next only when it comes this soon."""


def handle(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.Claim | say.ClaimBack
) -> None:
    """Take a step for whoever said "mine", or give it back."""
    if isinstance(said, say.ClaimBack):
        _back(visit, work, snapshot, situation, said)
        return
    found = _meant(situation, said, visit.now)
    if not found:
        reply(visit, work, situation, Message(text=nothing_open()))
    elif len(found) > 1:
        reply(visit, work, situation, crew_claims.which(found))
    else:
        _claim(visit, work, snapshot, situation, found[0])


def _meant(situation: Situation, said: say.Claim, now: dt.datetime) -> tuple[Prompt, ...]:
    """Return the steps that can be meant: the named one, else what is open, else what comes soon."""
    if said.step is not None:
        seen = situation if said.piece is None else situation.seen_from(said.piece)
        prompt = seen.prompt(said.step)
        return () if prompt is None else (prompt,)
    if situation.waiting:
        together = [one for one in situation.waiting if one.asked_at == situation.waiting[0].asked_at]
        ticks = tuple(one for one in together if not one.step.slots)
        return ticks or (situation.waiting[0],)
    coming = situation.coming
    return () if coming is None or coming[0] - now > SOON else (coming[1],)


def _claim(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, prompt: Prompt) -> None:
    step, voice = prompt.step.id, visit.voice(situation)
    claim = say.Claim(step=step, piece=prompt.piece)
    if not allowed(visit.person, situation, say.needs(claim)):
        lack = Lacking(intent=claim, right=say.needs(claim))
        reply(visit, work, situation, pass_on(visit, work, snapshot, situation, lack))
        return
    held = situation.view(prompt.piece).state.claims.get(step)
    if held is not None and held.name != visit.person.name:
        reply(visit, work, situation, Message(text=crew_claims.has_it(held.name, step, held, voice)))
        return
    piece = prompt.piece if situation.several and prompt.step.scope == "piece" else None
    result = decided(visit, snapshot, Claimed(step=step), piece=piece)
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, voice)))
        return
    mine = Held(name=visit.person.name, at=visit.incoming.sent_at, fact="")
    answer(
        visit,
        work,
        snapshot,
        turn(snapshot.facts, result, visit=visit),
        asks=Message(text=crew_claims.yours(step, mine, voice)),
        others=lambda there: Message(text=crew_claims.has_it(mine.name, step, mine, there)),
    )


def _back(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.ClaimBack) -> None:
    mine = [
        (view.piece, step)
        for view in situation.views
        for step, held in view.state.claims.items()
        if held.name == visit.person.name and said.step in {None, step}
    ]
    if not mine:
        reply(visit, work, situation, Message(text=crew_claims.nothing_claimed()))
        return
    piece, step = mine[-1]
    result = decided(visit, snapshot, ClaimDropped(step=step), piece=piece if situation.several else None)
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, visit.voice(situation))))
        return
    text = crew_claims.free_again(step, visit.person.name)
    done = turn(snapshot.facts, result, visit=visit)
    answer(visit, work, snapshot, done, asks=Message(text=text), others=lambda _voice: Message(text=text))
