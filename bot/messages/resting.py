"""Words about the place in which the meat is to rest: how long it keeps there, and an oven that is no warm place.

It never calls held meat safe: a reading decides.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.figures import Voice, span
from bot.messages.message import lines
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import RestPlace
from scheduler.planning.backward import OVEN_C, holds, warm_oven
from scheduler.planning.rest import keeps_until
from scheduler.planning.waiting import keeps_min


def rests_there(situation: Situation, voice: Voice) -> str:
    """Return how long the meat keeps in the place that was told, and what is wrong with it where something is."""
    state, cut = situation.state, situation.cut
    told = state.rest
    if told is None or told.place is None:
        return ""
    if not holds(cut):
        longest = span(dt.timedelta(minutes=cut.vent_min + keeps_min(state, cut)))
        return _("It does not keep, warm or not: on the plates within {span} of the pull.").format(span=longest)
    if told.place is RestPlace.BOARD:
        return _("In the open it is out of the fire and not held hot: on the plates soon, within two hours at most.")
    until = keeps_until(state, cut)
    longest = span(dt.timedelta(minutes=keeps_min(state, cut)))
    keeps = _("It keeps there {span} at most; a reading decides.").format(span=longest)
    if until is not None:
        keeps = _("It keeps there until {time} at most; a reading decides.").format(time=voice.by(until))
    return lines(_oven(situation), keeps)


def _oven(situation: Situation) -> str:
    """Return what is wrong with the set point of an oven."""
    told = situation.state.rest
    if told is None or told.place is not RestPlace.OVEN or told.oven_c is None:
        return ""
    if not warm_oven(situation.state):
        return _("That is too cool to hold it: I count on a cold box. Set {oven}.").format(oven=oven_band())
    if told.oven_c > OVEN_C[1] + 1.0:
        return _("That dries it: {oven} holds it as well.").format(oven=oven_band())
    return ""


def oven_band() -> str:
    """Return the set points of a warm oven in both units."""
    return _("150 to 170 F (65 to 77 C)")


def cooks_on(oven_c: float, voice: Voice) -> str:
    """Return that an oven so hot does not hold meat but cooks it."""
    return _("At {temp} it cooks on. To hold it: {oven}.").format(temp=voice.temp(oven_c), oven=oven_band())


def shortest_rest(minutes: float) -> str:
    """Return that a rest cannot be shorter than the shortest of its cut."""
    return _("Its shortest rest is {minutes:g} min: I plan with that.").format(minutes=minutes)
