"""What somebody told last was for another of the cooks that run here: it is taken back, and offered to the others.

Nothing is moved unasked: one tap tells it there, with the time at which it was told.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.among import Running
from bot.application.visit import Visit, Work
from bot.messages.asked_also import for_this_cook, told_there
from bot.messages.bodies import body_text
from bot.messages.message import Message
from bot.messages.naming import cook_title
from scheduler.facts import Fact, Felt, Reading, StepDone, Wrapped
from scheduler.state import effective


def told_in(visit: Visit, cooks: list[Running]) -> tuple[Running, Fact] | None:
    """Return the cook in which a person told something last and what it was, None when there is no such thing."""
    found = [
        (fact, cook)
        for cook in cooks
        for fact in effective(cook.snapshot.facts)
        if fact.by == visit.person.name and isinstance(fact.body, Reading | StepDone | Wrapped | Felt)
    ]
    if not found:
        return None
    fact, cook = max(found, key=lambda pair: pair[0].recorded_at)
    return cook, fact


def offer(visit: Visit, work: Work, cooks: list[Running], told: tuple[Running, Fact]) -> None:
    """Offer what was told to every other cook, each with one button."""
    source, fact = told
    meaning = _meaning(fact)
    for number, cook in enumerate((one for one in cooks if one.id != source.id), 1):
        what = body_text(fact.body, visit.voice(cook.situation))
        message = Message(text=for_this_cook(cook_title(cook.situation), what), choices=(((told_there(), meaning),),))
        work.say(message, to=visit.address, key=f"answer:{visit.row_id}.{number}", cook=cook.id)


def _meaning(fact: Fact) -> say.Intent:
    """Return what was told as what a button means, at the time at which it was so."""
    match fact.body:
        case Reading(slot=slot, value_c=value_c, spread_c=spread_c, spot=spot):
            value = say.Value(value_c=value_c, slot=slot, spread_c=spread_c, spot=spot)
            return say.Report(values=(value,), at=fact.happened_at)
        case StepDone(step=step, outcome=outcome):
            return say.Done(step=step, outcome=outcome, at=fact.happened_at)
        case Wrapped(wrap=wrap):
            return say.WrapSaid(wrap=wrap, at=fact.happened_at)
        case Felt(feel=feel, spot=spot):
            return say.FeelSaid(feel=feel, spot=spot)
        case _:
            return say.Note(text="")
