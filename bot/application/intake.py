"""Working on one accepted row of the inbox: who, what, which cook, and the one write that follows.

Reads the store, computes outside any transaction, and applies once; a version conflict starts over.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import logging
from collections.abc import Mapping

from bot import commands as say
from bot.application import people
from bot.application.among import Running, ask_which, entitle, in_danger, meant, named, typed_choice, understood
from bot.application.announcements import follow, reply
from bot.application.awake import stirred
from bot.application.backlog import Heard, late_rows
from bot.application.gathering import Gathering
from bot.application.gone import group_gone
from bot.application.handlers import cooking, editing, photos, setting_up
from bot.application.handlers.crewing import gone_silent
from bot.application.handlers.crewing_levers import refused
from bot.application.handlers.manner import take as take_manner
from bot.application.here import asked_alone, cooks_here, neighbours
from bot.application.manners import Manner, manner_towards
from bot.application.moving import moved
from bot.application.own import next_for
from bot.application.privacy import ask_for_replies, hello, note_hearing, note_rights
from bot.application.rights import lacking, roles
from bot.application.stale import back, tell_of_loss
from bot.application.visit import House, Visit, Work
from bot.application.voices import context_of, setup_context
from bot.application.wrong_cook import offer, told_in
from bot.chat import Incoming, IncomingKind
from bot.conversation.interpreter import asks, read
from bot.crew import Role
from bot.messages import crew_people, talk
from bot.messages.asked_also import nothing_told
from bot.messages.message import Message, lines
from bot.messages.photos import no_cook_for_it, not_heard
from bot.messages.words import speaking
from bot.ports import Apply, Decoder, InboxRow, RoomWrite, StoredChoice
from scheduler.cook import Situation

log = logging.getLogger(__name__)

TRIES = 5
"""How often a decision is taken again when somebody else wrote meanwhile."""
MOST_AT_ONCE = 500
"""Rows looked at together: a backlog is told in one summary."""

BESIDE_FOR = dt.timedelta(minutes=15)
"""For so long an answer may belong to the set-up of one more cook beside another: house rule."""

_NOT_TEXT = frozenset({IncomingKind.OTHER, IncomingKind.VOICE})


class Intake:
    """Takes in rows one at a time."""

    def __init__(self, house: House, decoders: Mapping[str, Decoder]) -> None:
        self._house = house
        self._decoders = decoders

    def work(self, now: dt.datetime) -> int:
        """Work on everything that waits; return how many rows were taken in."""
        taken = 0
        while rows := self._house.store.inbox_waiting(MOST_AT_ONCE):
            known = {row.id: self._look_at(row) for row in rows}
            late = late_rows([_heard(row, known[row.id]) for row in rows], now)
            gathering = Gathering(self._house.store, self._house.zone, now)
            for row in rows:
                self._take(row, now, (gathering, known[row.id]) if row.id in late else None)
                taken += 1
            if (summaries := gathering.summaries()) is not None:
                self._house.store.apply(summaries)
        return taken

    def _look_at(self, row: InboxRow) -> Incoming | None:
        """Return what a row says, before anything is done about it; None for what cannot be read."""
        decoder = self._decoders.get(row.source.split(":", 1)[0])
        try:
            if decoder is None:
                return None
            return decoder(row.raw, source=row.source, key=row.key, received_at=row.received_at)
        except ValueError:
            return None

    def _take(self, row: InboxRow, now: dt.datetime, late: tuple[Gathering, Incoming | None] | None = None) -> None:
        for _try in range(TRIES):
            write = self._decide(row, now)
            if self._house.store.apply(write if late is None else late[0].held(write)):
                if late is not None:
                    late[0].note(write, row.received_at, late[1])
                return
            if row.id not in {waiting.id for waiting in self._house.store.inbox_waiting(MOST_AT_ONCE)}:
                return  # another process was faster
        log.error("inbox row given up after version conflicts", extra={"action": "parked", "row": row.id})
        self._house.store.apply(Apply(now=now, inbox_done=row.id, inbox_result="parked"))

    def _decide(self, row: InboxRow, now: dt.datetime) -> Apply:
        work = Work(now=now, inbox_done=row.id)
        incoming = self._decode(row, work)
        if incoming is None:
            return work.apply()
        manner = manner_towards(self._house.store, incoming)
        try:
            with speaking(manner.language):
                self._handle(row, incoming, work, manner)
        except Exception:
            # Whatever goes wrong while one message is worked on must not stop the others: it is parked, and kept.
            log.exception("an inbox row could not be worked on", extra={"action": "parked", "row": row.id})
            work = Work(now=now, inbox_done=row.id, result="parked")
            with speaking(manner.language):
                work.say(Message(text=talk.our_fault()), to=incoming.address, key=f"answer:{row.id}")
        return work.apply()

    def _decode(self, row: InboxRow, work: Work) -> Incoming | None:
        decoder = self._decoders.get(row.source.split(":", 1)[0])
        if decoder is None:
            work.result = "parked"
            return None
        try:
            incoming = decoder(row.raw, source=row.source, key=row.key, received_at=row.received_at)
        except ValueError as error:
            log.warning("an update could not be read", extra={"action": "parked", "row": row.id, "why": str(error)})
            work.result = "parked"
            return None
        if incoming is None:
            work.result = "ignored"
        return incoming

    def _handle(self, row: InboxRow, incoming: Incoming, work: Work, manner: Manner) -> None:
        if incoming.kind is IncomingKind.MOVED and incoming.moved_to is not None:
            moved(self._house, incoming.address, incoming.moved_to, work)
            return
        if incoming.kind is IncomingKind.GAP and incoming.since is not None:
            tell_of_loss(self._house, incoming.address.transport, incoming.since, work)
            return
        if incoming.kind is IncomingKind.RIGHTS:
            note_rights(self._house, incoming, work, row.id)
            return
        if incoming.kind is IncomingKind.LEFT:
            work.rooms.append(RoomWrite(address=incoming.address, active=False, group=incoming.group))
            if incoming.group:
                group_gone(self._house, incoming.address, work, str(row.id))
            else:
                gone_silent(self._house, incoming, work, seed=f"i{row.id}")
            return
        code = people.code_of(incoming)
        if code is not None and (
            people.said_join(incoming) or self._house.store.invite(code.code, work.now) is not None
        ):
            self._joined(row, incoming, code, work, manner)
            return
        person = people.identify(self._house, incoming, work)
        if person is None:
            self._outside(incoming, work, row)
            return
        visit = Visit(house=self._house, row_id=row.id, incoming=incoming, person=person, now=work.now, manner=manner)
        note_hearing(self._house, incoming, work)
        self._from_somebody(visit, work)
        ask_for_replies(self._house.store, incoming, person.name, work)

    def _joined(self, row: InboxRow, incoming: Incoming, code: say.Join, work: Work, manner: Manner) -> None:
        """Greet somebody who brought a code, and show them where things stand."""
        person = people.join(self._house, incoming, code, work)
        if person is None:
            work.say(Message(text=talk.code_spent()), to=incoming.address, key=f"answer:{row.id}")
            return
        visit = Visit(house=self._house, row_id=row.id, incoming=incoming, person=person, now=work.now, manner=manner)
        invited = self._house.store.invite(code.code, work.now)
        role = person.role if invited is None else Role(invited.role)
        as_what = "" if person.role is Role.OWNER or role is Role.OWNER else crew_people.role_does(role)
        welcome = Message(text=lines(talk.welcome(person.name, person.role.value), as_what))
        cooks = cooks_here(visit, invited)
        self._arrived(visit, work, cooks, welcome)
        for cook in cooks:
            if invited is not None and invited.cook in {None, cook.id}:
                people.in_the_crew(visit, work, cook.snapshot, cook.situation, role)

    def _outside(self, incoming: Incoming, work: Work, row: InboxRow) -> None:
        """Answer a stranger once in a private chat, and say nothing in a group nobody here belongs to."""
        work.result = "refused"
        if not incoming.group and incoming.text.startswith("/start"):
            work.say(Message(text=talk.private()), to=incoming.address, key=f"answer:{row.id}")

    def _from_somebody(self, visit: Visit, work: Work) -> None:
        cooks = cooks_here(visit)
        for cook in cooks:
            entitle(work, self._house.store, cook.id, (visit.address, *cook.snapshot.rooms), cook.situation)
        self._hear(visit, work, cooks)
        stirred(visit, work, cooks)

    def _hear(self, visit: Visit, work: Work, cooks: list[Running]) -> None:
        first = cooks[0].situation if cooks else None
        incoming = visit.incoming
        if incoming.kind is IncomingKind.TAP:
            self._tap(visit, work, cooks)
        elif incoming.kind is IncomingKind.ARRIVED:
            self._arrived(visit, work, cooks)
        elif incoming.kind is IncomingKind.PHOTO:
            self._photo(visit, work, cooks)
        elif incoming.kind in _NOT_TEXT and not incoming.text:
            self._wordless(visit, work, first)
        elif not cooks:
            self._without_cook(visit, work)
        elif incoming.kind is IncomingKind.EDIT and self._edited(visit, work, cooks):
            return
        elif not self._beside(visit, work):
            self._among(visit, work, cooks)

    def _photo(self, visit: Visit, work: Work, cooks: list[Running]) -> None:
        """Keep a picture with a cook; in a group without one people show one another what they like."""
        if cooks:
            photos.take(visit, work, cooks)
        elif photos.tells_danger(visit):
            self._without_cook(visit, work)
        elif not visit.incoming.group:
            reply(visit, work, None, Message(text=no_cook_for_it()))

    def _wordless(self, visit: Visit, work: Work, situation: Situation | None) -> None:
        """Answer a voice note, a sticker or a place kindly; in a group only where it answers the program."""
        if visit.incoming.group and visit.incoming.answers is None:
            return
        voice = visit.incoming.kind is IncomingKind.VOICE
        reply(visit, work, situation, Message(text=not_heard() if voice else talk.not_text()))

    def _edited(self, visit: Visit, work: Work, cooks: list[Running]) -> bool:
        """Correct what an edited message had told, in the cook in which it was told."""
        told = [c for c in cooks if any(f.message == visit.incoming.message for f in c.snapshot.facts)] or cooks[:1]
        return editing.handle(visit, work, told[0].snapshot, told[0].situation)

    def _beside(self, visit: Visit, work: Work) -> bool:
        """Go on with setting up one more cook, when that is what was asked last; return whether it was."""
        known = setting_up.remembered(self._house.store.session(visit.address, visit.sets_up))
        if known is None or known.asked_at is None or visit.now - known.asked_at > BESIDE_FOR:
            return False
        wanted = read(visit.incoming.text, setup_context(visit, known.slot, known.unit, known.draft.serving))
        if not isinstance(wanted[0], say.Draft | say.Skip | say.MoreCuts):
            return False
        if known.draft.cut and isinstance(wanted[0], say.Draft) and wanted[0].cut and asks(visit.incoming.text):
            return False  # "is my brisket ok" is about a cook that runs
        setting_up.handle(dataclasses.replace(visit, beside=True), work, known, wanted)
        return True

    def _among(self, visit: Visit, work: Work, cooks: list[Running]) -> None:
        """Read a text in the cook that it is about; a question that names none is answered for all of them."""
        if len(cooks) == 1:
            wanted = read(visit.incoming.text, context_of(visit, cooks[0].situation))
            wanted = (say.Undo(),) if isinstance(wanted[0], say.WrongCook) else wanted
            self._with_cook(visit, work, cooks[0], wanted)
            return
        typed = typed_choice(visit)
        owner = [cook for cook in cooks if typed is not None and cook.id == typed.cook]
        if typed is not None and (owner or typed.cook is None):
            self._chosen(visit, work, cooks, typed)
            return
        found = meant(visit, cooks)
        wanted = understood(visit, found[0])
        if (hurt := in_danger(visit, cooks)) is not None:
            self._with_cook(visit, work, found[0], (hurt,))  # whichever cook: people are asked nothing now
            return
        if isinstance(wanted[0], say.NewCook | say.Invite | say.CancelInvites | say.HowMuch | say.MannerSaid):
            self._with_cook(visit, work, found[0], wanted)
        elif isinstance(wanted[0], say.WrongCook):
            self._for_another(visit, work, cooks)
        elif isinstance(wanted[0], say.Ask) and len(named(visit, cooks)) != 1:
            cooking.ask_of_all(visit, work, cooks, wanted[0])
        elif len(found) == 1 or (visit.incoming.group and say.chatter(wanted)):
            self._with_cook(visit, work, found[0], wanted)
        else:
            reply(visit, work, None, ask_which(visit, found))

    def _for_another(self, visit: Visit, work: Work, cooks: list[Running]) -> None:
        """Take back what somebody told last in one of several cooks, and offer it to the others."""
        told = told_in(visit, cooks)
        if told is None:
            reply(visit, work, None, Message(text=nothing_told()))
            return
        self._with_cook(visit, work, told[0], (say.Undo(),))
        offer(visit, work, cooks, told)

    def _with_cook(self, visit: Visit, work: Work, cook: Running, wanted: tuple[say.Intent, ...]) -> None:
        first = wanted[0]
        if isinstance(first, say.NewCook) and (missing := lacking(visit, cook.situation, wanted)):
            reply(visit, work, cook.situation, refused(visit, cook.situation, missing[0]))
            return
        if isinstance(first, say.Invite | say.CancelInvites):
            reply(visit, work, cook.situation, people.letting_in(visit, work, first, cook.situation, cook.id))
            return
        if isinstance(first, say.NewCook):
            self._one_more(visit, work, first.text)
            return
        if isinstance(first, say.MannerSaid):
            take_manner(visit, work, cook.situation, first)
            return
        cooking.handle(visit, work, cook.snapshot, cook.situation, wanted)

    def _one_more(self, visit: Visit, work: Work, text: str) -> None:
        """Begin one more cook beside those that run."""
        visit = dataclasses.replace(visit, beside=True)
        wanted = read(text, setup_context(visit, None, None)) if text else (say.Draft(),)
        setting_up.handle(visit, work, setting_up.Setup(), wanted)

    def _without_cook(self, visit: Visit, work: Work, wanted: tuple[say.Intent, ...] | None = None) -> None:
        near = neighbours(visit)
        if (hurt := in_danger(visit, near)) is not None:
            self._with_cook(visit, work, near[0], (hurt,))
            return
        known = setting_up.remembered(self._house.store.session(visit.address, visit.sets_up))
        slot, unit = (None, None) if known is None else (known.slot, known.unit)
        dinner = None if known is None else known.draft.serving
        wanted = wanted or read(visit.incoming.text, setup_context(visit, slot, unit, dinner))
        if visit.incoming.group and say.chatter(wanted):
            return  # people in a group talk to one another, too
        first = wanted[0]
        if isinstance(first, say.Invite | say.CancelInvites):
            reply(visit, work, None, people.letting_in(visit, work, first, None))
            return
        if isinstance(wanted[0], say.MannerSaid):
            take_manner(visit, work, None, wanted[0])
            return
        setting_up.handle(visit, work, known, wanted)

    def _arrived(self, visit: Visit, work: Work, cooks: list[Running], welcome: Message | None = None) -> None:
        """Greet a group, a window or somebody new; who comes to a running cook follows it from now on."""
        if back(self._house, visit.address, work, visit.row_id):
            return
        if visit.incoming.group:
            reply(visit, work, cooks[0].situation if cooks else None, hello(visit.incoming))
            return
        if not cooks:
            known = setting_up.remembered(self._house.store.session(visit.address, visit.sets_up))
            setting_up.greet(visit, work, known, welcome)
            return
        for number, cook in enumerate(cooks):
            lead = welcome if number == 0 and welcome is not None else Message(text="")
            held = roles(visit.person, cook.situation)
            message = lead.then(next_for(held, cook.situation, visit.voice(cook.situation)))
            key = f"answer:{visit.row_id}" + (f".{number}" if number else "")
            work.say(message, to=visit.address, key=key, cook=cook.id)
            if visit.address not in cook.snapshot.rooms:
                follow(visit, work, cook.snapshot, cook.situation)

    def _tap(self, visit: Visit, work: Work, cooks: list[Running]) -> None:
        work.answer_tap(visit.incoming)
        token = visit.incoming.token
        choice = None if token is None else self._house.store.choice(token)
        cooks = [*cooks, *asked_alone(visit, cooks, choice)]
        here = {cook.id for cook in cooks}
        if choice is None or choice.address != visit.address or (choice.cook is not None and choice.cook not in here):
            reply(visit, work, cooks[0].situation if cooks else None, Message(text=talk.old_button()))
            return
        self._chosen(dataclasses.replace(visit, tapped=choice), work, cooks, choice)

    def _chosen(self, visit: Visit, work: Work, cooks: list[Running], choice: StoredChoice) -> None:
        """Do what a button means, in the cook that it belongs to."""
        meaning = say.INTENT.validate_python(choice.meaning)
        if isinstance(meaning, say.ForCook):
            said = dataclasses.replace(visit.incoming, text=meaning.text, sent_at=meaning.at)
            visit = dataclasses.replace(visit, incoming=said)
            own = [cook for cook in cooks if cook.id == meaning.cook]
            if own:
                self._with_cook(visit, work, own[0], understood(visit, own[0]))
            else:
                reply(visit, work, None, Message(text=talk.old_button()))
            return
        known = setting_up.remembered(self._house.store.session(visit.address, visit.sets_up))
        own = [cook for cook in cooks if cook.id == choice.cook] or cooks[:1]
        if cooks and choice.cook is None and known is not None and known.asked_at is not None:
            setting_up.handle(dataclasses.replace(visit, beside=True), work, known, (meaning,))
        elif not own:
            self._without_cook(visit, work, (meaning,))
        else:
            self._with_cook(visit, work, own[0], (meaning,))


def _heard(row: InboxRow, incoming: Incoming | None) -> Heard:
    """Return a row as far as its lateness goes: a tap does not say when it was pressed."""
    says_when = incoming is not None and incoming.kind is not IncomingKind.TAP
    return Heard(row=row.id, source=row.source, sent_at=incoming.sent_at if incoming and says_when else None)
