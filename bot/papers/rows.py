"""The rows of a plan on paper: which steps, when, from when to when, how much each matters, and which are events.

Values only; nothing is laid out.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from zoneinfo import ZoneInfo

from bot.messages import papers as words
from bot.messages.figures import Voice, to_five
from bot.messages.naming import piece_name
from scheduler.cook import Situation
from scheduler.facts import Detail
from scheduler.planning.nights import is_quiet
from scheduler.planning.outlook import Window
from scheduler.planning.prompts import key_of
from scheduler.planning.recurring import Recurring, recurring
from scheduler.planning.steps import BeforeServing, Level, Step
from scheduler.planning.views import PieceView
from scheduler.state import FIRST

SOON = dt.timedelta(minutes=15)
"""How long an event lasts that has no window: long enough to be seen in a calendar."""

_EVENTS = frozenset({
    "order_meat", "collect_meat", "thaw_start", "dry_brine", "wake", "light", "meat_on", "bark_check", "wrap_do",
    "handover", "box_ready", "tender_test", "second_spot", "pull", "t_minus", "sides", "slice", "serve", "two_hour",
})  # fmt: skip
"""Steps that somebody must act on at about that time: these go into the calendar."""

_LEADS_MIN = {"light": 30.0, "meat_on": 15.0, "bark_check": 15.0, "tender_test": 15.0, "second_spot": 15.0,
              "pull": 20.0, "box_ready": 10.0,
              "sides": 15.0, "slice": 10.0, "serve": 30.0}  # fmt: skip
"""Minutes by which an alarm comes before its event: to get up, to walk over, to lay things out; common practice, no
source."""

_NEVER_DROPPED = frozenset({"light", "meat_on", "bark_check", "tender_test", "second_spot", "pull", "serve"})
_LESS = {"before": 1, "fire": 1, "after": 3}
"""How much less the steps of a phase matter on the page."""

MUST = 1
"""Rows of this weight and below must be done, however late."""

_AT_TABLE = frozenset({"slice", "serve", "serve_reading"})
_CROSSINGS = {"bark_check": "bark_look_c", "tender_test": "start_testing_c"}

Entry = tuple[dt.datetime, Step, str | None]
"""(instant, step, piece; None: of the whole cook) as the plan lists what is still to come."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Row:
    """One line of the plan. Instants are aware, UTC, whole five minutes."""

    key: str
    """Key of the prompt, the same in every issue."""
    step: str
    piece: str | None
    """Name of the piece, None for the only one or for all."""
    title: str
    event_title: str
    at: dt.datetime
    """When it is expected."""
    window: Window | None
    """From when to when it may come, for what follows the meat."""
    note: str
    short: str
    """The note where there is half a line for it."""
    who: str | None
    """Who has the watch then."""
    late_until: dt.datetime
    """The last instant at which it is still of use."""
    weight: int
    """How little it matters: 0 is never dropped from the page, the greatest goes first."""
    is_event: bool
    lead: dt.timedelta
    """How long before the beginning an alarm rings."""

    @property
    def starts_at(self) -> dt.datetime:
        """Return when the event begins: with the window where there is one."""
        early = None if self.window is None else self.window.early
        return self.at if early is None else to_five(early)

    @property
    def ends_at(self) -> dt.datetime:
        """Return when the event ends, always after its beginning."""
        late = None if self.window is None else self.window.late
        return max(self.starts_at + SOON, self.starts_at if late is None else to_five(late))


def rows_of(situation: Situation, voice: Voice) -> tuple[Row, ...]:
    """Return what is still to be done, in order of time; shared steps once, steps of the meat once for each piece."""
    entries = [entry for entry in (*situation.courses(), *_sides(situation)) if not _was_done(entry, situation)]
    found = [_row(entry, situation, voice) for entry in entries]
    series = recurring(situation.views, situation.catalogue)
    fuel = next((one for one in series if one.step.id == "fuel_check"), None)
    if fuel is not None and not any(row.step == "fuel_check" for row in found):  # the next one of a running cook
        found.append(_row((fuel.at, fuel.step, None), situation, voice))
    found = [_often(row, fuel, situation) if row.step == "fuel_check" else row for row in found]
    now = to_five(voice.now)
    # What should be done by now is done now: no row of a plan lies behind the time it was made.
    ordered = [dataclasses.replace(row, at=max(row.at, now)) for row in found if _to_come(row, voice.now)]
    return _one_dinner(tuple(sorted(ordered, key=lambda row: row.at)))


