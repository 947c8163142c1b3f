"""A photo attached in a window: `photo PATH`. Finds the file and says what it is; nothing is read but its first bytes.

It must not copy the file: that is done when the cook keeps it.
"""

from __future__ import annotations

import dataclasses
import re
import shlex
from pathlib import Path

from bot.transport.terminal.outgoing import MOST_FILE_BYTES

_TYPED = re.compile(r"^(?:photo|foto|picture|bild)\s+(?P<path>\S.*)$", re.IGNORECASE)
_LOOKS_LIKE_A_FILE = re.compile(r"[/\\]|\.(?:jpe?g|png|heic|webp|gif)$", re.IGNORECASE)
_KINDS = ((b"\xff\xd8\xff", "image/jpeg"), (b"\x89PNG\r\n\x1a\n", "image/png"))
"""How the files of these kinds begin (ITU-T T.81; PNG specification)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Picture:
    """A file with a picture on this machine."""

    path: str
    media_type: str
    size_bytes: int


@dataclasses.dataclass(frozen=True, kw_only=True)
class NoPicture:
    """What was typed names no picture that can be kept."""

    path: str


def may_attach(text: str) -> bool:
    """Return whether a line may name a picture: all others are words, and need no look at the disk."""
    return _TYPED.match(text.strip()) is not None


def attached(text: str) -> Picture | NoPicture | None:
    """Return the picture that a line attaches, that it is none, or None where the line is words like any other."""
    typed = _TYPED.match(text.strip())
    if typed is None:
        return None
    said = _unquoted(typed["path"].strip())
    path = Path(said).expanduser()
    try:
        size_bytes = path.stat().st_size if path.is_file() else -1
        kind = _kind(path) if 0 < size_bytes <= MOST_FILE_BYTES else None
    except (OSError, ValueError):
        size_bytes, kind = -1, None
    if kind is not None:
        return Picture(path=str(path.resolve()), media_type=kind, size_bytes=size_bytes)
    return NoPicture(path=said) if size_bytes >= 0 or _LOOKS_LIKE_A_FILE.search(said) else None


def _unquoted(said: str) -> str:
    """Return a path without the quotes or backslashes that a terminal puts there when a file is dropped into it."""
    try:
        parts = shlex.split(said)
    except ValueError:
        return said
    return parts[0] if len(parts) == 1 else said


def _kind(path: Path) -> str | None:
    with path.open("rb") as file:
        begins = file.read(16)
    return next((kind for start, kind in _KINDS if begins.startswith(start)), None)
