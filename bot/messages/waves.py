"""Serving in waves in words: which piece is next, for how many, and the call to the table.

It words steps of the table; when each is due stands elsewhere.
"""

from __future__ import annotations

from bot.messages.feeding import people_fed
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import ServingKind
from scheduler.planning.feeding import feeding, waves

_STEPS = frozenset({"serve_reading", "slice", "serve"})


def for_its_wave(step_id: str, text: str, situation: Situation) -> str:
    """Return the words of a step of the table for the wave of the piece that the cook is seen from.

    Where all pieces are wanted together, only the call to the table of a further one is worded anew.
    """
    if step_id not in _STEPS or not situation.several:
        return text
    found = _wave(situation)
    if found is None:
        served = any(view.state.did("serve") for view in situation.views)
        return _("Next to the table: call people, food out.") if step_id == "serve" and served else text
    number, count, feeds = found
    head = _("wave {number} of {count}, feeds {feeds}").format(number=number, count=count, feeds=feeds)
    match step_id:
        case "serve":
            return _("Call people to the table, food out ({wave}).").format(wave=head)
        case "serve_reading":
            return _("Next piece out ({wave}). {text}").format(wave=head, text=text)
        case _:
            return text


def _wave(situation: Situation) -> tuple[int, int, str] | None:
    """Return the number of the wave of a piece, how many there are, and how many it feeds; None without waves."""
    if any(view.state.serving.kind is ServingKind.WHEN_READY for view in situation.views):
        return None
    found = waves(feeding(situation.views, situation.state.guests), situation.views)
    piece = situation.view(situation.focus).piece
    for number, (pieces, heads) in enumerate(found, 1):
        if len(found) > 1 and any(view.piece == piece for view in pieces):
            return number, len(found), people_fed(heads)
    return None
