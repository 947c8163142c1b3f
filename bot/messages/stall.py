"""The stall in words: not yet, in it since and until about when, or over.

Sentences only; where the meat stands is decided by `scheduler.planning.stall`.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import Wrap
from scheduler.forecast import StallPhase
from scheduler.planning.stall import Stall

_SOON = dt.timedelta(minutes=10)
"""An end as near as this is no time to name."""

_VERY_SURE = 0.9
"""Share of the forecast from which a stall is ruled out: house rule."""


def stall_news(stall: Stall | None, situation: Situation, voice: Voice) -> str:
    """Return the calm sentence when a stall begins, or when it is over (None)."""
    if stall is None:
        return _("It is climbing again: the stall is over.")
    begun = _("The stall has begun.")
    if stall.core_c is not None:
        begun = _("The stall has begun, near {core}.").format(core=voice.temp(stall.core_c))
    return " ".join((begun, _end(stall, situation, voice), _("Check pit and fuel, then touch nothing.")))


def stall_line(situation: Situation, voice: Voice) -> str:
    """Return one line while the meat lies in its stall: since when, and likely until when; else nothing."""
    stall = situation.stall
    if stall is None:
        return ""
    return " ".join((_since(stall, voice), _end(stall, situation, voice)))


def stall_answer(situation: Situation, voice: Voice) -> Message:
    """Answer a question about the stall."""
    state, plateau = situation.state, situation.plateau
    if state.did("pull"):
        return Message(text=_("The meat is off the fire: no stall any more."))
    match plateau.phase:
        case StallPhase.WITHIN:
            text = lines(stall_line(situation, voice), _("Steady pit, lid shut: it needs nothing but time."))
        case StallPhase.BEHIND:
            text = _("The stall is behind it: from here it climbs.")
        case StallPhase.UNLIKELY:
            text = _unlikely(plateau, situation, voice)
        case _:
            text = _ahead(plateau, situation, voice)
    return Message(text=text)


def _ahead(plateau: Stall, situation: Situation, voice: Voice) -> str:
    begins = None if plateau.begins is None else plateau.begins.likely
    if begins is None:
        return " ".join((_("Not in the stall yet."), _end(plateau, situation, voice)))
    if begins <= voice.now:
        return " ".join((_("Not in the stall yet, it may begin any time."), _end(plateau, situation, voice)))
    begin = _("Not in the stall yet: it likely begins about {time}.").format(time=voice.about(begins))
    return " ".join((begin, _end(plateau, situation, voice)))


def _unlikely(plateau: Stall, situation: Situation, voice: Voice) -> str:
    """Return that a stall is not counted on, and when one would be: it is ruled out only for meat that was wrapped
    before, for a cut that knows none, or where the forecast is very sure.
    """
    wraps = situation.state.wraps
    wrapped = bool(wraps) and wraps[-1][1].wrap is not Wrap.NONE
    if wrapped or situation.cut.stall_h.high <= 0.0 or plateau.share >= _VERY_SURE:
        return _("No stall to speak of is expected.")
    begins, ends = plateau.begins, plateau.ends
    if begins is None or begins.likely is None or begins.likely <= voice.now:
        end = _end(plateau, situation, voice)
        return _("It may not stall much: the climb may only slow down. {end}").format(end=end)
    if ends is None or ends.likely is None:
        return _("It may not stall much: if it does, from about {begin}.").format(begin=voice.about(begins.likely))
    return _("It may not stall much: if it does, from about {begin} to {end}.").format(
        begin=voice.about(begins.likely), end=voice.about(ends.likely)
    )


def _since(stall: Stall, voice: Voice) -> str:
    if stall.since is None:
        return _("In the stall now.")
    return _("In the stall since about {time}.").format(time=voice.about(stall.since))


def _end(stall: Stall, situation: Situation, voice: Voice) -> str:
    """Return when it is likely over, or how long one usually lasts where nothing better is known."""
    ends = stall.ends
    if ends is None or ends.likely is None:
        low, high = situation.cut.stall_h.low, situation.cut.stall_h.high
        return _("Usual: {low:g} to {high:g} h.").format(low=low, high=high)
    if stall.within and ends.likely - voice.now < _SOON:
        late = ends.late
        return _("Likely over soon.") if late is None else _("Likely over by {time}.").format(time=voice.about(late))
    return _("Likely over near {time} ({window}).").format(time=voice.about(ends.likely), window=voice.window(ends))
