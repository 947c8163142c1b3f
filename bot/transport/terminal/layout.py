"""Sets a message for a terminal: time in the margin, lines wrapped, choices with letters.

A calculation on strings: it prints nothing and makes no words.
"""

from __future__ import annotations

import datetime as dt
import string
import unicodedata
from collections.abc import Iterator
from zoneinfo import ZoneInfo

from bot.ports import ScreenRow
from bot.transport.terminal.clean import clean, clean_line

WIDTH = 80
WIDEST = 100
"""Longer lines are hard to read, however wide the window is."""
NARROWEST = 30
BETWEEN_CHOICES = "   "
CHOICE_INDENT = "  "


def letter(index: int) -> str:
    """Return the letter of a choice, counted from 0: a to z, then aa, ab. Never a number: that is a reading."""
    letters = string.ascii_lowercase
    more, one = divmod(index, len(letters))
    return letters[one] if more == 0 else letter(more - 1) + letters[one]


def set_row(row: ScreenRow, *, zone: str, today: dt.date, width: int = WIDTH) -> str:
    """Return a message as printed: `14:05  ` before its first line, the rest indented to match.

    A message of another day than `today` (in the same zone) carries its date.
    """
    at = row.at.astimezone(ZoneInfo(zone))
    stamp = f"{at:%H:%M}  " if at.date() == today else f"{at:%Y-%m-%d %H:%M}  "
    room = max(NARROWEST, min(width, WIDEST)) - 1 - len(stamp)
    lines = [line for one in clean(row.text).rstrip().split("\n") for line in wrap(one, room)]
    lines += list(_choices([label for label, _ in row.choices], room))
    margin = " " * len(stamp)
    return "\n".join(((stamp if i == 0 else margin) + line).rstrip() for i, line in enumerate(lines))


def wrap(line: str, room: int) -> list[str]:
    """Break one line to `room` columns at blanks, keeping its own indent; a longer word is cut.

    The lines after the first of an item of a list hang under its words.
    """
    body = line.lstrip(" ")
    indent = " " * min(len(line) - len(body), room // 2)
    if body.startswith("- ") and room > len(indent) + len("- "):
        first, *rest = wrap(indent + body.removeprefix("- "), room - len("- "))
        return [f"{indent}- {first[len(indent) :]}", *(f"  {line}" for line in rest)]
    lines: list[str] = []
    current = ""
    for word in body.split(" "):
        for piece in _cut(word, room - len(indent)):
            longer = f"{current} {piece}" if current else piece
            if current and columns(longer) > room - len(indent):
                lines.append(indent + current.rstrip())
                current = piece
            else:
                current = longer
    return [*lines, indent + current.rstrip()]


def columns(text: str) -> int:
    """Return how many columns a terminal takes: wide characters two, marks and joiners none (UAX 11)."""
    return sum(
        0 if unicodedata.category(ch) in {"Mn", "Me", "Cf"} else 2 if unicodedata.east_asian_width(ch) in "WF" else 1
        for ch in text
    )


def _cut(word: str, room: int) -> Iterator[str]:
    piece = ""
    for ch in word:
        if piece and columns(piece + ch) > room:
            yield piece
            piece = ch
        else:
            piece += ch
    yield piece


def _choices(labels: list[str], room: int) -> Iterator[str]:
    """Yield lines of `a) label`, as many in a line as fit."""
    current = ""
    for index, label in enumerate(labels):
        choice = f"{letter(index)}) {clean_line(label)}"
        longer = current + BETWEEN_CHOICES + choice
        if current and columns(CHOICE_INDENT + longer) <= room:
            current = longer
            continue
        if current:
            yield CHOICE_INDENT + current
        first, *rest = wrap(choice, room - len(CHOICE_INDENT))
        yield from (CHOICE_INDENT + line for line in ([first, *rest][:-1]))
        current = [first, *rest][-1]
    if current:
        yield CHOICE_INDENT + current
