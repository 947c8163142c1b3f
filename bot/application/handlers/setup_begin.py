"""The beginning of a cook that was set up: its first facts, or why dinner cannot be then."""

from __future__ import annotations

import dataclasses

from bot.application.among import entitle
from bot.application.announcements import answer
from bot.application.handlers.begun import begun_words
from bot.application.handlers.setup_memory import Setup, forget, remember, say_here, setup_voice
from bot.application.handlers.setup_plan import begun_of
from bot.application.handlers.setup_questions import broken, next_question
from bot.application.turns import alone, turn
from bot.application.visit import Visit, Work
from bot.chat import Address
from bot.conversation.flows.care import unwished
from bot.conversation.flows.setup import within_limits
from bot.messages import care_asked
from bot.messages.certainty import out_of_limits
from bot.messages.message import Message
from bot.messages.refusals import refusal_text
from bot.messages.setup_core import cannot_be
from bot.ports import CookSnapshot
from scheduler.cook import Refusal

_OF_THE_CORE = frozenset({"undercooked", "not_by_time", "done_by_feel"})


def begin_cook(visit: Visit, work: Work, known: Setup, left_out: Message) -> None:
    """Begin the cook, or say why dinner cannot be then and ask for another time."""
    begun = begun_of(visit, known, f"c{visit.row_id}", with_crew=True)
    if isinstance(begun, Refusal) and begun.reason in _OF_THE_CORE:
        asked = cannot_be(begun, known.draft, visit.house.catalogue.cuts)
        remember(visit, work, dataclasses.replace(known, draft=unwished(known.draft, begun.piece), slot="core"))
        say_here(visit, work, left_out.then(asked))
        return
    if isinstance(begun, Refusal):
        keep = {"on_at": None, "core_c": None} if begun.step == "meat_on" else {"serving": None}
        again = dataclasses.replace(known, draft=known.draft.model_copy(update=keep), slot="serving")
        remember(visit, work, again)
        other = () if begun.step == "meat_on" else next_question(visit, again).choices
        say_here(visit, work, Message(text=refusal_text(begun, setup_voice(visit, known.unit)), choices=other))
        return
    rooms = (visit.address, *other_rooms(visit))
    empty = CookSnapshot(id=begun.after.state.cook, version=0, open=True, rooms=rooms, facts=())
    # Meat that is on already may need something now; a plan stands alone, and what is due comes after it.
    done = alone(begun) if known.draft.on_at is None else turn((), begun, visit=visit)
    sure = known.draft.confidence
    if sure is not None and sure != within_limits(sure):
        left_out = left_out.then(Message(text=out_of_limits()))
    asks = care_asked.ask(begun.after.state.care, begun=known.draft.on_at is not None)
    entitle(work, visit.house.store, empty.id, rooms, done.after)
    answer(
        visit,
        work,
        empty,
        done,
        body=lambda voice: broken(visit).then(left_out).then(begun_words(visit, known.draft, begun.after, voice)),
        last=None if known.draft.on_at is None else asks,
    )
    forget(visit, work)


def other_rooms(visit: Visit) -> tuple[Address, ...]:
    """Return the private rooms of the others on the same transport: they follow a cook begun in a private room."""
    if visit.incoming.group:
        return ()
    return tuple(
        room.address
        for room in visit.house.store.rooms()
        if room.active and not room.group and room.address != visit.address
        and room.address.transport == visit.address.transport
    )  # fmt: skip
