"""What `slowbell chart` says, and its help. Words only, light to import."""

from __future__ import annotations

from bot.messages.words import _


def help_chart() -> str:
    """Explain chart."""
    return _("draw a cook as a picture for a phone")


def help_png() -> str:
    """Explain --png."""
    return _("draw it into this file")


def help_dark() -> str:
    """Explain --dark."""
    return _("light on dark, for the night")


def help_unit() -> str:
    """Explain --unit."""
    return _("C or F (default: as the cook was planned)")


def no_file() -> str:
    """Return that no file was named."""
    return _("Name a file: slowbell chart --png chart.png")


def unreadable(cook: str, why: str) -> str:
    """Return that a log cannot be read."""
    return _("The log of {cook} cannot be drawn: {why}").format(cook=cook, why=why)


def written(name: str, cook: str) -> str:
    """Return that the picture was written."""
    return _("{name}: chart of {cook}.").format(name=name, cook=cook)
