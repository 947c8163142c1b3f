"""Help of the command line for `slowbell plan`. Words only, light to import."""

from __future__ import annotations

from bot.messages.words import _


def help_plan() -> str:
    """Explain plan."""
    return _("print a plan backward from dinner, without any chat")


def help_cut() -> str:
    """Explain --cut."""
    return _("what is cooked, like brisket; say it again with its own mass and so on for a further piece")


def help_of(name: str) -> str:
    """Explain what is said of one piece."""
    return {
        "mass": _("mass of one piece, like 6kg, 13lb, 900g"),
        "thickness": _("at its thickest, like 7.5cm, 3in, 75mm"),
        "count": _("how many like pieces"),
        "pit": _("the pit, like 250F, 121C or 250-275F; of a further piece only where it is another"),
        "wrap": _("none, paper, foil or boat; left out, it is decided at the bark"),
        "treated": _("what was done to it: injected, tenderised, rolled, stuffed; intact when nothing was"),
        "done": _("the core at which it comes off, like 145F or 63C; never under its safe minimum"),
        "safe_by": _("minimum (the default), or time: safe by time at a lower temperature, intact whole cuts only"),
        "serve": _("when people eat: 2026-08-15T18:00, 2026-08-15T18:00/19:00, or when-ready"),
    }[name]


def help_file() -> str:
    """Explain --file."""
    return _("read the pieces from a plan file instead")


def help_guests() -> str:
    """Explain --guests."""
    return _("who eats: adults, or adults+children like 24+6; then it says what to buy")


def help_at_risk() -> str:
    """Explain --at-risk."""
    return _("pregnant, old, very young or ill people eat with you: the stricter rules count")


def help_no_at_risk() -> str:
    """Explain --no-at-risk."""
    return _("nobody pregnant, old, very young or ill eats with you; --safe-by time needs that said")


def help_allergies() -> str:
    """Explain --allergies."""
    return _("allergies to be kept in sight, like nuts, or none")


def help_public() -> str:
    """Explain --public."""
    return _("a public or paid meal: the Food Code counts too, local codes decide")


def help_cooker() -> str:
    """Explain --cooker."""
    return _("ceramic, kettle, offset, drum, cabinet, or the name of a card of yours: for lighting and charcoal")


def help_confidence() -> str:
    """Explain --confidence."""
    return _("how sure dinner shall be, 0.5 to 0.99 (default: 0.85)")


def help_now() -> str:
    """Explain --now."""
    return _("plan as of this time, like 2026-08-14T09:00 (default: the clock)")


def help_format() -> str:
    """Explain --format."""
    return _("text, json, ics (a calendar file) or page (one A5 page, PDF)")
