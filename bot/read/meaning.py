"""What a text means in the words of the trade's table: an intent, readings, times, and the question that is left.

It names what the reader of the chat found; it reads nothing by itself.
"""

from __future__ import annotations

import dataclasses

from bot.conversation.interpreter import read
from bot.read.moment import Moment
from bot.read.naming import Named, name
from scheduler.planning.catalogue import Catalogue

_DIGITS = 2


@dataclasses.dataclass(frozen=True, kw_only=True)
class Understood:
    """How a text would be understood: temperatures in °C, times in minutes; nothing said is None, never 0."""

    intent: str
    core_c: tuple[float, ...] = ()
    pit_c: tuple[float, ...] = ()
    minutes_ago: float | None = None
    duration_min: float | None = None
    question: str | None = None

    def as_values(self) -> dict[str, object]:
        """Return it as values that JSON can hold."""
        return {
            "intent": self.intent,
            "core_c": [round(value, _DIGITS) for value in self.core_c],
            "pit_c": [round(value, _DIGITS) for value in self.pit_c],
            "minutes_ago": _whole(self.minutes_ago),
            "duration_min": _whole(self.duration_min),
            "question": self.question,
        }


def understand(text: str, moment: Moment, catalogue: Catalogue) -> Understood:
    """Return how a text would be understood at this moment."""
    context = moment.context(catalogue)
    found: Named = name(text, read(text, context), context, moment, catalogue)
    return Understood(
        intent=found.intent,
        core_c=found.core_c,
        pit_c=found.pit_c,
        minutes_ago=found.minutes_ago,
        duration_min=found.duration_min,
        question=found.question,
    )


def _whole(minutes: float | None) -> float | int | None:
    if minutes is None:
        return None
    return int(minutes) if float(minutes).is_integer() else round(minutes, 1)
