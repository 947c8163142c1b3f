"""The rows of a plan on paper: which steps, when, from when to when, how much each matters, and which are events.

Values only; nothing is laid out.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.messages import papers as words
from bot.messages.figures import Voice, to_five
from scheduler.cook import Situation
from scheduler.facts import Detail
from scheduler.planning.outlook import Window
from scheduler.planning.prompts import key_of
from scheduler.planning.steps import BeforeServing, Level, Step

SOON = dt.timedelta(minutes=15)
"""How long an event lasts that has no window: long enough to be seen in a calendar."""

_EVENTS = frozenset({
    "thaw_start", "thaw", "dry_brine", "light", "meat_on", "bark_check", "wrap_do", "tender_test", "pull", "box_ready",
    "t_minus", "sides", "slice", "serve", "two_hour",
})  # fmt: skip
"""Steps that somebody must act on at about that time: these go into the calendar."""

_LEADS_MIN = {"light": 30.0, "meat_on": 15.0, "bark_check": 15.0, "tender_test": 15.0, "pull": 20.0, "box_ready": 10.0,
              "sides": 15.0, "slice": 10.0, "serve": 30.0}  # fmt: skip
"""Minutes by which an alarm comes before its event: to get up, to walk over, to lay things out; common practice, no
source."""

_NEVER_DROPPED = frozenset({"light", "meat_on", "bark_check", "tender_test", "pull", "serve"})
_MUST = 1
"""Rows of this weight and below must be done, however late."""

_CROSSINGS = {"bark_check": "bark_look_c", "tender_test": "start_testing_c"}


@dataclasses.dataclass(frozen=True, kw_only=True)
class Row:
    """One line of the plan. Instants are aware, UTC, whole five minutes."""

    key: str
    """Key of the prompt, the same in every issue."""
    step: str
    title: str
    event_title: str
    at: dt.datetime
    """When it is expected."""
    window: Window | None
    """From when to when it may come, for what follows the meat."""
    note: str
    who: str | None
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
    """Return what is still to be done, in order of time."""
    entries = [entry for entry in (*situation.itinerary(), *_sides(situation)) if not situation.state.did(entry[1].id)]
    found = [_row(at, step, situation, voice) for at, step in entries]
    return tuple(sorted((row for row in found if _to_come(row, voice.now)), key=lambda row: row.at))


def _to_come(row: Row, now: dt.datetime) -> bool:
    """Return whether a row is still ahead; what must be done stays as long as it is of use."""
    return max(row.at, row.ends_at) >= now or (row.weight <= _MUST and row.late_until >= now)


def _row(at: dt.datetime, step: Step, situation: Situation, voice: Voice) -> Row:
    piece = situation.state.piece
    window = _window(step.id, situation)
    return Row(
        key=key_of(piece, step.id, 1),
        step=step.id,
        title=words.step_name(step.id),
        event_title=words.event_title(step.id, None),
        at=to_five(at),
        window=window,
        note=words.row_note(step.id, situation.cut, window, voice),
        who=None,
        late_until=at + dt.timedelta(minutes=step.late_min),
        weight=_weight(step),
        is_event=step.id in _EVENTS and at > voice.now,
        lead=dt.timedelta(minutes=_LEADS_MIN.get(step.id, 0.0)),
    )


def _window(step_id: str, situation: Situation) -> Window | None:
    """Return from when to when a step that follows the meat may come."""
    if step_id == "pull":
        return situation.outlook.pull
    if step_id not in _CROSSINGS:
        return None
    crossing = situation.outlook.crossing(getattr(situation.cut, _CROSSINGS[step_id]))
    return Window(early=crossing.quantile(0.1), likely=crossing.quantile(0.5), late=crossing.quantile(0.9))


def _weight(step: Step) -> int:
    if step.id in _NEVER_DROPPED:
        return 0
    level = {Level.MUST: 1, Level.SHOULD: 2, Level.NICE: 3}[step.level]
    return level + (2 if step.phase == "after" else 0)


def _sides(situation: Situation) -> list[tuple[dt.datetime, Step]]:
    """Return the sides, which whoever is told only the usual steps still wants in a calendar."""
    step = situation.catalogue.steps.get("sides")
    state, plate_at = situation.state, situation.outlook.plate_at
    if step is None or plate_at is None or not isinstance(step.anchor, BeforeServing):
        return []
    told = any(other.id == "sides" for _at, other in situation.itinerary())
    if told or state.did("sides") or state.did("serve") or state.planned.detail is Detail.DECISIONS:
        return []
    return [(plate_at - dt.timedelta(minutes=step.anchor.minutes), step)]
