"""Whole texts that are read before commands and replies: the watch, a display, the log, who eats, and who goes away.

It only asks their readers in order.
"""

from __future__ import annotations

from bot.commands import Ask, Intent, PutOffFor
from bot.conversation.context import Context
from bot.conversation.parsing import times
from bot.conversation.parsing.display import display_shows, probe_asked
from bot.conversation.parsing.handing_over import handed_over
from bot.conversation.parsing.headcount import headcount
from bot.conversation.parsing.log_asked import who_did, wrong_cook
from bot.conversation.parsing.meat import feel_words
from bot.conversation.parsing.prompts import question

_READERS = (display_shows, who_did, probe_asked, wrong_cook, headcount, handed_over)
_OF_A_FEEL = frozenset({"fast", "close", "soon"})
"""A feel where one is asked for ("fast" is almost in German), and something else everywhere else."""


def told_apart(heard: str, text: str, context: Context) -> Intent | None:
    """Return what a whole text says of the watch, of a display, of the log or of who eats; None for other words."""
    return next((found for reader in _READERS if (found := reader(heard, text, context)) is not None), None)


def goes_away(leaves: Ask, heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    """Return what somebody says who leaves the fire: the watch handed over; else for how long no prompts are wanted
    ("back in 20"), and always that a lit cooker is never left alone.
    """
    if (handed := handed_over(heard, text, context)) is not None:
        return (handed,)
    ahead = next((when.minutes for when in times.find(heard) if when.kind is times.Kind.AHEAD), None)
    step = question(context)
    return (leaves,) if ahead is None or step is None else (PutOffFor(minutes=ahead, step=step.step), leaves)


def only_felt(heard: str, context: Context) -> tuple[Intent, ...] | None:
    """Return the feel in a word that means something else unasked, None for others."""
    asked_for = question(context)
    word = heard.strip(" .!")
    if asked_for is None or asked_for.step != "tender_test" or word not in _OF_A_FEEL:
        return None
    return feel_words(word) or None
