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


def for_this_cook(cook: str, what: str) -> str:
    """Ask whether something told in another cook was for this one."""
    return _("Was it for {cook}: {what}?").format(cook=cook, what=what)


def told_there() -> str:
    """Label the button that tells it there."""
    return _("Yes, there")


def nothing_told() -> str:
    """Say that there is nothing that could be for another cook."""
    return _("You have told me nothing that could be for another cook.")


def for_which_cook(names: tuple[str, ...] = ()) -> str:
    """Ask which cook a message was meant for."""
    if not names:
        return _("Which cook was it for?")
    return _("Which cook was it for: {names}?").format(names=", ".join(names))
