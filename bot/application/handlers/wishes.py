"""What people wish of the plan, as facts: watches, quiet hours, prompts. Answered with what it changes.

Words are made in `bot.messages`, times by the engine.
"""

from __future__ import annotations

import dataclasses

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.turns import Turn, turn
from bot.application.visit import Visit, Work
from bot.conversation.flows.setup import within_limits
from bot.messages import certainty, resting
from bot.messages.dinner import dinner_line
from bot.messages.message import Message, lines
from bot.messages.refusals import refusal_text
from bot.messages.watches import missing
from bot.messages.wishes import stays_on, switched
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Refusal, Report, Situation, decide
from scheduler.facts import Body, KindTold, RestPlace, RestTold, StepDone, WatchesTold
from scheduler.planning import watching
from scheduler.planning.backward import holds, wanted_confidence
from scheduler.state import FIRST

Wish = say.WatchesSaid | say.KindSaid | say.SureSaid | say.RestSaid

_COOKS_FROM_C = 95.0
"""An oven set to more does not hold meat, it cooks it [°C]: house rule."""

_LADDER = (0.5, 0.7, 0.85, 0.95, 0.99)
"""Steps of "safer" and "bolder": house rule."""

_COUNTED_FROM = frozenset({"light", "meat_on", "pull", "serve"})
"""Steps that every later time is counted from: their prompts cannot be switched off."""


def take(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wish: Wish) -> None:
    """Write a wish down as the fact that it is, and answer with what becomes of the plan."""
    match wish:
        case say.WatchesSaid():
            done = _written(visit, work, snapshot, situation, _watches(visit, situation, wish))
            if done is not None:
                said = missing(done.after, visit.voice(done.after))
                answer(visit, work, snapshot, done, asks=Message(text=said))
        case say.KindSaid():
            _kind(visit, work, snapshot, situation, wish)
        case say.SureSaid():
            _sure(visit, work, snapshot, situation, wish)
        case say.RestSaid():
            seen = situation.at_the_fire if situation.focus is None else situation
            _rest(visit, work, snapshot, situation.seen_from(wish.piece) if wish.piece else seen, wish)


def _kind(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wish: say.KindSaid) -> None:
    """Switch the prompts of a step on or off; those of safety, and those that the times hang on, stay on."""
    step = situation.catalogue.steps.get(wish.step)
    safety = step is not None and step.safety
    if not wish.wanted and (safety or wish.step in _COUNTED_FROM):
        reply(visit, work, situation, stays_on(wish.step, safety=safety))
        return
    done = _written(visit, work, snapshot, situation, KindTold(step=wish.step, wanted=wish.wanted))
    if done is not None:
        answer(visit, work, snapshot, done, asks=switched(wish))


def _sure(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wish: say.SureSaid) -> None:
    """Plan for another certainty, or say kindly why that changes nothing."""
    kindly = _nothing_to_change(situation, wish)
    if kindly is not None:
        reply(visit, work, situation, kindly)
        return
    first = situation.view(FIRST).state
    wanted = _wanted(situation, wish)
    anew = dataclasses.replace(first.planned, serving=first.serving, confidence=wanted)
    done = _written(visit, work, snapshot, situation, anew)
    if done is not None:
        after = done.after
        answer(visit, work, snapshot, done, body=lambda voice: certainty.certainty_changed(situation, after, voice))


def _nothing_to_change(situation: Situation, wish: say.SureSaid) -> Message | None:
    """Return why another certainty changes nothing, None when it does."""
    wanted, now = _wanted(situation, wish), wanted_confidence(situation.state)
    if wish.confidence is not None and wish.confidence != within_limits(wish.confidence):
        return Message(text=certainty.out_of_limits())
    if all(view.outlook.plan is None for view in situation.views):
        return certainty.too_late_for_it(situation)
    if situation.state.serving.starts_at() is None:
        return Message(text=certainty.no_time_fixed())
    if not any(holds(view.cut) for view in situation.views):
        return Message(text=certainty.does_not_keep())
    return Message(text=certainty.as_sure_as_can_be(now)) if wanted == now else None


def _wanted(situation: Situation, wish: say.SureSaid) -> float:
    """Return the probability that is wished: the one named, or the next step of the ladder, at its end the same."""
    if wish.confidence is not None:
        return wish.confidence
    now = wanted_confidence(situation.state)
    if wish.safer:
        return next((one for one in _LADDER if one > now), now)
    return next((one for one in reversed(_LADDER) if one < now), now)


def _rest(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wish: say.RestSaid) -> None:
    """Plan the rest as it is wished; an oven that cooks is no rest, and no rest is shorter than the shortest."""
    voice, cut = visit.voice(situation), situation.cut
    if wish.oven_c is not None and wish.oven_c > _COOKS_FROM_C:
        reply(visit, work, situation, Message(text=resting.cooks_on(wish.oven_c, voice)))
        return
    minutes = None if wish.minutes is None else cut.vent_min + max(wish.minutes, cut.rest_min_min)
    bodies: list[Body] = [RestTold(minutes=minutes, place=wish.place, oven_c=wish.oven_c)]
    boxed = situation.state.did("box_meat") is not None
    if wish.there and not boxed and wish.place is not RestPlace.BOARD:
        bodies.append(StepDone(step="box_meat"))
    done = _written(visit, work, snapshot, situation, *bodies)
    if done is None:
        return
    after = done.after.seen_from(situation.state.piece)
    short = wish.minutes is not None and wish.minutes < cut.rest_min_min
    said = lines(
        resting.shortest_rest(cut.rest_min_min) if short else "",
        resting.rests_there(after, voice) if wish.place is not None else "",
        dinner_line(after, voice),
    )
    answer(visit, work, snapshot, done, asks=Message(text=said))


def _written(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, *bodies: Body) -> Turn | None:
    """Return what facts change together with what is due at once; when they cannot be, say why and return None."""
    piece = situation.focus if situation.several else None
    result = decided(visit, snapshot, *bodies, piece=piece)
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, visit.voice(situation))))
        return None
    return turn(snapshot.facts, result, visit=visit)


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
        watching.Turn(name=visit.person.name if one.name == "i" else one.name, start=one.start, end=one.end)
        for one in wish.watches
    ]
    new = watching.placed(situation.state, situation.deciding.outlook, turns)
    return WatchesTold(watches=new, quiet=wish.quiet or old.quiet)
