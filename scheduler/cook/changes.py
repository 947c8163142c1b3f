"""What goes into a decision and what comes out: reports, refusals, events. Values only."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Literal

from scheduler.cook.situation import Situation
from scheduler.facts import Body, Fact, Reading
from scheduler.planning.alternatives import Alternative
from scheduler.planning.replanning import Shift
from scheduler.planning.stall import Stall
from scheduler.planning.trips import Trip
from scheduler.safety import Finding, NotByTime, SafeGate, Undercooked
from scheduler.state import LeverWait


@dataclasses.dataclass(frozen=True, kw_only=True)
class Report:
    """Something a person told: what, when it was so, who, and in which message.

    `dated` is True when the person named the time; `sure` when a surprising reading was confirmed. `piece` is the piece
    that it is about, None: the whole cook, or the leading piece.
    """

    body: Body
    happened_at: dt.datetime
    by: str
    message: str | None = None
    dated: bool = False
    sure: bool = False
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Refusal:
    """What a person asked for cannot be; the log stays as it is.

    `reason`: future, not_on_yet, out_of_order, serving_past, serving_too_soon, nothing_to_undo, over, no_such_step,
    nothing_to_correct, last_piece (a cook without meat is called off instead), half_cooked (nothing is safe to eat yet
    that could be put away), undercooked (`under` says why), not_by_time (time at temperature does not count for it),
    done_by_feel (no core is wished of a tough cut), stop_stands (a piece is not left out to end its stop),
    not_off (nothing is off the heat that could go back on), was_off (a core read since shows that it was pulled),
    unlikely_core (a reading was corrected to one that nobody can believe: the old one stands).
    """

    reason: Literal[
        "future", "not_on_yet", "out_of_order", "serving_past", "serving_too_soon", "nothing_to_undo", "over",
        "no_such_step", "nothing_to_correct", "last_piece", "half_cooked", "undercooked", "not_by_time", "done_by_feel",
        "stop_stands", "not_off", "was_off", "unlikely_core",
    ]  # fmt: skip
    at: dt.datetime | None = None
    """The instant that matters (the earliest dinner, the impossible time)."""
    step: str | None = None
    other: str | None = None
    sure_at: dt.datetime | None = None
    """The earliest dinner with the wanted `confidence`, where it is later than the likely one."""
    confidence: float | None = None
    instead: tuple[Alternative, ...] = ()
    """Other plans that would likely meet the wanted dinner: a hotter pit, a wrap."""
    minutes: tuple[tuple[str, float], ...] = ()
    """(part, minutes) of the sum behind an earliest time: light, cook, vent, rest, slice."""
    core_c: float | None = None
    """The core that a reading was corrected to and that nobody can believe [°C]."""
    expected_c: tuple[float, float] | None = None
    """The cores that were expected at that time: one in ten lies below the first, one in ten above the second [°C]."""
    under: Undercooked | None = None
    not_by_time: NotByTime | None = None
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Taken:
    """A report was written down."""

    body: Body
    at: dt.datetime
    by: str
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Already:
    """The step was done before; thanked, not counted."""

    step: str
    by: str | None
    at: dt.datetime
    said_by: str | None = None
    """Who told it this time."""
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Implied:
    """A step was taken as done because a later one was reported."""

    step: str
    at: dt.datetime
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class NotSkipped:
    """A safety step cannot be skipped; it stays open."""

    step: str
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class SpotAsked:
    """A reading does not fit: kept as doubtful, a second spot is asked for."""

    reading: Reading
    before_c: float | None = None
    before_at: dt.datetime | None = None
    """The earlier reading that it does not fit, when that is why [°C]."""
    expected_c: tuple[float, float] | None = None
    """Else the cores that were expected: one in ten lies below the first, one in ten above the second [°C]."""
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Undid:
    """A fact was taken back."""

    fact: Fact
    of: str | None = None
    """Id of the fact that holds again, when a correction of it was taken back."""
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Stalled:
    """The stall has begun (`stall`), or is over (None)."""

    stall: Stall | None
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Shifted:
    """Milestones or the verdict moved enough to be announced."""

    shift: Shift


@dataclasses.dataclass(frozen=True, kw_only=True)
class GateOpened:
    """The safe minimum has now been measured at the lowest spot."""

    gate: SafeGate
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class TripDue:
    """A trip goes out."""

    trip: Trip


@dataclasses.dataclass(frozen=True, kw_only=True)
class Lapsed:
    """Prompts were given up because their time has gone (reason too_late)."""

    steps: tuple[str, ...]


@dataclasses.dataclass(frozen=True, kw_only=True)
class Found:
    """Something is not safe, and people are told now; a stop `again` while it stands."""

    finding: Finding
    again: bool = False
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class StopOver:
    """A stop that people were told stands no more. `how`: discarded, corrected, reading, told to be intact, done,
    or time alone.
    """

    rule: str
    how: Literal["discarded", "corrected", "reading", "intact", "done", "time"]
    at: dt.datetime
    by: str | None = None
    found_c: float | None = None
    """The reading that ended it [°C]."""
    others: bool = False
    """True while another stop of the same piece stands."""
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Over:
    """The cook is over."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class WatchTaken:
    """Somebody has the watch from now on, until an instant (None: as the watches say)."""

    name: str
    before: str | None
    """Who had it, and may sleep; None: nobody, or the same person."""
    until: dt.datetime | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class StillOnWatch:
    """A handover was ticked off by somebody who does not take it: `watch` keeps it until one of `asked` accepts."""

    watch: str | None
    asked: tuple[str, ...]
    said_by: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class LeverSilent:
    """Nobody decided about a lever in time: `watch` may do its safe default, and nothing else."""

    wait: LeverWait
    watch: str | None


@dataclasses.dataclass(frozen=True, kw_only=True)
class ChecksDue:
    """Tests go out, to each of `names` in private exactly as a wake-up will; none to those `without` a private chat."""

    names: tuple[str, ...]
    without: tuple[str, ...] = ()


@dataclasses.dataclass(frozen=True, kw_only=True)
class NotWakeable:
    """Somebody did not answer the test in time, or has no private chat: passed over at night, with the times (UTC) for
    an ordinary alarm clock.
    """

    name: str
    alarms: tuple[dt.datetime, ...]
    private: bool = True


@dataclasses.dataclass(frozen=True, kw_only=True)
class NoLonger:
    """Something waited for somebody and matters no more. `reason`: pulled, served, discarded, over, overtaken."""

    what: Literal["claim", "lever", "handover", "sound"]
    about: str
    """The step, the lever, or the name it waited for."""
    reason: str
    names: tuple[str, ...]
    """Whom it concerned."""
    piece: str | None = None
    """The piece that it is about, None: the whole cook, or the only one."""


Event = (
    Taken
    | Already
    | Implied
    | NotSkipped
    | SpotAsked
    | Undid
    | Stalled
    | Shifted
    | GateOpened
    | TripDue
    | Lapsed
    | Found
    | StopOver
    | Over
    | WatchTaken
    | StillOnWatch
    | LeverSilent
    | ChecksDue
    | NotWakeable
    | NoLonger
)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Changes:
    """New facts, and what became of the cook by them."""

    facts: tuple[Fact, ...]
    before: Situation | None
    after: Situation
    events: tuple[Event, ...]
