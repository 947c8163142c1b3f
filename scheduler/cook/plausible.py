"""Whether a reading fits what is known; what does not fit is kept as doubtful until a second spot is read. Pure."""

from __future__ import annotations

import datetime as dt

from scheduler.cook.situation import Situation
from scheduler.facts import Reading, Slot
from scheduler.state import CookState, ReadingAt, Stage

JUMP_C = 8.0
"""A rise above this within twenty minutes is doubted [°C]; common practice, no source."""

RISE_C_PER_MIN = 0.6
"""Fastest believable rise over a longer gap [°C/min]: thin rib racks climb up to about 30 C an hour early on; common
practice, no source."""

FALL_C = 3.0
"""A fall above this on the fire is doubted [°C]; common practice, no source."""

TOGETHER_MIN = 10.0
"""Readings of two people within this are of the same moment [min]; common practice, no source: both are shown, one is
asked about, they are never averaged."""

AGREE_C = 3.0
"""Two readings this close confirm one another [°C]: house rule."""


def doubt(reading: Reading, at: dt.datetime, current: Situation, by: str | None = None) -> ReadingAt | None:
    """Return the earlier reading that a new core reading does not fit, None when it fits.

    Judged only on the fire; in the box a core may fall. The edges of an approximate reading count in its favour; named
    spots are compared with themselves. Two people (`by`) who read differently within ten minutes read two spots.
    """
    state = current.state
    if reading.slot is not Slot.CORE or state.stage is not Stage.COOKING:
        return None
    earlier = [
        r for r in state.read(Slot.CORE) if (state.at("meat_on") or r.at) <= r.at <= at and _same_spot(r, reading)
    ]
    if not earlier:
        return None
    last = earlier[-1]
    minutes = (at - last.at) / dt.timedelta(minutes=1)
    slack = reading.spread_c + last.spread_c
    rise = reading.value_c - last.value_c
    if rise - slack > max(JUMP_C, RISE_C_PER_MIN * minutes) or -rise - slack > FALL_C:
        return last
    two_people = by is not None and last.by is not None and by != last.by
    return last if two_people and minutes <= TOGETHER_MIN and abs(rise) - slack > AGREE_C else None


def _same_spot(earlier: ReadingAt, reading: Reading) -> bool:
    return earlier.spot is None or reading.spot is None or earlier.spot.casefold() == reading.spot.casefold()


def confirms(reading: Reading, at: dt.datetime, state: CookState) -> ReadingAt | None:
    """Return the doubtful reading of the last half hour that this one agrees with, None when there is none."""
    if reading.slot is not Slot.CORE:
        return None
    doubtful = [
        r for r in state.read(Slot.CORE, doubtful=True) if r.doubtful and abs(at - r.at) <= dt.timedelta(minutes=30)
    ]
    if doubtful and abs(doubtful[-1].value_c - reading.value_c) <= AGREE_C:
        return doubtful[-1]
    return None
