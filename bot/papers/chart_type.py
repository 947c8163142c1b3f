"""The letters of a chart: the font that comes with the program, how wide a text is, and how it is broken into lines.

Nothing is read from the system: the same text is as wide everywhere. Nothing is worded here.
"""

from __future__ import annotations

import functools
import re
import unicodedata
from pathlib import Path

from PIL import ImageFont, features

_FONTS = Path(__file__).parent / "fonts"
_PLAIN, _BOLD = "DejaVuSansCondensed.ttf", "DejaVuSansCondensed-Bold.ttf"
_RIGHT_TO_LEFT = frozenset({"R", "AL", "AN"})
UNKNOWN = "?"
_BOUND = "\x00"
_UNIT = re.compile(r"(\d) (\w{1,3}\b)")
"""A number and the short unit after it stay on one line."""
RISE, DEPTH = 0.76, 0.24
"""How far letters reach above and below the line they stand on, in sizes of the letters."""

SMALLEST = 36
"""Smallest letters [px]: on a phone 1080 px wide, 12 of its 360 units: what its own small print has, from memory."""


@functools.lru_cache(maxsize=128)
def font(size: int, *, bold: bool, shaped: bool = False) -> ImageFont.FreeTypeFont:
    """Return the font at a size [px]; `shaped` for scripts that are written from the right, where that can be done."""
    engine = ImageFont.Layout.RAQM if shaped and features.check("raqm") else ImageFont.Layout.BASIC
    return ImageFont.truetype(_FONTS / (_BOLD if bold else _PLAIN), size, layout_engine=engine)


@functools.lru_cache(maxsize=4096)
def covers(letter: str) -> bool:
    """Return whether the font has a letter: one that it lacks is drawn as the sign for what is unknown."""
    return _drawn(letter) != _drawn("\uffff")


@functools.lru_cache(maxsize=4096)
def _drawn(letter: str) -> tuple[tuple[int, int], bytes]:
    mask = font(32, bold=False).getmask(letter)
    return mask.size, bytes(mask)


def printable(text: str) -> str:
    """Return a text in one line of letters that the font has: others become a question mark."""
    kept = []
    for letter in unicodedata.normalize("NFC", " ".join(text.split())):
        if letter == " " or (letter.isprintable() and covers(letter)):
            kept.append(letter)
        elif unicodedata.category(letter) not in {"Mn", "Me", "Cf", "Cc", "Cs"}:
            kept.append(UNKNOWN)
    return "".join(kept)


def from_the_right(text: str) -> bool:
    """Return whether something of a text is written from the right."""
    return any(unicodedata.bidirectional(letter) in _RIGHT_TO_LEFT for letter in text)


def width(text: str, size: int, *, bold: bool = False) -> float:
    """Return how wide a text is [px]."""
    return font(size, bold=bold, shaped=from_the_right(text)).getlength(text)


def shortened(text: str, size: int, room: float, *, bold: bool = False) -> str:
    """Return a text of at most `room` [px], cut with a sign where it is longer."""
    if width(text, size, bold=bold) <= room:
        return text
    kept = text
    while kept and width(kept.rstrip() + "…", size, bold=bold) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def broken(text: str, size: int, room: float, most: int, *, bold: bool = False) -> list[str]:
    """Return a text in at most `most` lines of at most `room` [px]; the last one is cut where it is still too long."""
    lines: list[str] = []
    words = [word.replace(_BOUND, " ") for word in _UNIT.sub(rf"\1{_BOUND}\2", text).split(" ") if word]
    while words and len(lines) < most - 1:
        count = len(words)
        while count > 1 and width(" ".join(words[:count]), size, bold=bold) > room:
            count -= 1
        lines.append(shortened(" ".join(words[:count]), size, room, bold=bold))
        words = words[count:]
    return [*lines, shortened(" ".join(words), size, room, bold=bold)] if words else lines
