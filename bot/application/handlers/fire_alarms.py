"""The fire goes wrong: what the handover card promises to wake the lead for is told to the lead and the watch, loudly.

It makes no words and decides nothing about the cook.
"""

from __future__ import annotations

from collections.abc import Callable

from bot.application.handlers.troubles import Answer
from bot.application.turns import Turn
from bot.application.visit import Visit
from bot.messages.figures import Voice
from bot.messages.fire_alarms import runaway, said_by
from bot.messages.message import Message
from scheduler.cook import Taken
from scheduler.facts import Reading, Slot
from scheduler.planning.series import far_too_hot_c
from scheduler.state import Stage

WAKES_THE_LEAD = frozenset({"fire_out", "fuel_out", "pit_hot", "pit_cold", "flare_up", "rain", "wind"})
"""Problems for which the card of a handover says to wake whoever leads."""


def far_too_hot(visit: Visit, done: Turn) -> Callable[[Voice], Message] | None:
    """Return the card of a runaway pit when it was read far above its band just now, None when it was not."""
    situation = done.after.at_the_fire
    name = visit.person.name
    read = [
        e.body.value_c
        for e in done.reported.events
        if isinstance(e, Taken) and isinstance(e.body, Reading) and e.body.slot is Slot.PIT and not e.body.doubtful
    ]
    newest = situation.state.last(Slot.PIT)
    limit_c = far_too_hot_c(situation.state.pit[-1])
    if not read or newest is None or newest.value_c != read[-1] or read[-1] <= limit_c:
        return None
    if situation.state.stage is not Stage.COOKING:
        return None
    problem = situation.catalogue.remedies.problem("pit_hot")
    value_c = read[-1]
    if problem is None:
        return None
    return lambda voice: runaway(problem, situation, value_c, name, voice)


def of_trouble(visit: Visit, trouble: Answer) -> Callable[[Voice], Message] | None:
    """Return what whoever leads and watches hears of a problem that wakes the lead, None of any other."""
    if trouble.what not in WAKES_THE_LEAD:
        return None
    name, text, card = visit.person.name, visit.incoming.text, trouble.card
    return lambda voice: said_by(name, text, card(voice))
