"""Words about the language and the unit of a room. What is spoken where is decided elsewhere."""

from __future__ import annotations

from babel import Locale

from bot.commands.manner import MannerSaid
from bot.messages.message import Message, lines
from bot.messages.words import _, languages, spoken


def own_name(language: str) -> str:
    """Return what a language calls itself, such as "Deutsch"."""
    return str(Locale.parse(language).get_display_name(language)).capitalize()


def changed(*, language: bool, unit: str | None) -> str:
    """Say how this room is spoken to from now on, in the language that is spoken from now on."""
    return lines(
        _("I speak {language} here from now on.").format(language=own_name(spoken())) if language else "",
        _unit_text(unit),
    )


def _unit_text(unit: str | None) -> str:
    if unit is None:
        return ""
    return (
        _("Temperatures are in Celsius here from now on.")
        if unit == "C"
        else _("Temperatures are in Fahrenheit here from now on.")
    )


def which() -> Message:
    """Ask in which language and unit this room is to be spoken to."""
    return Message(text=_("In which language, and in which unit? It counts for this chat."), choices=_choices())


def not_spoken(said: str) -> Message:
    """Say that a language is not known here, and which are."""
    names = ", ".join(own_name(one) for one in languages())
    return Message(text=_("I do not speak {said}. I speak {names}.").format(said=said, names=names), choices=_choices())


def _choices() -> tuple[tuple[tuple[str, MannerSaid], ...], ...]:
    tongues = tuple((own_name(one), MannerSaid(language=one)) for one in languages())
    units = ((_("Celsius"), MannerSaid(unit="C")), (_("Fahrenheit"), MannerSaid(unit="F")))
    return (tongues, units)
