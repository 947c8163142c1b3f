"""Fetches a file that somebody sent: where it lies (`getFile`), then its bytes.

The address of a file holds the bot token: it must not leave this module, nor stand in any error.
"""

from __future__ import annotations

from telegram import Bot
from telegram.error import InvalidToken
from telegram.request import BaseRequest

from bot.chat import Declined, Lack

MOST_DOWNLOAD_BYTES = 20_000_000
"""Bot API 10.1, getFile: "bots can download files of up to 20MB in size"."""


async def fetch(bot: Bot, request: BaseRequest, file_id: str) -> bytes | Declined:
    """Return the bytes of a file, or why they cannot be had; errors of the network are raised."""
    found = await bot.get_file(file_id)
    if found.file_size is not None and found.file_size > MOST_DOWNLOAD_BYTES:
        return _too_large(found.file_size)
    if not found.file_path:
        return Declined(lack=Lack.FILE, why="the server does not say where the file lies")
    try:
        data = await request.retrieve(found.file_path)
    except InvalidToken:  # how the library reads a 404: the token was good a moment ago, so the file is gone
        return Declined(lack=Lack.FILE, why="the file is no longer kept by the server")
    return data if len(data) <= MOST_DOWNLOAD_BYTES else _too_large(len(data))


def _too_large(size_bytes: int) -> Declined:
    return Declined(lack=Lack.FILE, why=f"a file of {size_bytes} bytes, {MOST_DOWNLOAD_BYTES} can be fetched")
