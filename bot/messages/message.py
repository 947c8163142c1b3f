"""A message before it is addressed: text and choices, each choice with what it means. Values only."""

from __future__ import annotations

import dataclasses

from bot.commands import Intent

Option = tuple[str, Intent]
"""(label, meaning) of one button."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Message:
    """Text with rows of choices."""

    text: str
    choices: tuple[tuple[Option, ...], ...] = ()

    def then(self, other: Message) -> Message:
        """Return both in one message, the other one after a blank line."""
        if not self.text:
            return other
        if not other.text:
            return dataclasses.replace(self, choices=(*self.choices, *other.choices))
        return Message(text=f"{self.text}\n\n{other.text}", choices=(*self.choices, *other.choices))


def lines(*parts: str) -> str:
    """Return the non-empty parts, one a line."""
    return "\n".join(part for part in parts if part)
