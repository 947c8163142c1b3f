"""The font of the page and what it can print: letters it lacks become other letters, or a question mark.

The font is the one bundled with the library and is embedded in every file; nothing is read from the system.
"""

from __future__ import annotations

import functools
import unicodedata

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

PLAIN, BOLD = "Vera", "VeraBd"
UNKNOWN = "?"


@functools.lru_cache(maxsize=1)
def fonts() -> frozenset[int]:
    """Register both faces once; return the code points that both can print."""
    known: list[set[int]] = []
    for name in (PLAIN, BOLD):
        font = TTFont(name, f"{name}.ttf")
        pdfmetrics.registerFont(font)
        known.append(set(font.face.charToGlyph))
    return frozenset(set.intersection(*known))


def printable(text: str) -> str:
    """Return a text in letters of the font: what it lacks is taken apart (ş to s), else it is a question mark."""
    known = fonts()
    return "".join(_letter(char, known) for char in unicodedata.normalize("NFC", text))


def lacking(text: str) -> bool:
    """Return whether something of a text cannot be printed."""
    return printable(text).count(UNKNOWN) > text.count(UNKNOWN)


def _letter(char: str, known: frozenset[int]) -> str:
    if ord(char) in known and char.isprintable():
        return char
    if char.isspace():
        return " "
    apart = "".join(c for c in unicodedata.normalize("NFKD", char) if ord(c) in known and not unicodedata.combining(c))
    if apart:
        return apart
    return "" if unicodedata.category(char) in {"Mn", "Me", "Cf", "Cc"} else UNKNOWN


def width(text: str, font: str, size: float) -> float:
    """Return how wide a line is [pt]."""
    fonts()
    return float(pdfmetrics.stringWidth(text, font, size))


def broken(text: str, font: str, size: float, room: float) -> list[str]:
    """Return a text in lines of at most `room` [pt]; a word that is longer is cut."""
    lines: list[str] = []
    current = ""
    for word in text.split():
        for part in _cut(word, font, size, room):
            longer = f"{current} {part}" if current else part
            if current and width(longer, font, size) > room:
                lines.append(current)
                current = part
            else:
                current = longer
    return [*lines, current] if current else lines


def _cut(word: str, font: str, size: float, room: float) -> list[str]:
    parts, current = [], ""
    for char in word:
        if current and width(current + char, font, size) > room:
            parts.append(current)
            current = char
        else:
            current += char
    return [*parts, current]


def shortened(text: str, font: str, size: float, room: float) -> str:
    """Return a text in one line of at most `room` [pt], cut with a sign where it is longer."""
    if width(text, font, size) <= room:
        return text
    kept = text
    while kept and width(kept + "…", font, size) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"
