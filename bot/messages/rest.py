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
    """Return until when it likely stays above the acting temperature, and when it is read at the latest."""
    where = _("In the box") if rest.boxed else _("Boxed after the vent")
    limit = voice.temp(ACT_C)
    if rest.likely is None or rest.likely - voice.now > _FAR:
        stays = _("{where} it likely stays above {limit} for hours").format(where=where, limit=limit)
    else:
        stays = _("{where} it likely stays above {limit} until about {time}").format(
            where=where, limit=limit, time=voice.about(rest.likely)
        )
    if rest.read_by is None:
        return f"{stays}."
    if rest.early is not None and rest.early <= rest.read_by + _SAME:
        return _("{stays}; one in ten falls by {time}: read it then.").format(stays=stays, time=voice.about(rest.early))
    return _("{stays}; read it by {time}, some fall sooner.").format(stays=stays, time=voice.about(rest.read_by))
