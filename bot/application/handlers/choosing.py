"""One of the plans that were offered is chosen: its pit and wrap become facts, and the plan follows.

It makes no plan of its own.
"""

from __future__ import annotations

import dataclasses

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.turns import turn
from bot.application.visit import Visit, Work
from bot.messages import plans
from bot.messages.answers import plan
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.ports import CookSnapshot
from scheduler.cook import Refusal, Report, Situation, decide
from scheduler.facts import Body, PitMoved


def handle(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, chosen: say.ChoosePlan) -> None:
    """Write what was chosen and show the plan as it is now."""
    voice = visit.voice(situation)
    if situation.outlook.plan is None:
        reply(visit, work, situation, plans.too_late_to_choose())
        return
    reports = tuple(
        Report(
            body=body, happened_at=visit.incoming.sent_at, by=visit.person.name, message=visit.incoming.message
        )
        for body in _facts(situation, chosen)
    )  # fmt: skip
    result = decide(snapshot.facts, reports, now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, voice)))
        return
    done = turn(snapshot.facts, result, visit=visit)
    answer(visit, work, snapshot, done, body=lambda voice: plan(done.after, voice, owner=False))


def _facts(situation: Situation, chosen: say.ChoosePlan) -> tuple[Body, ...]:
    """Return the plan anew with the chosen pit and wrap; a pit that was moved since needs to be moved back."""
    state = situation.state
    anew = dataclasses.replace(
        state.planned,
        serving=state.serving,
        pit_low_c=chosen.pit_low_c,
        pit_high_c=chosen.pit_high_c,
        wrap=chosen.wrap,
    )
    moved = (state.pit[-1].low_c, state.pit[-1].high_c) != (state.planned.pit_low_c, state.planned.pit_high_c)
    pit = PitMoved(pit_low_c=chosen.pit_low_c, pit_high_c=chosen.pit_high_c)
    return (anew, pit) if moved else (anew,)
