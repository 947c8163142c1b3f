"""The sentence about dinner: on time or not, and by how much."""

from __future__ import annotations

import datetime as dt

from bot.messages.figures import Voice, span
from bot.messages.naming import piece_name
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import ServingKind
from scheduler.planning.backward import holds, warm_oven
from scheduler.planning.outlook import Verdict
from scheduler.planning.rest import keeps_until
from scheduler.planning.waiting import keeps_min
from scheduler.safety import for_the_bin, pulled_too_cold
from scheduler.state import Stage

_IN_TIME = frozenset({Verdict.ON_TIME, Verdict.EARLY})


_BOX_AGAIN, _BOX_MOVED = dt.timedelta(hours=1), dt.timedelta(minutes=30)
"""The line about the box is told again after so long, or when its time has moved by so much: house rule."""

_FEW = dt.timedelta(minutes=5)
"""A dinner that is later by less is not called late by a number."""


def dinner_line(situation: Situation, voice: Voice) -> str:
    """Return whether dinner is on time, and by how much; of several pieces the worst is told, by its name."""
    if situation.several and situation.focus is None:
        return _of_the_worst(situation, voice)
    outlook, serving = situation.outlook, situation.state.serving
    if situation.state.stage is Stage.GONE:
        return _("No dinner of it: it was thrown away.")
    if situation.state.stage in {Stage.AFTER, Stage.CLOSED}:
        return _("Dinner is served.")
    if outlook.serve_at is None:
        if outlook.plate_at is None:
            return _("Dinner when ready: later than I can see.")
        return _("Dinner when ready: plate about {time}.").format(time=voice.about(outlook.plate_at))
    when = voice.clock(outlook.serve_at)
    if serving.kind is ServingKind.WINDOW and outlook.serve_end is not None:
        when = _("{start} to {end}").format(start=when, end=voice.clock(outlook.serve_end).split()[-1])
    verdict = unsafe_line(situation, voice) or _verdict(situation, voice)
    return _("Dinner {when}: {verdict}").format(when=when, verdict=verdict)


def unsafe_line(situation: Situation, voice: Voice) -> str:
    """Return that there is no dinner of meat that is to be thrown away, nor before it is safe when it was pulled too
    cold; nothing when it was not.
    """
    if for_the_bin(situation.state, situation.cut, situation.catalogue.cuts, voice.now):
        return _("not of this meat: throw it away.")
    found = pulled_too_cold(situation.state, situation.cut, situation.catalogue.cuts)
    limit_c = found[0].limit_c if found else None
    if limit_c is None:
        return ""
    return _("not before the meat is safe: back on until {limit} at the coldest spot.").format(
        limit=voice.limit(limit_c)
    )


def _of_the_worst(situation: Situation, voice: Voice) -> str:
    if all(view.state.stage is Stage.GONE for view in situation.views):
        return _("No dinner: it was thrown away.")
    if situation.ended:
        return _("Dinner is served.")
    deciding = situation.deciding
    line = dinner_line(deciding, voice)
    if deciding.outlook.verdict is Verdict.ON_TIME:
        return line
    name = piece_name(situation.view(deciding.focus))
    return _("{line} ({piece})").format(line=line.rstrip("."), piece=name) + "."


def box_line(situation: Situation, voice: Voice) -> str:
    """Return what to do when the meat must wait longer than an unheated box holds, nothing when it need not."""
    until = _oven_by(situation)
    if until is None or unsafe_line(situation, voice):
        return ""
    if warm_oven(situation.state):
        return _("Dinner is later than it keeps hot: by {time} serve it, or slice and chill it.").format(
            time=voice.by(until)
        )
    if not holds(situation.cut):
        return _(
            "Dinner is later than this keeps. Eat it sooner, or tent it and hold it above 140 F (60 C) in a warm oven:"
            " it dries the longer it waits."
        )
    if until <= voice.now:
        return _("Dinner is later than a cold box holds: into a warm oven now, 150 to 170 F (65 to 77 C).")
    return _("Dinner is later than a cold box holds: by {time} into a warm oven, 150 to 170 F (65 to 77 C).").format(
        time=voice.by(until)
    )


