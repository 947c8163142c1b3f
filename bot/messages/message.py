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


ROW_LETTERS = 36
"""About as many letters of buttons as fit side by side on a phone held upright; common practice, no source."""


def narrowed(rows: tuple[tuple[Option, ...], ...]) -> tuple[tuple[Option, ...], ...]:
    """Return rows of buttons of which each fits a phone, in the same order."""
    fitting: list[tuple[Option, ...]] = []
    for row in rows:
        line: list[Option] = []
        for option in row:
            if line and sum(len(label) for label, _meaning in (*line, option)) > ROW_LETTERS:
                fitting.append(tuple(line))
                line = []
            line.append(option)
        if line:
            fitting.append(tuple(line))
    return tuple(fitting)


def _deed(meaning: Intent) -> object:
    """Return what a button does: a step done is the same step, whatever else it tells."""
    return meaning.step if isinstance(meaning, Done) else meaning


def lines(*parts: str) -> str:
    """Return the non-empty parts, one a line."""
    return "\n".join(part for part in parts if part)
