"""What is said of guests, treated meat, rules and a wished core while a cook runs: kept as facts, answered with what it
changes, or refused with what works instead.

Words are made in `bot.messages`, limits by the engine.
"""

from __future__ import annotations

import dataclasses
import re

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.handlers.reports import Settling
from bot.application.turns import turn
from bot.application.visit import Visit, Work
from bot.application.writing import cook_write
from bot.conversation.flows.care import care_told, core_of_word
from bot.messages import care_asked, taken_back, wished_core
from bot.messages.dinner import dinner_line
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.naming import piece_name, which_piece
from bot.messages.refusals import refusal_text
from bot.messages.safe import is_it_safe
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Refusal, Report, Situation, decide
from scheduler.facts import (
    Body,
    CareTold,
    EditionTold,
    Fact,
    Noted,
    SafeBy,
    SafeByTold,
    TargetTold,
    TreatedTold,
    Treatment,
)
from scheduler.safety import NotByTime, not_by_time
from scheduler.state import FIRST, effective

Told = say.CareSaid | say.TreatedSaid | say.SafeBySaid | say.TargetSaid | say.EditionSaid
TOLD = (say.CareSaid, say.TreatedSaid, say.SafeBySaid, say.TargetSaid, say.EditionSaid)


def take(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wanted: tuple[say.Intent, ...]
) -> None:
    """Write down what was told together with what came along, and answer with what it changes."""
    mine = [_of_whom(intent, visit) for intent in wanted if isinstance(intent, TOLD)]
    others = tuple(intent for intent in wanted if not isinstance(intent, TOLD))
    if (asked := _asks(mine, situation)) is not None:
        reply(visit, work, situation, asked)
        return
    if (doubt := _takes_back(mine, snapshot.facts, situation, visit.voice(situation))) is not None:
        _keep(visit, work, snapshot, situation, doubt)
        return
    reported = tuple(intent for intent in others if not isinstance(intent, say.Ask))
    settled = Settling(visit, situation, snapshot.facts, visit.voice(situation)).settle(reported)
    reports = [*settled.reports, *(_report(body, piece, visit) for body, piece in _bodies(mine, situation))]
    result = decide(snapshot.facts, tuple(reports), now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if isinstance(result, Refusal):
        shown = wished_core.refused(result, situation)
        plain = Message(text=refusal_text(result, visit.voice(situation)))
        reply(visit, work, situation, plain if shown is None else shown)
        return
    done = turn(snapshot.facts, result, visit=visit)
    means = settled.ask or Message(text="")
    for intent in mine:
        means = means.then(_means(intent, situation, done.after, visit))
    means = means.then(Message(text=wished_core.moved_core(situation, done.after)))
    if any(isinstance(intent, say.Ask) and intent.topic is say.Topic.SAFE for intent in others):
        means = means.then(is_it_safe(done.after, visit.voice(done.after)))
    answer(visit, work, snapshot, done, asks=means)


def _asks(mine: list[Told], situation: Situation) -> Message | None:
    """Return the question that comes first: which piece is meant, or which rules there are; None where all is said."""
    for intent in mine:
        if isinstance(intent, say.EditionSaid) and intent.edition is None:
            return wished_core.edition_means(intent, situation)
        if not isinstance(intent, say.TreatedSaid | say.SafeBySaid | say.TargetSaid):
            continue
        if isinstance(intent, say.SafeBySaid) and (intent.piece or not situation.several):
            if _waits_for_guests(intent, mine, situation):
                return wished_core.ask_at_risk(_with_all(intent, mine))
            continue
        if situation.several and intent.piece is None:
            options = tuple((piece_name(view), say.stamped(intent, view.piece)) for view in situation.views)
            return which_piece(wished_core.what_is_asked(intent), options)
    return None


def _waits_for_guests(said: say.SafeBySaid, mine: list[Told], situation: Situation) -> bool:
    """Return whether a choice of time at temperature misses nothing but the word that no guest is at risk."""
    state, cut = situation.view(said.piece).state, situation.view(said.piece).cut
    told = any(isinstance(one, say.CareSaid) and (one.at_risk is not None or one.all_told) for one in mine)
    intact = [one.treatments for one in mine if isinstance(one, say.TreatedSaid)] or ([()] if said.intact else [])
    if said.by is SafeBy.MINIMUM or said.nobody_at_risk or told:
        return False
    known = dataclasses.replace(state, treated=intact[-1] if intact else state.treated)
    return not_by_time(known, cut) is NotByTime.RISK_UNTOLD


def _with_all(said: say.SafeBySaid, mine: list[Told]) -> say.SafeBySaid:
    """Return a choice with what was told of the piece beside it, so that the answer to a question brings it again."""
    intact = said.intact or any(isinstance(one, say.TreatedSaid) and not one.treatments for one in mine)
    cores = [one.core_c for one in mine if isinstance(one, say.TargetSaid) and one.core_c is not None]
    return said.model_copy(update={"intact": intact, "core_c": cores[-1] if cores else said.core_c})


def _bodies(mine: list[Told], situation: Situation) -> list[tuple[Body, str | None]]:
    """Return each thing told as facts, with its piece."""
    found: list[tuple[Body, str | None]] = []
    for intent in mine:
        match intent:
            case say.CareSaid():
                found.append((care_told(intent, situation.state.care), None))
            case say.TreatedSaid():
                told: tuple[Body, str | None] = (TreatedTold(treatments=_with_earlier(intent, situation)), intent.piece)
                found += [told] * _times_said(sure=intent.sure)
            case say.SafeBySaid():
                if intent.nobody_at_risk and situation.state.care.at_risk is None:
                    found.append((CareTold(at_risk=False), None))
                if intent.intact:
                    found += [(TreatedTold(), intent.piece)] * _times_said(sure=intent.sure)
                found.append((SafeByTold(by=intent.by), intent.piece))
                if intent.core_c is not None:
                    found.append((TargetTold(core_c=intent.core_c), intent.piece))
            case say.TargetSaid():
                core_c = intent.core_c
                if core_c is None and intent.word is not None:
                    core_c = core_of_word(intent.word, situation.view(intent.piece).cut)
                found += [] if core_c is None else [(TargetTold(core_c=core_c), intent.piece)]
            case say.EditionSaid(edition=edition) if edition is not None:
                found.append((EditionTold(edition=edition), None))
    return found


_ONESELF = re.compile(r"^(?:\W|and|but|by the way|btw|hi|hey|also)*(?:i|i'm|im|i\u2019m|ich)\b", re.IGNORECASE)


def _of_whom(said: Told, visit: Visit) -> Told:
    """Return an allergy that somebody tells of themselves with their name: whose plate it is must not be lost."""
    if not isinstance(said, say.CareSaid) or not said.allergies or not _ONESELF.match(visit.incoming.text):
        return said
    own = tuple(one if one == say.UNNAMED or "(" in one else f"{one} ({visit.person.name})" for one in said.allergies)
    return said.model_copy(update={"allergies": own})


def _report(body: Body, piece: str | None, visit: Visit) -> Report:
    return Report(
        body=body, happened_at=visit.incoming.sent_at, by=visit.person.name, message=visit.incoming.message, piece=piece
    )


def _times_said(*, sure: bool) -> int:
    """Return how often something was said: what was asked back and answered was said twice."""
    return 2 if sure else 1


def _with_earlier(said: say.TreatedSaid, situation: Situation) -> tuple[Treatment, ...]:
    """Return what was done to a piece with what was told of it before: one treatment does not take back another."""
    earlier = situation.view(said.piece).state.treated or ()
    return tuple(dict.fromkeys((*earlier, *said.treatments))) if said.treatments else ()


def _takes_back(mine: list[Told], log: tuple[Fact, ...], situation: Situation, voice: Voice) -> Message | None:
    """Return the question whether what was told before was wrong; None where nothing that is stricter is taken back."""
    for intent in mine:
        match intent:
            case say.CareSaid(sure=False):
                found = _stricter_care(intent, log, situation)
            case say.TreatedSaid(sure=False, treatments=()) | say.SafeBySaid(sure=False, intact=True):
                found = _earlier_treatment(intent.piece, log, situation)
            case _:
                continue
        if found:
            return taken_back.asked(found, intent.model_copy(update={"sure": True}), voice)
    return None


def _stricter_care(said: say.CareSaid, log: tuple[Fact, ...], situation: Situation) -> tuple[Fact, ...]:
    """Return what was told of guests and occasion that this takes back."""
    care = situation.state.care
    at_risk = said.at_risk is False and care.at_risk is True
    allergies = said.allergies == () and bool(care.allergies)
    public = said.public is False and care.public is True
    return tuple(
        fact
        for fact in effective(log)
        if isinstance(fact.body, CareTold)
        and (
            (at_risk and fact.body.at_risk is True)
            or (allergies and bool(fact.body.allergies))
            or (public and fact.body.public is True)
        )
    )


def _earlier_treatment(piece: str | None, log: tuple[Fact, ...], situation: Situation) -> tuple[Fact, ...]:
    """Return who told, last, that a piece was treated; nothing where it is not."""
    view = situation.view(piece)
    if not view.state.treated:
        return ()
    told = [
        fact
        for fact in effective(log)
        if isinstance(fact.body, TreatedTold)
        and fact.body.treatments
        and (not situation.several or (fact.piece or FIRST) == view.piece)
    ]
    return tuple(told[-1:])


def _keep(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, asked: Message) -> None:
    """Ask, and keep what was typed with the cook."""
    note = _report(Noted(text=visit.incoming.text), None, visit)
    result = decide(snapshot.facts, (note,), now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    reply(visit, work, situation, asked)
    if isinstance(result, Changes) and visit.incoming.text:
        work.cooks.append(cook_write(result.after, result.facts, version=snapshot.version))


def _means(intent: Told, before: Situation, after: Situation, visit: Visit) -> Message:
    """Return what one thing told changes."""
    match intent:
        case say.CareSaid():
            return care_asked.what_changes(intent, after.state.care)
        case say.TreatedSaid():
            was_c, is_c = (wished_core.least_c(one.view(intent.piece), one) for one in (before, after))
            if not intent.treatments and is_c < was_c:
                return Message(text=taken_back.minimum_moved(was_c, is_c))
            return Message(text=wished_core.treated_means(intent, after))
        case say.SafeBySaid():
            return Message(text=wished_core.safe_by_means(intent, after))
        case say.TargetSaid():
            return Message(text=dinner_line(after, visit.voice(after)))
        case say.EditionSaid():
            return wished_core.edition_means(intent, after)
