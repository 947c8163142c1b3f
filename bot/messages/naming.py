"""Pieces by their names: whenever a cook has several, what is said of one begins with its name.

Names and prefixes only; what is said of a piece is worded elsewhere.
"""

from __future__ import annotations

from bot.commands import Intent
from bot.messages.language import capital
from bot.messages.message import Message
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.cuts import Cut
from scheduler.planning.views import PieceView


def piece_name(view: PieceView) -> str:
    """Return what a piece is called: its cut, with a number when there are several of it."""
    name = _(view.cut.name)
    return name if view.number is None else f"{name} {view.number}"


def cut_name(cut: Cut) -> str:
    """Return what a cut is called."""
    return _(cut.name)


def names_of(situation: Situation, pieces: tuple[str, ...]) -> str:
    """Return the names of pieces in one row."""
    return ", ".join(piece_name(situation.view(piece)) for piece in pieces)


def named(situation: Situation, piece: str | None, text: str) -> str:
    """Return a text with the name of its piece before it, where there are several; nothing stays nothing."""
    if not text or piece is None or not situation.several:
        return text
    return _("{piece}: {text}").format(piece=capital(piece_name(situation.view(piece))), text=text)


def cook_title(situation: Situation) -> str:
    """Return what a whole cook is called: its pieces."""
    return capital(" + ".join(piece_name(view) for view in situation.views))


def which_piece(what: str, options: tuple[tuple[str, Intent], ...]) -> Message:
    """Ask which piece is meant; one tap answers."""
    rows = tuple(((capital(label), meaning),) for label, meaning in options)
    return Message(text=_("{what}: which piece?").format(what=capital(what)), choices=rows)


def which_cook(options: tuple[tuple[str, Intent], ...]) -> Message:
    """Ask which of several cooks is meant; one tap answers."""
    return Message(text=_("For which cook?"), choices=tuple(((label, meaning),) for label, meaning in options))
