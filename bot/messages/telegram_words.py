"""What is said about the messenger itself: what a group lets the program hear and do, and what became of a chat.

It must not say anything about a cook.
"""

from __future__ import annotations

from bot.messages.words import _


def topic_closed() -> str:
    """Say why a message comes to the group itself and not to its topic."""
    return _("(The topic is closed or gone, so this comes here.)")


def cannot_pin() -> str:
    """Say once that the board could not be pinned, and the one thing to do."""
    return _("I may not pin the board here. Make me an administrator who may pin messages, or pin it yourself.")
