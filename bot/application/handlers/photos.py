"""A picture that somebody sends: kept with the cook at the step it answers; what is written under it is read as words.

A picture answers nothing by itself: the question stays open, with its buttons.
"""

from __future__ import annotations

import mimetypes

from bot import commands as say
from bot.application.among import Running
from bot.application.announcements import answer, reply
from bot.application.handlers import cooking
from bot.application.handlers.reports import Settling
from bot.application.rights import lacking
from bot.application.turns import turn
from bot.application.visit import Visit, Work
from bot.application.voices import context_of
from bot.application.writing import add_facts
from bot.conversation.interpreter import read
from bot.conversation.parsing.troubles import danger
from bot.conversation.parsing.words import tidy
from bot.messages.message import Message
from bot.messages.photos import picture_kept, still_to_answer
from bot.messages.refusals import refusal_text
from scheduler.cook import Refusal, Report, decide
from scheduler.facts import Fact, PhotoKept
from scheduler.planning.prompts import Prompt
from scheduler.state import FIRST

_REPORTS = (
    say.Report, say.Done, say.Skip, say.NotYet, say.FeelSaid, say.WrapSaid, say.Unclear, say.Note, say.FuelSaid,
)  # fmt: skip
"""What a caption may tell beside its picture; anything else is taken as if it had been typed."""


def take(visit: Visit, work: Work, cooks: list[Running]) -> None:
    """Keep a picture with the cook that waits for an answer, else the newest."""
    running = next((cook for cook in cooks if cook.situation.waiting), cooks[0])
    situation, snapshot = running.situation, running.snapshot
    open_prompt = next((p for p in situation.waiting if p.step.outcomes or p.step.slots), None)
    open_prompt = open_prompt or next(iter(situation.waiting), None)
    wanted = _caption(visit, running)
    if _needs_more(wanted) or lacking(visit, situation, wanted):
        _as_typed(visit, work, running, wanted, open_prompt)
        return
    settled = Settling(visit, situation, snapshot.facts, visit.voice(situation)).settle(wanted)
    photo = _kept(visit, work, running, open_prompt)
    reports = (photo, *settled.reports)
    result = decide(snapshot.facts, reports, now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)
    if isinstance(result, Refusal):
        reply(visit, work, situation, Message(text=refusal_text(result, visit.voice(situation))))
        _keep_alone(visit, work, running, photo)
        return
    done = turn(snapshot.facts, result, visit=visit)
    asks = settled.ask
    if asks is None and open_prompt is not None and open_prompt.key not in done.after.closed:
        asks = still_to_answer(open_prompt, done.after, visit.voice(done.after))
    answer(visit, work, snapshot, done, asks=asks)


def tells_danger(visit: Visit) -> bool:
    """Return whether somebody is in danger by the words under a picture; it needs no cook."""
    return danger(tidy(visit.incoming.text), visit.incoming.text) is not None


def _caption(visit: Visit, running: Running) -> tuple[say.Intent, ...]:
    """Return what is written under the picture; talk is kept as a note."""
    text = visit.incoming.text.strip()
    if not text:
        return ()
    wanted = read(text, context_of(visit, running.situation))
    return (say.Note(text=text),) if say.chatter(wanted) else wanted


def _needs_more(wanted: tuple[say.Intent, ...]) -> bool:
    """Return whether a caption says more than reports: danger, a problem, a question, a wish."""
    return not all(isinstance(intent, _REPORTS) for intent in wanted)


def _as_typed(
    visit: Visit, work: Work, running: Running, wanted: tuple[say.Intent, ...], prompt: Prompt | None
) -> None:
    """Take a caption as if it had been typed, people in danger first, and keep the picture with it."""
    photo = _kept(visit, work, running, prompt)
    cooking.handle(visit, work, running.snapshot, running.situation, wanted)
    _keep_alone(visit, work, running, photo)


def _keep_alone(visit: Visit, work: Work, running: Running, photo: Report) -> None:
    """Keep the picture beside whatever is written of the cook anyway, and say so."""
    fact = Fact(
        id=f"{visit.seed}.photo",
        cook=running.id,
        piece=photo.piece or FIRST,
        happened_at=photo.happened_at,
        recorded_at=visit.now,
        by=visit.person.name,
        message=visit.incoming.message,
        body=photo.body,
    )
    add_facts(work.cooks, running.snapshot, fact, catalogue=visit.house.catalogue)
    work.append_to_answer(Message(text=picture_kept()), visit.address)


def _kept(visit: Visit, work: Work, running: Running, prompt: Prompt | None) -> Report:
    """Ask for the bytes and return the report; the name tells nothing of anybody."""
    attachment = visit.incoming.attachment
    media_type = "image/jpeg" if attachment is None else attachment.media_type
    name = f"{running.id}-{visit.row_id}{mimetypes.guess_extension(media_type) or '.jpg'}"
    if attachment is not None:
        work.fetch(attachment, name, of=visit.address)
    piece = prompt.piece if prompt is not None and prompt.step.scope == "piece" else None
    return Report(
        body=PhotoKept(name=name, step=None if prompt is None else prompt.step.id, media_type=media_type),
        happened_at=visit.incoming.sent_at,
        by=visit.person.name,
        message=visit.incoming.message,
        piece=piece if running.situation.several else None,
    )
