"""A number that was tapped: recorded once, corrected by the same thumb, thanked from a second one, or too old.

It makes no words; a typed number never comes here.
"""

from __future__ import annotations

import datetime as dt

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.handlers.reports import Settling
from bot.application.privacy import hears_all
from bot.application.turns import Turn, turn
from bot.application.visit import Visit, Work
from bot.chat import IncomingKind
from bot.messages import taps
from bot.messages.message import Message
from bot.messages.naming import named
from bot.messages.number_buttons import Asked, coldest_spot, next_number, other_numbers
from bot.messages.refusals import refusal_text
from bot.messages.telegram_words import type_number
from bot.ports import CookSnapshot
from scheduler.cook import Refusal, Report, Situation, TripDue, decide
from scheduler.cook.plausible import AGREE_C
from scheduler.facts import Corrected, Feel, Reading
from scheduler.planning.prompts import Prompt
from scheduler.state import ReadingAt

SLIP_FOR = dt.timedelta(minutes=10)
"""So long another number of the same question by the same person corrects the first: house rule."""


def take(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.Report) -> None:
    """Record a number that was tapped, unless that was done before; then ask for the next one."""
    value = said.values[0]
    open_now = _open(situation, said.question)
    before = _answered(situation, said, visit.now)
    if before is None and open_now is None and said.question is not None:
        reply(visit, work, situation, taps.too_late())
        return
    reports: tuple[Report, ...]
    voice = visit.voice(situation)
    if before is not None and abs(before.value_c - value.value_c) <= AGREE_C and before.by != visit.person.name:
        reply(visit, work, situation, taps.known(before, voice))
        return
    if before is not None and before.by == visit.person.name:
        if abs(before.value_c - value.value_c) < value.spread_c:
            reply(visit, work, situation, taps.known(before, voice))
            return
        reports = (_correction(visit, before, value),)
    else:
        settled = Settling(visit, situation, snapshot.facts, voice).settle((said,))
        if settled.ask is not None:
            reply(visit, work, situation, settled.ask)
            return
        reports = tuple(settled.reports)
    _write(visit, work, snapshot, situation, reports, None if open_now is None else open_now.asked_at)


def _write(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, reports: tuple[Report, ...],
    asked_at: dt.datetime | None,
) -> None:  # fmt: skip
    voice = visit.voice(situation)
    result = decide(snapshot.facts, reports, now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=named(situation, result.piece, refusal_text(result, voice))))
        return
    done = turn(snapshot.facts, result, visit=visit)
    rides = any(isinstance(e, TripDue) and any(p.step.slots for p in e.trip.prompts) for e in done.rung.events)
    asks = None if rides or asked_at is None else next_number(done.after, asked_at, visit.voice(done.after))
    answer(visit, work, snapshot, done, asks=asks)


def after_feel(visit: Visit, before: Situation, done: Turn, wanted: tuple[say.Intent, ...]) -> Message | None:
    """Return the question for the coldest spot, when a feel was tapped that was asked for with a number and none was
    read: at the most one tap more. None while the meat comes off: then nothing is asked beside it.
    """
    felt = next((intent for intent in wanted if isinstance(intent, say.FeelSaid)), None)
    if felt is None or felt.feel is Feel.TENDER or visit.incoming.kind is not IncomingKind.TAP:
        return None
    seen = before.seen_from(felt.piece) if felt.piece is not None else before
    prompt = seen.prompt("tender_test")
    if prompt is None or prompt.asked_at is None:
        return None
    return coldest_spot(prompt, done.after, visit.voice(done.after))


def other(visit: Visit, work: Work, situation: Situation, wanted: say.OtherNumber) -> None:
    """Show the numbers farther below and above; nothing when the question is answered."""
    prompt = _open(situation, wanted.question)
    if prompt is None:
        reply(visit, work, situation, taps.too_late())
        return
    if not hears_all(visit.house.store, visit.address):  # plain numbers are not heard there, only replies
        reply(visit, work, None, Message(text=type_number(visit.person.name)))
        return
    asked = Asked(prompt=prompt, slot=wanted.slot)
    reply(visit, work, situation, other_numbers(wanted, asked, situation, visit.voice(situation)))


def _open(situation: Situation, key: str | None) -> Prompt | None:
    return next((p for p in situation.prompts if p.key == key), None)


def _answered(situation: Situation, said: say.Report, now: dt.datetime) -> ReadingAt | None:
    """Return the reading by which this question was answered a short while ago, None when nobody did."""
    value, prompt = said.values[0], _open(situation, said.question)
    since = now - SLIP_FOR if prompt is None or prompt.asked_at is None else max(prompt.asked_at, now - SLIP_FOR)
    state = situation.view(value.piece).state
    found = [r for r in state.read(value.slot) if r.at >= since] if value.slot is not None else []
    return found[-1] if found else None


def _correction(visit: Visit, before: ReadingAt, value: say.Value) -> Report:
    reading = Reading(slot=before.slot, value_c=value.value_c, spread_c=value.spread_c, spot=before.spot)
    return Report(
        body=Corrected(of=before.fact, body=reading),
        happened_at=visit.incoming.sent_at,
        by=visit.person.name,
        message=visit.incoming.message,
    )
