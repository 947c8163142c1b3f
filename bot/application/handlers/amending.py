"""What an earlier word is corrected to: the newest reading of somebody, or the time of the last thing they told.

Facts in, bodies out; nothing is decided here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot import commands as say
from bot.conversation.parsing.readings import can_be
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.refusals import question
from scheduler.facts import (
    Body,
    Corrected,
    Fact,
    Felt,
    GuestsTold,
    Noted,
    PieceAdded,
    Reading,
    Serving,
    ServingKind,
    StepDone,
    Wrapped,
)  # fmt: skip
from scheduler.state import CookState, effective
from scheduler.units import f_from_c

_SAME_C = 0.6
"""A correction names the old value this nearly: half a degree Celsius is one degree Fahrenheit, rounded [°C]."""

_LATELY = dt.timedelta(minutes=30)
"""A reading of the probe that is named is corrected when it is not older than this beside the newest: house rule."""

_DATED = (Reading, StepDone, Wrapped, Felt)


def correction(said: say.Correct, log: tuple[Fact, ...], person: str, text: str) -> Body:
    """Return the correction that is meant; of a fact that is not there ("") when there is nothing to correct."""
    if said.at is not None and said.value_c is None and said.slot is None:
        return _of_time(said.at, log, person, text)
    mine = [
        f
        for f in effective(log)
        if f.by == person and isinstance(f.body, Reading)
        and (said.old_c is None or abs(f.body.value_c - said.old_c) < _SAME_C)
    ]  # fmt: skip
    if not mine:
        return Corrected(of="", body=Noted(text=text))
    meant = mine[-1] if said.slot is None else _of_probe(mine, said)
    body = meant.body
    assert isinstance(body, Reading)
    value_c = body.value_c if said.value_c is None else said.value_c
    changed = dataclasses.replace(body, value_c=value_c, slot=said.slot or body.slot, doubtful=False)
    return Corrected(of=meant.id, body=changed)


def unbelievable(amended: Body, text: str, voice: Voice) -> Message | None:
    """Return the question about a corrected reading that its probe cannot have, None when it can.

    A correction obeys the limits of a reading: what was told before stands until a number that can be is typed.
    """
    if not isinstance(amended, Corrected) or not isinstance(amended.body, Reading):
        return None
    body = amended.body
    if not amended.of or can_be(say.Value(value_c=body.value_c, slot=body.slot)):
        return None
    typed = float(round(f_from_c(body.value_c) if voice.unit == "F" else body.value_c))
    return question(say.Unclear(question="impossible", text=text, values=(typed,)), voice)


def _of_probe(mine: list[Fact], said: say.Correct) -> Fact:
    """Return which reading a correction with its probe is of: the newest of that probe, if it was told with the newest
    at all or no figure says otherwise; the newest, if its figure was right and the probe was not.
    """
    newest = mine[-1]
    of_probe = [f for f in mine if isinstance(f.body, Reading) and f.body.slot is said.slot]
    right = isinstance(newest.body, Reading) and said.value_c is not None and abs(newest.body.value_c - said.value_c)
    if said.value_c is None or not of_probe or (right is not False and right < _SAME_C):
        return newest
    lately = newest.happened_at - of_probe[-1].happened_at <= _LATELY
    return of_probe[-1] if lately else newest


def _of_time(at: dt.datetime, log: tuple[Fact, ...], person: str, text: str) -> Body:
    """Give the last dated thing that this person told another time."""
    mine = [f for f in effective(log) if f.by == person and isinstance(f.body, _DATED)]
    of, body = (mine[-1].id, mine[-1].body) if mine else ("", Noted(text=text))
    return Corrected(of=of, body=body, happened_at=at)


def moved(serving: Serving, minutes: float) -> Serving:
    """Return the serving time so many minutes later; one that follows the meat stays as it is."""
    if serving.kind is ServingKind.WHEN_READY or serving.start is None:
        return serving
    by = dt.timedelta(minutes=minutes)
    end = None if serving.end is None else serving.end + by
    return dataclasses.replace(serving, start=serving.start + by, end=end)


def planned_anew(said: say.ChangePlan, log: tuple[Fact, ...], state: CookState) -> Body:
    """Return the plan of a piece with another count or mass: wrap and dinner stay as they were told since."""
    if said.cut is not None:
        return dataclasses.replace(
            state.planned, serving=state.serving, cut=said.cut, count=1, mass_kg=None, thickness_m=None, wrap=None
        )
    count, mass_kg = said.count or state.planned.count, said.mass_kg or state.planned.mass_kg
    added = [f.body for f in effective(log) if isinstance(f.body, PieceAdded) and f.piece == state.piece]
    if not added or not isinstance(added[-1], PieceAdded):
        return dataclasses.replace(
            state.planned, serving=state.serving, unit=said.unit or state.planned.unit, count=count, mass_kg=mass_kg
        )
    serving = None if added[-1].serving is None else state.serving
    return dataclasses.replace(added[-1], count=count, mass_kg=mass_kg, wrap=state.planned.wrap, serving=serving)


def guests_told(said: say.GuestsSaid, old: GuestsTold) -> GuestsTold:
    """Return who eats; what was not said stays as it was."""
    return GuestsTold(
        adults=old.adults if said.adults is None else said.adults,
        children=old.children if said.children is None else said.children,
        appetite=said.appetite or old.appetite,
        buns=old.buns if said.buns is None else said.buns,
    )
