"""A set-up by taps: begin it, one step back, start over, say one thing of it anew, or set up as last time."""

from __future__ import annotations

import dataclasses

from bot import commands as say
from bot.application.handlers.setup_begin import begin_cook
from bot.application.handlers.setup_memory import Setup, remember, say_here
from bot.application.handlers.setup_questions import next_question, open_slot
from bot.application.last_time import like
from bot.application.visit import Visit, Work
from bot.conversation.flows.setup import before, missing, without
from bot.messages import setup, talk
from bot.messages.message import Message


def walk(visit: Visit, work: Work, known: Setup | None, said: say.SetUp) -> None:
    """Do what a button of a set-up says; one of a set-up that is over changes nothing."""
    if known is None:
        say_here(visit, work, Message(text=talk.old_button()).then(next_question(visit, Setup())))
        return
    if said.what == "begin" and missing(known.draft) is None:
        begin_cook(visit, work, known, Message(text=""))
        return
    if said.what == "over":
        fresh = Setup(unit=known.unit)
        remember(visit, work, fresh)
        say_here(visit, work, setup.started_over().then(next_question(visit, fresh)))
        return
    again = _again(known, said)
    remember(visit, work, again)
    say_here(visit, work, next_question(visit, again))


def _again(known: Setup, said: say.SetUp) -> Setup:
    """Return the set-up as it is asked on: a step before, or for one thing anew."""
    draft = known.draft
    if said.what in {"go_on", "change", "begin"}:
        return dataclasses.replace(known, slot=missing(draft))
    if said.what in {"wrap", "who"}:
        return dataclasses.replace(known, slot=said.what, was=draft)
    if said.what == "back":
        return _step_back(known)
    return _asking(known, said.what, was=draft if missing(draft) is None else None)


def _step_back(known: Setup) -> Setup:
    """Return the set-up before the last answer, or before one thing of it was to be said anew."""
    if known.was is not None:
        return dataclasses.replace(known, draft=known.was, slot=missing(known.was), was=None)
    slot = "cut" if known.like is not None else before(open_slot(known))
    return known if slot is None else _asking(known, slot, was=None)


def _asking(known: Setup, slot: str, *, was: say.Draft | None) -> Setup:
    draft = without(known.draft, slot)
    return dataclasses.replace(known, draft=draft, slot=missing(draft), was=was, like=None)


def as_last_time(visit: Visit, work: Work, known: Setup | None, said: say.LastTime) -> None:
    """Set up a cook like an earlier one of this room and ask for its date."""
    draft = like(visit, said.cook)
    if draft is None:
        say_here(visit, work, Message(text=talk.old_button()).then(next_question(visit, known or Setup())))
        return
    again = Setup(draft=draft, slot="serving", unit=None if known is None else known.unit, like=said.cook)
    remember(visit, work, again)
    say_here(visit, work, next_question(visit, again))
