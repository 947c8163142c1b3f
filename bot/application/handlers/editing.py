"""An edited message corrects the fact that was read from it."""

from __future__ import annotations

import dataclasses

from bot import commands as say
from bot.application.announcements import answer, reply, turn
from bot.application.visit import Visit, Work
from bot.application.voices import context_of, voice_of
from bot.conversation.interpreter import read
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.ports import CookSnapshot
from scheduler.cook import Refusal, Report, Situation, decide
from scheduler.facts import Body, Corrected, Fact, Felt, Noted, Reading, Slot, StepDone, Wrapped
from scheduler.state import effective


def handle(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> bool:
    """Correct what the message had told; return False when it had told nothing, so that it is read as new."""
    told = [f for f in effective(snapshot.facts) if f.message == visit.incoming.message and f.by == visit.person.name]
    meant = [f for f in told if not isinstance(f.body, Noted)]
    if not meant:
        return False
    context = dataclasses.replace(context_of(visit, situation), now=meant[0].happened_at)
    reports = _corrections(visit, meant, read(visit.incoming.text, context))
    if not reports:
        return True  # an edit that changes no value (a comma, a preview) needs no word
    result = decide(snapshot.facts, tuple(reports), now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if isinstance(result, Refusal):
        text = refusal_text(result, voice_of(situation, visit.now))
        reply(visit, work, situation, Message(text=text))
        return True
    answer(visit, work, snapshot, turn(snapshot.facts, result, visit=visit))
    return True


def _corrections(visit: Visit, told: list[Fact], wanted: tuple[say.Intent, ...]) -> list[Report]:
    """Return a correction for each fact whose value is another one now."""
    reports = []
    for fact in told:
        body = _new_body(fact.body, wanted)
        if body is None or body == fact.body:
            continue
        reports.append(
            Report(
                body=Corrected(of=fact.id, body=body),
                happened_at=visit.incoming.sent_at,
                by=visit.person.name,
                message=visit.incoming.message,
            )
        )
    return reports


def _new_body(old: Body, wanted: tuple[say.Intent, ...]) -> Body | None:
    """Return what a fact says after the edit, None when the new text says nothing of its kind."""
    match old:
        case Reading():
            values = [v for i in wanted if isinstance(i, say.Report) for v in i.values]
            same = [v for v in values if (v.slot or Slot.CORE) is old.slot] or (values if len(values) == 1 else [])
            if not same:
                return None
            value = same[0]
            return dataclasses.replace(
                old, value_c=value.value_c, spread_c=value.spread_c, slot=value.slot or old.slot, doubtful=False
            )
        case Wrapped():
            wraps = [i.wrap for i in wanted if isinstance(i, say.WrapSaid) and i.wrap is not None]
            return Wrapped(wrap=wraps[0]) if wraps else None
        case Felt():
            feels = [i for i in wanted if isinstance(i, say.FeelSaid)]
            return Felt(feel=feels[0].feel, spot=feels[0].spot) if feels else None
        case StepDone():
            done = [i for i in wanted if isinstance(i, say.Done) and i.step == old.step]
            return StepDone(step=old.step, outcome=done[0].outcome or old.outcome) if done else None
        case _:
            return None
