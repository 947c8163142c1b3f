"""Which facts of a log stand: undo and corrections applied. Nothing is counted here."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping

from scheduler.facts import BOT_BODIES, Corrected, CrewTold, Fact, Noted, Planned, SoundHeard, Undone


def standing(facts: Iterable[Fact]) -> tuple[Fact, ...]:
    """Return the facts that nobody took back, as they were told, in order of recording; corrections are among them."""
    log = tuple(facts)
    undone: set[str] = set()
    for fact in reversed(log):
        if isinstance(fact.body, Undone) and fact.id not in undone:
            undone.add(fact.body.of)
    return tuple(f for f in log if f.id not in undone and not isinstance(f.body, Undone))


def effective(facts: Iterable[Fact]) -> tuple[Fact, ...]:
    """Return the facts that stand, with corrections in place and undone ones gone, in order of recording.

    A corrected fact keeps its place, its answers and (unless the correction brings another) its time.
    Undoing a correction brings the old value back.
    """
    log = standing(facts)
    corrections = {fact.body.of: fact for fact in log if isinstance(fact.body, Corrected)}
    return tuple(_corrected(fact, corrections) for fact in log if not isinstance(fact.body, Corrected))


def by_kind(facts: Iterable[Fact]) -> dict[type, list[Fact]]:
    """Return facts by the kind of their body, each in the order given: no kind is made of another."""
    found: dict[type, list[Fact]] = {}
    for fact in facts:
        found.setdefault(type(fact.body), []).append(fact)
    return found


def _corrected(fact: Fact, corrections: Mapping[str, Fact]) -> Fact:
    correction = corrections.get(fact.id)
    if correction is None or not isinstance(correction.body, Corrected):
        return fact
    return dataclasses.replace(
        fact, body=correction.body.body, happened_at=correction.body.happened_at or fact.happened_at
    )


def last_by(facts: Iterable[Fact], person: str) -> Fact | None:
    """Return the newest fact that this person told and that still stands (what undo takes back): also a correction;
    never that they heard a test of the wake-up, nor that they came in.
    """
    log = standing(facts)
    ids = {fact.id for fact in log}
    begun = next((fact.id for fact in log if isinstance(fact.body, Planned)), None)
    mine = [f for f in log if f.by == person and f.id != begun and not isinstance(f.body, BOT_BODIES)]
    mine = [f for f in mine if not isinstance(f.body, Noted) or f.body.understood]
    mine = [f for f in mine if not isinstance(f.body, Corrected) or f.body.of in ids]
    mine = [f for f in mine if not _of_coming(f)]
    return mine[-1] if mine else None


def _of_coming(fact: Fact) -> bool:
    """Return whether a fact says that somebody can be woken, or what they came in as: nothing that was typed."""
    return isinstance(fact.body, SoundHeard) or (isinstance(fact.body, CrewTold) and fact.body.name == fact.by)
