"""Figures that the words of some steps are filled with: thaw, vents, lowest spot, watches.

Rounded here; nothing is computed but by the engine.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.feeding import buy_text
from bot.messages.figures import Voice, span
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.done import done_c
from scheduler.planning.gates import CLOSING_C
from scheduler.planning.nights import changes
from scheduler.planning.prompts import Prompt
from scheduler.planning.thawing import thaw, thaw_in_water
from scheduler.safety import eat_by

_DAY_H = 24
_NEAR = dt.timedelta(hours=1)


def figures_of(prompt: Prompt, situation: Situation, voice: Voice) -> dict[str, str]:
    """Return what the words of a step may name, by field."""
    state, cut = situation.state, situation.cut
    below, above = CLOSING_C
    return {
        "thaw": days(thaw(state, cut)),
        "thaw_water": span(thaw_in_water(state, cut)),
        "trip_low": voice.temp(state.pit_c - below),
        "trip_high": voice.temp(state.pit_c - above),
        "done_at": voice.target(done_c(cut)),
        "buy": buy_text(situation),
        "watch": _watch(prompt, situation, voice),
        "eat_by": _eat_by(prompt, situation, voice),
    }


def _eat_by(prompt: Prompt, situation: Situation, voice: Voice) -> str:
    """Return the day and hour at which leftovers have been in the fridge for four days, counted from dinner while
    nobody said when they went in.
    """
    at = max((at for view in situation.views if (at := eat_by(view.state)) is not None), default=None)
    return voice.by(prompt.due_at + dt.timedelta(days=1) if at is None else at)


def days(length: dt.timedelta) -> str:
    """Return a span in whole days and a half, "2 and a half days"."""
    halves = max(round(length / dt.timedelta(hours=_DAY_H / 2)), 1)
    whole, half = divmod(halves, 2)
    if whole == 0:
        return _("half a day")
    if half:
        return _("{days} and a half days").format(days=whole)
    return _("a day") if whole == 1 else _("{days} days").format(days=whole)


def _watch(prompt: Prompt, situation: Situation, voice: Voice) -> str:
    """Return who hands over to whom, and when; empty where nobody changes."""
    offer = situation.state.handover
    if offer is not None and offer.by is not None:
        return _("{outgoing} hands it to {incoming} now").format(outgoing=offer.by, incoming=offer.to)
    near = [one for one in changes(situation.state) if abs(one[0] - prompt.due_at) <= _NEAR]
    if not near:
        return ""
    at, outgoing, incoming = near[0]
    return _("{incoming} takes over from {outgoing} at {time}").format(
        incoming=incoming, outgoing=outgoing, time=voice.clock(at)
    )
