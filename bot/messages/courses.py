"""A cook of several pieces in words: when each goes on and comes off, where each stands, what shares a walk.

One line for each piece; what is said of one alone is worded elsewhere.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.capacity import capacity_note
from bot.messages.care_asked import care_line
from bot.messages.dinner import dinner_line
from bot.messages.feeding import people_fed, plan_note
from bot.messages.figures import Voice, kilograms, span
from bot.messages.language import capital
from bot.messages.message import Message, lines
from bot.messages.naming import piece_name
from bot.messages.pieces import counted
from bot.messages.pit_change import pit_snags
from bot.messages.steps import step_words
from bot.messages.trip import next_line
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import ServingKind, Slot
from scheduler.planning.feeding import feeding, waves
from scheduler.planning.trips import JOIN
from scheduler.planning.views import PieceView
from scheduler.planning.whole import Course
from scheduler.state import Stage

_MOST_WALKS = 2
"""Walks to the cooker that several pieces share and that the plan names."""

_SHARED = ("meat_on", "bark_check", "tender_test", "pull", "core_read")
"""What is named of a walk that pieces share."""


def plan_of_several(situation: Situation, voice: Voice, *, owner: bool) -> Message:
    """Return the plan of a cook of several pieces: dinner, the fire, a line for each piece, what shares a walk."""
    waves_told = _waves(situation, voice)
    text = lines(
        dinner_line(situation, voice),
        *waves_told,
        plan_note(situation, apart=not waves_told),
        capacity_note(situation),
        _light_line(situation, voice),
        *(piece_line(view, situation, voice) for view in in_order(situation)),
        *pit_snags(situation, voice),
        *_walks(situation, voice),
        care_line(situation),
        next_line(situation, voice, owner=owner),
    )
    return Message(text=text)


def _light_line(situation: Situation, voice: Voice) -> str:
    """Return when the fire is lit, and for which pit; nothing once it burns."""
    light_at = next((at for at, step, _piece in situation.courses() if step.id == "light"), None)
    if light_at is None or situation.stage is not Stage.BEFORE:
        return ""
    return _("Light the fire at {time}, pit {pit}.").format(
        time=voice.clock(max(light_at, voice.now)), pit=_pit(situation, voice)
    )


def in_order(situation: Situation) -> list[PieceView]:
    """Return the pieces in the order in which they go on."""
    return sorted(situation.views, key=lambda view: view.outlook.on_at)


def piece_line(view: PieceView, situation: Situation, voice: Voice) -> str:
    """Return where a piece stands: on and off the fire as planned, or its newest core and when it comes off."""
    name = capital(headline_of(view))
    pulled_at, on_at = view.state.at("pull"), view.state.at("meat_on")
    if view.state.discarded:
        return _("{piece}: thrown away, {time}.").format(piece=name, time=voice.clock(view.state.discarded[-1].at))
    if view.state.did("serve"):
        return _("{piece}: served.").format(piece=name)
    if pulled_at is not None:
        return _("{piece}: off the fire since {time}.").format(piece=name, time=voice.clock(pulled_at))
    pull = view.outlook.pull
    off = _("off {window}").format(window=voice.window(pull))
    if on_at is not None:
        last = view.state.last(Slot.CORE)
        core = (
            ""
            if last is None
            else _("{temp} ({age}), ").format(temp=voice.temp(last.value_c), age=_age(last.at, voice))
        )
        return _("{piece}: {core}{off}.").format(piece=name, core=core, off=off)
    brings = view.state.pit[-1] if _brings_pit(view, situation) else None
    pit = "" if brings is None else _(", pit {pit} from then on").format(pit=voice.band(brings.low_c, brings.high_c))
    return _("{piece}: on {time}{pit}, {off}.").format(
        piece=name, time=voice.clock(max(view.outlook.on_at, voice.now)), pit=pit, off=off
    )


def headline_of(view: PieceView) -> str:
    """Return what a piece is: its name, how many, how heavy."""
    planned, cut = view.state.planned, view.cut
    name = piece_name(view)
    if planned.count > 1:
        name = counted(cut, planned.count) if view.number is None else f"{planned.count} x {name}"
    return name if planned.mass_kg is None else f"{name}, {kilograms(planned.mass_kg)}"


def where_each_stands(situation: Situation, voice: Voice) -> list[str]:
    """Return a line for each piece."""
    return [piece_line(view, situation, voice) for view in in_order(situation)]


def pit_line(situation: Situation, voice: Voice) -> str:
    """Return the newest reading of the pit with its age; nothing without one."""
    last = situation.at_the_fire.state.last(Slot.PIT)
    if last is None:
        return ""
    return _("Pit {temp} ({age}).").format(temp=voice.temp(last.value_c), age=_age(last.at, voice))


def _age(at: dt.datetime, voice: Voice) -> str:
    fresh = voice.now - at < dt.timedelta(minutes=1)
    return _("just now") if fresh else _("{span} ago").format(span=span(voice.now - at))


def _brings_pit(view: PieceView, situation: Situation) -> bool:
    band = situation.at_the_fire.state.pit[-1] if situation.focus is None else situation.views[0].state.pit[-1]
    own = view.state.pit[-1]
    return (own.low_c, own.high_c) != (band.low_c, band.high_c)


def _pit(situation: Situation, voice: Voice) -> str:
    band = situation.views[0].state.pit[-1]
    return voice.band(band.low_c, band.high_c)


def _waves(situation: Situation, voice: Voice) -> list[str]:
    """Return which piece comes when, where they are not wanted together."""
    times = {view.outlook.serve_at for view in situation.views}
    if len(times) == 1 or any(view.state.serving.kind is ServingKind.WHEN_READY for view in situation.views):
        return []
    told = []
    for pieces, heads in waves(feeding(situation.views, situation.state.guests), situation.views):
        at, names = pieces[0].outlook.serve_at, ", ".join(piece_name(view) for view in pieces)
        if at is not None:
            told.append(
                _("{time} {names}, feeds {count}").format(time=voice.clock(at), names=names, count=people_fed(heads))
            )
    return [_("To the table: {waves}.").format(waves="; ".join(told))]


def _walks(situation: Situation, voice: Voice) -> list[str]:
    """Return the first walks to the cooker at which something is done to several pieces."""
    found: list[str] = []
    group: list[Course] = []
    for course in [c for c in situation.courses() if c[1].id in _SHARED and c[2] is not None and c[0] >= voice.now]:
        if group and course[0] - group[0][0] > JOIN:
            found += _walk(group, situation, voice)
            group = []
        group.append(course)
    found += _walk(group, situation, voice)
    return [_("One walk for: {walks}.").format(walks="; ".join(found[:_MOST_WALKS]))] if found else []


def _walk(group: list[Course], situation: Situation, voice: Voice) -> list[str]:
    if len({piece for _at, _step, piece in group}) < 2:  # noqa: PLR2004 - one piece shares nothing
        return []
    each = [f"{step_words(step.id).name} ({piece_name(situation.view(piece))})" for _at, step, piece in group]
    return [_("{time} {what}").format(time=voice.about(group[0][0]), what=", ".join(each))]
