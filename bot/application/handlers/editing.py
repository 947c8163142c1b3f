"""An edited message corrects the fact that was read from it; what it adds is taken like words of its own.

It drops nothing that somebody typed: danger first, and what says nothing is kept as a note.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.handlers import cooking
from bot.application.handlers.crewing_levers import pass_on
from bot.application.rights import lacking
from bot.application.turns import turn
from bot.application.visit import Visit, Work
from bot.application.voices import context_of
from bot.conversation.interpreter import read
from bot.messages.changed import still_counts
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.ports import CookSnapshot
from scheduler.cook import Refusal, Report, Situation, decide
from scheduler.facts import (
    AirTold,
    Body,
    Corrected,
    Fact,
    Felt,
    FuelTold,
    Noted,
    PhotoKept,
    Reading,
    ServingMoved,
    Slot,
    StepDone,
    StepSkipped,
    Troubled,
    Undone,
    Wrapped,
    WrapPlanned,
)
from scheduler.state import effective


def handle(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> bool:
    """Correct what the message had told; return False when it had told nothing, so that it is read as new."""
    told = [f for f in effective(snapshot.facts) if f.message == visit.incoming.message and f.by == visit.person.name]
    meant = [f for f in told if not isinstance(f.body, Noted | PhotoKept)]
    if not meant:
        return False
    context = dataclasses.replace(context_of(visit, situation), now=meant[0].happened_at)
    wanted = _settled(read(visit.incoming.text, context), meant)
    if missing := lacking(visit, situation, wanted):  # an edit is asked for its rights like a new text
        reply(visit, work, situation, pass_on(visit, work, snapshot, situation, missing[0]))
        return True
    reports = tuple(_corrections(visit, meant, wanted))
    more = _added(wanted, told)
    if more:
        _take_also(visit, work, snapshot, situation, more, reports)
        return True
    if not reports and any(isinstance(intent, say.Unclear) for intent in wanted):
        cooking.keep_quietly(visit, work, snapshot)
        reply(visit, work, situation, Message(text=still_counts(tuple(meant), visit.voice(situation))))
        return True
    if not reports:
        return True  # an edit that changes no value (a comma, a link's preview) needs no word
    result = decide(snapshot.facts, reports, now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if isinstance(result, Refusal):
        text = refusal_text(result, visit.voice(situation))
        reply(visit, work, situation, Message(text=text))
        return True
    answer(visit, work, snapshot, turn(snapshot.facts, result, visit=visit))
    return True


def _take_also(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, more: tuple[say.Intent, ...],
    reports: tuple[Report, ...],
) -> None:  # fmt: skip
    """Take what an edit adds, with the corrections in it."""
    if reports:
        cooking.with_corrections(visit, work, snapshot, situation, more, reports)
    else:
        cooking.handle(visit, work, snapshot, situation, more)


_KINDS: dict[type, tuple[type, ...]] = {
    say.Done: (StepDone,),
    say.Skip: (StepDone, StepSkipped),
    say.WrapSaid: (Wrapped, WrapPlanned, StepDone),
    say.FeelSaid: (Felt,),
    say.MoveDinner: (ServingMoved,),
    say.AirSaid: (AirTold,),
    say.FuelSaid: (FuelTold,),
}
"""What each intent told when the message was read first; where that stands, the edit is a correction of it."""


def _added(wanted: tuple[say.Intent, ...], told: list[Fact]) -> tuple[say.Intent, ...]:
    """Return what an edited text tells beyond that which the message told before; talk is nothing."""
    bodies = [fact.body for fact in told]
    known = {body.problem for body in bodies if isinstance(body, Troubled)}
    slots = {body.slot for body in bodies if isinstance(body, Reading)}
    found: list[say.Intent] = []
    for intent in wanted:
        if isinstance(intent, say.Unclear | say.Note):
            continue
        if isinstance(intent, say.Trouble):
            found += [] if intent.what in known else [intent]
        elif isinstance(intent, say.Report):
            found += _other_values(intent, slots)
        elif (kinds := _KINDS.get(type(intent))) is not None:
            found += [] if any(isinstance(body, kinds) for body in bodies) else [intent]
        elif all(isinstance(body, Reading | Noted) for body in bodies):
            found.append(intent)
    return tuple(found)


def _other_values(said: say.Report, slots: set[Slot]) -> list[say.Intent]:
    """Return the values of probes of which the message had told nothing; a single number is the old one's new value."""
    if not slots:
        return [said]
    fresh = tuple(one for one in said.values if (one.slot or Slot.CORE) not in slots)
    return [said.model_copy(update={"values": fresh})] if fresh and len(said.values) > 1 else []


