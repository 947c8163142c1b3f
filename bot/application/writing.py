"""From changes of a cook to rows: facts, due times, cached outlook. Decides nothing and words nothing."""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.chat import Address
from bot.ports import CookSnapshot, CookWrite, DueRow, Json
from scheduler.cook import ENGINE, Situation, assess
from scheduler.facts import Fact, Told
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.outlook import Window
from scheduler.planning.trips import wakes
from scheduler.state import FIRST, Stage


def tell(situation: Situation, *, seed: str, now: dt.datetime, all_of_it: bool, plates: bool = False) -> Fact:
    """Return the fact that people were told the next time and, with `all_of_it`, the milestones; `plates` says that
    they heard how late dinner is, and no more.
    """
    return Fact(
        id=f"{seed}.told",
        cook=situation.state.cook,
        piece=FIRST,
        happened_at=now,
        recorded_at=now,
        by=None,
        body=situation.told(all_of_it=all_of_it, plates=plates),
    )


def cook_write(
    situation: Situation, facts: tuple[Fact, ...], *, version: int, add_rooms: tuple[Address, ...] = ()
) -> CookWrite:
    """Return the write of new facts together with the caches that follow from the whole log.

    `situation` may be the one before people were told: what the newest `Told` says counts for the caches.
    """
    told = [fact.body for fact in facts if isinstance(fact.body, Told)]
    situation = situation.having_told(told[-1]) if told else situation
    return CookWrite(
        cook=situation.state.cook,
        expected_version=version,
        facts=facts,
        add_rooms=add_rooms,
        open=situation.state.stage is not Stage.CLOSED,
        due=due_rows(situation),
        outlook=outlook_json(situation),
        engine=ENGINE,
    )


def add_facts(work: list[CookWrite], snapshot: CookSnapshot, *facts: Fact, catalogue: Catalogue) -> None:
    """Add facts to what is to be written of a cook anyway, or write them alone; caches are computed with them."""
    before = next((one for one in work if one.cook == snapshot.id), None)
    written = () if before is None else before.facts
    rooms = () if before is None else before.add_rooms
    after = assess((*snapshot.facts, *written, *facts), catalogue)
    whole = cook_write(after, (*written, *facts), version=snapshot.version, add_rooms=rooms)
    work[:] = [*(one for one in work if one.cook != snapshot.id), whole]


def rebuilt(facts: tuple[Fact, ...], *, version: int, catalogue: Catalogue) -> CookWrite:
    """Return a write that only restores the caches of a cook."""
    return cook_write(assess(facts, catalogue), (), version=version)


def due_rows(situation: Situation) -> tuple[DueRow, ...]:
    """Return every moment at which the cook must be looked at again."""
    rows = tuple(DueRow(prompt=key, due_at=at) for key, at in wakes(situation.prompts))
    looks = (
        ("safety", situation.next_look_at()),
        ("dinner", situation.look_again_at()),
        ("crew", situation.crew_look_at()),
        ("sound", situation.next_check_at()),
    )
    return (*rows, *(DueRow(prompt=name, due_at=at) for name, at in looks if at is not None))


def outlook_json(situation: Situation) -> Json:
    """Return the forecast quantiles as they are cached."""
    outlook = situation.deciding.outlook
    return {
        "pull": _window(outlook.pull),
        "plate": _window(outlook.plate),
        "verdict": outlook.verdict.value,
        "chance": outlook.chance,
    }


def _window(window: Window) -> Json:
    return {k: None if v is None else v.isoformat() for k, v in dataclasses.asdict(window).items()}
