"""Small talk of the program: help, people, rights, invitations, old buttons, problems. One or two sentences each."""

from __future__ import annotations

from bot.messages.message import lines
from bot.messages.words import _


def help_text() -> str:
    """Say what can be typed."""
    return lines(
        _("Type a number and it is a reading: 178, pit 262, 250/171, 81c."),
        _("Or what you did: lit, meat on at 11:20, wrapped in paper, slides in, pulled, boxed, served."),
        _("Or: done, skip, not yet, in 20, undo, sorry 187 not 178; the air: cold out, 41 F outside, windy."),
        _("Ask: how long, stall?, what next, plan, is it safe, what can I do. Change: dinner at 7, pit to 275."),
        _("Something wrong? Say it: fire went out, it's raining, guests are late."),
        _("At night: Tomas 22-03, Wren 03-07; quiet 23 to 6. How much I tell: every step, the usual, only decisions."),
        _("The plan: be 95 % sure, other plans, what if pit 275, rest in the oven at 170, why?"),
        _("As a picture: chart. On paper: page, calendar; record (the temperature log for an inspector)."),
        _("Several pieces: also chicken 2 kg, ribs 188, drop the chicken. A second cook: new cook: chicken, dinner 7."),
        _("Others join with: invite."),
    )


def private() -> str:
    """Say to a stranger that this is a private kitchen."""
    return _("This is a private kitchen. Ask its owner for a link; it lets one person in.")


def welcome(name: str, role: str) -> str:
    """Greet somebody who came in by a code."""
    if role == "owner":
        return _("Hello {name}. You are the owner here now; the code is spent.").format(name=name)
    return _("Hello {name}. You are in. Ask how long, what next or plan at any time.").format(name=name)


def code_spent() -> str:
    """Say that a code does not work."""
    return _("That code is spent or too old. Ask for a new one.")


def invitation(code: str, link: str | None) -> str:
    """Hand out a single-use code or link."""
    if link is not None:
        return _("For one person, for a day: {link}").format(link=link)
    return _(
        "For one person, for a day: join {code}. In this terminal no code is needed: slowbell chat --as NAME."
    ).format(code=code)


def people(names: list[str]) -> str:
    """Say who is here."""
    return _("Here: {names}.").format(names=", ".join(names))


def old_button() -> str:
    """Answer a button whose question is long gone."""
    return _("That button is from an older question; nothing was changed.")


def no_cook() -> str:
    """Say that nothing is cooking."""
    return _("Nothing is cooking.")


def one_at_a_time() -> str:
    """Say that a cook is already running here, and how to add to it or begin one more."""
    return _(
        "A cook is running here already. One more piece in it: also chicken 2 kg. A cook of its own: new cook: chicken "
        "2 kg, dinner 19:00. To end it: call it off."
    )


def called_off() -> str:
    """Say that the cook was called off, with the caution that belongs to it."""
    return _(
        "Called off; the log is kept. If the fire is lit: vents shut, lid on, outdoors, somebody near until it is out."
    )


def nothing_open() -> str:
    """Say that no question is open."""
    return _('Nothing is open that this could answer. "what next" tells what comes.')


def not_text() -> str:
    """Answer a photo or voice note."""
    return _("I can only read text so far. Type what it shows, please.")


def hello_group() -> str:
    """Greet a group."""
    return _(
        "Hello. Here I can follow one cook with all of you. If I do not answer plain numbers, reply to one of my "
        "messages."
    )


def our_fault() -> str:
    """Say that a message could not be worked on, and that it is kept."""
    return _("Something went wrong on my side with that message; I kept it. Please say it another way.")