def _settled(wanted: tuple[say.Intent, ...], told: list[Fact]) -> tuple[say.Intent, ...]:
    """Return what an edited text means: what it leaves open is what was told before, where that is one of the ways."""
    slots = {fact.body.slot for fact in told if isinstance(fact.body, Reading)}
    found: list[say.Intent] = []
    for intent in wanted:
        ways = [] if not isinstance(intent, say.Unclear) else [way for _label, way in intent.options]
        same = [
            way
            for way in ways
            if isinstance(way, say.Report) and all((v.slot or Slot.CORE) in slots for v in way.values)
        ]
        found.append(same[0] if len(same) == 1 else intent)
    return tuple(found)


def _corrections(visit: Visit, told: list[Fact], wanted: tuple[say.Intent, ...]) -> list[Report]:
    """Return a correction for each fact whose value or time is another one now, and an undo for what is gone."""
    reports = []
    only_reading = sum(isinstance(fact.body, Reading) for fact in told) == 1
    for fact in told:
        body, at = _new_body(fact.body, wanted, only_reading=only_reading), _new_time(fact, wanted)
        if body is None and _says_something(wanted):
            reports.append(_report(visit, Undone(of=fact.id)))
        elif body is not None and (body != fact.body or at is not None):
            reports.append(_report(visit, Corrected(of=fact.id, body=body, happened_at=at)))
    return reports


def _report(visit: Visit, body: Body) -> Report:
    return Report(body=body, happened_at=visit.incoming.sent_at, by=visit.person.name, message=visit.incoming.message)


def _says_something(wanted: tuple[say.Intent, ...]) -> bool:
    """Return whether the new text reports anything, so that a value it no longer holds was meant to go."""
    return any(isinstance(i, say.Report | say.Done | say.WrapSaid | say.FeelSaid | say.MoveDinner) for i in wanted)


def _new_time(fact: Fact, wanted: tuple[say.Intent, ...]) -> dt.datetime | None:
    """Return the time that the new text names for a fact, None when it names none or the same."""
    named = [at for intent in wanted if (at := _dated(fact.body, intent)) is not None]
    if not named or abs(named[0] - fact.happened_at) < dt.timedelta(minutes=1):
        return None
    return named[0]


def _dated(body: Body, intent: say.Intent) -> dt.datetime | None:
    """Return the time that an intent names for a fact of this kind."""
    if isinstance(body, Reading) and isinstance(intent, say.Report):
        return intent.at
    if isinstance(body, StepDone) and isinstance(intent, say.Done):
        return intent.at
    return intent.at if isinstance(body, Wrapped) and isinstance(intent, say.WrapSaid) else None


def _new_body(old: Body, wanted: tuple[say.Intent, ...], *, only_reading: bool) -> Body | None:
    """Return what a fact says after the edit, None when the new text says nothing of its kind.

    A single number takes the place of the only reading that was told, whichever probe it was; of two, one was dropped.
    """
    match old:
        case Reading():
            values = [v for i in wanted if isinstance(i, say.Report) for v in i.values]
            same = [v for v in values if (v.slot or Slot.CORE) is old.slot]
            if not same and only_reading and len(values) == 1:
                same = values
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
        case ServingMoved():
            moves = [i.serving for i in wanted if isinstance(i, say.MoveDinner) and i.serving is not None]
            return ServingMoved(serving=moves[0]) if moves else None
        case _:
            return None
