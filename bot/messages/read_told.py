"""How a text was understood, in words: what it is, in both units, what would be kept, and what would be asked."""

from __future__ import annotations

import datetime as dt
from typing import Protocol

from bot.messages.figures import Voice
from bot.messages.read_intents import kept, meaning
from bot.messages.words import _
from scheduler.units import f_from_c


class Understood(Protocol):
    """What the words need to know."""

    @property
    def intent(self) -> str:
        """Return the name of what was understood."""
        ...

    @property
    def core_c(self) -> tuple[float, ...]:
        """Return cores [°C]."""
        ...

    @property
    def pit_c(self) -> tuple[float, ...]:
        """Return pits [°C]."""
        ...

    @property
    def minutes_ago(self) -> float | None:
        """Return how long ago it was [min]."""
        ...

    @property
    def duration_min(self) -> float | None:
        """Return how long something lasts, or is put off [min]."""
        ...

    @property
    def question(self) -> str | None:
        """Return what would be asked."""
        ...


def told(found: Understood, text: str, voice: Voice) -> list[str]:
    """Return the lines that explain how a text was understood."""
    shown = " ".join(text.split())
    lines = [
        _('"{text}" is understood as: {meaning} ({intent}).').format(
            text=shown, meaning=meaning(found.intent), intent=found.intent
        )
    ]
    lines += [_("Meat: {temp}.").format(temp=_both(value)) for value in found.core_c]
    lines += [_("Pit: {temp}.").format(temp=_both(value)) for value in found.pit_c]
    if found.minutes_ago is not None:
        at = voice.now - dt.timedelta(minutes=found.minutes_ago)
        lines.append(_("When: {time}, {minutes:.0f} min ago.").format(time=voice.clock(at), minutes=found.minutes_ago))
    if found.duration_min is not None:
        lines.append(_("How long: {minutes:.0f} min.").format(minutes=found.duration_min))
    lines.append(_("Kept: {what}").format(what=kept(found.intent, asked=found.question is not None)))
    lines.append(_("Asked: {question}").format(question=found.question or _("nothing.")))
    return lines


def _both(temp_c: float) -> str:
    """Return a temperature in both units, to a tenth where it has one."""
    fahrenheit, celsius = (f"{value:.1f}".removesuffix(".0") for value in (f_from_c(temp_c), temp_c))
    return _("{f} F ({c} C)").format(f=fahrenheit, c=celsius)


def ask_feel() -> str:
    """Ask for the feel that belongs to the number of a tenderness test."""
    return _("How does it feel: tight, almost, or like butter?")
