"""What somebody is called, from what the messenger says: one plain, short line that cannot pose as anything else. Pure.

It must not decide whether two people are the same.
"""

from __future__ import annotations

import re
import unicodedata

LONGEST_NAME = 40
"""Characters; longer names are cut, and the program tells people apart by what is left (house rule)."""
MOST_MARKS = 2
"""Combining marks on one letter: enough for every writing in use, too few to draw over other lines (house rule)."""

# Line ends and marks of writing direction could pose as part of a message; what has no width, or looks empty, could
# pose as no name, or as another's.
_NOT_IN_NAMES = re.compile(
    "[\n\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\u2800"
    "\u3164\ufe00-\ufe0e\ufeff\uffa0\ufff9-\ufffb\U000e0000-\U000e0fff]+"
)
# At the beginning of a word these make a link of it: "@all", "#supper", "/stop".
_LINKS = re.compile(r"(?:(?<=\s)|^)[@#/]+(?=\S)")
_JOINERS = "\u200c\u200d"
_CUT = "…"


def plain_name(name: str) -> str:
    """Return a name as it may stand in a sentence; empty when nothing of it can be seen."""
    line = " ".join(_NOT_IN_NAMES.sub(" ", name).split())
    line = " ".join(_LINKS.sub("", line).split())
    line = _few_marks(line)
    if not any(ch.isalnum() or unicodedata.category(ch).startswith("S") for ch in line):
        return ""
    return line if len(line) <= LONGEST_NAME else line[: LONGEST_NAME - 1].rstrip(f" {_JOINERS}") + _CUT


def _few_marks(text: str) -> str:
    kept, marks = [], 0
    for ch in text:
        marks = marks + 1 if unicodedata.category(ch) in {"Mn", "Me"} else 0
        if marks <= MOST_MARKS:
            kept.append(ch)
    return "".join(kept)
