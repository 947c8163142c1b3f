"""Help of the command line for `slowbell read`, and what cannot be used of its arguments.

Words only, light to import.
"""

from __future__ import annotations

from bot.messages.words import _


def help_read() -> str:
    """Explain read."""
    return _("show how a text would be understood, to report a misunderstanding")


def help_text() -> str:
    """Explain TEXT."""
    return _('what somebody types, in quotes: "171", "wrapped at 2"')


def help_slot() -> str:
    """Explain --slot."""
    return _("the question that is open: core, pit, spritz, wood, fuel, bark, feel, rest, or none (the default)")


def help_unit() -> str:
    """Explain --unit."""
    return _("the unit of the chat, F or C; left out, nobody has said")


def help_stage() -> str:
    """Explain --stage."""
    return _("before, fire, cooking, resting or serving; left out, the stage in which the question is asked")


def help_now() -> str:
    """Explain --now."""
    return _("the time of day at which it is typed, like 13:55; left out, now")


def help_last() -> str:
    """Explain --last."""
    return _("the reading before, like core=166F@13:10 or pit=121C@13:30; say it again for the other one")


def help_pit_target() -> str:
    """Explain --pit-target."""
    return _("what the pit is to hold, like 121C or 250F")


def help_json() -> str:
    """Explain --json."""
    return _("print it for scripts")


def unusable(what: str, given: str) -> str:
    """Say what cannot be used of the arguments of read, and what would work."""
    return {
        "text": _('There is no text to read. Put it in quotes: slowbell read "171 at 1:30".'),
        "slot": _("There is no question {given}. One of these: core, pit, spritz, wood, fuel, bark, feel, rest, none."),
        "unit": _("There is no unit {given} here. It is F or C."),
        "stage": _("There is no stage {given}. One of these: before, fire, cooking, resting, serving."),
        "now": _("{given} is no time of day. It is written like 13:55."),
        "last": _("{given} is no reading. It is written like core=166F@13:10 or pit=121C@13:30."),
        "pit_target": _("{given} is nothing a pit can hold. It is written like 121C or 250F."),
    }[what].format(given=given or '""')
