"""Rehearses a person's own plan: the newest cook of the data folder, or facts that somebody hands over.

It must not write into the data folder: only what was planned is read from it.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from bot.messages import rehearsed
from bot.messages.figures import Voice, kilograms
from bot.messages.naming import cut_name
from bot.rehearsal.engine import catalogue
from bot.rehearsal.own.meat import Pace
from bot.rehearsal.own.performance import Performance, perform
from bot.rehearsal.own.report import WIDTH, tell
from bot.store import open_store
from bot.store.opening import DATABASE_NAME
from bot.transport.terminal.layout import wrap
from scheduler.cook import assess
from scheduler.facts import (
    AirTold,
    CookerTold,
    DetailTold,
    Fact,
    GuestsTold,
    KindTold,
    PieceAdded,
    PieceDropped,
    PitMoved,
    Planned,
    RestTold,
    ServingMoved,
    WatchesTold,
    WrapPlanned,
)  # fmt: skip
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.views import PieceView
from scheduler.state import effective

DONE, FAILED = 0, 1

PLANNING = (
    Planned, PieceAdded, PieceDropped, GuestsTold, CookerTold, WatchesTold, KindTold, DetailTold, RestTold, WrapPlanned,
    AirTold, PitMoved, ServingMoved,
)  # fmt: skip
"""What a plan is made of; everything else has happened and is played anew."""

Put = Callable[[str], None]


def rehearse_mine(data_dir: Path, put: Put, *, whole: bool = False) -> int:
    """Rehearse the newest cook of a data folder from the moment it was planned; return an exit code."""
    facts = planned_in(data_dir)
    if not facts:
        print(rehearsed.nothing_planned(), file=sys.stderr)
        return FAILED
    return rehearse_plan(facts, put, whole=whole)


def rehearse_plan(facts: tuple[Fact, ...], put: Put, *, whole: bool = False) -> int:
    """Rehearse a plan from the moment it was made; return an exit code."""
    return rehearse(facts, now=facts[0].recorded_at, trade=catalogue(), put=put, whole=whole)


def planned_in(data_dir: Path) -> tuple[Fact, ...]:
    """Return what the newest open cook of a folder was planned with, nothing when there is none."""
    if not (data_dir / DATABASE_NAME).exists():
        return ()
    store = open_store(data_dir)
    try:
        open_cooks = store.open_cooks()
        cook = store.cook(open_cooks[0]) if open_cooks else None
    finally:
        store.close()
    return () if cook is None else only_the_plan(cook.facts)


def only_the_plan(facts: tuple[Fact, ...]) -> tuple[Fact, ...]:
    """Return the facts that plan a cook, as if all had been said when it was begun, of a cook begun before lighting."""
    kept = [fact for fact in effective(facts) if isinstance(fact.body, PLANNING)]
    began_at = kept[0].recorded_at
    return tuple(_from_the_start(fact, began_at, number) for number, fact in enumerate(kept))


def _from_the_start(fact: Fact, at: dt.datetime, number: int) -> Fact:
    body = dataclasses.replace(fact.body, from_middle=False) if isinstance(fact.body, Planned) else fact.body
    return dataclasses.replace(
        fact, id=f"plan.{number}", body=body, happened_at=at, recorded_at=at, answers=(), message=None
    )


def rehearse(facts: tuple[Fact, ...], *, now: dt.datetime, trade: Catalogue, put: Put, whole: bool = False) -> int:
    """Play a plan three times and tell it; return 0, or 1 when one of them never came to the table."""
    for sentence in (_opening(facts, trade, now), rehearsed.honest()):
        for line in wrap(sentence, WIDTH):
            put(line)
    performances = tuple(_once(facts, pace, now, trade) for pace in (Pace.USUAL, Pace.FAST, Pace.SLOW))
    tell(performances, put, whole=whole)
    return DONE if all(performance.finished for performance in performances) else FAILED


def _once(facts: tuple[Fact, ...], pace: Pace, now: dt.datetime, trade: Catalogue) -> Performance:
    with tempfile.TemporaryDirectory(prefix="slowbell-own-plan-") as folder:
        return perform(facts, pace=pace, now=now, folder=Path(folder), catalogue=trade)


def _opening(facts: tuple[Fact, ...], trade: Catalogue, now: dt.datetime) -> str:
    situation = assess(facts, trade, now)
    state = situation.state
    voice = Voice(zone=state.serving.zone, unit=state.planned.unit, now=now)
    band = state.pit[-1]
    what = ", ".join([*(_piece(view) for view in situation.views), voice.band(band.low_c, band.high_c)])
    dinner_at = state.serving.starts_at()
    return rehearsed.opening(what, rehearsed.when_ready() if dinner_at is None else voice.clock(dinner_at))


def _piece(view: PieceView) -> str:
    planned = view.state.planned
    mass = "" if planned.mass_kg is None else f" {kilograms(planned.mass_kg)}"
    return f"{'' if planned.count == 1 else f'{planned.count} × '}{cut_name(view.cut)}{mass}"
