"""What can be done about a cook that runs late or early: asked for, chosen, and the pause that is always refused.

A choice becomes facts like any other report; nothing is written here.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.turns import turn
from bot.application.visit import Visit, Work
from bot.messages.advice import advice_message, chosen_text, closed_lever, no_pause, stands
from bot.messages.advice_words import LEVERS, NOTHING
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.ports import CookSnapshot
from scheduler.cook import Refusal, Report, Shifted, Situation, decide, may_be_kept
from scheduler.facts import Body, LeverTaken
from scheduler.planning.advice import Advice, advise, not_paused, option_of


def advice_for(situation: Situation, visit: Visit) -> Advice:
    """Return what can be done now about the piece that the situation is seen from."""
    return advise(
        situation.state, situation.cut, situation.outlook, situation.catalogue.remedies, visit.now
    )  # fmt: skip


def ask(visit: Visit, work: Work, situation: Situation) -> None:
    """Answer what can be done."""
    seen = _meant(situation)
    reply(visit, work, situation, advice_message(advice_for(seen, visit), seen, visit.voice(situation)))


def pause(visit: Visit, work: Work, situation: Situation, piece: str | None = None) -> None:
    """Refuse to pause half-cooked meat, and offer the oven."""
    seen = situation.seen_from(piece) if piece else _half_cooked(_meant(situation), visit)
    safe = may_be_kept(seen.view(seen.state.piece), visit.now)
    found = not_paused(seen.state, seen.cut, seen.outlook, seen.catalogue.remedies, visit.now, safe=safe)
    reply(visit, work, situation, no_pause(found, visit.voice(situation)))


def take(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.TakeLever) -> None:
    """Write down a choice as the facts it means, and answer with the new times; one that has closed changes nothing."""
    seen = situation.seen_from(said.piece) if said.piece else _meant(situation)
    voice = visit.voice(situation)
    if said.lever == NOTHING:
        _write(visit, work, snapshot, seen, (LeverTaken(lever=NOTHING),), LEVERS[NOTHING].do())
        return
    option = option_of(seen.state, seen.cut, seen.outlook, seen.catalogue.remedies, said.lever, visit.now)
    if option is None:
        gone = Message(text=closed_lever(said.lever))
        reply(visit, work, situation, gone.then(advice_message(advice_for(seen, visit), seen, voice)))
        return
    _write(visit, work, snapshot, seen, option.bodies, chosen_text(option, voice))


def _meant(situation: Situation) -> Situation:
    """Return the cook as seen from the piece that was named, else from the one that decides about dinner."""
    return situation.deciding if situation.focus is None else situation


def _half_cooked(situation: Situation, visit: Visit) -> Situation:
    """Return the cook as seen from a piece that is half cooked, where the one it is seen from is not."""
    views = [situation.view(situation.state.piece), *situation.views]
    half = [view for view in views if view.state.did("meat_on") and not may_be_kept(view, visit.now)]
    return situation.seen_from(half[0].piece) if half else situation


def _write(
    visit: Visit, work: Work, snapshot: CookSnapshot, seen: Situation, bodies: tuple[Body, ...], do: str
) -> None:  # fmt: skip
    reports = tuple(
        Report(
            body=body,
            happened_at=visit.incoming.sent_at,
            by=visit.person.name,
            message=visit.incoming.message,
            piece=seen.state.piece,
        )
        for body in bodies
    )
    result = decide(snapshot.facts, reports, now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if isinstance(result, Refusal):
        reply(visit, work, seen, Message(text=refusal_text(result, visit.voice(seen))))
        return
    done = turn(snapshot.facts, result, visit=visit)
    told = any(isinstance(event, Shifted) for event in result.events)
    after = result.after.seen_from(seen.state.piece)
    times = Message(text="" if told else stands(after, visit.voice(after)))
    answer(visit, work, snapshot, done, lead=Message(text=do), asks=times)
