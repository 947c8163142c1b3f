"""What stands on paper: the plan of one cook as plain values, made from its situation and an instant.

Nothing is laid out and nothing is encoded here; the words come from `bot.messages.papers`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import hashlib
from collections.abc import Iterable, Mapping
from zoneinfo import ZoneInfo

from bot.messages import papers as words
from bot.messages.figures import Voice, to_five
from bot.papers.rows import Row, rows_of
from scheduler.cook import Situation
from scheduler.facts import PaperIssued
from scheduler.planning.outlook import Window

EVENT = "event:"
"""Prefix of the events of a calendar among the milestones of a `PaperIssued`; people plan by the others."""

Milestones = tuple[tuple[str, dt.datetime], ...]


@dataclasses.dataclass(frozen=True, kw_only=True)
class SheetPiece:
    """One piece of meat on paper."""

    name: str
    on_at: dt.datetime
    is_on: bool
    pull: Window
    is_pulled: bool
    target: str
    wrap: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Wake:
    """Somebody to wake, and when they have the watch."""

    name: str
    start: dt.datetime
    end: dt.datetime


@dataclasses.dataclass(frozen=True, kw_only=True)
class Withdrawn:
    """An event of an earlier calendar file that is no longer planned, at the time it had there."""

    key: str
    title: str
    at: dt.datetime


@dataclasses.dataclass(frozen=True, kw_only=True)
class PlanSheet:
    """The plan of one cook as it goes on paper or into a calendar. Instants are aware, UTC.

    Words are ready to be printed; `rows` and `milestones` are in order of time.
    """

    title: str
    dinner: str
    voice: Voice
    seed: str
    """What makes the UIDs of this cook's events its own; holds no name of anybody."""
    pieces: tuple[SheetPiece, ...]
    rows: tuple[Row, ...]
    limits: tuple[str, ...]
    """Safety limits: never left out."""
    fire: tuple[str, ...]
    """Cautions of fire and carbon monoxide."""
    vents: tuple[str, ...]
    """Vent marks in the owner's words; empty when none were told."""
    wake: tuple[Wake, ...]
    wake_if: str
    silent: tuple[str, ...]
    """What to do while the bot says nothing."""
    clock_change: str
    """Said when the clocks change within the plan, else empty."""
    milestones: Milestones
    """What people plan by: moves are counted from these."""
    withdrawn: tuple[Withdrawn, ...]
    issued_at: dt.datetime
    sequence: int

    @property
    def zone(self) -> ZoneInfo:
        """Return the zone whose clock the times follow."""
        return ZoneInfo(self.voice.zone)

    @property
    def issued(self) -> Milestones:
        """Return what a `PaperIssued` of a calendar keeps: the milestones and every event with its instant."""
        return (*self.milestones, *((EVENT + row.key, row.starts_at) for row in self.rows if row.is_event))


def sheet_of(
    situation: Situation, now: dt.datetime, sequence: int = 0, *, issued: Iterable[PaperIssued] = ()
) -> PlanSheet:
    """Return the plan of a cook as of `now` (aware, UTC).

    `sequence` counts the papers of this cook from 0; `issued` are those given out before, oldest first: events of an
    earlier calendar that are no longer planned come out as withdrawn.
    """
    state = situation.state
    voice = Voice(zone=state.serving.zone, unit=state.planned.unit, now=now)
    rows = rows_of(situation, voice)
    return PlanSheet(
        title=_title(situation),
        dinner=words.dinner_title(situation.outlook.plate_at, voice),
        voice=voice,
        seed=_seed(situation),
        pieces=_pieces(situation, voice),
        rows=rows,
        limits=_limits(situation, voice),
        fire=words.fire_lines(),
        vents=(),
        wake=(),
        wake_if=words.wake_if_line(),
        silent=words.silent_lines(state.lead),
        clock_change=_clock_change([row.at for row in rows], voice),
        milestones=situation.told(all_of_it=True).milestones,
        withdrawn=_withdrawn(rows, issued, now),
        issued_at=now,
        sequence=sequence,
    )


def _title(situation: Situation) -> str:
    planned, cut = situation.state.planned, situation.cut
    name = cut.name if planned.count == 1 else f"{planned.count} × {cut.name}"
    return name[0].upper() + name[1:]


def _seed(situation: Situation) -> str:
    """Return the cook's id made unique over programs by when it was planned; no name goes in."""
    state = situation.state
    digest = hashlib.sha256(f"{state.cook}|{state.planned_at.isoformat()}".encode()).hexdigest()[:12]
    return f"{state.cook}-{digest}"


def _pieces(situation: Situation, voice: Voice) -> tuple[SheetPiece, ...]:
    state, cut, outlook = situation.state, situation.cut, situation.outlook
    wrap = state.wraps[-1][1].wrap if state.wraps else state.planned.wrap
    return (
        SheetPiece(
            name=cut.name,
            on_at=outlook.on_at,
            is_on=state.did("meat_on") is not None,
            pull=outlook.pull,
            is_pulled=state.did("pull") is not None,
            target=words.target_words(cut, voice),
            wrap=words.wrap_word(wrap, open_to=len(cut.wraps) > 1),
        ),
    )


def _limits(situation: Situation, voice: Voice) -> tuple[str, ...]:
    cuts = situation.catalogue.cuts
    band = situation.state.pit[-1]
    big = situation.cut.come_up_check and not situation.state.did("pull")
    come_up_at = situation.outlook.on_at + dt.timedelta(hours=4)
    return (
        words.minimum_line(situation.cut, cuts, situation.cut.name),
        words.pit_line(band.low_c, band.high_c),
        *((words.come_up_line(come_up_at, voice),) if big else ()),
        words.hold_line(),
        words.two_hour_line(),
    )


def _clock_change(instants: list[dt.datetime], voice: Voice) -> str:
    """Return the sentence about a change of the clocks between the first and the last instant, empty without one."""
    if not instants:
        return ""
    zone, minute = ZoneInfo(voice.zone), dt.timedelta(minutes=1)
    low, high = min(instants), max(instants)
    before, after = low.astimezone(zone).utcoffset(), high.astimezone(zone).utcoffset()
    if before is None or after is None or before == after:
        return ""
    while high - low > minute:
        middle = low + (high - low) / 2
        low, high = (middle, high) if middle.astimezone(zone).utcoffset() == before else (low, middle)
    wall = f"{(to_five(high) + before).replace(tzinfo=None):%H:%M}"
    return words.clock_change_line(back=after < before, wall=wall, change_at=low, voice=voice)


def _withdrawn(rows: tuple[Row, ...], issued: Iterable[PaperIssued], now: dt.datetime) -> tuple[Withdrawn, ...]:
    """Return the events given out before whose time is still to come and that are not planned any more."""
    last: Mapping[str, dt.datetime] = {
        name.removeprefix(EVENT): at
        for paper in issued
        if paper.paper == "calendar"
        for name, at in paper.milestones
        if name.startswith(EVENT)
    }
    planned = {row.key for row in rows if row.is_event}
    return tuple(
        Withdrawn(key=key, title=words.event_title(key.split("/")[1], None), at=at)
        for key, at in last.items()
        if key not in planned and at > now
    )
