"""What if: the engine is asked what a change would mean, and nothing of it is kept.

Decided like any other report, and then thrown away.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot import commands as say
from bot.application.announcements import reply
from bot.application.handlers.wishes import decided
from bot.application.visit import Visit, Work
from bot.messages import reasons
from bot.messages.refusals import refusal_text
from bot.ports import CookSnapshot
from scheduler.cook import Refusal, Situation
from scheduler.facts import Body, PitMoved, ServingMoved
from scheduler.planning.backward import earliest_on, latest_on, plan_from
from scheduler.planning.fuel import light_lead


def answer_to(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, asked: say.Suppose) -> None:
    """Answer what a supposed change would mean."""
    voice, now = visit.voice(situation), situation.deciding
    starts = asked.light_at is not None or asked.on_at is not None or asked.later_min is not None
    if starts and now.outlook.plan is None:
        reply(visit, work, situation, reasons.on_already(voice, now))
        return
    then = now
    if bodies := _bodies(asked):
        result = decided(visit, snapshot, *bodies)
        if isinstance(result, Refusal):
            reply(visit, work, situation, reasons.not_possible(refusal_text(result, voice), now, voice))
            return
        then = result.after.seen_from(now.state.piece)
    reply(visit, work, situation, reasons.supposed(asked, _started(then, asked) if starts else then, now, voice))


def _bodies(asked: say.Suppose) -> tuple[Body, ...]:
    """Return what is supposed, as facts."""
    found: list[Body] = []
    if asked.pit_low_c is not None:
        high_c = asked.pit_low_c if asked.pit_high_c is None else asked.pit_high_c
        found.append(PitMoved(pit_low_c=asked.pit_low_c, pit_high_c=high_c))
    if asked.serving is not None:
        found.append(ServingMoved(serving=asked.serving))
    return tuple(found)


def _started(then: Situation, asked: say.Suppose) -> Situation:
    """Return a cook that is not on yet as if its meat went on at another time, never before it can."""
    state, cut, outlook = then.state, then.cut, then.outlook
    lead = light_lead(state.cooker)
    wanted = outlook.on_at + dt.timedelta(minutes=asked.later_min or 0)
    wanted = asked.light_at + lead if asked.light_at is not None else asked.on_at or wanted
    on_at = max(wanted, earliest_on(state))
    plan = plan_from(state, cut, on_at, latest_on(state, cut))
    late = plan.late_probability
    return dataclasses.replace(
        then,
        outlook=dataclasses.replace(
            outlook,
            plan=plan,
            light_at=plan.light_at,
            on_at=on_at,
            pull=plan.pull,
            plate=plan.plate,
            plate_at=plan.plate.likely,
            chance=None if late is None else 1.0 - late,
        ),
    )
