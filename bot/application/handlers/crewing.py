"""What is said about people of a cook: roles, who left, who is here. Who may say so was settled before.

Facts are written by the engine; words are made in `bot.messages`.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.handlers import crewing_claims, crewing_levers, crewing_relief, crewing_sound, crewing_watch
from bot.application.handlers.crewing_levers import to_alone
from bot.application.handlers.wishes import decided
from bot.application.manners import manner_of
from bot.application.private import rooms_of
from bot.application.rights import person_called, roles
from bot.application.turns import turn
from bot.application.visit import House, Visit, Work
from bot.application.writing import add_facts
from bot.chat import Incoming
from bot.crew import Person, Role
from bot.messages import crew, crew_people
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.messages.steps import step_words
from bot.messages.words import speaking
from bot.ports import CookSnapshot
from scheduler.cook import Refusal, Situation, assess
from scheduler.facts import Body, ClaimDropped, CrewRole, CrewTold, Fact, WatchesTold
from scheduler.planning.nights import lead_of, watches, watching

Said = (
    say.RoleSaid | say.LeftSaid | say.Claim | say.ClaimBack | say.HandOver | say.TakeWatch | say.DeclineWatch
    | say.CannotWatch | say.CallName
    | say.Nod | say.SafeDefault | say.LeverNo | say.SoundCheck | say.HeardIt
)  # fmt: skip


def handle(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.Intent) -> None:
    """Work on what is said about the crew of a running cook."""
    match said:
        case say.RoleSaid():
            _role(visit, work, snapshot, situation, said)
        case say.LeftSaid():
            left(visit, work, snapshot, situation, _called(said.name, visit))
        case say.Claim() | say.ClaimBack():
            crewing_claims.handle(visit, work, snapshot, situation, said)
        case say.HandOver() | say.TakeWatch() | say.DeclineWatch():
            crewing_watch.handle(visit, work, snapshot, situation, said)
        case say.CannotWatch():
            crewing_relief.cannot(visit, work, snapshot, situation)
        case say.CallName():
            crewing_relief.call(visit, work, snapshot, situation, said)
        case say.LeverNo():
            crewing_levers.no(visit, work, snapshot, situation, said)
        case say.SafeDefault():
            crewing_levers.safe_default(visit, work, snapshot, situation, said)
        case say.SoundCheck() | say.HeardIt():
            crewing_sound.handle(visit, work, snapshot, situation, said)
        case _:  # "k", or a step that only who takes the watch answers
            crewing_watch.handle(visit, work, snapshot, situation, say.Nod())


def _called(name: str, visit: Visit) -> str:
    return visit.person.name if name == "i" else name


def who_is_here(visit: Visit, situation: Situation) -> str:
    """Return everybody of the crew, and of the house on this transport, with roles."""
    people = {one.name: one for one in visit.house.store.people() if _near(one, visit)}
    state = situation.state
    told = [*state.crew, *(name for name, _start, _end in watches(state))]
    names = dict.fromkeys((*people, *told))
    rows = []
    for name in names:
        known = people.get(name) or Person(id="", name=name, role=Role.WATCH)
        rows.append((name, roles(known, situation)))
    return crew.who_is_here(rows, situation, visit.voice(situation))


def _near(person: Person, visit: Visit) -> bool:
    return person.id.split(":")[0] == visit.address.transport


# --- roles ----------------------------------------------------------------------------------------------------------


def _role(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.RoleSaid) -> None:
    name = _called(said.name, visit)
    if said.role is Role.OWNER:
        reply(visit, work, situation, Message(text=crew_people.not_the_owner()))
        return
    role = CrewRole(said.role.value)
    bodies = _dropped(name, role) if said.dropped else told_roles(visit, situation, name, role)
    result = decided(visit, snapshot, *bodies)
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, visit.voice(situation))))
        return
    done = turn(snapshot.facts, result, visit=visit)
    person = person_called(visit.house.store, name) or Person(id="", name=name, role=Role.GUEST)
    held = roles(person, done.after)
    if said.dropped:
        text = crew_people.no_longer(name, said.role, (one for one in held if done.after.state.crew.get(name)))
    else:
        reachable = bool(rooms_of(visit.house.store, name)) or said.role in {Role.HELPER, Role.GUEST}
        text = crew_people.told_role(name, held, said.role, reachable=reachable)
    answer(visit, work, snapshot, done, asks=Message(text=text), others=Message(text=""))
    if name != visit.person.name and not said.dropped and rooms_of(visit.house.store, name):
        by = visit.person.name
        told = crew_people.you_are
        to_alone(visit, work, snapshot, situation, name, lambda _v: Message(text=told(held, said.role, by)), key="role")


def _dropped(name: str, role: CrewRole) -> tuple[Body, ...]:
    return (CrewTold(name=name, role=role, dropped=True),)


def told_roles(visit: Visit, situation: Situation, name: str, role: CrewRole) -> tuple[Body, ...]:
    """Return what makes somebody this beside what they were: a watch who carves stays the watch, whoever leads stays
    the lead, and there is one fire lead.
    """
    state, bodies = situation.state, list[Body]()
    person = person_called(visit.house.store, name)
    if not state.crew.get(name):
        stays = name == lead_of(situation.state)
        if stays and role is not CrewRole.FIRE_LEAD:
            bodies.append(CrewTold(name=name, role=CrewRole.FIRE_LEAD))
        elif person is not None and person.role in {Role.WATCH, Role.CARVER, Role.HOST, Role.FOOD_HANDLER}:
            bodies.append(CrewTold(name=name, role=CrewRole(person.role.value)))
    if role is CrewRole.FIRE_LEAD:
        before = [one for one, held in state.crew.items() if CrewRole.FIRE_LEAD in held and one != name]
        bodies += [CrewTold(name=one, role=CrewRole.FIRE_LEAD, dropped=True) for one in before]
        was = lead_of(situation.state)
        if was is not None and was != name:
            bodies.append(CrewTold(name=was, role=CrewRole.WATCH))
    new = CrewTold(name=name, role=role)
    return (*(one for one in bodies if one != new), new)


# --- leaving --------------------------------------------------------------------------------------------------------


def left(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, name: str) -> None:
    """Somebody has gone: their roles, claims and watches are withdrawn, and what is without an owner is named."""
    state = situation.state
    known = name in state.crew or any(one == name for one, _start, _end in watches(state))
    claimed = _claimed(situation, name)
    on_watch = state.watch_holder(visit.now) == name
    if not (known or claimed or on_watch or person_called(visit.house.store, name)):
        reply(visit, work, situation, Message(text=crew_people.nobody_of_that_name(name)))
        return
    bodies: list[Body] = [CrewTold(name=name, role=role, dropped=True) for role in sorted(state.crew.get(name, ()))]
    bodies += [ClaimDropped(step=step) for _piece, step in claimed]
    if state.watches is not None and any(one.name == name for one in state.watches.watches):
        rest = tuple(one for one in state.watches.watches if one.name != name)
        bodies.append(WatchesTold(watches=rest, quiet=state.watches.quiet))
    result = decided(visit, snapshot, *bodies) if bodies else None
    lead = lead_of(situation.state)
    following = lead if lead != name else None
    without = [step_words(step).name for _piece, step in claimed]
    text = crew_people.left(name, without, following, watch=on_watch)
    if result is None or isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=text))
        return
    answer(visit, work, snapshot, turn(snapshot.facts, result, visit=visit), asks=Message(text=text),
           others=lambda _voice: Message(text=text))  # fmt: skip


def _claimed(situation: Situation, name: str) -> list[tuple[str, str]]:
    """Return (piece, step) of everything that somebody has claimed."""
    return [
        (view.piece, step) for view in situation.views for step, one in view.state.claims.items() if one.name == name
    ]


def gone_silent(house: House, incoming: Incoming, work: Work, *, seed: str) -> None:
    """Somebody has blocked their private chat: their claims are free, and whoever leads hears what nobody has now."""
    person = None if incoming.group else house.store.person(f"{incoming.address.transport}:{incoming.sender}")
    if person is None:
        return
    for cook in house.store.open_cooks(incoming.address):
        snapshot = house.store.cook(cook)
        if snapshot is None:
            continue
        situation = assess(snapshot.facts, house.catalogue, work.now)
        mine = [
            (v.piece, step) for v in situation.views for step, one in v.state.claims.items() if one.name == person.name
        ]
        holds = watching(situation.state, work.now) == person.name
        if not mine and not holds:
            continue
        facts = tuple(
            Fact(
                id=f"{seed}.gone{number}", cook=cook, piece=piece, happened_at=work.now, recorded_at=work.now,
                by=person.name, body=ClaimDropped(step=step),
            )
            for number, (piece, step) in enumerate(mine)
        )  # fmt: skip
        if facts:
            add_facts(work.cooks, snapshot, *facts, catalogue=house.catalogue)
        _tell_gone(house, work, snapshot, situation, person.name, [step for _piece, step in mine], holds=holds)


def _tell_gone(
    house: House, work: Work, snapshot: CookSnapshot, situation: Situation, name: str, steps: list[str], *, holds: bool
) -> None:  # fmt: skip
    lead = lead_of(situation.state)
    rooms = rooms_of(house.store, lead) if lead not in {None, name} else ()
    for room in rooms or tuple(one for one in snapshot.rooms if f"{one.transport}:{one.chat}" != f"telegram:{name}"):
        manner = manner_of(house.store, room)
        with speaking(manner.language):
            what = [step_words(step).name for step in steps]
            text = crew_people.gone_silent(name, what, holds=holds)
            work.say(Message(text=text), to=room, key=f"gone:{snapshot.id}:{snapshot.version}", cook=snapshot.id)
