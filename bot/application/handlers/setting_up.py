"""Setting up a cook: what is known so far, the next question, and the beginning."""

from __future__ import annotations

import dataclasses

from bot import commands as say
from bot.application.handlers import setup_walk
from bot.application.handlers.setup_begin import begin_cook
from bot.application.handlers.setup_memory import Setup, forget, remember, remembered, say_here, setup_voice, unit_used
from bot.application.handlers.setup_plan import begun_of, filled, on_one_fire
from bot.application.handlers.setup_questions import broken, each_cut, next_question, usual_answer
from bot.application.last_time import with_waves
from bot.application.left_over import about_the_last_cook
from bot.application.papers import give_out_last_record
from bot.application.pictures import show_last
from bot.application.visit import Visit, Work
from bot.chat import IncomingKind
from bot.conversation.flows.setup import DRAFTS, drafted, is_warm, merge, missing, only_names_a_cut, settled, shows_all
from bot.crew import Right, may
from bot.messages import feeding, setup, setup_taps, talk
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.problems import danger_card
from bot.messages.refusals import question, refusal_text
from scheduler.cook import Refusal

_A_LETTER = 2
"""A button is chosen by a letter, or two where there are many [characters]."""

__all__ = ["Setup", "greet", "handle", "remembered"]


def handle(visit: Visit, work: Work, known: Setup | None, wanted: tuple[say.Intent, ...]) -> None:
    """Work on what was said while no cook is running."""
    if isinstance(wanted[0], say.Trouble) and wanted[0].what in say.DANGERS:
        work.say(danger_card(wanted[0].what), to=visit.address, key=f"answer:{visit.row_id}", urgent=True)
        return
    if wanted[0] == say.Ask(topic=say.Topic.RECORD) and give_out_last_record(visit, work):
        return
    asked = wanted[0]
    if isinstance(asked, say.Ask) and asked.topic is say.Topic.CHART and show_last(visit, work, dark=asked.dark):
        return
    if about_the_last_cook(visit, work, wanted[0]):
        return
    if not may(visit.person.role, Right.START):
        say_here(visit, work, Message(text=talk.no_cook()))
        return
    first = wanted[0]
    if isinstance(first, say.Ask):
        text = talk.help_text() if first.topic is say.Topic.HELP else talk.no_cook()
        say_here(visit, work, Message(text=text).then(next_question(visit, known or Setup())))
        return
    if isinstance(first, say.HowMuch):
        found = feeding.how_much(first, visit.house.catalogue.cuts, None)
        say_here(visit, work, found if known is None else found.then(next_question(visit, known)))
        return
    if isinstance(first, say.Undo) and known is not None:
        setup_walk.walk(visit, work, known, say.SetUp(what="over"))
        return
    if isinstance(first, say.SetUp):
        setup_walk.walk(visit, work, known, first)
        return
    if isinstance(first, say.LastTime):
        setup_walk.as_last_time(visit, work, known, first)
        return
    if isinstance(first, say.CallOff | say.Undo):
        forget(visit, work)
        say_here(visit, work, Message(text=talk.no_cook()))
        return
    if isinstance(first, say.MoreCuts):
        say_here(visit, work, setup.more_cuts(visit.house.catalogue.cuts, first.of))
        return
    if isinstance(first, say.Unclear):
        _unclear(visit, work, known or Setup(), first)
        return
    drafts = [drafted(intent) for intent in wanted if isinstance(intent, DRAFTS)]
    if not _chose(visit):  # words that name a button are words: whoever types says as much as they like
        walks = len(drafts) == 1 and only_names_a_cut(drafts[0], (known or Setup()).draft)
        drafts = [one.model_copy(update={"walked": True if walks else None}) for one in drafts]
    if isinstance(first, say.Skip) and known is not None:
        drafts = usual_answer(visit, known)
    if known is not None and known.slot == "which" and known.draft.vague:
        drafts = [settled(known.draft.vague[0], one) if one.cut and not one.settles else one for one in drafts]
    if isinstance(first, say.Note) and known is not None and missing(known.draft) is None:
        drafts = [say.Draft()]  # "none of these": nothing that counts was done to the meat, and all else is known
    if not drafts:
        lead = Message(text="" if known is not None else talk.no_cook())
        say_here(visit, work, lead.then(next_question(visit, known or Setup())))
        return
    doubt = next((i for i in wanted[1:] if isinstance(i, say.Unclear) and i.options), None)
    _go_on(visit, work, known or Setup(), drafts, doubt)


