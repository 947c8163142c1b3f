"""A reported problem: its card, its fact, and what it does to the plan where facts allow.

It decides and writes nothing itself; `cooking` reports what it returns.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Callable

from bot import commands as say
from bot.application.visit import Visit
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.problems import CARDS, other_problem, problem_card
from scheduler.cook import Report, Situation
from scheduler.facts import Body, Corrected, Noted, PutOff, Reading, Slot, StepDone, Troubled
from scheduler.planning.advice import cost_of, moment, option_of
from scheduler.safety.reported import DROPPED, DROPPED_DONE, HELD, READER_OTHER, READER_WRONG
from scheduler.state import PIECE_TROUBLES

DOUBTED = dt.timedelta(minutes=90)
"""A reading this old at most is the one that a badly placed probe gave: house rule."""

COLD_WATER_MIN_PER_KG = 66.0
"""Thawing in cold water: 30 min for each pound, USDA FSIS, The Big Thaw [min/kg]."""

NO_FIRE = frozenset({"fire_out", "fuel_out"})
"""Problems that end when the fire burns again."""

_FELL = frozenset({"dropped_raw", DROPPED_DONE})
"""What was dropped: the answer to the question on the card."""

_BY_NAME = HELD | NO_FIRE | {READER_OTHER} | say.OF_PEOPLE
"""What no word like "fine" ends: food, a fire that is out, and danger about people."""

_MISPLACED = frozenset({"probe_bone", "probe_air_fat"})


@dataclasses.dataclass(frozen=True, kw_only=True)
class Answer:
    """The card, and the reports that belong to a problem. `danger`: people first."""

    card: Callable[[Voice], Message]
    reports: tuple[Report, ...]
    danger: bool = False
    what: str = ""
    """The problem, empty where there is no card for it."""
    only_if_doubted: bool = False
    """True when a number came along: the card is said only when that number does not fit."""


def answer_to(visit: Visit, situation: Situation, said: say.Trouble, *, with_number: bool) -> Answer:
    """Return the answer to a problem; `with_number` when readings were told in the same words."""
    seen = _meant(situation, said)
    if said.what in _FELL:
        said = said.model_copy(update={"what": _raw_or_done(seen, said.what)})
    problem = seen.catalogue.remedies.problem(said.what)
    noted = _report(visit, seen, Noted(text=said.text))
    if problem is None or said.what not in CARDS:
        return Answer(card=lambda _voice: Message(text=other_problem()), reports=(noted,))
    doubted = said.what in _MISPLACED and with_number
    at = moment(seen.state, seen.cut, seen.outlook, visit.now)
    lever = CARDS[said.what].lever
    opened = lever is not None and option_of(
        seen.state, seen.cut, seen.outlook, seen.catalogue.remedies, lever, visit.now
    )  # fmt: skip
    cost = cost_of(problem, at)

    def card(voice: Voice) -> Message:
        return problem_card(problem, seen, voice, cost=cost, lever=bool(opened))

    if doubted:
        return Answer(card=card, reports=(), only_if_doubted=True)
    told = _told(visit, situation, seen, said)
    reports = (noted, *told, *(_report(visit, seen, body) for body in _facts(visit, seen, said)))
    return Answer(card=card, reports=reports, danger=problem.danger, what=problem.id)


def over(visit: Visit, situation: Situation, said: say.TroubleOver) -> tuple[Report, ...]:
    """Return the end of a problem: the one named, else the newest that stands; nothing when none does.

    A word ends no problem that makes food unsafe (`held`), but that a thermometer is right after all; a fire that is
    out, and a danger about people, end by name only: whoever says that it is fine has said nothing of them.
    """
    standing = situation.deciding.state.troubles
    free = {one: at for one, at in standing.items() if one not in _BY_NAME}
    what = said.what or (max(free, key=lambda one: free[one]) if free else None)
    if what is None or what not in standing or (what in HELD and what != READER_WRONG):
        return ()
    seen = situation.deciding if said.piece is None else situation.seen_from(said.piece)
    ended = _report(visit, seen, Troubled(problem=what, over=True))
    if what == READER_WRONG:
        return (ended, *_ends(visit, seen, READER_OTHER))
    if what == "frozen_middle" and seen.state.did("meat_on") is None:
        return (ended, _report(visit, seen, PutOff(step="meat_on", until=visit.now)))  # it may go on now
    return (ended,)


def no_fire(situation: Situation) -> bool:
    """Return whether the fire is told to be out, and nothing since that it burns."""
    return any(one in NO_FIRE for one in situation.deciding.state.troubles)


def held(situation: Situation) -> bool:
    """Return whether a problem stands that no word ends: dirt on food, a thermometer that is wrong."""
    return any(one in HELD for view in situation.views for one in view.state.troubles)


def somebody(situation: Situation) -> str | None:
    """Return the newest danger about people that stands, None when none does."""
    standing = {one: at for one, at in situation.deciding.state.troubles.items() if one in say.OF_PEOPLE}
    return max(standing, key=lambda one: standing[one]) if standing else None


def _told(visit: Visit, situation: Situation, seen: Situation, said: say.Trouble) -> tuple[Report, ...]:
    """Return that a problem stands, on every piece that it may be about, and that what it answers stands no more."""
    views = [situation.seen_from(view.piece) for view in situation.views]
    if said.what in _FELL:
        answered = [one for one in views if DROPPED in one.state.troubles]
        ended = tuple(_report(visit, one, Troubled(problem=DROPPED, over=True)) for one in answered)
        meant = [seen] if said.piece is not None or not answered else answered
        return (*ended, *(_report(visit, one, Troubled(problem=_raw_or_done(one, said.what))) for one in meant))
    if said.what in PIECE_TROUBLES:
        meant = [seen] if said.piece is not None else views
        return tuple(_report(visit, one, Troubled(problem=said.what)) for one in meant)
    again = _ends(visit, seen, READER_OTHER) if said.what in {READER_WRONG, READER_OTHER} else ()
    return (*again, _report(visit, seen, Troubled(problem=said.what)))


def _raw_or_done(seen: Situation, what: str) -> str:
    """Return what was dropped: off the fire it was not raw, whatever is said."""
    return DROPPED_DONE if seen.state.at("pull") is not None else what


def _ends(visit: Visit, seen: Situation, problem: str) -> tuple[Report, ...]:
    if problem not in seen.state.troubles:
        return ()
    return (_report(visit, seen, Troubled(problem=problem, over=True)),)


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
