"""Writing direction: nothing that a person typed may turn the words around it. Pure.

It must not change what can be read, nor know what a text says.

UAX #9 (Unicode Bidirectional Algorithm, from memory): isolates (FSI to PDI) are laid out by themselves and are passed
over when the direction of a paragraph is looked for (P2), so a name from right to left stays one thing in a sentence
from left to right. Overrides and embeddings turn whatever follows them, so they are left out.
"""

from __future__ import annotations

import re
import unicodedata
from itertools import groupby

FSI, PDI = "\u2068", "\u2069"

TURNS = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]")
"""Marks, embeddings, overrides and isolates."""
_RIGHT_TO_LEFT = frozenset({"R", "AL", "AN"})
_LEFT_TO_RIGHT = "L"


def laid_out(text: str) -> str:
    """Return a text in which every run from right to left is isolated, line by line, and no mark turns anything."""
    plain = TURNS.sub("", text)
    if all(unicodedata.bidirectional(ch) not in _RIGHT_TO_LEFT for ch in plain):
        return plain
    return "\n".join(_line(line) for line in plain.split("\n"))


def _line(line: str) -> str:
    runs = [(way, "".join(part)) for way, part in groupby(line, key=_way)]
    whole: list[str] = []
    for number, (way, run) in enumerate(runs):
        # What is neutral between two runs from right to left belongs to them: "first name, space, last name".
        between = way is None and 0 < number < len(runs) - 1 and runs[number - 1][0] == runs[number + 1][0] == "R"
        if (way == "R" or between) and whole and whole[-1].startswith(FSI):
            whole[-1] = whole[-1][:-1] + run + PDI
        else:
            whole.append(f"{FSI}{run}{PDI}" if way == "R" else run)
    return "".join(whole)


def _way(ch: str) -> str | None:
    """Return "R" or "L" for letters with a direction; None for digits, spaces and signs, which follow others."""
    found = unicodedata.bidirectional(ch)
    return "R" if found in _RIGHT_TO_LEFT else "L" if found == _LEFT_TO_RIGHT else None