def _chose(visit: Visit) -> bool:
    """Return whether a button was pressed, or its letter typed."""
    return visit.incoming.kind is IncomingKind.TAP or len(visit.incoming.text.strip(" ().:")) <= _A_LETTER


def _unclear(visit: Visit, work: Work, known: Setup, unclear: say.Unclear) -> None:
    """Ask again what was not understood; what stood where a cut was expected is named back."""
    if unclear.question != "not_understood":
        say_here(visit, work, question(unclear, setup_voice(visit, known.unit)))
    elif missing(known.draft) == "cut":
        asked = setup.ask_cut(visit.house.catalogue.cuts, unclear.text.strip()[:60])
        say_here(visit, work, broken(visit).then(asked))
    else:
        say_here(visit, work, setup.not_got(unclear.text.strip()[:60]).then(next_question(visit, known)))


def greet(visit: Visit, work: Work, known: Setup | None, welcome: Message | None = None) -> None:
    """Greet somebody who opened a window or came in by a code, or take up the set-up where it was left."""
    if welcome is not None:
        asks = next_question(visit, known or Setup()) if may(visit.person.role, Right.START) else Message(text="")
        say_here(visit, work, welcome.then(asks))
    elif not may(visit.person.role, Right.START):
        say_here(visit, work, Message(text=talk.welcome(visit.person.name, visit.person.role.value)))
    elif known is not None and known.draft != say.Draft():
        say_here(visit, work, setup_taps.half_finished(next_question(visit, known)))
    else:
        say_here(visit, work, setup.greeting(visit.person.name, next_question(visit, Setup())))


def _go_on(visit: Visit, work: Work, known: Setup, drafts: list[say.Draft], doubt: say.Unclear | None) -> None:
    """Add what was said; begin when all is known, else ask for the next thing, what is in doubt first."""
    draft = known.draft
    for newer in drafts:
        draft = merge(draft, newer)
    unit = unit_used(visit.incoming.text, drafts) or known.unit or visit.manner.unit
    pit_said = draft.pit_low_c is not None
    draft = with_waves(_assumed(draft, visit, setup_voice(visit, unit)), visit, known.like)
    past = _past(draft, visit)
    if past is not None:
        known = dataclasses.replace(known, draft=draft.model_copy(update={"serving": None}), slot="serving", unit=unit)
        remember(visit, work, known)
        say_here(visit, work, past)
        return
    slot = missing(draft)
    known = Setup(draft=draft, slot=slot, unit=unit, like=known.like)
    if is_warm(draft.core_c) and draft.on_at is None:
        remember(visit, work, known)
        say_here(
            visit, work, setup.ask_on()
        )  # warm meat is on the fire: without its time the plan would light it again
        return
    left_out = setup.left_out(tuple(word for newer in drafts for word in newer.ignored))
    if draft.pit_low_c is not None and not pit_said:
        left_out = left_out.then(setup.usual_pit(draft.pit_low_c, setup_voice(visit, unit)))
    if slot is None and not shows_all(draft) and (doubt is None or doubt.question != "treated_how"):
        begin_cook(visit, work, known, left_out)
        return
    if doubt is not None:
        message = question(doubt, setup_voice(visit, unit))
    elif slot == "cut" and draft.on_at is not None and draft.unknown_cut is None:
        message = each_cut(visit, known)
    else:
        message = next_question(visit, known)
    remember(visit, work, known)
    say_here(visit, work, left_out.then(message))


def _assumed(draft: say.Draft, visit: Visit, voice: Voice) -> say.Draft:
    """For a cook begun in the middle take the usual pit and an open dinner, so that the answer comes in one message."""
    if draft.on_at is None or draft.cut is None:
        return draft
    cut = visit.house.catalogue.cuts.get(draft.cut)
    return filled(draft, cut, voice, on_one_fire(draft, visit)[1:])


def _past(draft: say.Draft, visit: Visit) -> Message | None:
    """Say at once that a serving time has passed, with the earliest one when the cut is known; None when it has not."""
    ends_at = None if draft.serving is None else draft.serving.ends_at()
    if ends_at is None or ends_at > visit.now:
        return None
    if draft.cut is None:
        return setup.time_passed()
    whole = filled(draft, visit.house.catalogue.cuts.get(draft.cut), setup_voice(visit, None))
    begun = begun_of(visit, Setup(draft=whole), "c0")
    return Message(text=refusal_text(begun, setup_voice(visit, None))) if isinstance(begun, Refusal) else None
