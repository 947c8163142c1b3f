"""A decision of somebody who may not take it becomes a question to whoever does; and what they answer.

Until it is answered nothing changes; past the deadline only the safe default may be done.
"""

from __future__ import annotations

from collections.abc import Callable

from bot import commands as say
from bot.application.announcements import reply
from bot.application.manners import manner_of, voice_of
from bot.application.private import rooms_of
from bot.application.rights import Lacking, allowed, decider, lever_of, only_guest, roles
from bot.application.visit import Visit, Work
from bot.application.writing import add_facts, cook_write
from bot.chat import Address
from bot.crew import Right
from bot.messages import crew, crew_asked
from bot.messages.crew_asked import asked_text, lever_text
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.words import speaking
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Report, Situation, decide
from scheduler.facts import Body, Fact, LeverAsked, LeverDeclined, RanOut
from scheduler.planning.advice.deciding import default_allowed, lever_asked, question
from scheduler.planning.advice.moment import moment
from scheduler.planning.nights import is_quiet, lead_of, watching
from scheduler.state import FIRST

_PASSED_ON = frozenset(
    {
        "take_lever", "move_pit", "choose_plan", "change_plan", "move_dinner", "guests", "wrap", "done", "skip",
        "back_on", "rest_wish", "target", "sure", "add_piece", "drop_piece", "trouble", "kind_of_step", "watches",
    }
)  # fmt: skip
"""What is asked in place of whoever said it; anything else is refused kindly."""

_GUESTS_TOO = frozenset({"trouble"})
"""What is passed on although a guest said it: something is wrong."""

_UNCONFIRMED = frozenset({"report", "feel", "air", "fuel", "done", "not_yet", "wrap"})
"""What a guest saw: told to whoever has the watch, and taken from nobody but them."""


def refused(visit: Visit, situation: Situation, missing: Lacking) -> Message:
    """Say kindly that somebody may not do this, and who may."""
    held = roles(visit.person, situation)
    return Message(text=crew.may_not(held, missing.right, decider(missing.right, situation, visit.now)))


def pass_on(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, missing: Lacking) -> Message:
    """Ask whoever decides, and return what is said about it; or refuse kindly, and say who may."""
    asked = _asked(missing, visit, situation)
    who = None if asked is None else asked.decider
    held = roles(visit.person, situation)
    if only_guest(held) and missing.intent.kind in _UNCONFIRMED:
        return _unconfirmed(visit, work, snapshot, situation)
    guest = only_guest(held) and missing.intent.kind not in _GUESTS_TOO
    if asked is None or who is None or who == visit.person.name or guest or missing.intent.kind not in _PASSED_ON:
        return Message(text=crew.may_not(held, missing.right, who))
    fact = Fact(
        id=f"{visit.seed}.asked",
        cook=snapshot.id,
        piece=FIRST,
        happened_at=visit.now,
        recorded_at=visit.now,
        by=visit.person.name,
        message=visit.incoming.message,
        body=asked,
    )
    add_facts(work.cooks, snapshot, fact, catalogue=visit.house.catalogue)
    name, typed = visit.person.name, visit.incoming.text

    def question(there: Voice) -> Message:
        what, default = asked_text(missing.intent, typed, there), crew.safe_default(asked.default)
        text = crew.asked_to_decide(what, name, there.clock(asked.until), default)
        yes = say.Agreed(lever=asked.lever, wanted=missing.intent)
        return Message(text=text, choices=(((crew.yes(), yes), (crew.no(), say.LeverNo(lever=asked.lever))),))

    voice = visit.voice(situation)
    what = asked_text(missing.intent, typed, voice)
    told = lever_of(missing.intent, situation) is None and missing.right in {Right.REPORT, Right.TEND}
    words = crew.asked_to_confirm if told else crew.asked_for
    own = words(what, who, voice.clock(asked.until), crew.safe_default(asked.default))
    here = visit.incoming.group and not rooms_of(visit.house.store, who)
    if here:  # whoever decides reads this room, too
        return Message(text=own).then(question(voice))
    loud = missing.intent.kind == "trouble"
    to_alone(visit, work, snapshot, situation, who, question, loud=loud)
    return Message(text=own)


def _unconfirmed(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation) -> Message:
    """Bring what a guest saw to whoever has the watch, as a word that nobody has checked; nothing of it is taken."""
    who = watching(situation.state, visit.now) or lead_of(situation.state)
    if who is None or who == visit.person.name:
        return Message(text=crew.may_not(roles(visit.person, situation), Right.REPORT, who))
    name, typed = visit.person.name, visit.incoming.text
    to_alone(
        visit, work, snapshot, situation, who, lambda _v: Message(text=crew_asked.unconfirmed(name, typed)), key="guest"
    )
    return Message(text=crew_asked.told_on(who))


def _asked(missing: Lacking, visit: Visit, situation: Situation) -> LeverAsked | None:
    """Return the question that waits, as the engine has it; None when nobody is known who decides."""
    intent = missing.intent
    named = getattr(intent, "piece", None)
    seen = situation.seen_from(named) if named in {view.piece for view in situation.views} else situation
    at = moment(seen.state, seen.cut, seen.outlook, visit.now)
    lever = lever_of(intent, situation)
    if lever is not None:
        return lever_asked(lever, visit.person.name, at)
    who = decider(missing.right, situation, visit.now)
    return None if who is None else question(intent.kind, who, at, wraps=intent.kind == "wrap")


