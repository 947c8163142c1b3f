"""Small pictures made of bytes: as much of a file as tells its sides.

It must not assert anything.
"""

from __future__ import annotations

import struct

from bot.chat import Document

PNG, JPEG = "image/png", "image/jpeg"


def png(width: int = 1080, height: int = 1920, *, tail: bytes = b"") -> bytes:
    """Return the beginning of a PNG of this size (PNG specification, IHDR), and a tail."""
    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + struct.pack(">I", len(header)) + b"IHDR" + header + b"\x00\x00\x00\x00" + tail


def jpeg(width: int = 1080, height: int = 1920) -> bytes:
    """Return the beginning of a JPEG of this size (ITU-T T.81): an application segment, then the frame."""
    frame = struct.pack(">HBHHB", 11, 8, height, width, 1) + b"\x01\x11\x00"
    return b"\xff\xd8" + b"\xff\xe0" + struct.pack(">H", 16) + bytes(14) + b"\xff\xc0" + frame + b"\xff\xd9"


def picture(data: bytes, media_type: str = PNG) -> Document:
    """Return a picture to be sent."""
    return Document(name="chart.png", media_type=media_type, data=data)
