"""Who hears what: for each room of a cook and each message loud, silent or nothing. Pure; makes no words.

A stop goes to every room by sound; that is settled where it is said, and nothing here can soften it.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Container, Iterable
from enum import StrEnum

from bot.application.manners import Manner, manner_among
from bot.application.rights import roles
from bot.chat import Address
from bot.crew import Person, Role, Roles
from bot.ports import CookSnapshot, Store
from scheduler.cook import Changes, Event, Found, Over, Shifted, Situation, TripDue
from scheduler.facts import (
    AirTold,
    ClaimDropped,
    Claimed,
    Fact,
    FuelTold,
    GuestsTold,
    Noted,
    PutOff,
    Reading,
    ServingMoved,
    SoundHeard,
    StepDone,
)
from scheduler.planning.escalation import whom
from scheduler.planning.nights import is_quiet, lead_of, on_duty, watches, watching
from scheduler.planning.prompts import EscalationLevel, Prompt
from scheduler.planning.steps import Step
from scheduler.planning.trips import Trip


class Loudness(StrEnum):
    """How a message comes to a room."""

    LOUD = "loud"
    SILENT = "silent"
    """Without a sound: it can wait until somebody looks."""
    NOTHING = "nothing"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Listener:
    """One room that follows a cook: how it is spoken to, and whose it is."""

    room: Address
    manner: Manner
    group: bool = False
    person: Person | None = None
    """Whose private room it is; None for a group, or while nobody knows."""
    roles: Roles = frozenset()
    """What that person is in the cook."""
    active: bool = True
    """False where the program was thrown out, or blocked: what is said there waits until it comes back."""

    @property
    def name(self) -> str | None:
        """Return the name of whoever sits in a private room."""
        return None if self.person is None else self.person.name

    @property
    def leads_or_watches(self) -> bool:
        """Return whether a private room is of somebody who looks after the fire; one of nobody known counts, too."""
        return not self.group and (self.person is None or bool(self.roles & AT_THE_FIRE))


AT_THE_FIRE = frozenset({Role.OWNER, Role.FIRE_LEAD, Role.WATCH})
"""Who looks after the fire."""

_OWN: dict[Role, frozenset[str]] = {
    Role.HELPER: frozenset({"clean_cooker", "stage_kit", "raw_cleanup", "box_ready", "two_hour", "leftovers"}),
    Role.CARVER: frozenset({"board_ready", "serve_reading", "slice", "carver_call"}),
    Role.HOST: frozenset({"t_minus", "eta_note", "sides", "two_hour", "rules_site", "headcount", "wash_up"}),
    Role.FOOD_HANDLER: frozenset({"two_hour", "leftovers", "cool_check", "serve_reading", "leftover_expire"}),
    Role.GUEST: frozenset(),
}
"""Steps that people hear of who look after no fire; those that the catalogue gives to their role come to these."""

_ROUTINE = (Reading, PutOff, Noted, FuelTold, AirTold, Claimed, ClaimDropped, SoundHeard)
"""What nobody but the watch has to know at night."""

_SMALL = frozenset(
    {"spritz", "wood_add", "water_pan", "refuel", "rotate", "pit_check", "core_read", "fuel_check", "first_look"}
)
"""Steps that the watch does by itself: at night nobody else has to know."""

_OWNERS = {"helper": Role.HELPER, "carver": Role.CARVER, "host": Role.HOST}
"""Owner of a step in the catalogue -> role."""


# --- who listens ----------------------------------------------------------------------------------------------------


def listeners(
    store: Store, rooms: Iterable[Address], situation: Situation | None = None, beside: str | None = None
) -> tuple[Listener, ...]:
    """Return who listens in these rooms, each once, in order; with a `situation` also the private rooms of its crew on
    the transports of these rooms, and of one `beside`.
    """
    known = store.rooms()
    grouped = {room.address for room in known if room.group}
    people = {person.id: person for person in store.people()}
    where = list(dict.fromkeys(rooms))
    if situation is not None:
        crew, transports = crew_names(situation), {beside, *(room.transport for room in where)}
        for room in known:
            owner = people.get(f"{room.address.transport}:{room.address.chat}")
            mine = owner is not None and owner.name in crew and room.active and not room.group
            if mine and room.address.transport in transports and room.address not in where:
                where.append(room.address)
    gone = {(room.address.transport, room.address.chat) for room in known if not room.active}
    found = (_listener(room, manner_among(known, room), grouped, people, situation) for room in where)
    return tuple(dataclasses.replace(one, active=(one.room.transport, one.room.chat) not in gone) for one in found)


def in_a_group(everybody: Iterable[Listener]) -> bool:
    """Return whether a group hears of a cook: one that the program was thrown out of does not."""
    return any(one.group and one.active for one in everybody)


def _listener(
    room: Address, manner: Manner, grouped: set[Address], people: dict[str, Person], situation: Situation | None
) -> Listener:
    group = room in grouped or dataclasses.replace(room, thread=None) in grouped
    person = None if group else people.get(f"{room.transport}:{room.chat}")
    held = frozenset[Role]() if person is None else roles(person, situation)
    return Listener(room=room, manner=manner, group=group, person=person, roles=held)


def beside_rooms(store: Store, snapshot: CookSnapshot) -> tuple[Address, ...]:
    """Return the rooms of the other open cooks that share a room with one: danger is heard there, too."""
    others = {other for room in snapshot.rooms for other in store.open_cooks(room) if other != snapshot.id}
    found = [cook for one in sorted(others) if (cook := store.cook(one)) is not None]
    return tuple(dict.fromkeys(room for cook in found for room in cook.rooms))


def crew_names(situation: Situation) -> frozenset[str]:
    """Return the names of everybody who is somebody in a cook: who leads, watches, took over, or was told a role."""
    state = situation.state
    named = {name for name, _start, _end in watches(state)} | {one.name for one in state.takings} | set(state.crew)
    return frozenset(named | {name for name in (lead_of(situation.state),) if name is not None})


# --- what is due ----------------------------------------------------------------------------------------------------


def is_theirs(prompt: Prompt, roles_held: Roles) -> bool:
    """Return whether a prompt is the business of somebody in these roles who looks after no fire."""
    return step_is_theirs(prompt.step, roles_held)


def step_is_theirs(step: Step, roles_held: Roles) -> bool:
    """Return whether a step is the business of somebody in these roles who looks after no fire."""
    return _OWNERS.get(step.owner) in roles_held or any(step.id in _OWN.get(role, ()) for role in roles_held)


def heard_by(listener: Listener, changes: Changes) -> Changes:
    """Return what of the changes is the business of a room: all of it in groups and of those at the fire, of the
    others their own steps, and of the host what becomes of dinner.
    """
    changes = _card_once(listener, changes)
    if listener.group or listener.leads_or_watches:
        return changes
    return dataclasses.replace(changes, events=tuple(one for one in _theirs(listener, changes) if one is not None))


def answered_by(listener: Listener, everybody: tuple[Listener, ...], changes: Changes) -> Changes:
    """Return changes as somebody is answered who told something: of what is due only their own steps, and no card of a
    handover that somebody else has in a room of their own.
    """
    changes = _card_once(listener, changes)
    if listener.group or listener.leads_or_watches:
        return _without_cards(listener, everybody, changes)
    own = [one for one in _theirs(listener, changes) if isinstance(one, TripDue)]
    return dataclasses.replace(changes, events=(*(e for e in changes.events if not isinstance(e, TripDue)), *own))


def _without_cards(listener: Listener, everybody: tuple[Listener, ...], changes: Changes) -> Changes:
    private = {one.name for one in everybody if one.name is not None}

    def here(prompt: Prompt) -> bool:
        called = () if prompt.escalation is None else prompt.escalation.names
        elsewhere = bool(called) and all(name in private and name != listener.name for name in called)
        return prompt.step.id != "handover" or not elsewhere

    events: list[Event] = []
    for event in changes.events:
        if not isinstance(event, TripDue):
            events.append(event)
        elif kept := tuple(prompt for prompt in event.trip.prompts if here(prompt)):
            events.append(TripDue(trip=dataclasses.replace(event.trip, prompts=kept)))
    return dataclasses.replace(changes, events=tuple(events))


def _card_once(listener: Listener, changes: Changes) -> Changes:
    """Return changes with the card of a handover in full only where it comes for the first time."""
    events = tuple(
        TripDue(trip=dataclasses.replace(one.trip, brief=not _first_card(listener, one.trip)))
        if isinstance(one, TripDue)
        else one
        for one in changes.events
    )
    return dataclasses.replace(changes, events=events)


def _first_card(listener: Listener, trip: Trip) -> bool:
    """Return whether a room has not seen the card of this handover: it was not asked yet, or calls other people now."""
    found = next((prompt for prompt in trip.prompts if prompt.step.id == "handover"), None)
    if found is None or found.asked == 0 or found.escalation is None:
        return True
    if listener.group:
        return found.escalation.level is EscalationLevel.GROUP and found.asked <= _LAST_STAGE
    return listener.name not in found.escalation.before


_LAST_STAGE = 2
"""So often something was asked when everybody is called for the first time."""


def _theirs(listener: Listener, changes: Changes) -> Iterable[Event | None]:
    for event in changes.events:
        match event:
            case TripDue(trip=trip) if listener.name in trip.wakes:
                yield event  # they are called by name
            case TripDue(trip=trip):
                own = tuple(prompt for prompt in trip.prompts if is_theirs(prompt, listener.roles))
                yield TripDue(trip=dataclasses.replace(trip, prompts=own, cautions=())) if own else None
            case Shifted():
                yield event if Role.HOST in listener.roles else None
            case Over():
                yield event
            case Found():
                yield event if Role.FOOD_HANDLER in listener.roles else None
            case _:
                yield None


def of_a_trip(
    listener: Listener, everybody: tuple[Listener, ...], trip: Trip | None, situation: Situation, *, urgent: bool
) -> Loudness:
    """Return how what is due comes to a room.

    By day the group hears it, or the private room of its owner by sound and those of the others at the fire without;
    at night only those who are woken, and the group when nobody else is left. Whatever is `urgent` is loud for those at
    the fire. `trip` None: something moved, or passed unasked.
    """
    fire = listener.group or listener.leads_or_watches
    quiet = is_quiet(situation.state, situation.state.as_of)
    if trip is not None and trip.wakes and quiet:
        return _at_night(listener, everybody, trip, situation)
    if urgent and fire:
        return Loudness.LOUD
    if trip is not None and all(prompt.silent for prompt in trip.prompts):
        return Loudness.SILENT if fire else Loudness.NOTHING
    grouped = in_a_group(everybody)
    if quiet and trip is None:
        return Loudness.SILENT if listener.leads_or_watches else Loudness.NOTHING
    if not fire:
        owns = trip is not None and any(_OWNERS.get(one.step.owner) in listener.roles for one in trip.prompts)
        return Loudness.LOUD if owns and not grouped and not quiet else Loudness.SILENT
    if grouped:
        return (Loudness.LOUD if not quiet else Loudness.SILENT) if listener.group else Loudness.NOTHING
    return Loudness.LOUD if listener in _owners(everybody, trip, situation) else Loudness.SILENT


def _at_night(listener: Listener, everybody: tuple[Listener, ...], trip: Trip, situation: Situation) -> Loudness:
    """Return how a message comes to a room that wakes somebody: to those who are woken, and to nobody else.

    One telephone rings once: when the group is called it rings, and the rooms of its people keep still; only about
    safety also the room of whoever is called for the first time rings, for a group may be muted.
    """
    reached = {one.name for one in everybody if one.name in trip.wakes and one.active}
    unreached = [name for name in trip.wakes if name not in reached]
    everyone = _everybody(trip)
    grouped = in_a_group(everybody)
    if listener.group:
        return Loudness.LOUD if unreached or everyone else Loudness.NOTHING
    if listener.name in trip.wakes:
        twice = grouped and everyone and not _rings_anyway(listener, trip)
        return Loudness.SILENT if twice else Loudness.LOUD
    state = situation.state
    if listener.name in _passed_over(trip) & {on_duty(state, state.as_of), watching(state, state.as_of)}:
        return Loudness.SILENT  # theirs all the same, should they be up
    if (unreached and not grouped and not reached) or (everyone and not grouped):
        return Loudness.LOUD if listener.leads_or_watches else Loudness.NOTHING
    return Loudness.NOTHING


def unheard(everybody: tuple[Listener, ...], reached: Container[Address]) -> tuple[Listener, ...]:
    """Return who hears what is due after all when no living room was reached by it: the groups and those at the fire,
    else everybody. Nothing that is due goes out to nobody.
    """
    living = tuple(one for one in everybody if one.active)
    if any(one.room in reached for one in living):
        return ()
    return tuple(one for one in living if one.group or one.leads_or_watches) or living


def _passed_over(trip: Trip) -> frozenset[str]:
    """Return who would have been called and cannot be woken."""
    return frozenset(name for one in trip.prompts if one.escalation is not None for name in one.escalation.skipped)


def _rings_anyway(listener: Listener, trip: Trip) -> bool:
    """Return whether somebody is called for the first time, about safety."""
    found = [one.escalation for one in trip.prompts if one.step.safety and one.escalation is not None]
    return any(listener.name in one.names for one in found)


def _everybody(trip: Trip) -> bool:
    """Return whether nobody answered so long that everybody is called."""
    return any(one.escalation is not None and one.escalation.level is EscalationLevel.GROUP for one in trip.prompts)


def owners_of(trip: Trip, situation: Situation) -> tuple[str, ...]:
    """Return whose the prompts of a trip are, by name; nobody is named where only one person is known."""
    if len({*situation.state.people, *crew_names(situation)}) < 2:  # noqa: PLR2004 - one person knows who is meant
        return ()
    return _names(trip, situation)


def _names(trip: Trip | None, situation: Situation) -> tuple[str, ...]:
    """Return the names of those whose business it is, each once, in order."""
    lead = lead_of(situation.state)
    prompts = () if trip is None else trip.prompts
    named = [lead] if trip is None else [name for prompt in prompts for name in _of_one(prompt, situation, lead)]
    return tuple(dict.fromkeys(name for name in named if name is not None))


def _owners(everybody: tuple[Listener, ...], trip: Trip | None, situation: Situation) -> tuple[Listener, ...]:
    """Return the private rooms of those whose business it is, the first at the fire when nobody's room is known."""
    names = _names(trip, situation)
    found = tuple(one for one in everybody if one.name is not None and one.name in names)
    fire = tuple(one for one in everybody if one.leads_or_watches and one.active)
    return found or fire[:1]


