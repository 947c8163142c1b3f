"""A reported problem: its card, its fact, and what it does to the plan where facts allow.

It decides and writes nothing itself; `cooking` reports what it returns.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot import commands as say
from bot.application.visit import Visit
from bot.application.voices import voice_of
from bot.messages.message import Message
from bot.messages.problems import CARDS, other_problem, problem_card
from scheduler.cook import Report, Situation
from scheduler.facts import Body, Corrected, Noted, PutOff, Reading, Slot, StepDone, Troubled
from scheduler.planning.advice import cost_of, moment, option_of

DOUBTED = dt.timedelta(minutes=90)
"""A reading this old at most is the one that a badly placed probe gave: house rule."""

COLD_WATER_MIN_PER_KG = 66.0
"""Thawing in cold water: 30 min for each pound, USDA FSIS, The Big Thaw [min/kg]."""

_MISPLACED = frozenset({"probe_bone", "probe_air_fat"})


@dataclasses.dataclass(frozen=True, kw_only=True)
class Answer:
    """The card, and the reports that belong to a problem. `danger`: people first."""

    card: Message
    reports: tuple[Report, ...]
    danger: bool = False
    only_if_doubted: bool = False
    """True when a number came along: the card is said only when that number does not fit."""


def answer_to(visit: Visit, situation: Situation, said: say.Trouble, *, with_number: bool) -> Answer:
    """Return the answer to a problem; `with_number` when readings were told in the same words."""
    seen = _meant(situation, said)
    problem = seen.catalogue.remedies.problem(said.what)
    voice = voice_of(situation, visit.now)
    noted = _report(visit, seen, Noted(text=said.text))
    if problem is None or said.what not in CARDS:
        return Answer(card=Message(text=other_problem()), reports=(noted,))
    doubted = said.what in _MISPLACED and with_number
    at = moment(seen.state, seen.cut, seen.outlook, visit.now)
    lever = CARDS[said.what].lever
    opened = lever is not None and option_of(
        seen.state, seen.cut, seen.outlook, seen.catalogue.remedies, lever, visit.now
    )  # fmt: skip
    card = problem_card(problem, seen, voice, cost=cost_of(problem, at), lever=bool(opened))
    if doubted:
        return Answer(card=card, reports=(), only_if_doubted=True)
    bodies = (Troubled(problem=said.what), *_facts(visit, seen, said))
    reports = (noted, *(_report(visit, seen, body) for body in bodies))
    return Answer(card=card, reports=reports, danger=problem.danger)


def over(visit: Visit, situation: Situation, said: say.TroubleOver) -> tuple[Report, ...]:
    """Return the end of a problem: the one named, else the newest that stands; nothing when none does."""
    standing = situation.deciding.state.troubles
    what = said.what or (max(standing, key=lambda one: standing[one]) if standing else None)
    if what is None or what not in standing:
        return ()
    seen = situation.deciding if said.piece is None else situation.seen_from(said.piece)
    ended = _report(visit, seen, Troubled(problem=what, over=True))
    if what == "frozen_middle" and seen.state.did("meat_on") is None:
        return (ended, _report(visit, seen, PutOff(step="meat_on", until=visit.now)))  # it may go on now
    return (ended,)


def _meant(situation: Situation, said: say.Trouble) -> Situation:
    """Return the cook as seen from the piece that has the problem: the one named, for a probe in the wrong place the
    one read last, else the one that decides about dinner.
    """
    if said.piece is not None:
        return situation.seen_from(said.piece)
    last = [(read.at, view.piece) for view in situation.views if (read := view.state.last(Slot.CORE)) is not None]
    return situation.seen_from(max(last)[1]) if said.what in _MISPLACED and last else situation.deciding


def _facts(visit: Visit, seen: Situation, said: say.Trouble) -> tuple[Body, ...]:
    """Return what a problem means for the plan."""
    match said.what:
        case "fuel_out" if seen.prompt("fuel_check") is not None:
            return (StepDone(step="fuel_check", outcome="low"),)
        case "probe_bone" | "probe_air_fat":
            return _doubt(visit, seen)
        case "frozen_middle" if seen.state.did("meat_on") is None:
            return (PutOff(step="meat_on", until=visit.now + _thaw(seen)),)
        case _:
            return ()


def _doubt(visit: Visit, seen: Situation) -> tuple[Body, ...]:
    """Mark the newest reading of the meat as doubtful: kept, shown, not used by the forecast."""
    last = seen.state.last(Slot.CORE)
    on_at = seen.state.at("meat_on")
    if last is None or on_at is None or last.at < on_at or visit.now - last.at > DOUBTED:
        return ()
    body = Reading(slot=last.slot, value_c=last.value_c, spread_c=last.spread_c, spot=last.spot, doubtful=True)
    return (Corrected(of=last.fact, body=body),)


def _thaw(seen: Situation) -> dt.timedelta:
    mass_kg = seen.state.planned.mass_kg or seen.cut.mass_kg.typical
    return dt.timedelta(minutes=COLD_WATER_MIN_PER_KG * mass_kg)


def _report(visit: Visit, seen: Situation, body: Body) -> Report:
    return Report(
        body=body,
        happened_at=visit.incoming.sent_at,
        by=visit.person.name,
        message=visit.incoming.message,
        piece=seen.state.piece,
    )
