"""A message before it is addressed: text and choices, each choice with what it means. Values only."""

from __future__ import annotations

import dataclasses

from bot.commands import Done, Intent

Option = tuple[str, Intent]
"""(label, meaning) of one button."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Message:
    """Text with rows of choices."""

    text: str
    choices: tuple[tuple[Option, ...], ...] = ()

    def then(self, other: Message) -> Message:
        """Return both in one message, the other one after a blank line; a button that both have is there once."""
        if not self.text:
            return other
        later = {(label, _deed(meaning)) for row in other.choices for label, meaning in row}
        rows = (tuple(one for one in row if (one[0], _deed(one[1])) not in later) for row in self.choices)
        choices = (*(row for row in rows if row), *other.choices)
        if not other.text:
            return dataclasses.replace(self, choices=choices)
        return Message(text=f"{self.text}\n\n{other.text}", choices=choices)


def _deed(meaning: Intent) -> object:
    """Return what a button does: a step done is the same step, whatever else it tells."""
    return meaning.step if isinstance(meaning, Done) else meaning


def lines(*parts: str) -> str:
    """Return the non-empty parts, one a line."""
    return "\n".join(part for part in parts if part)
