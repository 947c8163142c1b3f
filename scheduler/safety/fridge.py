"""The rule of the fridge: how warm it was read, and how long it may have been so with food in it.

A fridge that was read cold twice was not cold all the time between: what nobody read is not known.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Slot
from scheduler.safety.case import Case
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.limits import DANGER_LOW, FRIDGE_OVER
from scheduler.safety.put_away import SAME_LOOK, chilling_since, gone_at
from scheduler.safety.raw import home_at
from scheduler.state import ReadingAt

_MINUTE = dt.timedelta(minutes=1)

Stay = tuple[dt.datetime, dt.datetime | None]
"""From when to when food lay in the fridge; None: it lies there."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Spell:
    """A time in which the fridge was read warm, with the cold readings around it (None: there is none)."""

    before: dt.datetime | None
    warm: tuple[ReadingAt, ...]
    after: dt.datetime | None = None

    @property
    def first(self) -> dt.datetime:
        return self.warm[0].at

    @property
    def last(self) -> dt.datetime:
        return self.warm[-1].at


def warm_fridge(case: Case) -> list[Finding]:
    """The fridge was read too warm: a caution while no colder reading follows. Read so twice, with food in it for more
    than two hours between: a stop. Where it may have been so for longer, as nobody read it cold: a caution that stays.
    """
    if case.state.discarded:
        return []
    spells, span = _spells(case), case.limit_span(FRIDGE_OVER)
    for spell in spells:
        known = max((_overlap(spell.first, spell.last, stay) for stay in _stays(case)), default=dt.timedelta())
        if known > span:
            at = spell.first + span
            return [_found(case, FindingLevel.STOP, spell, since=at, lasted=spell.last - spell.first)]
    for spell in spells:
        unknown = _unknown(case, spell)
        if unknown > span:
            at = spell.after or spell.first + span
            found = _found(case, FindingLevel.CAUTION, spell, since=at, lasted=unknown)
            return [dataclasses.replace(found, unread=True)]
    if not spells or spells[-1].after is not None:
        return []
    return [_found(case, FindingLevel.CAUTION, spells[-1], since=spells[-1].first, lasted=None)]


def _found(
    case: Case, level: FindingLevel, spell: _Spell, *, since: dt.datetime, lasted: dt.timedelta | None
) -> Finding:
    span = case.limit_span(FRIDGE_OVER)
    return Finding(
        rule="fridge_warm",
        level=level,
        found_c=max(_high_c(reading) for reading in spell.warm[-1:]),
        limit_c=case.limit_c(DANGER_LOW),
        found_min=None if lasted is None else lasted / _MINUTE,
        limit_min=span / _MINUTE,
        since=since,
        until=spell.first + span,
        edition=DANGER_LOW.under(case.state.edition).edition,
        whole=True,
    )


def _high_c(reading: ReadingAt) -> float:
    return reading.value_c + reading.spread_c


def _spells(case: Case) -> list[_Spell]:
    """Return the times in which it was read warm. A colder reading ends one, but not within ten minutes of a warm one:
    of two at one look the warmer counts.
    """
    limit_c = case.limit_c(DANGER_LOW)
    spells: list[_Spell] = []
    cold_at: dt.datetime | None = None
    for reading in (r for r in case.state.read(Slot.FRIDGE) if r.at <= case.now):
        going = spells[-1] if spells and spells[-1].after is None else None
        if round(_high_c(reading), 1) > limit_c:
            if going is None:
                spells.append(_Spell(before=cold_at, warm=(reading,)))
            else:
                spells[-1] = dataclasses.replace(going, warm=(*going.warm, reading))
        elif going is None:
            cold_at = reading.at
        elif reading.at - going.last >= SAME_LOOK:
            spells[-1], cold_at = dataclasses.replace(going, after=reading.at), reading.at
    return spells


def _stays(case: Case) -> list[Stay]:
    """Return when food lay in the fridge, as somebody said: raw until it went on, leftovers until they were gone."""
    raw_at, away_at = home_at(case.state), chilling_since(case.state)
    found: list[Stay] = [] if raw_at is None else [(raw_at, case.state.at("meat_on"))]
    return found if away_at is None else [*found, (away_at, gone_at(case.state))]


def _unknown(case: Case, spell: _Spell) -> dt.timedelta:
    """Return for how long food may have lain in a warm fridge: from the cold reading before to the one after, or now.

    Fresh meat that nobody said was fetched lies there from the first warm reading on: nobody reads an empty fridge.
    """
    stays = _stays(case)
    if home_at(case.state) is None and not case.state.planned.frozen:
        stays.append((spell.first, case.state.at("meat_on")))
    end = spell.after or case.now
    return max((_overlap(spell.before or stay[0], end, stay) for stay in stays), default=dt.timedelta())


def _overlap(begin: dt.datetime, end: dt.datetime, stay: Stay) -> dt.timedelta:
    out_at = end if stay[1] is None else stay[1]
    return max(dt.timedelta(), min(end, out_at) - max(begin, stay[0]))


RULES = (warm_fridge,)
"""Rules of the fridge."""
