"""Turns a typed text into intents, knowing the stage, the open questions and the buttons on the screen.

Pure: no storage, no clock, no words for people. It never raises for what a person typed, and never drops a text: what
is not understood is an intent too.
"""

from __future__ import annotations

from bot.conversation.context import Context
from bot.conversation.intents import Ask, Draft, Intent, Skip, Topic, Unclear
from bot.conversation.parsing.commands import command, greets, questions
from bot.conversation.parsing.corrections import corrected_time, correction
from bot.conversation.parsing.moves import dinner, pit_moved
from bot.conversation.parsing.offered import chosen
from bot.conversation.parsing.replies import replies
from bot.conversation.parsing.serving import follows_the_meat
from bot.conversation.parsing.setup import set_up
from bot.conversation.parsing.words import LONGEST_READ, tidy


def read(text: str, context: Context) -> tuple[Intent, ...]:
    """Return what a text means, at least one intent: the buttons on the screen first, then commands, then replies."""
    if (intent := chosen(text, context)) is not None:
        return (intent,)
    heard = tidy(text)
    sets_up = context.stage == "none" or context.setup_slot is not None
    if not (sets_up and follows_the_meat(heard)) and (intent := command(text)) is not None:
        return (_in_stage(intent, context),)
    if not heard or len(heard) > LONGEST_READ:
        return (_not_understood(text),)
    if sets_up:
        return _setting_up(heard, text, context)
    return _reply(heard, text, context) or (_not_understood(text),)


def _not_understood(text: str) -> Unclear:
    return Unclear(question="not_understood", text=text)


def _in_stage(intent: Intent, context: Context) -> Intent:
    """Return the command as it is meant now: "/start" begins a cook only while there is none."""
    if isinstance(intent, Draft) and context.stage != "none":
        return Ask(topic=Topic.HELP)
    return intent


def _setting_up(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    found = set_up(heard, text, context)
    if found:
        return found
    if greets(heard):
        return (Draft(),)
    if heard.strip(" .!") in (
        "skip",
        "usual",
        "the usual",
        "default",
        "don't know",
        "dont know",
        "idk",
        "no idea",
        "whatever",
    ):
        return (Skip(),)
    return (_not_understood(text),)


def _reply(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    for reader in (correction, pit_moved):
        if (intent := reader(heard, text, context)) is not None:
            return (intent,)
    for timed in (corrected_time, dinner):
        if (intent := timed(heard, context)) is not None:
            return (intent,)
    if questions(heard):
        return ()
    return replies(heard, text, context)
