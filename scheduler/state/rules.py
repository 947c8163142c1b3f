"""Which published rules count for a cook, and since when time at a lower temperature may: as told, never to end a stop.

It knows no figure of any edition.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from scheduler.facts import CareTold, Edition, EditionTold, Fact, Reading, SafeBy, SafeByTold, Slot, StepDone

_COLD_C = 4.4
"""A fridge read above this may have been judged already [°C]: 40 F."""

_JUDGED = frozenset({"raw_out", "pull", "serve"})
"""Steps from which on food may be judged without any number."""


def edition_of(told: Iterable[Fact]) -> Edition:
    """Return the edition that counts, from facts in order of time.

    It is the one told last before anything was there to judge (a core, leftovers or a warm fridge read; raw meat out,
    meat pulled or served). What is told later can only make it stricter: of two that stood since then the stricter
    figure of each counts, so that no other edition ends what one of them began. For guests at risk and public meals it
    is the stricter one, whatever was told.
    """
    facts = tuple(told)
    begun_at = min((fact.happened_at for fact in facts if _judged(fact)), default=None)
    chosen, at_risk, public = Edition.STRICTER, False, False
    stood = {chosen}
    for fact in facts:
        match fact.body:
            case EditionTold(edition=chosen):
                pass
            case CareTold():
                at_risk = at_risk if fact.body.at_risk is None else fact.body.at_risk
                public = public if fact.body.public is None else fact.body.public
            case _:
                continue
        counts = Edition.STRICTER if at_risk or public else chosen
        stood = {counts} if begun_at is None or fact.happened_at <= begun_at else {*stood, counts}
    return stood.pop() if len(stood) == 1 else Edition.STRICTER


def by_time_since(told: Iterable[Fact]) -> dt.datetime | None:
    """Return since when safety by time at a lower temperature is chosen, None while it is not."""
    since = None
    for fact in told:
        if isinstance(fact.body, SafeByTold):
            chosen = fact.body.by is SafeBy.EQUIVALENCE
            since = (since or fact.happened_at) if chosen else None
    return since


def _judged(fact: Fact) -> bool:
    match fact.body:
        case Reading(slot=Slot.CORE | Slot.LEFTOVERS):
            return True
        case Reading(slot=Slot.FRIDGE, value_c=value_c, spread_c=spread_c):
            return round(value_c + spread_c, 1) > _COLD_C
        case StepDone(step=step):
            return step in _JUDGED
        case _:
            return False
