"""The forms that Telegram wants things in: references, buttons, lengths. Pure.

It must not make wording, nor talk to anybody.
"""

from __future__ import annotations

import dataclasses

from telegram import InlineKeyboardButton, InlineKeyboardMarkup

from bot.chat import Choice
from bot.transport.telegram.bidi import laid_out

# Limits: Bot API 10.1, 11 June 2026 (sendMessage.text, sendDocument.caption, InlineKeyboardButton.callback_data and
# answerCallbackQuery.text; a file of at most 50 MB: sendDocument, "Bots can currently send files of any type of up to
# 50 MB"). The documentation says "characters"; UTF-16 code units are the stricter reading.
MOST_TEXT_UNITS = 4096
MOST_CAPTION_UNITS = 1024
MOST_UPLOAD_BYTES = 50_000_000
MOST_TOKEN_BYTES = 64
MOST_TAP_ANSWER_UNITS = 200
# A keyboard: telegram.constants.InlineKeyboardMarkupLimit of python-telegram-bot 22.8; no limit of a label is
# published, so this one is our own: what fits a phone in two lines.
MOST_BUTTONS = 100
MOST_IN_A_ROW = 8
MOST_LABEL_UNITS = 64

CUT_SIGN = "…"
_PREFIX = "telegram"


@dataclasses.dataclass(frozen=True, kw_only=True)
class MessageRef:
    """One message in one chat, written `telegram:<chat id>:<message id>`."""

    chat_id: int
    message_id: int

    def __str__(self) -> str:
        return f"{_PREFIX}:{self.chat_id}:{self.message_id}"


def read_ref(text: str) -> MessageRef | None:
    """Return the message that a reference names, None when it is no reference of this transport."""
    prefix, _, rest = text.partition(":")
    chat, _, message = rest.rpartition(":")
    try:
        return MessageRef(chat_id=int(chat), message_id=int(message)) if prefix == _PREFIX else None
    except ValueError:
        return None


def units(text: str) -> int:
    """Return the length in UTF-16 code units."""
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


def fitted(text: str, most: int = MOST_TEXT_UNITS) -> str:
    """Return the text, cut at a line end where one is near, with a sign where something was left out."""
    if units(text) <= most:
        return text
    room = (most - units(CUT_SIGN)) * 2
    kept = text.encode("utf-16-le", "surrogatepass")[:room].decode("utf-16-le", "ignore")
    head, newline, tail = kept.rpartition("\n")
    if newline and units(tail) < most // 4:
        kept = head + newline
    return kept + CUT_SIGN


def sendable(text: str) -> str:
    """Return the text with halves of surrogate pairs replaced (they cannot be written as UTF-8), and with nothing in it
    that turns the writing direction of what is beside it.
    """
    return laid_out(text.encode("utf-8", "replace").decode("utf-8"))


def keyboard(rows: tuple[tuple[Choice, ...], ...]) -> InlineKeyboardMarkup | None:
    """Return the buttons of a message, None when there are none. A row that is too long is broken into several.

    Raises
    ------
    ValueError
        A label is empty, a token is not 1 to 64 bytes long, or there are more buttons than a message can have.
    """
    if sum(len(row) for row in rows) > MOST_BUTTONS:
        raise ValueError(f"{sum(len(row) for row in rows)} buttons, {MOST_BUTTONS} are allowed")
    for choice in (choice for row in rows for choice in row):
        size = len(choice.token.encode("utf-8", "replace"))
        if not choice.label.strip() or not 1 <= size <= MOST_TOKEN_BYTES:
            raise ValueError(f"button {choice.label!r}: token of {size} bytes, 1 to {MOST_TOKEN_BYTES} are allowed")
    drawn = [
        [
            InlineKeyboardButton(text=fitted(sendable(choice.label), MOST_LABEL_UNITS), callback_data=choice.token)
            for choice in row[begin : begin + MOST_IN_A_ROW]
        ]
        for row in rows
        for begin in range(0, len(row), MOST_IN_A_ROW)
    ]
    return InlineKeyboardMarkup(drawn) if drawn else None