def _of_one(prompt: Prompt, situation: Situation, lead: str | None) -> tuple[str | None, ...]:
    """Return whose a prompt is, as the board names it, too."""
    state = situation.view(prompt.piece).state
    return whom(prompt, state, state.as_of) or (lead,)


def alarmed(listener: Listener, everybody: tuple[Listener, ...], after: Situation) -> bool:
    """Return whether a room is told loudly that the fire goes wrong: whoever leads or watches at any hour; the group by
    day, and at night where nobody else would hear it.
    """
    if not listener.group:
        return listener.leads_or_watches
    living = any(one.leads_or_watches and one.active and not one.group for one in everybody[1:])
    return not living or not is_quiet(after.state, after.state.as_of)


# --- what somebody did ----------------------------------------------------------------------------------------------


def of_an_echo(
    listener: Listener, everybody: tuple[Listener, ...], after: Situation, facts: tuple[Fact, ...], *, urgent: bool
) -> Loudness:
    """Return how what somebody did is told in the other rooms: never by sound unless people are in danger, and only
    where it is needed. `facts` are those that came of it.
    """
    if urgent:
        return Loudness.LOUD
    grouped = in_a_group(everybody)
    quiet = is_quiet(after.state, after.state.as_of)
    if listener.group:
        return Loudness.NOTHING if quiet else Loudness.SILENT
    if not listener.leads_or_watches:
        dinner = any(isinstance(fact.body, ServingMoved | GuestsTold) for fact in facts)
        return Loudness.SILENT if dinner and Role.HOST in listener.roles else Loudness.NOTHING
    if grouped and not quiet:
        return Loudness.NOTHING
    on_watch = listener.name is not None and listener.name == watching(after.state, after.state.as_of)
    if not quiet or on_watch or listener.person is None:
        return Loudness.SILENT
    leads = bool(listener.roles & {Role.OWNER, Role.FIRE_LEAD}) or listener.name == lead_of(after.state)
    return Loudness.NOTHING if not leads or all(_is_routine(fact) for fact in facts) else Loudness.SILENT


def _is_routine(fact: Fact) -> bool:
    """Return whether nobody but the watch has to know of a fact at night."""
    small = isinstance(fact.body, StepDone) and fact.body.step in _SMALL
    return fact.by is None or small or isinstance(fact.body, _ROUTINE)
