"""The board of a cook in every room whose messages can be changed once they are sent.

It decides nothing; the words are made in `bot.messages.board`.
"""

from __future__ import annotations

from bot.application.visit import Work
from bot.application.voices import voice_of
from bot.chat import Address
from bot.messages.board import board
from bot.ports import CookSnapshot
from scheduler.cook import Situation

PAPER = frozenset({"terminal"})
"""Transports whose messages cannot be changed once they are printed: no board there, asking shows the same."""


def keep_boards(snapshot: CookSnapshot, after: Situation, work: Work, new: tuple[Address, ...] = ()) -> None:
    """Keep the board of every room of a cook, and begin one in each `new` room."""
    text = board(after, voice_of(after, work.now)).text
    for room in snapshot.rooms:
        if room.transport not in PAPER:
            work.pin_board(text, to=room, cook=snapshot.id, version=snapshot.version)
    for room in new:
        if room.transport not in PAPER:
            work.pin_board(text, to=room, cook=snapshot.id, version=0)
