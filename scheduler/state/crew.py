"""What the facts of the crew add up to: roles, claims, who has the watch, what waits for whom, who can be woken.

A count of facts; who a step falls to and when something is due is decided in `scheduler.planning`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools
from collections.abc import Iterable, Mapping
from zoneinfo import ZoneInfo

from scheduler.facts import (
    ClaimDropped,
    Claimed,
    CrewRole,
    CrewTold,
    Fact,
    HandoverAsked,
    HandoverDeclined,
    HandoverTaken,
    LeverAsked,
    LeverDeclined,
    LeverTaken,
    PhotoKept,
    RanOut,
    SafeDefault,
    SoundHeard,
    SoundSent,
    StepDone,
    StepSkipped,
    WatchesTold,
)  # fmt: skip

CLAIM_LASTS = dt.timedelta(minutes=15)
"""A claim lapses so long after it was told; common practice, no source."""

NEXT_WATCH = dt.timedelta(minutes=30)
"""Watches this near to one another are one row: the one hands over to the other; common practice, no source."""

EARLY_TAKING = dt.timedelta(minutes=60)
"""The watch is taken over this long before it begins at the earliest, else it is another one: house rule."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Claim:
    """Who said "mine" to a step, and when (UTC)."""

    name: str
    at: dt.datetime
    fact: str

    @property
    def lapses_at(self) -> dt.datetime:
        """Return when it counts no more."""
        return self.at + CLAIM_LASTS

    def holds(self, at: dt.datetime) -> bool:
        """Return whether it counts at an instant."""
        return self.at <= at < self.lapses_at


