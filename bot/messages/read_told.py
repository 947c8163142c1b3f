"""How a text was understood, in words: what it is, what would be kept, and what would be asked."""

from __future__ import annotations

import datetime as dt
from typing import Protocol

from bot.messages.figures import Voice
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
    lines = [_("Typed: {text}").format(text=text), _("Understood: {intent}").format(intent=found.intent)]
    lines += [_("Meat: {temp}").format(temp=_both(value)) for value in found.core_c]
    lines += [_("Pit: {temp}").format(temp=_both(value)) for value in found.pit_c]
    if found.minutes_ago is not None:
        at = voice.now - dt.timedelta(minutes=found.minutes_ago)
        lines.append(
            _("When: {minutes:.0f} minutes ago, {time}").format(minutes=found.minutes_ago, time=voice.clock(at))
        )
    if found.duration_min is not None:
        lines.append(_("How long: {minutes:.0f} minutes").format(minutes=found.duration_min))
    lines.append(_("Asked: {question}").format(question=found.question) if found.question else _("Asked: nothing"))
    return lines


def _both(temp_c: float) -> str:
    return _("{f:.1f} F ({c:.1f} C)").format(f=f_from_c(temp_c), c=temp_c)


def ask_feel() -> str:
    """Ask for the feel that belongs to the number of a tenderness test."""
    return _("How does it feel: tight, almost, or like butter?")
