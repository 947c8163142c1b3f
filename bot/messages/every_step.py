"""Every step still to come as people read it: a line each, what repeats in one line, what is open and past as now.

Words only; steps and times come from the engine.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.figures import Voice
from bot.messages.naming import piece_name
from bot.messages.steps import step_words
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.recurring import Recurring, Until, recurring

_HOUR = dt.timedelta(hours=1)


def step_lines(situation: Situation, voice: Voice) -> list[str]:
    """Return a line for every step and every series still to come, in order of time; nothing lies in the past."""
    series = {(one.step.id, one.piece): one for one in recurring(situation.views, situation.catalogue)}
    rows: list[tuple[dt.datetime, str, str | None, str]] = []
    for at, step, piece in situation.courses():
        if (step.id, piece) not in series:
            rows.append((at, step_words(step.id).name, piece, ""))
    rows += [(one.at, step_words(one.step.id).name, one.piece, _then(one, voice)) for one in series.values()]
    ordered = sorted(rows, key=lambda row: max(row[0], voice.now))
    return [f"{_when(at, voice)}  {name}{_whose(piece, situation)}{then}" for at, name, piece, then in ordered]


def every(length: dt.timedelta) -> str:
    """Return how often something comes: minutes up to an hour and a half, then hours."""
    if length <= 1.5 * _HOUR:
        return _("every {minutes} min").format(minutes=round(length / dt.timedelta(minutes=1)))
    return _("every {hours:g} h").format(hours=round(length / _HOUR, 1))


def _when(at: dt.datetime, voice: Voice) -> str:
    return _("now") if at <= voice.now else voice.clock(at)


def _whose(piece: str | None, situation: Situation) -> str:
    several = situation.several and piece is not None
    return _(" ({piece})").format(piece=piece_name(situation.view(piece))) if several else ""


def _then(one: Recurring, voice: Voice) -> str:
    if not one.comes_again:
        return ""
    often = every(one.every)
    match one.until:
        case Until.WRAP:
            return _(", {every} until wrapped").format(every=often)
        case Until.TIME if one.ends_at is not None:
            return _(", {every} until about {time}").format(every=often, time=voice.clock(one.ends_at))
        case _:
            return _(", {every}").format(every=often)
