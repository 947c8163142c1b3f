"""What is answered to a number that was tapped too late, or a second time. It says nothing of what a number means."""

from __future__ import annotations

from bot.messages.bodies import body_text
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.words import _
from scheduler.facts import Reading
from scheduler.state import ReadingAt


def too_late() -> Message:
    """Say that a button is of an older question, and what to do with a new number."""
    return Message(text=_("That button is from an older question; nothing was changed. A new number can be typed."))


def known(before: ReadingAt, voice: Voice) -> Message:
    """Say that a number is written down already, when and by whom."""
    reading = Reading(slot=before.slot, value_c=before.value_c, spread_c=before.spread_c, spot=before.spot)
    what, time = body_text(reading, voice), voice.clock(before.at)
    if before.by is None:
        return Message(text=_("I have that down: {what}, {time}.").format(what=what, time=time))
    return Message(text=_("I have that down: {what}, {time}, {name}.").format(what=what, time=time, name=before.by))
