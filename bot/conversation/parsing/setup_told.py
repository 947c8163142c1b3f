"""What has been understood of a text about a cook to come, so far. It reads nothing itself."""

from __future__ import annotations

import dataclasses
from typing import Any

from bot.commands import Unclear
from bot.conversation.parsing.words import cut_out
from scheduler.facts import Serving


@dataclasses.dataclass(kw_only=True)
class Telling:
    """What has been understood of a text so far, the words left over, and the words that cannot be used."""

    rest: str
    said: dict[str, Any] = dataclasses.field(default_factory=dict)
    ignored: list[str] = dataclasses.field(default_factory=list)
    problems: list[Unclear] = dataclasses.field(default_factory=list)
    no_pits: list[str] = dataclasses.field(default_factory=list)
    """Words of a pit that no cooker has."""
    off: bool = False
    """True when the meat has come off already: no figure beside it is a pit."""
    other_day: Serving | None = None
    """Dinner on the other day that may be meant, where a weekday contradicts its date."""
    doubtful_on: bool = False
    """True when the day on which the meat went on has to be asked."""

    def cut(self, *spans: tuple[int, int]) -> None:
        """Take spans out of what is left."""
        self.rest = cut_out(self.rest, list(spans))

    def ignore(self, start: int, end: int) -> None:
        """Name a span as words that cannot be used, and take it out."""
        words = self.rest[start:end].replace("|", " ").strip(" ,;.:@")
        if words:
            self.ignored.append(" ".join(words.split()))
        self.cut((start, end))
