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
from bot.messages.care_asked import on_paper
from bot.messages.crew_sound import deaf_lines
from bot.messages.figures import Voice, to_five
from bot.messages.language import capital
from bot.messages.naming import cut_name, piece_name
from bot.messages.words import spoken
from bot.papers.rows import Row, rows_of
from scheduler.cook import Situation
from scheduler.facts import PaperIssued
from scheduler.planning.outlook import Window
from scheduler.planning.prompts import step_of
from scheduler.planning.views import PieceView
from scheduler.state import PIECE_STEPS

EVENT = "event:"
"""Prefix of the events of a calendar among the milestones of a `PaperIssued`; people plan by the others."""

COME_UP = dt.timedelta(hours=4)
_LATE = dt.timedelta(minutes=15)
"""From so much behind dinner on the title says so: house rule."""

Milestones = tuple[tuple[str, dt.datetime], ...]


@dataclasses.dataclass(frozen=True, kw_only=True)
class SheetPiece:
    """One piece of meat on paper."""

    name: str
    on_at: dt.datetime
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
    deaf: tuple[str, ...] = ()
    """Who cannot be woken by a message, with the times for an ordinary alarm clock."""
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
    situation: Situation,
    now: dt.datetime,
    sequence: int = 0,
    *,
    issued: Iterable[PaperIssued] = (),
    unit: str | None = None,
) -> PlanSheet:
    """Return the plan of a cook as of `now` (aware, UTC).

    `sequence` counts the papers of this cook from 0; `issued` are those given out before, oldest first: events of an
    earlier calendar that are no longer planned come out as withdrawn. `unit` is that of the reader, else the cook's.
    """
    state = situation.state
    voice = Voice(zone=state.serving.zone, unit=unit or state.planned.unit, now=now, language=spoken())
    rows = rows_of(situation, voice)
    cooker = state.cooker
    vents = () if cooker is None else cooker.vents
    dial_c = None if cooker is None else cooker.dial_offset_c
    return PlanSheet(
        title=_title(situation),
        dinner=_dinner(situation, voice),
        voice=voice,
        seed=_seed(situation),
        pieces=tuple(_piece(view, view.gate.minimum_c, voice) for view in situation.views),
        rows=rows,
        limits=_limits(situation, voice),
        fire=words.fire_lines(),
        vents=(*(words.vent_line(mark) for mark in vents), *(() if not dial_c else (words.dial_line(dial_c),))),
        wake=_wake(situation, now),
        deaf=tuple(deaf_lines(situation, voice)),
        wake_if=words.wake_if_line(max(high_c for _low_c, high_c in _bands(situation.views))),
        silent=words.silent_lines(state.lead),
        clock_change=_clock_change([row.at for row in rows], voice),
        milestones=situation.told(all_of_it=True).milestones,
        withdrawn=_withdrawn(rows, situation, issued, now),
        issued_at=now,
        sequence=sequence,
    )


def _title(situation: Situation) -> str:
    names = [
        piece_name(view) if view.state.planned.count == 1 else f"{view.state.planned.count} × {piece_name(view)}"
        for view in situation.views
    ]
    text = ", ".join(names)
    return capital(text)


def _dinner(situation: Situation, voice: Voice) -> str:
    """Return when people eat, and from when on they can if that is later."""
    outlook = situation.deciding.outlook
    late = (
        outlook.serve_end is not None and outlook.plate_at is not None and outlook.plate_at - outlook.serve_end > _LATE
    )
    window = (outlook.serve_at, outlook.serve_end)
    return words.dinner_title(window, outlook.plate_at, voice, late=late)


def _seed(situation: Situation) -> str:
    """Return the cook's id made unique over programs by when it was begun; no name goes in."""
    state = situation.state
    digest = hashlib.sha256(f"{state.cook}|{state.begun_at.isoformat()}".encode()).hexdigest()[:12]
    return f"{state.cook}-{digest}"


def _piece(view: PieceView, minimum_c: float, voice: Voice) -> SheetPiece:
    state = view.state
    wrap = state.wraps[-1][1].wrap if state.wraps else state.wrap_plan
    return SheetPiece(
        name=piece_name(view),
        on_at=view.outlook.on_at,
        pull=view.outlook.pull,
        is_pulled=state.did("pull") is not None,
        target=words.target_words(view.cut, minimum_c, voice),
        wrap=words.wrap_word(wrap, open_to=view.cut.asks_bark),
    )


def _wake(situation: Situation, now: dt.datetime) -> tuple[Wake, ...]:
    """Return the watches that are not over, in order of time."""
    told = situation.state.watches
    zone = ZoneInfo(situation.state.serving.zone)
    found = [
        Wake(
            name=watch.name,
            start=watch.start.replace(tzinfo=zone).astimezone(dt.UTC),
            end=watch.end.replace(tzinfo=zone).astimezone(dt.UTC),
        )
        for watch in (() if told is None else told.watches)
    ]
    return tuple(sorted((wake for wake in found if wake.end > now), key=lambda wake: wake.start))


def _limits(situation: Situation, voice: Voice) -> tuple[str, ...]:
    """Return every safety limit of the cook: of each kind of meat, the pit, the come-up, held and served food."""
    views = situation.views
    kinds: dict[tuple[float, float], list[str]] = {}
    for view in views:
        kinds.setdefault((view.gate.minimum_c, view.gate.rest_min), []).append(cut_name(view.cut))
    return (
        *(
            words.minimum_line(minimum_c, rest, ", ".join(dict.fromkeys(cut)))
            for (minimum_c, rest), cut in kinds.items()
        ),
        words.pit_line(_bands(views)),
        *_come_up(views, voice),
        words.hold_line(),
        words.two_hour_line(),
        on_paper(situation),
    )


def _bands(views: tuple[PieceView, ...]) -> tuple[tuple[float, float], ...]:
    """Return every band of the pit that is planned from now on, each once."""
    pit = [band for view in views for band in (view.state.pit[-1], *view.state.pit_ahead)]
    return tuple(dict.fromkeys((band.low_c, band.high_c) for band in pit))


def _come_up(views: tuple[PieceView, ...], voice: Voice) -> tuple[str, ...]:
    """Return the four-hour check of big pieces that are still to have it."""
    found = [
        (piece_name(view), view.outlook.on_at + COME_UP)
        for view in views
        if view.cut.come_up_check and not view.state.did("pull") and view.outlook.on_at + COME_UP > voice.now
    ]
    if not found:
        return ()
    return (
        words.come_up_line(found[0][1], voice, others=tuple(found[1:]), name=found[0][0] if len(views) > 1 else ""),
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


def _withdrawn(
    rows: tuple[Row, ...], situation: Situation, issued: Iterable[PaperIssued], now: dt.datetime
) -> tuple[Withdrawn, ...]:
    """Return the events given out before whose time is still to come and that are not planned any more."""
    last: Mapping[str, dt.datetime] = {
        name.removeprefix(EVENT): at
        for paper in issued
        if paper.paper == "calendar"
        for name, at in paper.milestones
        if name.startswith(EVENT)
    }
    planned = {row.key for row in rows if row.is_event}
    names = {view.piece: piece_name(view) for view in situation.views} if situation.several else {}
    return tuple(
        Withdrawn(key=key, title=words.event_title(step_of(key), _whose(key, names)), at=at)
        for key, at in last.items()
        if key not in planned and at > now
    )


def _whose(key: str, names: Mapping[str, str]) -> str | None:
    """Return the name of the piece that an event was about, None for what is done once for the cook."""
    return names.get(key.split("/", maxsplit=1)[0]) if step_of(key) in PIECE_STEPS else None
