"""Working on one accepted row of the inbox: who, what, which cook, and the one write that follows.

Reads the store, computes outside any transaction, and applies once; a version conflict starts over.
"""

from __future__ import annotations

import datetime as dt
import logging
from collections.abc import Mapping

from bot import commands as say
from bot.application import people
from bot.application.announcements import follow, reply
from bot.application.handlers import cooking, editing, setting_up
from bot.application.visit import House, Visit, Work
from bot.application.voices import context_of, setup_context, voice_of
from bot.chat import Incoming, IncomingKind
from bot.conversation.interpreter import read
from bot.messages import talk
from bot.messages.answers import what_next
from bot.messages.message import Message
from bot.ports import Apply, CookSnapshot, Decoder, InboxRow, RoomWrite
from scheduler.cook import Situation, assess

log = logging.getLogger(__name__)

TRIES = 5
"""How often a decision is taken again when somebody else wrote meanwhile."""


_SHORTEST_CODE = 8
_JOIN_WORDS = 2


class Intake:
    """Takes in rows one at a time."""

    def __init__(self, house: House, decoders: Mapping[str, Decoder]) -> None:
        self._house = house
        self._decoders = decoders

    def work(self, now: dt.datetime) -> int:
        """Work on everything that waits; return how many rows were taken in."""
        taken = 0
        while rows := self._house.store.inbox_waiting():
            for row in rows:
                self._take(row, now)
                taken += 1
        return taken

    def _take(self, row: InboxRow, now: dt.datetime) -> None:
        for _try in range(TRIES):
            if self._house.store.apply(self._decide(row, now)):
                return
            if row.id not in {waiting.id for waiting in self._house.store.inbox_waiting()}:
                return  # another process was faster
        log.error("inbox row given up after version conflicts", extra={"action": "parked", "row": row.id})
        self._house.store.apply(Apply(now=now, inbox_done=row.id, inbox_result="parked"))

    def _decide(self, row: InboxRow, now: dt.datetime) -> Apply:
        work = Work(now=now, inbox_done=row.id)
        incoming = self._decode(row, work)
        if incoming is None:
            return work.apply()
        try:
            self._handle(row, incoming, work, now)
        except Exception:
            # Whatever goes wrong while one message is worked on must not stop the others: it is parked, and kept.
            log.exception("an inbox row could not be worked on", extra={"action": "parked", "row": row.id})
            work = Work(now=now, inbox_done=row.id, result="parked")
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

    def _handle(self, row: InboxRow, incoming: Incoming, work: Work, now: dt.datetime) -> None:
        if incoming.kind is IncomingKind.MOVED and incoming.moved_to is not None:
            work.moved_room = (incoming.address, incoming.moved_to)
            return
        if incoming.kind is IncomingKind.LEFT:
            work.rooms.append(RoomWrite(address=incoming.address, active=False, group=incoming.group))
            return
        code = _code(incoming)
        if code is not None and (_said_join(incoming) or self._house.store.invite(code.code, now) is not None):
            self._joined(row, incoming, code, work)
            return
        person = people.identify(self._house, incoming, work)
        if person is None:
            self._outside(incoming, work, row)
            return
        visit = Visit(house=self._house, row_id=row.id, incoming=incoming, person=person, now=now)
        self._from_somebody(visit, work)

    def _joined(self, row: InboxRow, incoming: Incoming, code: say.Join, work: Work) -> None:
        """Greet somebody who brought a code, and show them where things stand."""
        person = people.join(self._house, incoming, code, work)
        if person is None:
            work.say(Message(text=talk.code_spent()), to=incoming.address, key=f"answer:{row.id}")
            return
        visit = Visit(house=self._house, row_id=row.id, incoming=incoming, person=person, now=work.now)
        snapshot = self._cook_here(visit)
        situation = None if snapshot is None else assess(snapshot.facts, self._house.catalogue, work.now)
        self._arrived(visit, work, snapshot, situation, Message(text=talk.welcome(person.name, person.role.value)))

    def _outside(self, incoming: Incoming, work: Work, row: InboxRow) -> None:
        """Answer a stranger once in a private chat, and say nothing in a group nobody here belongs to."""
        work.result = "refused"
        if not incoming.group and incoming.text.startswith("/start"):
            work.say(Message(text=talk.private()), to=incoming.address, key=f"answer:{row.id}")

    def _from_somebody(self, visit: Visit, work: Work) -> None:
        snapshot = self._cook_here(visit)
        situation = None if snapshot is None else assess(snapshot.facts, self._house.catalogue, visit.now)
        incoming = visit.incoming
        if incoming.kind is IncomingKind.TAP:
            self._tap(visit, work, snapshot, situation)
        elif incoming.kind is IncomingKind.ARRIVED:
            self._arrived(visit, work, snapshot, situation)
        elif incoming.kind is IncomingKind.OTHER and not incoming.text:
            reply(visit, work, situation, Message(text=talk.not_text()))
        elif snapshot is None or situation is None:
            self._without_cook(visit, work)
        elif incoming.kind is IncomingKind.EDIT and editing.handle(visit, work, snapshot, situation):
            return
        else:
            wanted = read(incoming.text, context_of(visit, situation))
            self._with_cook(visit, work, snapshot, situation, wanted)

    def _cook_here(self, visit: Visit) -> CookSnapshot | None:
        store = self._house.store
        here = store.open_cooks(visit.address)
        if not here and not visit.incoming.group:
            # Somebody who came in after a cook had begun follows it from the first word on.
            here = tuple(
                c
                for c in store.open_cooks()
                if _same_transport(store.cook(c), visit) and visit.incoming.text != "/start"
            )
        return store.cook(here[0]) if here else None

    def _with_cook(
        self, visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wanted: tuple[say.Intent, ...]
    ) -> None:
        if isinstance(wanted[0], say.Invite):
            reply(visit, work, situation, people.invite(visit, work))
            return
        cooking.handle(visit, work, snapshot, situation, wanted)

    def _without_cook(self, visit: Visit, work: Work, wanted: tuple[say.Intent, ...] | None = None) -> None:
        known = setting_up.remembered(self._house.store.session(visit.address, visit.person.id))
        slot, unit = (None, None) if known is None else (known.slot, known.unit)
        wanted = wanted or read(visit.incoming.text, setup_context(visit, slot, unit))
        if visit.incoming.group and say.chatter(wanted):
            return  # people in a group talk to one another, too
        if isinstance(wanted[0], say.Invite):
            reply(visit, work, None, people.invite(visit, work))
            return
        setting_up.handle(visit, work, known, wanted)

    def _arrived(
        self,
        visit: Visit,
        work: Work,
        snapshot: CookSnapshot | None,
        situation: Situation | None,
        welcome: Message | None = None,
    ) -> None:
        """Greet a group, a window or somebody new; who comes to a running cook follows it from now on."""
        if visit.incoming.group:
            reply(visit, work, situation, Message(text=talk.hello_group()))
            return
        if snapshot is None or situation is None:
            known = setting_up.remembered(self._house.store.session(visit.address, visit.person.id))
            setting_up.greet(visit, work, known, welcome)
            return
        message = (welcome or Message(text="")).then(what_next(situation, voice_of(situation, visit.now)))
        work.say(message, to=visit.address, key=f"answer:{visit.row_id}", cook=snapshot.id)
        if visit.address not in snapshot.rooms:
            follow(visit, work, snapshot, situation)

    def _tap(self, visit: Visit, work: Work, snapshot: CookSnapshot | None, situation: Situation | None) -> None:
        work.answer_tap(visit.incoming)
        token = visit.incoming.token
        choice = None if token is None else self._house.store.choice(token)
        here = None if snapshot is None else snapshot.id
        if choice is None or choice.address != visit.address or (choice.cook is not None and choice.cook != here):
            reply(visit, work, situation, Message(text=talk.old_button()))
            return
        wanted = (say.INTENT.validate_python(choice.meaning),)
        if snapshot is None or situation is None:
            self._without_cook(visit, work, wanted)
        else:
            self._with_cook(visit, work, snapshot, situation, wanted)


def _code(incoming: Incoming) -> say.Join | None:
    """Return the code somebody brings, read before anything else: strangers may say this and nothing more."""
    if incoming.kind is not IncomingKind.TEXT:
        return None
    words = incoming.text.split()
    if len(words) == 1 and len(words[0]) >= _SHORTEST_CODE:
        return say.Join(code=words[0])  # a code by itself, if it is one
    if _said_join(incoming):
        return say.Join(code=words[1])
    return None


def _said_join(incoming: Incoming) -> bool:
    words = incoming.text.split()
    return len(words) == _JOIN_WORDS and words[0].split("@")[0].casefold() in {"/start", "join", "/join"}


def _same_transport(cook: CookSnapshot | None, visit: Visit) -> bool:
    return cook is not None and any(room.transport == visit.address.transport for room in cook.rooms)
