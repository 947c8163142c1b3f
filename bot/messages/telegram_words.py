"""What is said about the messenger itself: what a group lets the program hear and do, and what became of a chat.

It must not say anything about a cook.
"""

from __future__ import annotations

from bot.messages.message import lines
from bot.messages.words import _


def topic_closed() -> str:
    """Say why a message comes to the group itself and not to its topic."""
    return _("(The topic is closed or gone, so this comes here.)")


def cannot_pin() -> str:
    """Say once that the board could not be pinned, and the one thing to do."""
    return _("I may not pin the board here. Make me an administrator who may pin messages, or pin it yourself.")


def hello_group(*, hears_all: bool) -> str:
    """Greet a group; where only commands and replies are heard, say the one thing to do."""
    hello = _("Hello. Here I can follow one cook with all of you.")
    return hello if hears_all else lines(hello, hears_little())


def hears_little() -> str:
    """Say that a group lets the program hear only commands and replies, and what to do about it."""
    return _("I hear only commands and replies here: reply to one of my messages, or make me an administrator.")


def type_number(name: str) -> str:
    """Ask somebody for a number where only a reply is heard."""
    return _("{name}: which number? Type it as a reply to this message.").format(name=name)
