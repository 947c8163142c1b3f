"""Food that is told, long afterwards, to have been put away in time: asked once before it ends a stop."""

from __future__ import annotations

import datetime as dt

from bot import commands as say
from bot.application.visit import Visit
from bot.messages.figures import Voice
from scheduler.cook import Situation

LONG_AGO = dt.timedelta(minutes=45)
"""What was put away so long before it is told ends a stop only after one question: house rule."""
_PUT_AWAY = frozenset({"leftovers", "reheat_away", "two_hour"})
_BEFORE_SERVING = frozenset({"slice", "pull", "box_meat", "vent_meat"})
_ENDS = frozenset({"two_hours_out", "cool_slow", "cool_too_long", "cool_not_read"})


def was_it_then(step_id: str, done: say.Done, situation: Situation, visit: Visit, voice: Voice) -> say.Unclear | None:
    """Return the question whether food was really put away so long ago, None where no stop would end by it."""
    if step_id not in _PUT_AWAY or done.at is None or done.sure or visit.incoming.sent_at - done.at < LONG_AGO:
        return None
    stops = situation.stops_of(situation.state.piece, visit.now)
    if not any(stop.rule in _ENDS for stop in stops):
        return None
    yes = done.model_copy(update={"step": step_id, "sure": True})
    options = (("yes", yes), ("no", say.Note(text=visit.incoming.text)))
    return say.Unclear(question="put_away_then", text=voice.clock(done.at), options=options)


def how_put_away(wanted: tuple[say.Intent, ...], situation: Situation) -> tuple[say.Intent, ...]:
    """Return what is meant where food is told put away with how it was cut ("put away, sliced shallow"): after serving
    slicing is no step any more, and what ends the two-hour clock is never lost to the order of steps.
    """
    served = all(view.state.did("serve") is not None for view in situation.views)
    away = any(isinstance(one, say.Done) and one.step in _PUT_AWAY for one in wanted)
    if not served or not away:
        return wanted
    return tuple(one for one in wanted if not (isinstance(one, say.Done) and one.step in _BEFORE_SERVING))
