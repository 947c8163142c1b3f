"""Which of several pieces is meant: by name, by the open question, by stage, by what its forecast allows.

Returns candidates; one is an answer, several cost a tap. Words for the question are made elsewhere.
"""

from __future__ import annotations

import datetime as dt

from bot import commands as say
from scheduler.cook import Situation, fits, possible
from scheduler.facts import Reading
from scheduler.planning.views import PieceView
from scheduler.state import Stage

SOON = dt.timedelta(hours=1)
"""With nothing asked, a step told is that of the piece for which it comes this soon."""

SAME = {"wrap_do": ("wrap_do", "bark_check"), "tender_test": ("tender_test",)}
"""Steps whose open prompts a wrap or a feel answers."""

_ON_THE_FIRE = ("tender_test", "wrap_do", "bark_check", "core_read", "come_up_check", "spritz", "first_look", "pull")


def of_core(situation: Situation, reading: Reading, at: dt.datetime, by: str) -> tuple[str, ...]:
    """Return the pieces that a core reading can be of: asked for, else where meat is and where it fits."""
    there = _with_a_core(situation)
    if len(there) <= 1:
        return tuple(view.piece for view in there) or (situation.state.piece,)
    fitting = [v for v in there if fits(reading, at, situation.seen_from(v.piece), by)]
    asked = [v for v in there if v.piece in asked_cores(situation)]
    if len(asked) == 1 and (asked[0] in fitting or not fitting):
        return (asked[0].piece,)
    among = [v for v in fitting if v in asked] or fitting or asked or there
    if len(asked) == 1 and asked[0] not in among:
        among = [*asked, *among]
    return tuple(view.piece for view in among)


def _with_a_core(situation: Situation) -> list[PieceView]:
    """Return the pieces that are read: on the fire first, then those that rest, then all."""
    for stage in (Stage.COOKING, Stage.RESTING):
        here = [view for view in situation.views if view.state.stage is stage]
        asked = asked_cores(situation)
        rested = [v for v in situation.views if v.piece in asked and v.state.stage is Stage.RESTING]
        if here:
            return here if stage is Stage.RESTING else [*here, *rested]
    return list(situation.views)


def asked_cores(situation: Situation) -> tuple[str, ...]:
    """Return the pieces whose core is asked for and open, in the order in which the newest question names them."""
    waiting = [p for p in situation.waiting if p.is_question and "core" in p.step.slots]
    if not waiting:
        return ()
    newest = max(p.asked_at for p in waiting if p.asked_at is not None)
    now_asked = [p for p in waiting if p.asked_at == newest]
    plain = {p.piece for p in now_asked if p.step.id == "core_read"}
    wanted = plain if len(plain) > 1 else {p.piece for p in now_asked}
    return tuple(view.piece for view in situation.views if view.piece in wanted)


def of_step(situation: Situation, step_id: str, now: dt.datetime) -> tuple[str, ...]:
    """Return the pieces that a step told without a name can be about: those asked, else those that can be there now."""
    steps = SAME.get(step_id, (step_id,))
    waiting = [p.piece for p in situation.waiting if p.step.id in steps]
    if waiting:
        return tuple(view.piece for view in situation.views if view.piece in waiting)
    able = [v for v in situation.views if possible(step_id, now, v.state) and _in_time(step_id, v)]
    if len(able) <= 1:
        return tuple(view.piece for view in able) or (situation.state.piece,)
    soon = [
        p.piece
        for p in situation.prompts
        if p.step.id in steps and p.due_at <= now + SOON and any(v.piece == p.piece for v in able)
    ]
    return (soon[0],) if len(set(soon)) == 1 else tuple(view.piece for view in able)


def off_the_heat(situation: Situation) -> tuple[str, ...]:
    """Return the pieces that are off the heat and not served: those that can go back on."""
    return tuple(view.piece for view in situation.views if view.state.stage is Stage.RESTING)


def _in_time(step_id: str, view: PieceView) -> bool:
    """Return whether a piece is where this step is done to it."""
    if step_id in _ON_THE_FIRE:
        return view.state.stage is Stage.COOKING
    return view.state.did(step_id) is None


def step_of(intent: say.Intent) -> str | None:
    """Return the step that an intent is about, None when it names none."""
    match intent:
        case say.FeelSaid():
            return "tender_test"
        case say.WrapSaid():
            return "wrap_do"
        case say.Done(every=True):
            return None
        case say.Done(step=step) | say.Skip(step=step) | say.NotYet(step=step) | say.PutOffFor(step=step):
            return step
        case _:
            return None
