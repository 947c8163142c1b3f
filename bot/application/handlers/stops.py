"""What is said about a stop: thrown away, read again, waved off. A stop is ended here by nobody but who may discard."""

from __future__ import annotations

import datetime as dt

from bot import commands as say
from bot.application.announcements import answer, reply
from bot.application.manners import manner_of
from bot.application.rights import allowed
from bot.application.turns import turn
from bot.application.visit import Visit, Work
from bot.application.writing import cook_write
from bot.crew import Right
from bot.messages import stops
from bot.messages.message import Message
from bot.messages.naming import piece_name, which_piece
from bot.messages.refusals import refusal_text
from bot.messages.words import _, speaking
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Refusal, Report, Situation, decide
from scheduler.facts import Discarded, Noted
from scheduler.state import Stage

Asked = say.Discard | say.ReadAgain | say.WaveOff


def handle(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: Asked) -> None:
    """Record discarding, say what to read, or say kindly what alone ends a stop."""
    seen = situation if said.piece is None else situation.seen_from(said.piece)
    voice = visit.voice(situation)
    match said:
        case say.Discard():
            _discard(visit, work, snapshot, situation, said)
        case say.ReadAgain():
            reply(visit, work, situation, Message(text=stops.read_again_text(seen, voice)))
        case say.WaveOff():
            stands = bool(stops.standing_stops(situation, voice))
            text = stops.only_a_number() if stands else stops.nothing_stands()
            _keep(visit, work, snapshot, situation, Message(text=text))


def _discard(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.Discard) -> None:
    """Record that food was thrown away, of the piece that is meant; who may not is thanked, and the lead is told."""
    pieces = _meant(situation, said, visit)
    if not allowed(visit.person, situation, Right.DISCARD):
        _passed_on(visit, work, snapshot, situation, pieces[0] if len(pieces) == 1 else None)
        return
    if len(pieces) > 1 and not said.every:
        options = tuple((piece_name(situation.view(one)), say.Discard(piece=one, at=said.at)) for one in pieces)
        both = which_piece(_("thrown away"), (*options, (_("all of it"), say.Discard(every=True, at=said.at))))
        reply(visit, work, situation, both)
        return
    several = situation.several
    reports = tuple(_told(visit, Discarded(), piece if several else None, said.at) for piece in pieces)
    result = decide(snapshot.facts, reports, now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, visit.voice(situation))))
        return
    answer(visit, work, snapshot, turn(snapshot.facts, result, visit=visit))


def _meant(situation: Situation, said: say.Discard, visit: Visit) -> tuple[str, ...]:
    """Return the pieces that can be meant: the named one, those with a stop, else all that are not thrown away yet."""
    if said.piece is not None:
        return (situation.view(said.piece).piece,)
    left = tuple(view.piece for view in situation.views if not view.state.discarded)
    stopped = tuple(one for one in left if situation.stops_of(one, visit.now))
    if said.every:
        return left or (situation.state.piece,)
    out = tuple(v.piece for v in situation.views if v.piece in left and v.state.stage is Stage.AFTER)
    return stopped or out or left or (situation.state.piece,)


def _told(visit: Visit, body: Discarded | Noted, piece: str | None, at: dt.datetime | None = None) -> Report:
    return Report(
        body=body,
        happened_at=at or visit.incoming.sent_at,
        dated=at is not None,
        by=visit.person.name,
        message=visit.incoming.message,
        piece=piece,
    )


def _passed_on(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, piece: str | None) -> None:
    """Thank a helper or guest, keep what they said, and ask the others with one tap."""
    about = piece if situation.several else None
    asked = stops.somebody_says_discarded(visit.person.name, situation, about)
    here = visit.incoming.group or snapshot.rooms == (visit.address,)  # they are in this room, too
    said = Message(text=stops.who_may_discard(visit.person.name, here=here))
    _keep(visit, work, snapshot, situation, said.then(asked) if here else said, urgent=here)
    for room in snapshot.rooms:
        if room == visit.address:
            continue
        with speaking(manner_of(visit.house.store, room).language):
            asked = stops.somebody_says_discarded(visit.person.name, situation, about)
            work.say(asked, to=room, key=f"discard:{visit.row_id}", cook=snapshot.id, urgent=True)


def _keep(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: Message, *, urgent: bool = False
) -> None:
    """Answer, loud where it is `urgent`, and keep what was typed with the cook."""
    note = _told(visit, Noted(text=visit.incoming.text), None)
    result = decide(snapshot.facts, (note,), now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    reply(visit, work, situation, said, urgent=urgent)
    if isinstance(result, Changes) and visit.incoming.text:
        work.cooks.append(cook_write(result.after, result.facts, version=snapshot.version))
