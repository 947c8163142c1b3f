"""What is asked when "done" says too little. One line each."""

from __future__ import annotations

from bot.messages.words import _


def and_the_number() -> str:
    """Ask for the number of a step that is one."""
    return _("Good. And the number?")


def and_which() -> str:
    """Ask for the choice of a step that offers some."""
    return _("And which?")


def takes_it(name: str) -> str:
    """Ask somebody to take the watch that was handed to them."""
    return _("{name}, do you have the watch?").format(name=name)


def do_you_have_it() -> str:
    """Ask for the words that take the watch: a nod does not."""
    return _("Seen is not taken. Do you have the watch? Say: I have it.")


def for_which_cook(names: tuple[str, ...] = ()) -> str:
    """Ask which cook a message was meant for."""
    if not names:
        return _("Which cook was it for?")
    return _("Which cook was it for: {names}?").format(names=", ".join(names))
