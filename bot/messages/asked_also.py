"""What is asked when "done" says too little. One line each."""

from __future__ import annotations

from bot.messages.words import _


def and_the_number() -> str:
    """Ask for the number of a step that is one."""
    return _("Good. And the number?")


def and_which() -> str:
    """Ask for the choice of a step that offers some."""
    return _("And which?")
