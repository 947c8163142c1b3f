"""The board of a cook in every room whose messages can be changed once they are sent.

It decides nothing; the words are made in `bot.messages.board`.
"""

from __future__ import annotations

from bot.application.manners import voice_of
from bot.application.own import board_for
from bot.application.posted import post_board
from bot.application.rights import roles
from bot.application.routing import Listener, listeners
from bot.application.visit import Work
from bot.chat import Address
from bot.crew import Roles
from bot.messages.words import speaking
from bot.ports import CookSnapshot, Store
from scheduler.cook import Situation

PAPER = frozenset({"terminal"})
"""Transports whose messages cannot be changed once they are printed: no board there, asking shows the same."""


def keep_boards(
    store: Store, snapshot: CookSnapshot, after: Situation, work: Work, new: tuple[Address, ...] = ()
) -> None:
    """Keep the board of every room of a cook, and begin one in each `new` room."""
    for listener in _of(store, snapshot.rooms, after):
        _keep(store, listener, after, work, version=snapshot.version)
    for listener in _of(store, new, after):
        _keep(store, listener, after, work, version=0)


def begin_board(store: Store, room: Address, situation: Situation, work: Work) -> None:
    """Begin a board in a room that follows a cook from now on."""
    for listener in _of(store, (room,), situation):
        _keep(store, listener, situation, work, version=0)


def _of(store: Store, rooms: tuple[Address, ...], situation: Situation) -> tuple[Listener, ...]:
    """Return who listens in just these rooms, with what they are in the cook."""
    return tuple(one for one in listeners(store, rooms, situation) if one.room in rooms)


def _keep(store: Store, listener: Listener, after: Situation, work: Work, *, version: int) -> None:
    if listener.room.transport in PAPER:
        return
    with speaking(listener.manner.language):
        held = listener.roles or _of_new(work, listener, after)
        text = board_for(held, after, voice_of(after, work.now, listener.manner)).text
        post_board(store, work, text, to=listener.room, cook=after.state.cook, version=version)


def _of_new(work: Work, listener: Listener, situation: Situation) -> Roles:
    """Return what somebody is in the cook who comes in just now: not in the store yet."""
    mine = f"{listener.room.transport}:{listener.room.chat}"
    found = next((one for one in work.people if one.id == mine and not listener.group), None)
    return frozenset() if found is None else roles(found, situation)
