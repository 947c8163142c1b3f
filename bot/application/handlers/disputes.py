"""Two readings of one moment that differ, settled: they were of two spots, and both count."""

from __future__ import annotations

import dataclasses

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.turns import turn
from bot.application.visit import Visit, Work
from bot.messages.contests import first_spot, nothing_differs, second_spot
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.ports import CookSnapshot
from scheduler.cook import Refusal, Report, Situation, decide
from scheduler.facts import Corrected, Reading, Slot
from scheduler.safety.contested import contests
from scheduler.state import ReadingAt


def two_spots(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.TwoSpots) -> None:
    """Give the two newest readings that differ a spot each, so that both count; the colder goes on for safety."""
    pair = _differing(situation if said.piece is None else situation.seen_from(said.piece))
    if not pair:
        reply(visit, work, situation, Message(text=nothing_differs()))
        return
    spots = (first_spot(), second_spot())
    reports = tuple(
        Report(
            body=Corrected(of=one.fact, body=_of_spot(one, spot)),
            happened_at=visit.incoming.sent_at,
            by=visit.person.name,
            message=visit.incoming.message,
        )
        for one, spot in zip(pair, spots, strict=True)
    )
    result = decide(snapshot.facts, reports, now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, visit.voice(situation))))
        return
    answer(visit, work, snapshot, turn(snapshot.facts, result, visit=visit))


def _differing(situation: Situation) -> tuple[ReadingAt, ...]:
    """Return the two newest cores that differ, in order of time; nothing when none do."""
    views = (situation,) if situation.focus is not None else tuple(map(situation.seen_from, _pieces(situation)))
    found = [pair for seen in views for pair in contests(r for r in seen.state.readings if r.slot is Slot.CORE)]
    if not found:
        return ()
    newest = max(found, key=lambda pair: max(pair.higher.at, pair.lower.at))
    return tuple(sorted((newest.higher, newest.lower), key=lambda one: one.at))


def _pieces(situation: Situation) -> tuple[str, ...]:
    return tuple(view.piece for view in situation.views)


def _of_spot(one: ReadingAt, spot: str) -> Reading:
    """Return a reading as one of a spot; a name that it has stays."""
    plain = Reading(slot=one.slot, value_c=one.value_c, spread_c=one.spread_c, spot=one.spot)
    return plain if one.spot else dataclasses.replace(plain, spot=spot)
