"""A watch that somebody cannot do, and somebody who is called to the fire, in words.

Sentences only; who is asked and who is told is decided elsewhere.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.figures import Voice
from bot.messages.message import lines
from bot.messages.words import _

Watch = tuple[dt.datetime, dt.datetime]


def no_watch_of_yours() -> str:
    """Say that somebody has no watch."""
    return _("You have no watch on my list. Gone for good? Say: I left the crew.")


def yours_until_taken(watch: Watch, voice: Voice) -> str:
    """Say that a watch to come stays with its owner until somebody takes it."""
    start, end = voice.clock(watch[0]), voice.clock(watch[1])
    return lines(
        _("Your watch from {start} to {end} needs somebody else: I ask who takes it.").format(start=start, end=end),
        _("Until somebody does it stays yours on my list."),
    )


def who_takes(name: str, watch: Watch, voice: Voice) -> str:
    """Ask the lead who takes a watch that its owner cannot do."""
    start, end = voice.clock(watch[0]), voice.clock(watch[1])
    return lines(
        _("{name} cannot do the watch from {start} to {end}. Who takes it?").format(name=name, start=start, end=end),
        _("Type all watches anew, like: Tomas 22-03, Bashir 03-07."),
    )


def nobody_else() -> str:
    """Say that nobody else is known who could take the watch."""
    return _("I know nobody else who could take the watch: it stays yours, please stay with the fire. Who can come?")


def wants_relief(name: str, asked: str) -> str:
    """Tell the lead that whoever has the watch wants to be relieved."""
    return _("{name} cannot go on with the watch. {asked} is asked; {name} keeps it until then.").format(
        name=name, asked=asked
    )


def call_whom() -> str:
    """Ask who is to be called."""
    return _("Whom shall I call? Type: wake, and the name.")


def called(name: str, *, alone: bool) -> str:
    """Say that somebody is called now, and what to do if they do not come."""
    return lines(
        _("{name} is called now, by sound.").format(name=name)
        if alone
        else _("{name} has no private chat with me: called here and in the group.").format(name=name),
        _("Nobody comes in 5 min: ring the telephone, or go and knock."),
    )


def come(name: str, by: str) -> str:
    """Call somebody to the fire."""
    return _("{name}: {by} asks you to come to the fire now.").format(name=name, by=by)
