"""The rest in words: until when the meat likely stays hot, when to read it, and how far it still climbs.

It never calls anything safe: a reading decides.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.figures import Voice
from bot.messages.message import lines
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.rest import Rest, rest_of
from scheduler.safety import ACT_C

_SAME = dt.timedelta(minutes=5)

_FAR = dt.timedelta(hours=8)
"""Farther ahead no time is named: nobody holds meat in an unheated box for so long."""


def rest_text(situation: Situation, voice: Voice) -> str:
    """Return what is expected of meat that has just been pulled or boxed; nothing when nobody knows its core."""
    rest = rest_of(situation.state, situation.cut)
    if rest is None:
        return ""
    return lines(_climb(rest, voice), _hold(rest, voice))


def _climb(rest: Rest, voice: Voice) -> str:
    if rest.peak is None:
        return ""
    peak = rest.peak
    return _("It climbs on to about {peak} ({band}) near {time}.").format(
        peak=voice.temp(peak.middle_c), band=voice.band(peak.low_c, peak.high_c), time=voice.about(peak.at)
    )


def _hold(rest: Rest, voice: Voice) -> str:
    """Return when one in ten has fallen to the acting temperature, and when it is read: never a likely time beside an
    earlier look, which reads as if the look could wait.
    """
    where = _("In the box") if rest.boxed else _("Boxed after the vent")
    if rest.oven:
        where = _("In the oven") if rest.boxed else _("In the oven after the vent")
    limit = voice.temp(ACT_C)
    if rest.early is None or rest.early - voice.now > _FAR:
        stays = _("{where} it likely stays above {limit} for hours").format(where=where, limit=limit)
        return f"{stays}." if rest.read_by is None else _("{stays}; read it by {time}.").format(
            stays=stays, time=voice.by(rest.read_by)
        )  # fmt: skip
    falls = _("{where} one in ten falls to {limit} by {time}").format(
        where=where, limit=limit, time=voice.by(rest.early)
    )
    if rest.read_by is None or rest.early <= rest.read_by + _SAME:
        return _("{falls}: read it then.").format(falls=falls)
    return _("{falls}; read it by {time}.").format(falls=falls, time=voice.by(rest.read_by))
