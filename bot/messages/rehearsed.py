"""What is said when a person's own plan is rehearsed: what is played, what came, and three pieces side by side.

Nothing here is ever said to the crew of a real cook.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.figures import span
from bot.messages.words import _, n_


def opening(what: str, dinner: str) -> str:
    """Say what is played."""
    return _("REHEARSAL of your plan: {what}, dinner {dinner}.").format(what=what, dinner=dinner)


def when_ready() -> str:
    """Say that dinner follows the meat."""
    return _("when it is ready")


def honest() -> str:
    """Say what it can show and what it cannot."""
    return _(
        "Played three times: with a fast piece (one in ten is faster), a usual and a slow one (one in ten is slower)."
        " Each is taken from the forecast itself, so this shows the plan and its messages, not how good the forecast"
        " is. Whoever answers is invented: always awake, three minutes after each message."
    )


def heading(pace: str) -> str:
    """Return the heading of one performance."""
    names = {"fast": _("A FAST PIECE"), "usual": _("A USUAL PIECE"), "slow": _("A SLOW PIECE")}
    return names[pace]


def only_differences() -> str:
    """Say that the other two are told by what is different."""
    return _("(decisions, moves and warnings only)")


def column(pace: str) -> str:
    """Return the head of a column."""
    return {"fast": _("fast"), "usual": _("usual"), "slow": _("slow")}[pace]


def row(key: str, piece: str = "") -> str:
    """Return the name of a row of the comparison, with its piece where there are several."""
    name = {
        "light": _("fire lit"),
        "on": _("meat on"),
        "wrap": _("wrapped"),
        "pull": _("off the fire"),
        "rest": _("from pull to table"),
        "table": _("on the table"),
        "dinner": _("dinner"),
        "messages": _("messages by itself"),
        "night": _("of these 22:00 to 07:00"),
    }[key]
    return _("{piece}: {name}").format(piece=piece, name=name) if piece else name


def never() -> str:
    """Say that something did not happen."""
    return _("not")


def late_by(late: dt.timedelta) -> str:
    """Say how dinner came out."""
    if abs(late) < dt.timedelta(minutes=10):
        return _("on time")
    return (
        _("{span} late").format(span=span(late)) if late > dt.timedelta() else _("{span} early").format(span=span(late))
    )


def count(number: int) -> str:
    """Return a number of messages."""
    return n_("{n}", "{n}", number).format(n=number)


def unfinished() -> str:
    """Say that a performance did not end."""
    return _("This one never came to the table: something in the plan waits for what cannot come.")


def nothing_planned() -> str:
    """Say that there is no cook to rehearse."""
    return _(
        "No cook is planned in this folder. Plan one in the chat, or say it here: slowbell rehearse --cut brisket"
        " --mass 6kg --pit 250F --serve 2026-08-15T18:00"
    )


def told_of_each() -> tuple[str, ...]:
    """Return words of the messages that are told of every piece: decisions, moves of the plan, warnings."""
    return (
        _("Pull it now"),
        _("Stop:"),
        _("Earlier than"),
        _("Later than"),
        _("late by"),
        _("Dinner is"),
        _("act now"),
        _("can still be done"),
    )
