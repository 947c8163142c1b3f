"""Which cooker is meant, what of it goes into the log, and what a dial in its lid means at the grate.

It writes nothing; handlers do.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.visit import House, Visit
from bot.conversation.context import CookerName
from bot.conversation.parsing.words import tidy
from scheduler.cook import Situation
from scheduler.cookers import plain_name
from scheduler.facts import CookerTold, Reading, Slot
from scheduler.state import CookState, effective

DIAL = "dial"
"""Spot of a reading that was taken from the dial in the lid."""
_WITHIN_80 = 2.56
_LOOKED_AT = 5
"""So many cooks of the past are looked at for the cooker used last."""


def cooker_names(house: House) -> tuple[CookerName, ...]:
    """Return every name that a cooker goes by: those of the cards, then those of the kinds."""
    cards = [
        CookerName(name=tidy(plain_name(name)), kind=card.kind, card=card.name)
        for card in house.cards.cookers
        for name in (card.name, *card.also_called)
    ]
    kinds = [
        CookerName(name=tidy(name), kind=cooker.id)
        for cooker in house.catalogue.cookers.cookers
        for name in (cooker.id.value, cooker.name, *cooker.also_called)
    ]
    return (*cards, *kinds)


def cooker_told(said: say.CookerSaid, house: House) -> CookerTold:
    """Return what is written of a cooker: its card when there still is one, else what its kind is."""
    card = None if said.card is None else house.cards.named(said.card)
    cookers = house.catalogue.cookers
    return cookers.of_kind(said.cooker) if card is None else card.told(cookers)


def offered_cookers(visit: Visit) -> tuple[say.CookerSaid, ...]:
    """Return the cookers to offer for a new cook: the one used last, then the cards, three at most."""
    cards = [say.CookerSaid(cooker=card.kind, card=card.name) for card in visit.house.cards.cookers]
    last = _last(visit)
    known = last is not None and (last.card is None or last in cards)
    first = (last,) if last is not None and known else ()
    return tuple(dict.fromkeys((*first, *cards)))[:3]


def _last(visit: Visit) -> say.CookerSaid | None:
    """Return the cooker of the newest cook of this room that had one."""
    for cook_id in visit.house.store.recent_cooks(visit.address, _LOOKED_AT):
        cook = visit.house.store.cook(cook_id)
        told = [] if cook is None else [f.body for f in effective(cook.facts) if isinstance(f.body, CookerTold)]
        if told:
            return say.CookerSaid(cooker=told[-1].cooker, card=told[-1].name)
    return None


def at_the_grate(reading: Reading, situation: Situation) -> Reading:
    """Return a reading of the pit from the dial in the lid as the air at the grate.

    The card's offset is added; without one the value stays, as uncertain as dials of this kind of cooker are.
    """
    if reading.spot != DIAL or reading.slot is not Slot.PIT:
        return reading
    state: CookState = situation.state
    offset_c = None if state.cooker is None else state.cooker.dial_offset_c
    spread_c = reading.spread_c
    if offset_c is None:
        kinds = situation.catalogue.cookers
        wide = [kinds.get(state.cooker.cooker)] if state.cooker is not None else list(kinds.cookers)
        doubt = max(one.dial_offset_c.high - one.dial_offset_c.low for one in wide) / _WITHIN_80
        spread_c = max(spread_c, doubt)
    return Reading(slot=reading.slot, value_c=reading.value_c + (offset_c or 0.0), spread_c=spread_c, spot=reading.spot)
