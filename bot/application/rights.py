"""The one gate of rights: what somebody is in a cook, and what of their words they may not decide.

Reads a situation and people; makes no words and writes nothing.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot import commands as say
from bot.application.visit import Visit
from bot.crew import Person, Right, Role, Roles, may, roles_in
from bot.ports import Store
from scheduler.cook import Situation
from scheduler.facts import CrewRole
from scheduler.planning.advice.deciding import may_decide
from scheduler.planning.nights import lead_of, watches, watching
from scheduler.planning.remedies import Decides, Lever

_OPEN_ENDED = (say.Done, say.Skip, say.NotYet, say.Claim)
"""What may name no step: then it is about what is open."""


_OF_LEVERS: dict[Decides, Right] = {
    "anyone": Right.REPORT,
    "watch": Right.TEND,
    "host": Right.DINNER,
    "carver": Right.SLICE,
    "fire_lead": Right.DECIDE,
}
"""Who decides about a lever in the catalogue -> the right of it."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Lacking:
    """Something that was said, and the right to it that is missing."""

    intent: say.Intent
    right: Right


def roles(person: Person, situation: Situation | None) -> Roles:
    """Return what somebody is in a cook, as told there, or in the house while no cook is meant."""
    if situation is None:
        return roles_in(person, ())
    state = situation.state
    on_list = {name for name, _start, _end in watches(state)} | {one.name for one in state.takings}
    told = state.crew.get(person.name, frozenset())
    if person.name in state.company.dropped:
        told = frozenset({CrewRole.GUEST})
    return roles_in(person, told, watches=person.name in on_list)


def allowed(person: Person, situation: Situation | None, right: Right) -> bool:
    """Return whether somebody may do this in a cook."""
    return may(roles(person, situation), right)


def lacking(visit: Visit, situation: Situation | None, wanted: tuple[say.Intent, ...]) -> tuple[Lacking, ...]:
    """Return what of a text, or of a button, its sender may not do; discarding is passed on where it is handled."""
    held = roles(visit.person, situation)
    asked = [(one, _right(_about(one, situation), situation)) for one in wanted if not isinstance(one, say.Discard)]
    asked += [(one, _right(one.wanted, situation)) for one in wanted if isinstance(one, say.Agreed)]
    by_name = visit.person.name
    return tuple(
        Lacking(intent=one, right=right)
        for one, right in asked
        if not may(held, right) and not _decides_by_name(one, by_name, situation, visit.now)
    )


def lever_of(intent: say.Intent, situation: Situation | None) -> Lever | None:
    """Return the lever of the catalogue that is to be taken, None when it is no lever."""
    if situation is None or not isinstance(intent, say.TakeLever):
        return None
    levers = situation.catalogue.remedies.levers
    return next((lever for lever in levers if lever.id == intent.lever), None)


def _right(intent: say.Intent, situation: Situation | None) -> Right:
    """Return the right that an intent needs; that of a lever is said in the catalogue."""
    lever = lever_of(intent, situation)
    return say.needs(intent) if lever is None else _OF_LEVERS[lever.decides]


def _decides_by_name(intent: say.Intent, name: str, situation: Situation | None, at: dt.datetime) -> bool:
    """Return whether somebody is one of those who decide about a lever in this cook at this hour."""
    lever = lever_of(intent, situation)
    return lever is not None and situation is not None and may_decide(lever, name, situation.state, at)


def _about(intent: say.Intent, situation: Situation | None) -> say.Intent:
    """Return an intent with the step that it is about where it names none."""
    if isinstance(intent, _OPEN_ENDED) and intent.step is None and situation is not None and situation.waiting:
        return intent.model_copy(update={"step": situation.waiting[0].step.id})
    return intent


def decider(right: Right, situation: Situation, at: dt.datetime) -> str | None:
    """Return who is asked for what somebody else may not decide: whoever has the role of it or the watch, else the
    fire lead.
    """
    if right in {Right.REPORT, Right.TEND}:
        return watching(situation.state, at) or lead_of(situation.state)
    role = {Right.DINNER: CrewRole.HOST, Right.SLICE: CrewRole.CARVER, Right.DISCARD: CrewRole.FOOD_HANDLER}.get(right)
    held = [name for name, of in situation.state.crew.items() if role is not None and role in of]
    return held[-1] if held else lead_of(situation.state)


def person_called(store: Store, name: str | None) -> Person | None:
    """Return somebody by name, None when nobody known is called so."""
    if name is None:
        return None
    return next((one for one in store.people() if one.name.casefold() == name.casefold()), None)


def only_guest(held: Roles) -> bool:
    """Return whether somebody is a guest and nothing else."""
    return held == frozenset({Role.GUEST})
