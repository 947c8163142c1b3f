"""What of a cook somebody sees in private: all of it at the fire, else what is theirs; a guest sees dinner.

Pure. Words are made in `bot.messages`; who may do what is in `bot.application.rights`.
"""

from __future__ import annotations

import datetime as dt

from bot.application.routing import AT_THE_FIRE, step_is_theirs
from bot.crew import Role, Roles
from bot.messages.answers import what_next
from bot.messages.board import board
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.own_board import guest_board, own_board, own_duties
from scheduler.cook import Situation
from scheduler.planning.steps import Step
from scheduler.state import Stage


def board_for(held: Roles, situation: Situation, voice: Voice) -> Message:
    """Return the board of a private room of somebody in these roles; none are nobody known, who sees all of it."""
    if not held or held & AT_THE_FIRE or situation.state.over or situation.state.stage is Stage.CLOSED:
        return board(situation, voice)
    if held == {Role.GUEST}:
        return guest_board(situation, voice)
    return own_board(situation, voice, theirs(held, situation))


def next_for(held: Roles, situation: Situation, voice: Voice) -> Message:
    """Return what somebody in these roles has to do next."""
    if not held or held & AT_THE_FIRE:
        return what_next(situation, voice)
    if held == {Role.GUEST}:
        return guest_board(situation, voice)
    return own_duties(situation, voice, theirs(held, situation))


def theirs(held: Roles, situation: Situation) -> tuple[tuple[dt.datetime | None, Step], ...]:
    """Return (instant, step) of what falls to these roles: what is open, then what is to come, in order."""
    waiting = [prompt.step for prompt in situation.waiting if step_is_theirs(prompt.step, held)]
    now = situation.state.as_of
    coming = [(at, step) for at, step in situation.itinerary() if at > now and step_is_theirs(step, held)]
    open_ones = {step.id for step in waiting}
    return (*((None, step) for step in waiting), *((at, step) for at, step in coming if step.id not in open_ones))
