"""Meat that went back on the heat after it was pulled: the pull and the rest before it count no more for the stage.

How long it was off the heat is kept for safety; nothing is judged here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterable

from scheduler.facts import Asked, Fact, Felt, PutBack, StepDone
from scheduler.state.values import OffHeat

_REST = frozenset({"pull", "vent_meat", "box_meat", "hold_check", "serve_reading", "slice"})
"""Steps of the rest, done and asked anew after the next pull."""


def went_back(seen: tuple[Fact, ...]) -> tuple[tuple[Fact, ...], tuple[OffHeat, ...]]:
    """Return the facts that one piece sees without the rests that ended on the heat again, and those times off it.

    Readings stay, whenever they were taken. A word that it is back on without a pull before it says nothing.
    """
    pulls = sorted(f.happened_at for f in seen if isinstance(f.body, StepDone) and f.body.step == "pull")
    times: list[OffHeat] = []
    for back_at in sorted(f.happened_at for f in seen if isinstance(f.body, PutBack)):
        since = times[-1].back_at if times else None
        off = [at for at in pulls if at < back_at and (since is None or at > since)]
        if off:
            times.append(OffHeat(pulled_at=off[0], back_at=back_at))
    if not times:
        return seen, ()
    return tuple(_kept(seen, times[-1].back_at)), tuple(times)


def _kept(seen: Iterable[Fact], back_at: dt.datetime) -> Iterable[Fact]:
    for fact in seen:
        if fact.happened_at >= back_at:
            yield fact
        elif (isinstance(fact.body, StepDone) and fact.body.step in _REST) or isinstance(fact.body, Felt):
            continue
        else:
            yield _without_keys(fact)


def _without_keys(fact: Fact) -> Fact:
    """Return a fact that neither answers nor asks for a step of the rest."""
    body, answers = fact.body, tuple(key for key in fact.answers if not _of_rest(key))
    if isinstance(body, Asked):
        body = dataclasses.replace(body, prompts=tuple(key for key in body.prompts if not _of_rest(key)))
    return (
        fact if (answers, body) == (fact.answers, fact.body) else dataclasses.replace(fact, answers=answers, body=body)
    )


def _of_rest(key: str) -> bool:
    return key.split("/")[1] in _REST
