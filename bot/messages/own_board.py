"""How a cook stands for those who look after no fire: guests see when they eat, others what is theirs.

Stops stand first for everybody. Words only; whose a step is was settled before.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from bot.messages.board import piece_lines, watch_line
from bot.messages.dinner import dinner_line
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.steps import step_words
from bot.messages.stops import board_lines
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.steps import Step

Theirs = Sequence[tuple[dt.datetime | None, Step]]
"""(instant, step) of what is somebody's, in order; no instant for what is open now."""

_MOST = 4
"""How many own steps are shown."""


def guest_board(situation: Situation, voice: Voice) -> Message:
    """Return when people eat, and when the meat is ready; no work, no watch, no temperatures."""
    return Message(text=lines(*_dinner(situation, voice), *piece_lines(situation, voice), _as_of(voice)))


def own_board(situation: Situation, voice: Voice, theirs: Theirs) -> Message:
    """Return dinner, what is somebody's and when, and who has the watch."""
    own = own_lines(theirs, voice)
    return Message(text=lines(*_dinner(situation, voice), *own, watch_line(situation, voice), _as_of(voice)))


def own_duties(situation: Situation, voice: Voice, theirs: Theirs) -> Message:
    """Return what somebody has to do, and when."""
    return Message(text=lines(*_stops(situation, voice), *own_lines(theirs, voice), dinner_line(situation, voice)))


def own_lines(theirs: Theirs, voice: Voice) -> list[str]:
    """Return a line for what is open of somebody, and one for what comes; one that says so when there is nothing."""
    now = [step_words(step).name for at, step in _named(theirs) if at is None]
    coming = [
        _("{time} {what}").format(time=voice.clock(at), what=step_words(step).name)
        for at, step in _named(theirs)
        if at is not None
    ]
    if not now and not coming:
        return [_("Nothing to do for you so far.")]
    return [
        line
        for line in (
            _("Yours now: {what}.").format(what=", ".join(now[:_MOST])) if now else "",
            _("Yours next: {what}.").format(what=", ".join(coming[:_MOST])) if coming else "",
        )
        if line
    ]


def _named(theirs: Theirs) -> list[tuple[dt.datetime | None, str]]:
    return list({step.id: (at, step.id) for at, step in reversed(theirs)}.values())[::-1]


def _dinner(situation: Situation, voice: Voice) -> list[str]:
    return [*_stops(situation, voice), dinner_line(situation, voice)]


def _stops(situation: Situation, voice: Voice) -> list[str]:
    return list(board_lines(situation, voice))


def _as_of(voice: Voice) -> str:
    return _("As of {time}.").format(time=voice.clock(voice.now))
