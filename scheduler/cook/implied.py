"""The order of a cook: on before wrap before pull before rest before slice before the plate. Pure."""

from __future__ import annotations

import datetime as dt
import itertools

from scheduler.cook.changes import Refusal
from scheduler.state import CookState

ORDER = ("light", "meat_on", "wrap_do", "pull", "box_meat", "slice", "serve")
"""Steps that can only follow one another."""

NEEDS_MEAT_ON = frozenset({"wrap_do", "tender_test", "pull", "box_meat", "vent_meat", "slice", "serve", "bark_check"})

IMPLIES = {"box_meat": ("pull",), "vent_meat": ("pull",), "slice": ("pull",), "serve": ("pull",)}
"""Reporting the one says that the others have happened."""


def before(step: str, state: CookState) -> tuple[str, ...]:
    """Return the steps that must have happened when this one is reported and that nobody has reported."""
    return tuple(other for other in IMPLIES.get(step, ()) if state.did(other) is None)


def refused(step: str, at: dt.datetime, state: CookState) -> Refusal | None:
    """Return why a step cannot have happened at that time, None when it can."""
    if step in NEEDS_MEAT_ON and state.did("meat_on") is None:
        return Refusal(reason="not_on_yet", step=step)
    if step not in ORDER:
        return None
    place = ORDER.index(step)
    for other, instant in _instants(state):
        if other == step:
            continue
        earlier = ORDER.index(other) < place
        if (earlier and at < instant) or (not earlier and at > instant):
            return Refusal(reason="out_of_order", step=step, other=other, at=instant)
    return None


def broken_order(state: CookState) -> Refusal | None:
    """Return the first pair of steps that stand in the wrong order, None when all is well."""
    instants = _instants(state)
    for (first, first_at), (second, second_at) in itertools.pairwise(instants):
        if first_at > second_at:
            return Refusal(reason="out_of_order", step=second, other=first, at=first_at)
    if state.did("meat_on") is None:
        for step in ("pull", "wrap_do", "box_meat", "serve"):
            if step in dict(instants):
                return Refusal(reason="not_on_yet", step=step)
    for step, needed in IMPLIES.items():
        missing = [other for other in needed if state.did(other) is None]
        if missing and state.did(step) is not None:
            return Refusal(reason="out_of_order", step=missing[0], other=step, at=state.at(step))
    return None


def _instants(state: CookState) -> list[tuple[str, dt.datetime]]:
    """Return (step, instant) of the ordered steps that have happened, in the order of a cook."""
    found = []
    for step in ORDER:
        at = state.at(step)
        if step == "wrap_do" and state.wraps:
            at = state.wraps[0][0]
        if at is not None:
            found.append((step, at))
    return found


def possible(step: str, at: dt.datetime, state: CookState) -> bool:
    """Return whether a step can be done to a piece at that time, as far as its own steps tell."""
    return refused(step, at, state) is None
