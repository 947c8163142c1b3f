"""The record of a cook for whoever inspects food: values of the page and of the file, taken from the log alone.

It must not leave out, smooth or fill in anything: what nobody measured or told is listed as such.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.messages import record as words
from bot.messages import record_rules as rules
from bot.messages.record_told import told_title
from bot.messages.words import _
from scheduler.facts import (
    Closed,
    Discarded,
    Fact,
    MovedToOven,
    Noted,
    Reading,
    Slot,
    StepDone,
    Troubled,
    Wrap,
    Wrapped,
)
from scheduler.planning.catalogue import Catalogue
from scheduler.safety.case import THROWN
from scheduler.safety.entries import Bound, Change, Entry, Meets, Phase, Raised, ReadingEntry, StepEntry
from scheduler.safety.trail import PieceTrail, Trail, trail
from scheduler.state import effective

LATE = dt.timedelta(minutes=15)
"""What was typed so much after it was so is marked."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class RecordPiece:
    """One piece, in words."""

    piece: str
    name: str
    what: str
    treated: str
    safety_class: str
    minimum: Bound
    rest: str
    coldest: str
    """The coldest spot that was read and when, or that nothing was measured."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class RecordRow:
    """One entry: a reading or a time, in words and figures."""

    at: dt.datetime
    recorded_at: dt.datetime
    piece: str
    """Name of the piece, empty for what is of the whole cook."""
    what: str
    value_c: float | None
    spread_c: float
    spot: str
    by: str
    bound: Bound | None
    meets: str
    action: str
    remarks: tuple[str, ...]
    struck: bool
    """True when it was withdrawn."""
    is_reading: bool
    fails: bool


@dataclasses.dataclass(frozen=True, kw_only=True)
class RecordFinding:
    """One stop, caution or note, from its beginning to its end."""

    at: dt.datetime
    piece: str
    level: str
    rule: str
    numbers: str
    ended: str
    told: str
    is_stop: bool


@dataclasses.dataclass(frozen=True, kw_only=True)
class EventRecord:
    """Everything that stands in the record."""

    cook: str
    made_at: dt.datetime
    zone: str
    told: tuple[tuple[str, str], ...]
    pieces: tuple[RecordPiece, ...]
    rows: tuple[RecordRow, ...]
    findings: tuple[RecordFinding, ...]
    missing: tuple[str, ...]
    limits: tuple[tuple[str, Bound], ...]
    """(name, limit) of everything that was compared with, and what applies to any food."""


def record_of(facts: tuple[Fact, ...], catalogue: Catalogue, now: dt.datetime) -> EventRecord:
    """Return the record of a log as of `now` (aware, UTC); the same log and instant give the same record."""
    found = trail(facts, catalogue.cuts, now)
    state = found.pieces[0].state
    zone = state.serving.zone
    names = _names(found.pieces)
    closed = any(isinstance(fact.body, Closed) for fact in effective(facts))
    return EventRecord(
        cook=state.cook,
        made_at=now,
        zone=zone,
        told=words.told_lines(state.care, state.edition, tuple(sorted(state.people))),
        pieces=tuple(_piece(one, names[one.piece], zone) for one in found.pieces),
        rows=tuple(_row(entry, names, zone) for entry in found.entries),
        findings=tuple(_finding(one, names, zone, closed=closed) for one in found.raised),
        missing=_missing(found, names),
        limits=_limits(found),
    )


def _names(pieces: tuple[PieceTrail, ...]) -> dict[str, str]:
    """Return what each piece is called; those of one cut are counted."""
    cuts = [one.cut.id for one in pieces]
    counted = {}
    for number, one in enumerate(pieces):
        name = _(one.cut.name)
        several = cuts.count(one.cut.id) > 1
        counted[one.piece] = f"{name} {1 + cuts[:number].count(one.cut.id)}" if several else name
    return counted


def _piece(one: PieceTrail, name: str, zone: str) -> RecordPiece:
    planned, lowest = one.state.planned, one.gate.lowest
    coldest = words.not_measured().upper()
    if lowest is not None:
        spot = "" if not lowest.spot else f", {lowest.spot}"
        read = f"{words.both(lowest.value_c, lowest.spread_c)} {words.stamp(lowest.at, zone)}{spot}"
        coldest = f"{read}: {words.opened(one.gate.open_at, zone, by=one.gate.by)}"
    return RecordPiece(
        piece=one.piece,
        name=name,
        what=words.piece_words(name, planned.count, planned.mass_kg, frozen=planned.frozen, dropped=one.dropped),
        treated=words.treated_words(one.treated),
        safety_class=words.class_words(one.cut.safety_class),
        minimum=one.minimum,
        rest=words.rest_words(one.gate.rest_min),
        coldest=coldest,
    )


def _row(entry: Entry, names: dict[str, str], zone: str) -> RecordRow:
    piece = "" if entry.piece is None else names.get(entry.piece, entry.piece)
    remarks = tuple(_change(change, zone) for change in entry.changes)
    if entry.recorded_at - entry.at > LATE:
        remarks = (*remarks, words.typed_later(entry.recorded_at, zone))
    reading = entry if isinstance(entry, ReadingEntry) else None
    if reading is not None and reading.doubtful:
        remarks = (words.doubtful(), *remarks)
    fails = reading is not None and reading.meets is Meets.NO
    return RecordRow(
        at=entry.at,
        recorded_at=entry.recorded_at,
        piece=piece,
        what=words.phase_words(reading.phase) if reading is not None and not _withdrawn_core(reading) else _what(entry),
        value_c=None if reading is None else reading.value_c,
        spread_c=0.0 if reading is None else reading.spread_c,
        spot=(reading.spot or "") if reading is not None else "",
        by=words.who(entry.by),
        bound=None if reading is None else reading.bound,
        meets=words.meets_words(Meets.NOTHING if reading is None else reading.meets),
        action=words.actions_words(reading.actions, zone) if reading is not None and fails else "",
        remarks=remarks,
        struck=entry.taken_back,
        is_reading=reading is not None,
        fails=fails,
    )


def _withdrawn_core(entry: ReadingEntry) -> bool:
    return entry.taken_back and entry.slot is not Slot.PIT


def _what(entry: Entry) -> str:
    if isinstance(entry, ReadingEntry):
        return words.core()
    match entry.body:
        case StepDone(step="raw_out", outcome="back"):
            return words.step_title("raw_back")
        case StepDone(step=step, outcome=outcome) if (step, outcome) in THROWN:
            return words.step_title("discarded")
        case StepDone(step=step):
            return words.step_title(step)
        case Discarded():
            return words.step_title("discarded")
        case MovedToOven(oven_c=oven_c):
            return words.step_title("oven").format(value=words.both(oven_c))
        case Troubled() | Noted():
            return told_title(entry.body)
        case Wrapped(wrap=Wrap.NONE):
            return words.step_title("unwrapped")
        case Wrapped(wrap=wrap):
            return words.step_title("wrapped").format(value=wrap.value)
        case _:
            return words.step_title(entry.body.kind)


def _change(change: Change, zone: str) -> str:
    if change.was is None:
        return words.withdrawn_by(change.by, change.at, zone)
    was = words.both(change.was.value_c, change.was.spread_c) if isinstance(change.was, Reading) else ""
    if change.was_at is not None and not was:
        was = words.stamp(change.was_at, zone)
    return words.corrected_from(was, change.by, change.at, zone, stands=change.stands)


def _finding(one: Raised, names: dict[str, str], zone: str, *, closed: bool) -> RecordFinding:
    return RecordFinding(
        at=one.seen_at,
        piece=names.get(one.piece, one.piece),
        level=rules.level_words(one.finding.level.value),
        rule=rules.rule_words(one.finding.rule),
        numbers=rules.numbers_words(one),
        ended=rules.ended_words(one, zone, closed=closed),
        told=rules.told_words(told=one.told),
        is_stop=one.finding.level.value == "stop",
    )


def _limits(found: Trail) -> tuple[tuple[str, Bound], ...]:
    used: dict[tuple[str, float], tuple[str, Bound]] = {}
    for one in found.pieces:
        label = f"{words.limit_name('minimum')}: {words.class_words(one.cut.safety_class)}"
        used.setdefault((label, one.minimum.limit_c), (label, one.minimum))
    compared = [entry.bound for entry in found.entries if isinstance(entry, ReadingEntry) and entry.bound]
    for bound in (*found.limits, *(one for one in compared if one.name != "minimum")):
        used.setdefault((bound.name, bound.limit_c), (words.limit_name(bound.name), bound))
    return tuple(used.values())


_STEPS = {"out": {"raw_out"}, "on": {"meat_on"}, "off": {"pull"}, "serve": {"serve"}}


_AWAY = {"two_hour", "leftovers", "discarded"}


def _missing(found: Trail, names: dict[str, str]) -> tuple[str, ...]:
    """Return what nobody measured or told, of the whole cook and of each piece."""
    readings = [entry for entry in found.entries if isinstance(entry, ReadingEntry) and not entry.taken_back]
    lines = [] if any(one.slot is Slot.PIT for one in readings) else [rules.missing_words("pit")]
    if not any(one.slot is Slot.FRIDGE for one in readings):
        lines.append(rules.missing_words("raw"))
    steps = [(_step(one), one.piece) for one in found.entries if isinstance(one, StepEntry) and not one.taken_back]
    away = any(step in _AWAY for step, _piece_id in steps)
    phases = {one.phase for one in readings}
    if away and Phase.COOLING not in phases:
        lines.append(rules.missing_words("cooling"))
    if any(step == "reheat_on" for step, _piece_id in steps) and Phase.REHEATING not in phases:
        lines.append(rules.missing_words("reheating"))
    for piece in (one.piece for one in found.pieces if not one.dropped):
        start = f"{names[piece]}: " if len(names) > 1 else ""
        own = {one.phase for one in readings if one.piece == piece}
        done = {step for step, whose in steps if whose in {None, piece}}
        lacking = [] if Phase.COOKING in own else ["cooking"]
        lacking += ["holding"] if done & {"pull", "serve"} and Phase.HOLDING not in own else []
        lacking += [name for name, told in _STEPS.items() if not done & told]
        lacking += [] if away or "discarded" in done else ["away"]
        lines += [start + rules.missing_words(name) for name in lacking]
    return tuple(lines)


def _step(entry: StepEntry) -> str:
    if isinstance(entry.body, StepDone):
        return "discarded" if (entry.body.step, entry.body.outcome) in THROWN else entry.body.step
    return entry.body.kind
