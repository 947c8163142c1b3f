"""Draws a chat as a phone held upright shows it, in a plain look of our own: what was said right, the program left.

It knows nothing of a cook: words in, picture out.
"""

from __future__ import annotations

import dataclasses
import io
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

import bot.papers

_FONTS = Path(bot.papers.__file__).parent / "fonts"
WIDTH = 720
_MARGIN, _PAD, _GAP = 24, 18, 14
_TEXT, _SMALL = 25, 20
_LEADING = 1.32
_PAPER, _BOT, _PERSON = (246, 243, 236), (255, 255, 255), (222, 231, 221)
_INK, _QUIET, _EDGE, _BOARD = (29, 29, 27), (104, 99, 92), (201, 194, 182), (250, 236, 205)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Bubble:
    """One message: who says it (None: the program), when, what, with which rows of buttons, and a sign under it."""

    text: str
    at: str
    who: str | None = None
    rows: tuple[tuple[str, ...], ...] = ()
    sign: str = ""


def phone(title: str, bubbles: tuple[Bubble, ...], *, board: str = "") -> bytes:
    """Return a PNG of a chat: its title, the pinned board, the messages in order."""
    tall = Image.new("RGB", (WIDTH, 8000), _PAPER)
    draw = ImageDraw.Draw(tall)
    y = _title(draw, title)
    if board:
        y = _board(draw, board, y)
    for bubble in bubbles:
        y = _bubble(draw, bubble, y + _GAP)
    picture = io.BytesIO()
    tall.crop((0, 0, WIDTH, int(y + 2 * _MARGIN))).quantize(64).save(picture, "PNG", optimize=True)
    return picture.getvalue()


def _font(size: int, *, bold: bool = False) -> ImageFont.FreeTypeFont:
    name = "DejaVuSansCondensed-Bold.ttf" if bold else "DejaVuSansCondensed.ttf"
    return ImageFont.truetype(str(_FONTS / name), size)


def _title(draw: ImageDraw.ImageDraw, title: str) -> float:
    draw.text((_MARGIN, 20), title, font=_font(28, bold=True), fill=_INK)
    draw.line((0, 66, WIDTH, 66), fill=_EDGE, width=2)
    return 66.0


def _board(draw: ImageDraw.ImageDraw, board: str, y: float) -> float:
    lines = wrapped(board, _font(_SMALL, bold=True), WIDTH - 2 * _MARGIN)
    height = len(lines) * _SMALL * _LEADING + 2 * _PAD
    draw.rectangle((0, y, WIDTH, y + height), fill=_BOARD)
    draw.line((0, y + height, WIDTH, y + height), fill=_EDGE, width=2)
    _lines(draw, lines, _MARGIN, y + _PAD, _SMALL, first_bold=True)
    return y + height


def _bubble(draw: ImageDraw.ImageDraw, bubble: Bubble, y: float) -> float:
    mine = bubble.who is not None
    room = int((WIDTH - 2 * _MARGIN) * (0.7 if mine else 0.92)) - 2 * _PAD
    lines = wrapped(bubble.text, _font(_TEXT), room)
    wide = max([_font(_TEXT).getlength(line) for line in lines] + [_font(_SMALL).getlength(_head(bubble))]) + 2 * _PAD
    if bubble.rows:
        wide = room + 2 * _PAD
    left = WIDTH - _MARGIN - wide if mine else _MARGIN
    height = len(lines) * _TEXT * _LEADING + _SMALL * _LEADING + 2 * _PAD
    box = (left, y, left + wide, y + height)
    draw.rounded_rectangle(box, 14, fill=_PERSON if mine else _BOT, outline=_EDGE, width=2)
    draw.text((left + _PAD, y + _PAD * 0.7), _head(bubble), font=_font(_SMALL), fill=_QUIET)
    _lines(draw, lines, left + _PAD, y + _PAD + _SMALL * _LEADING, _TEXT)
    y += height
    for row in bubble.rows:
        y = _row(draw, row, left, wide, y + 6)
    if bubble.sign:
        said = f"taken: {bubble.sign}"
        draw.text((left + wide - _font(_SMALL).getlength(said), y + 4), said, font=_font(_SMALL), fill=_QUIET)
        y += _SMALL * _LEADING
    return y


def _head(bubble: Bubble) -> str:
    return f"{bubble.who or 'Slowbell'}  {bubble.at}"


def _row(draw: ImageDraw.ImageDraw, row: tuple[str, ...], left: float, wide: float, y: float) -> float:
    each, height = (wide - 8 * (len(row) - 1)) / len(row), 46
    for number, label in enumerate(row):
        x = left + number * (each + 8)
        draw.rounded_rectangle((x, y, x + each, y + height), 10, fill=_PAPER, outline=_QUIET, width=2)
        font = _font(_TEXT - 2)
        draw.text((x + (each - font.getlength(label)) / 2, y + 8), label, font=font, fill=_INK)
    return y + height


def _lines(
    draw: ImageDraw.ImageDraw, lines: list[str], x: float, y: float, size: int, *, first_bold: bool = False
) -> None:
    for number, line in enumerate(lines):
        font = _font(size, bold=first_bold and number == 0)
        draw.text((x, y + number * size * _LEADING), line, font=font, fill=_INK)


def wrapped(text: str, font: ImageFont.FreeTypeFont, room: float) -> list[str]:
    """Return the lines of a text that fit a width [pixels]; an empty line stays one."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in paragraph.split(" "):
            longer = f"{line} {word}" if line else word
            if line and font.getlength(longer) > room:
                lines.append(line)
                line = word
            else:
                line = longer
        lines.append(line)
    return lines
