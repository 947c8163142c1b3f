"""What a text with talk about a number in it means: never a reading of that number, no step, no put-off.

What was plainly told beside the talk stays; the talk is answered with the rule, asked back, or kept.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from bot.commands import (
    Ask,
    Correct,
    Done,
    FeelSaid,
    Intent,
    Note,
    NotYet,
    PutOffFor,
    Report,
    Skip,
    Topic,
    Unclear,
    Value,
    WrapSaid,
)
from bot.conversation.context import Context
from bot.conversation.parsing.numbers import Figure
from bot.conversation.parsing.readings import settle
from bot.conversation.parsing.talk import Talk, talk_in
from bot.conversation.parsing.words import LONGEST_READ, tidy
from scheduler.facts import Slot

_TO_COME = re.compile(r"\b(?:will|won't|gonna|going to|hope|hopefully|expect\w*|about to)\b|'ll\b")
_A_CORRECTION = re.compile(
    r"^(?:\*|sorry|sry|oops|whoops|typo|correction|my bad|scratch|that should|should(?:'ve|"
    r" have) been [0-9]|[0-9])"
)
_ASKED_BACK = frozenset({"slot", "unit", "typo", "impossible"})


def without_talk(
    found: tuple[Intent, ...], text: str, context: Context, read: Callable[[str, Context], tuple[Intent, ...]]
) -> tuple[Intent, ...]:
    """Return what a text means once no number that was only talked about counts; `read` reads what stood beside it."""
    heard = tidy(text)
    if len(heard) > LONGEST_READ or not any(_counts(intent, heard) or _unheard(intent) for intent in found):
        return found
    talk = talk_in(heard, context)
    if talk is None:
        return found
    kept = tuple(intent for intent in found if _stays(intent))
    beside = read(talk.rest, context) if re.search(r"[a-z0-9]", talk.rest) else ()
    beside = tuple(intent for intent in beside if not isinstance(intent, Note) and not _unheard(intent))
    if beside or kept:
        return (*beside, *(one for one in kept if one not in beside))
    if not any(_counts(intent, heard) for intent in found):
        return (_rule(talk),) if talk.enough and talk.of_a_core else found
    return (_answer(talk, found, heard, text, context),)


def _counts(intent: Intent, heard: str) -> bool:
    """Return whether an intent would store a number, close a step or put one off."""
    match intent:
        case Report() | Done() | FeelSaid() | NotYet() | PutOffFor() | Skip():
            return True
        case WrapSaid(done=done):
            return done
        case Correct(old_c=old_c):
            return old_c is None and not _A_CORRECTION.match(heard)
        case Unclear(question=question, options=options):
            return question in _ASKED_BACK or any(_counts(meaning, heard) for _label, meaning in options)
        case _:
            return False


def _unheard(intent: Intent) -> bool:
    return isinstance(intent, Unclear) and intent.question == "not_understood"


def _stays(intent: Intent) -> bool:
    """Return whether an intent told beside the talk is kept as it is."""
    stored = (Report, Done, FeelSaid, NotYet, PutOffFor, Skip, Correct, Unclear, Note)
    return not isinstance(intent, stored) and not (isinstance(intent, WrapSaid) and intent.done)


def _rule(talk: Talk) -> Ask:
    return Ask(topic=Topic.RULE, number=talk.number)


def _answer(talk: Talk, found: tuple[Intent, ...], heard: str, text: str, context: Context) -> Intent:
    """Return the answer to talk and nothing else: asked back, the rule, or only kept."""
    if talk.wonders:
        return _asked_back(found, text, context)
    if talk.of_a_core and not _TO_COME.search(heard):
        return _rule(talk)
    return Note(text=text)


def _asked_back(found: tuple[Intent, ...], text: str, context: Context) -> Unclear:
    """Return the question about bare figures with a question mark: what was read, if anything was."""
    reports = [intent for intent in found if isinstance(intent, Report)]
    values = [value for report in reports for value in report.values]
    open_one = next((i for i in found if isinstance(i, Unclear) and i.question in ("slot", "unit") and i.options), None)
    if open_one is not None and not values:
        return open_one
    if len(values) != 1 or values[0].slot not in (Slot.CORE, Slot.PIT):
        return Unclear(question="typo", text=text)
    typed = re.search(r"[0-9]+(?:[.,][0-9]+)?", tidy(text))
    if typed is None:
        return Unclear(question="typo", text=text)
    figure = Figure(value=float(typed.group().replace(",", ".")), start=0, end=0)
    as_each = {slot: settle(figure, slot, context) for slot in (Slot.CORE, Slot.PIT)}
    as_each[values[0].slot] = values[0]
    options: tuple[tuple[str, Intent], ...] = tuple(
        (str(slot), Report(values=(value,), at=reports[0].at))
        for slot, value in as_each.items()
        if isinstance(value, Value)
    )
    return Unclear(question="slot", text=text, values=(figure.value,), options=options)
