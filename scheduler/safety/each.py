"""Of several like pieces (birds, sausages, burgers) each may be raw while another is done: how many were read.

It opens no gate and shuts none; it says whether "it was read" is true of more than one of them.
"""

from __future__ import annotations

import collections
import datetime as dt
import math

from scheduler.cuts import Cut
from scheduler.facts import Slot
from scheduler.safety.case import Case
from scheduler.safety.contested import low_edge_c
from scheduler.state import CookState, ReadingAt

MOST_ASKED = 6
"""So many are read of any larger number: house rule; FSIS says to check several, and names no number."""

ONE_LOOK = dt.timedelta(minutes=30)
"""Readings this near to one another are of different ones: house rule."""

_EACH = frozenset({"poultry", "ground"})
"""Classes of which each piece is read; of whole cuts the thickest stands for the others: common practice, no source."""


def needed(state: CookState, cut: Cut) -> int:
    """Return how many of like pieces have to be read: each up to six; one of whole cuts to which nothing was done."""
    parts = math.prod(parts for _at, parts in state.divided)
    each = cut.safety_class in _EACH or bool(state.treated)
    return max(1, min(state.planned.count * parts, MOST_ASKED)) if each else 1


def passed(case: Case) -> int:
    """Return how many of them were read at the minimum: in the best half hour since the last number under it.

    Numbers of differently named spots (breast, thigh) may be of one bird: of the named ones the spot read most counts.
    What was read off the heat under the minimum may have cooled and takes nothing back.
    """
    on_at, off_at = case.state.at("meat_on"), case.state.at("pull") or case.state.at("serve")
    if on_at is None:
        return 0
    minimum_c = case.gate.minimum_c
    read = [r for r in case.state.readings if r.slot is Slot.CORE and on_at <= r.at <= case.now]
    low = [r.at for r in read if round(low_edge_c(r), 1) < minimum_c and (off_at is None or r.at <= off_at)]
    hot = [
        r for r in read if not r.doubtful and round(low_edge_c(r), 1) >= minimum_c and r.at >= max(low, default=r.at)
    ]
    return max((_different([r for r in hot if first.at <= r.at <= first.at + ONE_LOOK]) for first in hot), default=0)


def _different(look: list[ReadingAt]) -> int:
    names = collections.Counter((r.spot or "").casefold() for r in look)
    nameless = names.pop("", 0)
    return nameless + max(names.values(), default=0)