def to_alone(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, who: str,
    words: Callable[[Voice], Message], *, key: str = "lever", loud: bool = False,
) -> None:  # fmt: skip
    """Say something to somebody alone, by sound unless it is quiet; without a private room, where the cook is."""
    rooms: tuple[Address, ...] = rooms_of(visit.house.store, who) or snapshot.rooms
    for room in rooms:
        if room == visit.address and not visit.incoming.group:
            continue
        manner = manner_of(visit.house.store, room)
        with speaking(manner.language):
            message = words(voice_of(situation, visit.now, manner))
            quiet = is_quiet(situation.state, visit.now) and not loud
            work.say(message, to=room, key=f"{key}:{visit.row_id}", cook=snapshot.id, silent=quiet)


def _write(visit: Visit, work: Work, snapshot: CookSnapshot, body: Body) -> Changes | None:
    """Write one fact of the crew; None when it cannot be."""
    report = Report(body=body, happened_at=visit.now, by=visit.person.name, message=visit.incoming.message)
    result = decide(snapshot.facts, (report,), now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if not isinstance(result, Changes):
        return None
    work.cooks.append(cook_write(result.after, result.facts, version=snapshot.version))
    return result


# --- the answer -----------------------------------------------------------------------------------------------------


def no(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.LeverNo) -> None:
    """Whoever decides says no: everything stays as it is, and whoever asked hears it."""
    waiting = situation.state.levers_asked.get(said.lever)
    if waiting is None:
        reply(visit, work, situation, Message(text=when_settled(snapshot, said.lever, visit.voice(situation))))
        return
    if not decides(visit, situation, waiting.decider):
        reply(visit, work, situation, Message(text=crew.not_yours(waiting.decider)))
        return
    _write(visit, work, snapshot, LeverDeclined(lever=said.lever))
    what = lever_text(said.lever)
    reply(visit, work, situation, Message(text=crew.declined(what, visit.person.name)))
    if waiting.by is not None:
        name = visit.person.name
        to_alone(visit, work, snapshot, situation, waiting.by, lambda _v: Message(text=crew.declined(what, name)))


def safe_default(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.SafeDefault) -> None:
    """The watch does the safe thing in place of what nobody decided, once the deadline has passed."""
    waiting, voice = situation.state.levers_asked.get(said.lever), visit.voice(situation)
    if waiting is None:
        reply(visit, work, situation, Message(text=when_settled(snapshot, said.lever, voice)))
    elif visit.now < waiting.until:
        reply(visit, work, situation, Message(text=crew.only_later(voice.clock(waiting.until), waiting.decider)))
    elif not default_allowed(waiting, visit.person.name, situation.state, visit.now):
        reply(visit, work, situation, Message(text=crew.not_yours(waiting.decider)))
    else:
        _write(visit, work, snapshot, LeverDeclined(lever=said.lever))
        reply(visit, work, situation, Message(text=crew.default_done(waiting.default)))


def decides(visit: Visit, situation: Situation, who: str) -> bool:
    """Return whether somebody may answer in place of, or is, whoever is asked: those who lead may."""
    return visit.person.name == who or allowed(visit.person, situation, Right.DECIDE)


def agree(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.Agreed, do: Callable[[], None]
) -> None:
    """Whoever decides says yes: it is done as if they had said it themselves, and whoever asked hears it."""
    waiting = situation.state.levers_asked.get(said.lever)
    if waiting is None:
        reply(visit, work, situation, Message(text=when_settled(snapshot, said.lever, visit.voice(situation))))
        return
    if not decides(visit, situation, waiting.decider):
        reply(visit, work, situation, Message(text=crew.not_yours(waiting.decider)))
        return
    do()
    if not work.cooks:
        return  # it cannot be, and why was said
    name = visit.person.name
    body = RanOut(what="lever", about=said.lever, reason=f"agreed:{name}")
    settled = Fact(
        id=f"{visit.seed}.agreed", cook=snapshot.id, piece=FIRST, happened_at=visit.now, recorded_at=visit.now, by=None,
        body=body,
    )  # fmt: skip
    add_facts(work.cooks, snapshot, settled, catalogue=visit.house.catalogue)
    told = {row.outgoing.address for row in work.outbox if row.outgoing.text}
    if waiting.by is not None and not told.intersection(rooms_of(visit.house.store, waiting.by)):
        to_alone(
            visit, work, snapshot, situation, waiting.by,
            lambda there: Message(text=crew.agreed(asked_text(said.wanted, "", there), name)),
        )  # fmt: skip


def when_settled(snapshot: CookSnapshot, lever: str, voice: Voice) -> str:
    """Return when a question that waits no more was settled, and by whom."""
    for fact in reversed(snapshot.facts):
        match fact.body:
            case LeverDeclined(lever=name) if name == lever:
                return crew.settled(voice.clock(fact.happened_at), fact.by)
            case RanOut(what="lever", about=name, reason=reason) if name == lever:
                who = reason.removeprefix("agreed:") if reason.startswith("agreed:") else None
                return crew.settled(voice.clock(fact.happened_at), who)
            case _:
                continue
    return crew.nothing_asked()