def box_told(before: Situation | None, after: Situation, voice: Voice) -> bool:
    """Return whether the line about the box was told within the hour, at the pull, and its time has hardly moved."""
    pulled_at = None if before is None else before.state.at("pull")
    if before is None or pulled_at is None or voice.now - pulled_at > _BOX_AGAIN:
        return False
    told, now = _oven_by(before), _oven_by(after)
    return told is not None and now is not None and now > voice.now and abs(now - told) < _BOX_MOVED


def _oven_by(situation: Situation) -> dt.datetime | None:
    """Return when resting meat has to leave an unheated box, None when dinner comes before that."""
    state, outlook = situation.state, situation.outlook
    until = None if state.did("serve") else keeps_until(state, situation.cut)
    if until is None:
        return None
    return until if outlook.box_outlasted else None


def _verdict(situation: Situation, voice: Voice) -> str:
    outlook = situation.outlook
    if outlook.spare is None or outlook.plate.likely is None:
        return _("late, by more than I can see.")
    if outlook.verdict is Verdict.USUAL:
        return _on_usual_time(situation)
    likely = voice.about(outlook.plate.likely)
    pulled_at = situation.state.at("pull")
    if pulled_at is not None and outlook.verdict in _IN_TIME:
        resting = _("on time, the meat is off and resting since {time}.")
        if _oven_by(situation) is not None and not warm_oven(situation.state):
            resting = _("on time with a warm oven, the meat is off and resting since {time}.")
        return resting.format(time=voice.clock(pulled_at))
    if outlook.verdict is Verdict.EARLY and not holds(situation.cut):
        return _("too early: ready about {spare} before, and it does not keep.").format(spare=span(outlook.spare))
    if outlook.verdict is Verdict.EARLY and outlook.spare <= _hold(situation):
        return _("early: ready about {spare} before, longer than {place}.").format(
            spare=span(outlook.spare), place=_place(situation)
        )
    if outlook.verdict in _IN_TIME and outlook.spare > _hold(situation):
        return _("far too early: ready about {spare} before, longer than {place}.").format(
            spare=span(outlook.spare), place=_place(situation)
        )
    if outlook.verdict is Verdict.ON_TIME and outlook.spare < dt.timedelta():
        return _("on time, give or take a quarter of an hour.")
    match outlook.verdict:
        case Verdict.ON_TIME:
            return _("on time, about {spare} to spare.").format(spare=span(outlook.spare))
        case Verdict.CLOSE if outlook.spare >= dt.timedelta():
            return _("likely on time, about {spare} to spare, but it may be late.").format(spare=span(outlook.spare))
        case Verdict.CLOSE:
            return _("may be late, plate about {time}.").format(time=likely)
        case _:
            late = max(-outlook.spare, dt.timedelta())
            if late < _FEW:
                return _("a few minutes late at most, plate about {time}.").format(time=likely)
            return _("late by about {late}, plate about {time}.").format(late=span(late), time=likely)


def _on_usual_time(situation: Situation) -> str:
    """Return that a cut that does not keep is planned on its usual time, and how far it may come off it."""
    outlook, pull = situation.outlook, situation.outlook.pull
    early = None if pull.early is None or pull.likely is None else pull.likely - pull.early
    end, late_at = outlook.serve_end, outlook.plate.late
    late = None if end is None or late_at is None else max(late_at - end, dt.timedelta())
    if early is None or late is None:
        return _("planned on its usual time.")
    return _("planned on its usual time, up to {early} earlier or {late} later; it does not keep.").format(
        early=span(early), late=span(late)
    )


def _place(situation: Situation) -> str:
    return _("a warm oven keeps it") if warm_oven(situation.state) else _("a cold box holds")


def _hold(situation: Situation) -> dt.timedelta:
    """Return how long before dinner the plate may be possible at the earliest: an unheated box and two hours more."""
    warm = warm_oven(situation.state)
    keeps = keeps_min(situation.state, situation.cut) if warm else situation.cut.rest_max_unheated_min
    return dt.timedelta(minutes=keeps + 120)
