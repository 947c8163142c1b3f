"""What may reach a terminal, and what may come from one: text without control characters.

It must not change anything that can be seen.
"""

from __future__ import annotations

import re
import unicodedata

# Sequences that move the cursor, colour, or name the window: ESC or its one-byte form, in the shapes of
# ECMA-48.
_SEQUENCE = re.compile(
    r"(?:\x1b\[|\x9b)[0-?]*[ -/]*[@-~]"  # control sequences
    r"|(?:\x1b[\]PX^_]|[\x90\x98\x9d-\x9f])[^\x07\x1b\x9c]*(?:\x07|\x1b\\|\x9c)?"  # strings: titles, links
    r"|\x1b[ -/]*[0-~]?"  # all other escapes
)
# Marks that turn the writing direction, with which a line can show something else than it says.
_TURNS = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
TAB_WIDTH = 4


def clean(text: str) -> str:
    """Return text in which only line breaks are left of what controls a terminal."""
    text = text.encode("utf-8", "replace").decode("utf-8")  # half characters from a broken paste
    text = _SEQUENCE.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))
    text = text.replace("\u2028", "\n").replace("\u2029", "\n").expandtabs(TAB_WIDTH)
    return "".join(ch for ch in text if ch == "\n" or not _controls(ch))


def clean_line(text: str) -> str:
    """Return text as one line: a name or a label."""
    return " ".join(clean(text).split())


def _controls(ch: str) -> bool:
    return unicodedata.category(ch) == "Cc" or ch in _TURNS
