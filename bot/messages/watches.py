"""Watches in words: who is awake when, the hours without a name, and whom the prompts of the night wake.

Sentences only; who is meant and when the fire burns is computed by `scheduler.planning`.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.figures import Voice
from bot.messages.language import in_series
from bot.messages.message import Message, lines
from bot.messages.steps import step_words
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import WatchesTold
from scheduler.planning.nights import quiet_hours, watches
from scheduler.planning.watching import alone, burns, wakes_whom

_MOST = 5
"""So many prompts of the night are named, then "and more"."""


def watches_told(told: WatchesTold) -> str:
    """Return watches and quiet hours as they were told, in one line."""
    parts = []
    if told.watches:
        spans = ", ".join(
            _("{name} {start} to {end}").format(name=one.name, start=f"{one.start:%H:%M}", end=f"{one.end:%H:%M}")
            for one in told.watches
        )
        parts.append(_("Watches: {spans}").format(spans=spans))
    if told.quiet is not None:
        parts.append(_quiet(told.quiet))
    if not told.watches:
        parts.append(_("Nobody has a watch"))
    return ". ".join(parts)


def _quiet(quiet: tuple[dt.time, dt.time]) -> str:
    if quiet[0] == quiet[1]:
        return _("No quiet hours: I wake somebody whenever it is due")
    return _("Quiet {start} to {end}").format(start=f"{quiet[0]:%H:%M}", end=f"{quiet[1]:%H:%M}")


def who_watches(situation: Situation, voice: Voice) -> Message:
    """Return who is awake when, and what of it is missing."""
    state = situation.state
    told = watches(state)
    spans = ", ".join(_named_span(name, (start, end), voice) for name, start, end in told)
    who = _("Watches: {spans}.").format(spans=spans) if spans else _("Nobody has a watch.")
    return Message(text=lines(f"{who} {_quiet(quiet_hours(state))}.", missing(situation, voice)))


def nobody_leaves(situation: Situation, voice: Voice) -> Message:
    """Return, for somebody who would leave the fire, that it is never left alone, and who has the watch."""
    stays = _("While it burns somebody stays awake and near: a lit cooker is never left alone, not for a night.")
    return Message(text=lines(stays, who_watches(situation, voice).text, _("Who has it? Tell me like: Tomas until 3.")))


def missing(situation: Situation, voice: Voice) -> str:
    """Return the hours of the night that nobody has while the fire burns, and whom the prompts of the night wake."""
    return lines(_alone(situation, voice), _wakes(situation, voice))


def _alone(situation: Situation, voice: Voice) -> str:
    state, outlook = situation.state, situation.deciding.outlook
    free = alone(state, outlook)
    if not free:
        start, end = burns(state, outlook)
        outside = [name for name, begins, ends in watches(state) if ends <= start or begins >= end]
        names = ", ".join(dict.fromkeys(outside))
        return _("The fire does not burn in the hours of {names}.").format(names=names) if names else ""
    spans = in_series([_span(one, voice) for one in free])
    return _("Nobody has the watch {spans}: while the fire burns somebody must be awake and near. Who?").format(
        spans=spans
    )


def _wakes(situation: Situation, voice: Voice) -> str:
    found = wakes_whom(situation.state, situation.itinerary())
    if not found:
        return ""
    named = [
        _("{time} {what}").format(time=voice.about(at), what=step_words(step.id).name)
        + ("" if who is None else f" ({who})")
        for at, step, who in found[:_MOST]
    ]
    more = _(" and more") if len(found) > _MOST else ""
    return _("At night I wake for: {what}{more}. Whoever has the watch stays awake and near while it burns.").format(
        what=", ".join(named), more=more
    )


def _named_span(name: str, span: tuple[dt.datetime, dt.datetime], voice: Voice) -> str:
    return _("{name} {span}").format(name=name, span=_span(span, voice))


def _span(span: tuple[dt.datetime, dt.datetime], voice: Voice) -> str:
    """Return a span of time, the weekday only where it changes."""
    start, end = voice.clock(span[0]), voice.clock(span[1])
    same = start.rpartition(" ")[0] == end.rpartition(" ")[0] or end.rpartition(" ")[0] == ""
    return _("{start} to {end}").format(start=start, end=end.rpartition(" ")[2] if same else end)
