"""Several cooks in one room: which of them a text is about, and what each is called there.

By name, by who asked, by the button; what stays open costs one tap. Reads the store, writes nothing.
"""

from __future__ import annotations

import dataclasses
import string
from collections.abc import Iterable

from bot import commands as say
from bot.application.boards import PAPER
from bot.application.manners import manner_of
from bot.application.visit import Visit, Work
from bot.application.voices import context_of
from bot.chat import Address
from bot.conversation.context import Context, KnownPiece
from bot.conversation.interpreter import read
from bot.conversation.parsing.pieces import pieces_named
from bot.conversation.parsing.words import tidy
from bot.messages.message import Message
from bot.messages.naming import cook_title, which_cook
from bot.messages.words import speaking
from bot.ports import CookSnapshot, Store, StoredChoice
from scheduler.cook import Situation, possible

_WANTS = {say.FeelSaid: ("tender_test",), say.WrapSaid: ("bark_check", "wrap_do")}
"""Steps that an intent of this kind answers."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Running:
    """One open cook: its log and how it stands now."""

    snapshot: CookSnapshot
    situation: Situation

    @property
    def id(self) -> str:
        """Return the id of the cook."""
        return self.snapshot.id


def typed_choice(visit: Visit) -> StoredChoice | None:
    """Return the button on the screen that a text is, by its letter: it belongs to its own cook. Only in a terminal."""
    if visit.address.transport not in PAPER:
        return None
    heard = visit.incoming.text.strip().casefold()
    shown = visit.house.store.open_choices(visit.address)
    for letter, choice in zip(string.ascii_lowercase, shown, strict=False):
        if heard == letter:
            return choice
    return None


def named(visit: Visit, cooks: list[Running]) -> list[Running]:
    """Return the cooks that a text names by one of their pieces."""
    pieces = tuple(
        KnownPiece(piece=f"{cook.id} {view.piece}", cut=view.cut.id, number=view.number, context=_plain(visit))
        for cook in cooks
        for view in cook.situation.views
    )
    found = pieces_named(tidy(visit.incoming.text), dataclasses.replace(_plain(visit), pieces=pieces))
    ids = {piece.split(" ")[0] for piece in found}
    return [cook for cook in cooks if cook.id in ids]


def _plain(visit: Visit) -> Context:
    return Context(
        now=visit.incoming.sent_at, zone=visit.house.zone, unit=None, stage="cooking", cuts=visit.house.catalogue.cuts
    )


def meant(visit: Visit, cooks: list[Running]) -> list[Running]:
    """Return the cooks that a text can be about: the one it names, else those whose open question it answers."""
    by_name = named(visit, cooks)
    if len(by_name) == 1:
        return by_name
    cooks = by_name or cooks
    asking = [cook for cook in cooks if cook.situation.waiting]
    answered = [cook for cook in asking if _answers(understood(visit, cook), cook.situation)]
    return answered or _able(visit, cooks) or asking or cooks


def _able(visit: Visit, cooks: list[Running]) -> list[Running]:
    """Return the cooks in which a step that is told unasked has not happened yet, nothing when no step is told."""
    found = []
    for cook in cooks:
        steps = [i.step for i in understood(visit, cook) if isinstance(i, say.Done) and i.step is not None]
        states = [view.state for view in cook.situation.views]
        at = visit.incoming.sent_at
        if steps and any(s.did(step) is None and possible(step, at, s) for s in states for step in steps):
            found.append(cook)
    return found


def understood(visit: Visit, cook: Running) -> tuple[say.Intent, ...]:
    """Return what a text means in one of several cooks: a single piece may be called by its name, too."""
    context = context_of(visit, cook.situation)
    if not context.pieces:
        view = cook.situation.views[0]
        alone = KnownPiece(piece=view.piece, cut=view.cut.id, number=None, context=context)
        context = dataclasses.replace(context, pieces=(alone,))
    return read(visit.incoming.text, context)


def _answers(wanted: tuple[say.Intent, ...], situation: Situation) -> bool:
    """Return whether one of the intents is what an open prompt of a cook asks for."""
    waiting = situation.waiting
    for intent in wanted:
        steps = _WANTS.get(type(intent), ())
        if isinstance(intent, say.Report) and any(prompt.is_question for prompt in waiting):
            return True
        if isinstance(intent, say.Done | say.Skip | say.NotYet | say.PutOffFor):
            steps = tuple(p.step.id for p in waiting) if intent.step is None else (intent.step,)
        if any(prompt.step.id in steps for prompt in waiting):
            return True
    return False


def in_danger(visit: Visit, cooks: list[Running]) -> say.Trouble | None:
    """Return the danger to people that a text tells of, in whichever cook."""
    for cook in cooks:
        first = understood(visit, cook)[0]
        if isinstance(first, say.Trouble) and first.what in say.DANGERS:
            return first
    return None


def ask_which(visit: Visit, cooks: list[Running]) -> Message:
    """Ask which cook is meant; the tap reads the text in that cook."""
    text, at = visit.incoming.text, visit.incoming.sent_at
    return which_cook(
        tuple((cook_title(cook.situation), say.ForCook(cook=cook.id, text=text, at=at)) for cook in cooks)
    )


def entitle(work: Work, store: Store, cook: str, rooms: Iterable[Address], situation: Situation) -> None:
    """Let messages of a cook begin with its name in every room where another one runs."""
    for room in rooms:
        if any(other != cook for other in store.open_cooks(room)):
            with speaking(manner_of(store, room).language):
                work.titles[cook, room] = cook_title(situation)