def _often(row: Row, fuel: Recurring | None, situation: Situation) -> Row:
    """Return the row of the fuel with how often it is looked at; over a night it must stand on the page."""
    if fuel is None or not fuel.comes_again:
        return row
    title = words.row_often(row.title, fuel.every)
    off_at = fuel.ends_at or fuel.at
    looks = range(int((off_at - fuel.at) / SOON) + 1)
    night = any(is_quiet(situation.state, fuel.at + look * SOON) for look in looks)
    return dataclasses.replace(row, title=title, weight=min(row.weight, MUST) if night else row.weight)


def _was_done(entry: Entry, situation: Situation) -> bool:
    _at, step, piece = entry
    if step.scope == "piece":
        return situation.view(piece).state.did(step.id) is not None
    return any(view.state.did(step.id) for view in situation.views)


def _to_come(row: Row, now: dt.datetime) -> bool:
    """Return whether a row is still ahead; what must be done stays as long as it is of use."""
    return max(row.at, row.ends_at) >= now or (row.weight <= MUST and row.late_until >= now)


def _row(entry: Entry, situation: Situation, voice: Voice) -> Row:
    at, step, piece = entry
    view = situation.view(piece)
    name = piece_name(view) if situation.several and piece is not None else None
    window = _window(step.id, view)
    return Row(
        key=key_of(FIRST if piece is None else piece, step.id, 1),
        step=step.id,
        piece=name,
        title=words.step_name(step.id),
        event_title=words.event_title(step.id, name, view.cut),
        at=to_five(at),
        window=window,
        note=words.row_note(step.id, view.cut, window, voice),
        short=words.row_note(step.id, view.cut, window, voice, short=True),
        who=who_at(situation, at),
        late_until=at + dt.timedelta(minutes=step.late_min),
        weight=_weight(step),
        is_event=step.id in _EVENTS and at > voice.now,
        lead=dt.timedelta(minutes=_LEADS_MIN.get(step.id, 0.0)),
    )


def who_at(situation: Situation, at: dt.datetime) -> str | None:
    """Return who has the watch at an instant, None outside all watches."""
    told = situation.state.watches
    zone = ZoneInfo(situation.state.serving.zone)
    watches = () if told is None else told.watches
    return next((w.name for w in watches if w.start.replace(tzinfo=zone) <= at < w.end.replace(tzinfo=zone)), None)


def _one_dinner(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    """Return the rows with one event, named after all of them, where several pieces come to the table at once."""
    together: dict[tuple[str, dt.datetime], list[str]] = {}
    for row in rows:
        if row.step in _AT_TABLE and row.piece is not None:
            together.setdefault((row.step, row.at), []).append(row.piece)
    seen: set[tuple[str, dt.datetime]] = set()
    found = []
    for row in rows:
        place = (row.step, row.at)
        names = together.get(place, [])
        if place in seen and names:
            found.append(dataclasses.replace(row, is_event=False))
        elif len(names) > 1:
            found.append(dataclasses.replace(row, event_title=words.event_title(row.step, ", ".join(names))))
        else:
            found.append(row)
        seen.add(place)
    return tuple(found)


def _window(step_id: str, view: PieceView) -> Window | None:
    """Return from when to when a step that follows the meat may come."""
    if step_id == "pull":
        return view.outlook.pull
    if step_id not in _CROSSINGS:
        return None
    crossing = view.outlook.crossing(getattr(view.cut, _CROSSINGS[step_id]))
    return Window(early=crossing.quantile(0.1), likely=crossing.quantile(0.5), late=crossing.quantile(0.9))


def _weight(step: Step) -> int:
    if step.id in _NEVER_DROPPED:
        return 0
    level = {Level.MUST: 1, Level.SHOULD: 2, Level.NICE: 3}[step.level]
    # What is done later or in the dark, with nobody to ask, matters more on paper than laying things out by daylight.
    return (1 if step.safety else level) + _LESS.get(step.phase, 0)


def _sides(situation: Situation) -> list[Entry]:
    """Return the sides, which whoever is told only the usual steps still wants in a calendar."""
    step = situation.catalogue.steps.get("sides")
    deciding = situation.deciding
    state, plate_at = deciding.state, deciding.outlook.plate_at
    if step is None or plate_at is None or not isinstance(step.anchor, BeforeServing):
        return []
    told = any(other.id == "sides" for _at, other, _piece in situation.courses())
    if told or state.did("serve") or state.detail is Detail.DECISIONS or step.id in state.muted:
        return []
    return [(plate_at - dt.timedelta(minutes=step.anchor.minutes), step, None)]