@dataclasses.dataclass(frozen=True, kw_only=True)
class Offer:
    """The watch offered to somebody who has not answered yet."""

    by: str | None
    to: str
    at: dt.datetime
    until: dt.datetime | None
    """Until when the other one is to have it, None: nobody said."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Taking:
    """The watch taken over by somebody who said so."""

    name: str
    at: dt.datetime
    until: dt.datetime | None
    """Until when, None: as the watches say."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class LeverWait:
    """A lever that waits for whoever decides."""

    lever: str
    by: str | None
    decider: str
    default: SafeDefault
    at: dt.datetime
    until: dt.datetime
    fact: str
    silent_at: dt.datetime | None = None
    """When people were told that nobody decided in time, None: not yet."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class SoundAt:
    """The newest sound check of a person: when it was sent, whether to a private chat, and when it was answered."""

    sent_at: dt.datetime | None
    private: bool = True
    heard_at: dt.datetime | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class PhotoAt:
    """A photo kept with the cook."""

    name: str
    step: str | None
    media_type: str
    at: dt.datetime
    by: str | None
    fact: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Company:
    """Everything that the facts of the crew add up to, as seen from one piece."""

    roles: Mapping[str, frozenset[CrewRole]]
    """Name -> what it is; nobody was told of is in it, and nobody who left."""
    claims: Mapping[str, Claim]
    """Step -> the newest claim that nobody dropped and nothing answered since; it may have lapsed."""
    offer: Offer | None
    declined: tuple[tuple[dt.datetime, str], ...]
    """(instant, name) of everybody who did not take the watch."""
    takings: tuple[Taking, ...]
    """In order of time."""
    levers: Mapping[str, LeverWait]
    sound: Mapping[str, SoundAt]
    photos: tuple[PhotoAt, ...]
    ran_out: tuple[tuple[dt.datetime, RanOut], ...]
    """In order of time."""
    dropped: frozenset[str] = frozenset()
    """Names of those whose every role was taken away: what they are in the house does not bring one back."""


NOBODY = Company(
    roles={}, claims={}, offer=None, declined=(), takings=(), levers={}, sound={}, photos=(), ran_out=()
)  # fmt: skip
"""The company of a cook of which nothing was told."""


def company_of(told: Iterable[Fact]) -> Company:
    """Return what the facts that stand say of the crew, in order of time as given."""
    count = _Count()
    for fact in told:
        count.take(fact)
    return Company(
        roles={name: frozenset(roles) for name, roles in count.roles.items() if roles},
        dropped=frozenset(name for name, roles in count.roles.items() if not roles),
        claims=count.claims,
        offer=count.offer,
        declined=tuple(count.declined),
        takings=tuple(count.takings),
        levers=count.levers,
        sound=count.sound,
        photos=tuple(count.photos),
        ran_out=tuple(count.ran_out),
    )


class _Count:
    """Counts the facts of the crew one after the other."""

    def __init__(self) -> None:
        self.roles: dict[str, set[CrewRole]] = {}
        self.claims: dict[str, Claim] = {}
        self.offer: Offer | None = None
        self.declined: list[tuple[dt.datetime, str]] = []
        self.takings: list[Taking] = []
        self.levers: dict[str, LeverWait] = {}
        self.sound: dict[str, SoundAt] = {}
        self.photos: list[PhotoAt] = []
        self.ran_out: list[tuple[dt.datetime, RanOut]] = []

    def take(self, fact: Fact) -> None:
        """Count one fact."""
        for key in fact.answers:
            self.claims.pop(key.split("/")[1], None)
        match fact.body:
            case CrewTold(name=name, role=role, dropped=dropped):
                held = self.roles.setdefault(name, set())
                held.discard(role) if dropped else held.add(role)
            case Claimed(step=step) if fact.by is not None:
                self.claims[step] = Claim(name=fact.by, at=fact.happened_at, fact=fact.id)
            case ClaimDropped(step=step) | StepDone(step=step) | StepSkipped(step=step):
                self.claims.pop(step, None)
            case SoundSent(name=name, private=private):
                self.sound[name] = SoundAt(sent_at=fact.happened_at, private=private)
            case SoundHeard(name=name):
                before = self.sound.get(name, SoundAt(sent_at=None))
                self.sound[name] = dataclasses.replace(before, private=True, heard_at=fact.happened_at)
            case PhotoKept(name=name, step=step, media_type=kind):
                photo = PhotoAt(name=name, step=step, media_type=kind, at=fact.happened_at, by=fact.by, fact=fact.id)
                self.photos.append(photo)
            case RanOut():
                self._ran_out(fact, fact.body)
            case _:
                self._handover(fact)
                self._lever(fact)

    def _handover(self, fact: Fact) -> None:
        match fact.body:
            case HandoverAsked(to=to, until=until):
                self.offer = Offer(by=fact.by, to=to, at=fact.happened_at, until=until)
            case HandoverTaken(until=until) if fact.by is not None:
                offered = self.offer is not None and self.offer.to == fact.by
                stated = self.offer.until if until is None and offered and self.offer is not None else until
                self.takings.append(Taking(name=fact.by, at=fact.happened_at, until=stated))
                self.offer = None
            case HandoverDeclined() if fact.by is not None:
                self.declined.append((fact.happened_at, fact.by))
                if self.offer is not None and self.offer.to == fact.by:
                    self.offer = None
            case _:
                pass

    def _lever(self, fact: Fact) -> None:
        match fact.body:
            case LeverAsked(lever=lever, decider=decider, default=default, until=until):
                self.levers[lever] = LeverWait(
                    lever=lever, by=fact.by, decider=decider, default=default,
                    at=fact.happened_at, until=until, fact=fact.id,
                )  # fmt: skip
            case LeverTaken(lever=lever) | LeverDeclined(lever=lever):
                self.levers.pop(lever, None)
            case _:
                pass

    def _ran_out(self, fact: Fact, ended: RanOut) -> None:
        self.ran_out.append((fact.happened_at, ended))
        match ended.what:
            case "claim":
                self.claims.pop(ended.about, None)
            case "handover":
                self.offer = None
            case "lever":
                waiting = self.levers.pop(ended.about, None)
                if waiting is not None and ended.reason == "silent":  # it still may be decided, but no longer alone
                    self.levers[ended.about] = dataclasses.replace(waiting, silent_at=fact.happened_at)
            case _:
                pass


# --- the watch ------------------------------------------------------------------------------------------------------

Span = tuple[str, dt.datetime, dt.datetime]
"""(name, from, to) of a watch (UTC)."""


def spans(told: WatchesTold | None, zone: str) -> tuple[Span, ...]:
    """Return (name, from, to) of every planned watch as instants, in order."""
    if told is None:
        return ()
    here = ZoneInfo(zone)
    found = [
        (one.name, one.start.replace(tzinfo=here).astimezone(dt.UTC), one.end.replace(tzinfo=here).astimezone(dt.UTC))
        for one in told.watches
    ]
    return tuple(sorted(found, key=lambda entry: entry[1]))


def holder(planned: tuple[Span, ...], takings: tuple[Taking, ...], at: dt.datetime, as_of: dt.datetime) -> str | None:
    """Return who has the watch at an instant, None when nobody has.

    The first watch of a row begins as planned; from then on only a taking moves it: who has it keeps it, until the row
    has ended. Changes that lie after `as_of` are taken to come as planned.
    """
    taken = next((one for one in reversed(takings) if one.at <= at), None)
    row = _row(planned, at)
    if taken is not None and not _left_behind(taken, row, at):
        later = [span for span in row if max(taken.at, as_of) < span[1] <= at]
        return later[-1][0] if later else taken.name
    if not row or at >= max(span[2] for span in row):
        return None
    coming = [span for span in row if as_of < span[1] <= at]
    return coming[-1][0] if coming else row[0][0]


def _row(planned: tuple[Span, ...], at: dt.datetime) -> tuple[Span, ...]:
    """Return the watches that follow one another without a gap, of the newest row that has begun by an instant."""
    rows: list[list[Span]] = []
    for span in planned:
        if span[1] > at and not (rows and span[1] - rows[-1][-1][2] <= NEXT_WATCH):
            break
        if rows and span[1] - rows[-1][-1][2] <= NEXT_WATCH:
            rows[-1].append(span)
        else:
            rows.append([span])
    return tuple(rows[-1]) if rows else ()


def _left_behind(taken: Taking, row: tuple[Span, ...], at: dt.datetime) -> bool:
    """Return whether a taking counts no more: the row it belonged to has ended, or another one has begun since."""
    if row and taken.at < row[0][1] - EARLY_TAKING:
        return True  # a new row begins as planned
    mine = [span for span in row if span[1] - EARLY_TAKING <= taken.at < span[2]]
    if not mine:
        return False  # outside of any plan: who has it keeps it
    ends_at = max(span[2] for span in row)
    return at >= (ends_at if taken.until is None else max(ends_at, taken.until))


def changes_of(
    planned: tuple[Span, ...], takings: tuple[Taking, ...], otherwise: str | None
) -> tuple[tuple[dt.datetime, str, str], ...]:
    """Return (instant, outgoing, incoming) of every change of the watch, in order.

    Planned ones, and the end that somebody named who took it over ("I have it till four"), in place of those before it:
    then the next name is asked, or `otherwise` when no watch follows.
    """
    found = [(start, before, name) for (before, _s, _e), (name, start, _end) in itertools.pairwise(planned)]
    taken = takings[-1] if takings else None
    until = None if taken is None else taken.until
    if taken is None or until is None:
        return tuple(found)
    kept = [change for change in found if not taken.at < change[0] < until]
    later = next((name for name, _start, end in planned if end > until and name != taken.name), otherwise)
    if later not in {None, taken.name} and not any(change[0] == until for change in kept):
        kept.append((until, taken.name, str(later)))
    return tuple(sorted(kept))
