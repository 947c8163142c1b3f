"""The board: one message per cook and room, edited in place: stops, dinner, what is next, the pieces."""

from __future__ import annotations

from bot.messages.answers import headline, last_line, plate_line
from bot.messages.cooker import fuel_line
from bot.messages.courses import pit_line, where_each_stands
from bot.messages.dinner import dinner_line
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.naming import cook_title, named
from bot.messages.stall import stall_line
from bot.messages.steps import step_words
from bot.messages.stops import board_lines, discarded_line
from bot.messages.trip import next_line, step_names
from bot.messages.words import _
from bot.messages.wraps import if_wrapped
from scheduler.cook import Situation
from scheduler.state import Stage


def board(situation: Situation, voice: Voice) -> Message:
    """Return how a cook stands: dinner and by how much, next action, open questions, windows, last readings."""
    if situation.several:
        return _of_several(situation, voice)
    if situation.state.stage is Stage.CLOSED:
        return Message(text=lines(headline(situation, voice), _("This cook is over.")))
    waiting = [step_words(p.step.id).name for p in situation.waiting[:2]]
    windows = "" if situation.state.did("serve") else plate_line(situation, voice)
    return Message(
        text=lines(
            *board_lines(situation, voice),
            discarded_line(situation, voice) or dinner_line(situation, voice),
            next_line(situation, voice),
            _("Open: {what}.").format(what=", ".join(waiting)) if waiting else "",
            headline(situation, voice),
            windows,
            if_wrapped(situation, voice),
            stall_line(situation, voice),
            fuel_line(situation, voice),
            last_line(situation, voice),
        )
    )


def _of_several(situation: Situation, voice: Voice) -> Message:
    """Return the board of a cook of several pieces: a line for each of them."""
    if situation.state.over:
        return Message(text=lines(cook_title(situation), _("This cook is over.")))
    waiting = step_names(situation.waiting[:2], situation)
    return Message(
        text=lines(
            *board_lines(situation, voice),
            dinner_line(situation, voice),
            next_line(situation, voice),
            _("Open: {what}.").format(what=", ".join(waiting)) if waiting else "",
            *where_each_stands(situation, voice),
            *(named(situation, v.piece, stall_line(situation.seen_from(v.piece), voice)) for v in situation.views),
            pit_line(situation, voice),
            fuel_line(situation.at_the_fire, voice),
        )
    )
