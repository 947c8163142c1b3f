"""The watch handed over in words: who is asked, who keeps it until then, who has it now.

Sentences only; only an acceptance moves the watch, and that is decided in `scheduler`.
"""

from __future__ import annotations

import datetime as dt

from bot.commands import DeclineWatch, Intent, TakeWatch
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.words import _

Rows = tuple[tuple[tuple[str, Intent], ...], ...]


def take_rows(until: dt.datetime | None = None) -> Rows:
    """Return the buttons of a handover: taking it, and not."""
    return (((_("I have it"), TakeWatch(until=until)), (_("I cannot"), DeclineWatch())),)


def offered(to: str, asked: tuple[str, ...], minutes: float, after: str | None) -> str:
    """Say to whoever hands the watch over that they keep it until it is taken, and what happens else; `asked` are
    those who are called for it now: others than `to` where `to` cannot be woken.
    """
    names = ", ".join(asked)
    return lines(
        "" if to in asked else _("I cannot wake {to}: no answer to the test. Please tell {to} yourself.").format(to=to),
        _('{names} is asked. You have the watch until somebody taps "I have it": please stay with the fire.').format(
            names=names
        ),
        ""
        if after is None
        else _("If nobody answers in {minutes:g} min I ask {name}.").format(minutes=minutes, name=after),
    )


def no_nod(outgoing: str | None) -> Message:
    """Answer a nod: it is no takeover, the button is."""
    keeps = (
        _("A nod is not enough for the watch.")
        if outgoing is None
        else _("A nod is not enough for the watch: {name} keeps it until you tap.").format(name=outgoing)
    )
    return Message(text=keeps, choices=take_rows())


def taken(until: dt.datetime | None, before: str | None, voice: Voice) -> str:
    """Confirm who has the watch now, and until when."""
    has = (
        _("You have the watch.")
        if until is None
        else _("You have the watch until {time}.").format(time=voice.clock(until))
    )
    return has if before is None else lines(has, _("{name} is told, and may sleep.").format(name=before))


def taken_by(name: str, voice: Voice) -> str:
    """Tell the others who has the watch now."""
    return _("{name} has the watch since {time}.").format(name=name, time=voice.clock(voice.now))


def yours_is_over(name: str, voice: Voice) -> str:
    """Tell whoever had the watch that they may sleep."""
    return _("{name} has the watch since {time}. Yours is over.").format(name=name, time=voice.clock(voice.now))


def still_yours(incoming: str) -> str:
    """Tell whoever has the watch that who was asked does not take it."""
    return _("{name} cannot take the watch. You keep it: please stay with the fire.").format(name=incoming)


def declined(outgoing: str | None) -> str:
    """Confirm to somebody that they do not take the watch."""
    if outgoing is None:
        return _("Good: you do not have the watch.")
    return _("Good: you do not have the watch, {name} keeps it.").format(name=outgoing)


def to_whom() -> str:
    """Ask who is to have the watch."""
    return _("Who takes it? Tell me like: Bashir has it.")


def not_to_yourself() -> str:
    """Say to who has the watch that they have it."""
    return _("You have the watch already.")
