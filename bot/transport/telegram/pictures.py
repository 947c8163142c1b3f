"""Which files Telegram shows as pictures: by type, size, and the width and height in their first bytes. Pure.

It must not change a picture.

Limits: Bot API 10.1, 11 June 2026, sendPhoto: "The photo must be at most 10 MB in size. The photo's width and height
must not exceed 10000 in total. Width and height ratio must be at most 20."
"""

from __future__ import annotations

import struct

from bot.chat import Document

MOST_PHOTO_BYTES = 10_000_000
MOST_SIDES = 10_000
MOST_RATIO = 20

_PNG, _JPEG = "image/png", "image/jpeg"
_PNG_START = b"\x89PNG\r\n\x1a\n"
_JPEG_START = b"\xff\xd8"
# Markers of JPEG frames that carry height and width (ITU-T T.81, table B.1); C4, C8 and CC are other things.
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
_MARK = 0xFF
_BARE = frozenset({0x01, *range(0xD0, 0xD8)})
"""Markers without a length."""


def is_photo(document: Document) -> bool:
    """Return whether a file can be sent as a picture; all others go as files."""
    if document.media_type not in {_PNG, _JPEG} or not 0 < len(document.data) <= MOST_PHOTO_BYTES:
        return False
    sides = sides_of(document.data)
    if sides is None or min(sides) == 0:
        return False
    return sum(sides) <= MOST_SIDES and max(sides) <= MOST_RATIO * min(sides)


def sides_of(data: bytes) -> tuple[int, int] | None:
    """Return width and height of a PNG or JPEG in pixels, None when the bytes are neither."""
    if data.startswith(_PNG_START) and data[12:16] == b"IHDR" and len(data) >= len(_PNG_START) + 16:
        width, height = struct.unpack(">II", data[16:24])
        return width, height
    return _jpeg_sides(data) if data.startswith(_JPEG_START) else None


def _jpeg_sides(data: bytes) -> tuple[int, int] | None:
    at = len(_JPEG_START)
    while at + 9 <= len(data) and data[at] == _MARK:
        marker = data[at + 1]
        if marker in _FRAMES:
            height, width = struct.unpack(">HH", data[at + 5 : at + 9])
            return width, height
        if marker == _MARK:  # padding
            at += 1
        elif marker in _BARE:
            at += 2
        else:
            (length,) = struct.unpack(">H", data[at + 2 : at + 4])
            at += 2 + length
    return None
