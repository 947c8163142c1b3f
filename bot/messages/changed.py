"""What a correction changed, and what stood there before.

Words only; whether a correction is taken is decided elsewhere.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.bodies import body_text, fact_text
from bot.messages.figures import Voice
from bot.messages.language import small
from bot.messages.words import _
from scheduler.cook import Changes, Situation, Taken
from scheduler.facts import Body, Corrected, Fact, Reading, StepDone


def corrected_text(event: Taken, changes: Changes, voice: Voice) -> str:
    """Return what was changed, and what stood there before."""
    assert isinstance(event.body, Corrected)
    before, told = changes.before, event.body
    old = None if before is None else old_fact(before, told.of) or _doubted(before, told)
    new = body_text(event.body.body, voice)
    new = small(new)
    at = voice.clock(event.at)
    if isinstance(event.body.body, Reading) and event.body.body.doubtful:
        return _("Kept aside: {what}, {time}.").format(what=new, time=at)
    if old is None:
        return _("Changed: {new}, {time}.").format(new=new, time=at)
    if old.body == event.body.body:
        return _("Changed: {new} at {time} (it was {old}).").format(new=new, time=at, old=voice.clock(old.happened_at))
    return _("Changed: {new}, {time} (it was {old}).").format(
        new=new, time=at, old=_old_text(old, event.body.body, voice)
    )


def still_counts(told: tuple[Fact, ...], voice: Voice) -> str:
    """Return what still counts of a message that was changed to something that nobody can read as a report."""
    each = [
        _("{what} at {time}").format(what=small(fact_text(one, voice)), time=voice.clock(one.happened_at))
        for one in told
    ]
    return _("I do not understand the changed text. Still counted: {what}. To take it back type: undo.").format(
        what=", ".join(each)
    )


def _old_text(old: Fact, new: Body, voice: Voice) -> str:
    """Return what stood before: of a number of the same thing the number alone."""
    same = isinstance(old.body, Reading) and isinstance(new, Reading) and old.body.slot is new.slot
    if same and isinstance(old.body, Reading) and old.body.spot is None and old.body.spread_c == 0:
        return voice.temp(old.body.value_c, fine=True)
    return fact_text(old, voice)


def old_fact(situation: Situation, fact_id: str) -> Fact | None:
    """Return what a situation knows of a fact: a reading, a step, a wrap."""
    for reading in situation.state.readings:
        if reading.fact == fact_id and not reading.doubtful:
            body = Reading(slot=reading.slot, value_c=reading.value_c, spread_c=reading.spread_c, spot=reading.spot)
            return _stand_in(situation, fact_id, reading.at, body)
    for step, times in situation.state.done.items():
        for done in times:
            if done.fact == fact_id:
                return _stand_in(situation, fact_id, done.at, StepDone(step=step, outcome=done.outcome))
    return None


def _doubted(before: Situation, told: Corrected) -> Fact | None:
    """Return a doubtful reading in whose place another number is told; None when it is only confirmed."""
    new = told.body
    for reading in before.state.readings:
        if reading.fact == told.of and isinstance(new, Reading) and new.value_c != reading.value_c:
            body = Reading(slot=reading.slot, value_c=reading.value_c, spread_c=reading.spread_c, spot=reading.spot)
            return _stand_in(before, reading.fact, reading.at, body)
    return None


def _stand_in(situation: Situation, fact_id: str, at: dt.datetime, body: Body) -> Fact:
    state = situation.state
    return Fact(id=fact_id, cook=state.cook, piece=state.piece, happened_at=at, recorded_at=at, by=None, body=body)
