"""What has happened in a cook that bears on cautions: steps that came up, problems, pieces, nights and watches.

Pure: a log and an instant in, named instants out. It decides nothing.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools

from scheduler.facts import Asked, CareTold, Fact, Planned, StepDone, StepSkipped, TreatedTold, Troubled, Withdrawn
from scheduler.planning.nights import is_quiet, quiet_end, quiet_start, watches
from scheduler.planning.prompts import Prompt, step_of
from scheduler.state import CookState

STARVES = frozenset({"vents_early", "problem:pit_hot", "problem:flare_up", "problem:grease_fire"})
"""Steps done and problems after which the vents are nearly shut: the fire waits for air."""

OPENINGS = frozenset(
    {"meat_on", "fuel_check", "refuel", "first_look", "spritz", "wood_add", "water_pan", "rotate", "bark_check",
     "wrap_do", "tender_test", "second_spot"}
)  # fmt: skip
"""Steps for which the lid is opened."""

LONG_WATCH = dt.timedelta(hours=6)
"""A night watch longer than this tires: common practice, no source."""

_BEFORE_A_WATCH = dt.timedelta(minutes=20)
"""What belongs to a watch is said with its handover, which is asked a little before it begins."""

_MORNING_BEFORE = dt.timedelta(hours=2)
"""A morning this near to the lighting has no message of its own for it: the last look before any flame is near."""

_DAY = dt.timedelta(days=1)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Happened:
    """Something that happened, as of when people or the program said so (UTC)."""

    at: dt.datetime
    what: str


def happenings(
    log: tuple[Fact, ...], prompts: tuple[Prompt, ...], state: CookState, now: dt.datetime, light_at: dt.datetime
) -> tuple[Happened, ...]:
    """Return what has happened by `now`, in order; the prompts are those of the message that goes out now.

    `log` is one of which undone facts are gone. A step comes up when it is first asked, or when it was done, skipped or
    given up without having been asked.
    """
    told = _Told()
    for fact in log:
        told.hear(fact)
    for prompt in prompts:
        told.asked(prompt.key, now)
    if any(h.what in {"board_ready", "serve"} for h in told.found) and state.care.allergies:
        told.found += [Happened(at=h.at, what="allergies") for h in told.found if h.what == "board_ready"]
    return tuple(sorted((*told.found, *_of_the_clock(state, now, light_at)), key=lambda h: h.at))


class _Told:
    """Reads a log from its beginning and keeps what has happened."""

    def __init__(self) -> None:
        self.found: list[Happened] = []
        self._seen: set[str] = set()
        self._on: set[str] = set()
        self._starved = False

    def hear(self, fact: Fact) -> None:
        """Take one fact."""
        at, body = fact.recorded_at, fact.body
        match body:
            case Asked():
                for key in body.prompts:
                    self.asked(key, at)
            case StepDone():
                self._done(body.step, fact)
            case StepSkipped() if not self._answered(fact):
                self._came_up(body.step, at)
            case Withdrawn() if body.prompt not in self._seen:
                self._came_up(step_of(body.prompt), at)
            case Troubled() if not body.over:
                self._add(f"problem:{body.problem}", at)
                self._starved = self._starved or f"problem:{body.problem}" in STARVES
            case Planned():
                self._add("planning", at)
            case CareTold():
                self._care(body, at)
            case TreatedTold() if body.treatments:
                self._add("not_intact", at)
            case _:
                pass

    def asked(self, key: str, at: dt.datetime) -> None:
        """Take a prompt that goes out: only its first asking is news."""
        if key in self._seen:
            return
        self._seen.add(key)
        piece, step = key.split("/", maxsplit=1)[0], step_of(key)
        if step == "meat_on" and self._on - {piece}:
            self._add("another_on", at)
        self._came_up(step, at)

    def _done(self, step: str, fact: Fact) -> None:
        if not self._answered(fact):
            if step == "meat_on" and self._on - {fact.piece}:
                self._add("another_on", fact.recorded_at)
            self._came_up(step, fact.recorded_at)
        self._starved = step in STARVES or self._starved
        if step == "meat_on" and fact.piece is not None:
            self._on.add(fact.piece)

    def _answered(self, fact: Fact) -> bool:
        return bool(self._seen.intersection(fact.answers))

    def _came_up(self, step: str, at: dt.datetime) -> None:
        self._add(step, at)
        if self._starved and step in OPENINGS:
            self._add("starved_opening", at)
            self._starved = False

    def _care(self, told: CareTold, at: dt.datetime) -> None:
        for what, said in (("public", told.public), ("at_risk", told.at_risk), ("allergies", told.allergies)):
            if said:
                self._add(what, at)

    def _add(self, what: str, at: dt.datetime) -> None:
        self.found.append(Happened(at=at, what=what))


def burned_from_to(state: CookState, now: dt.datetime) -> tuple[dt.datetime, dt.datetime] | None:
    """Return since when the fire burns and until when it did, `now` while it still does; None before it was lit."""
    lit_at = state.at("light") or state.at("meat_on")
    if lit_at is None:
        return None
    shut = state.did("shutdown")
    return lit_at, now if shut is None or shut.outcome == "keep" else shut.at


def _of_the_clock(state: CookState, now: dt.datetime, light_at: dt.datetime) -> list[Happened]:
    """Return what time alone brings: the morning of the fire, nights and watches through which it burns."""
    found = []
    morning = _morning_of(state, light_at)
    if morning is not None and morning <= now:
        found.append(Happened(at=morning, what="morning"))
    burning = burned_from_to(state, now)
    if burning is None:
        return found
    for start in _nights(state, *burning):
        found.append(Happened(at=start, what="night"))
        if not state.watches or not state.watches.watches:
            dinner = state.serving.starts_at()
            if dinner is not None and min(quiet_end(state, start), dinner) - start > LONG_WATCH:
                found.append(Happened(at=start, what="long_watch"))
    for _name, start, end in watches(state):
        at = start - _BEFORE_A_WATCH
        if not (burning[0] <= at <= burning[1]) or not _at_night(state, start, end):
            continue
        found.append(Happened(at=at, what="night_watch"))
        if end - start > LONG_WATCH:
            found.append(Happened(at=at, what="long_watch"))
    return found


def _morning_of(state: CookState, light_at: dt.datetime) -> dt.datetime | None:
    """Return when the quiet hours end on the day of the fire, None when it is lit soon after or before that."""
    start = quiet_start(state, light_at - _DAY)
    morning = quiet_end(state, start)
    later = start < morning < light_at - _MORNING_BEFORE
    return morning if later and morning > state.begun_at else None


def _nights(state: CookState, lit_at: dt.datetime, until: dt.datetime) -> tuple[dt.datetime, ...]:
    """Return when quiet hours began while the fire burned; there are none when no hours are quiet."""
    starts = itertools.accumulate(
        itertools.repeat(_DAY, 7), lambda at, _day: quiet_start(state, at + dt.timedelta(minutes=1)), initial=lit_at
    )
    return tuple(at for at in itertools.islice(starts, 1, None) if at <= until and is_quiet(state, at))


def _at_night(state: CookState, start: dt.datetime, end: dt.datetime) -> bool:
    """Return whether a watch lies in the quiet hours, or runs into them."""
    return is_quiet(state, start) or quiet_start(state, start) < end
