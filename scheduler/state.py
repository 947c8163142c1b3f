"""What a log of facts adds up to: the state of one cook.

A pure fold: no catalogue, no forecast, no plan. Corrections and undo are applied first, then the facts are counted.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterable, Mapping
from enum import StrEnum

from scheduler.errors import BrokenLog
from scheduler.facts import (
    BOT_BODIES,
    AirTold,
    Asked,
    Closed,
    CookerTold,
    Corrected,
    Detail,
    DetailTold,
    Fact,
    Felt,
    GuestsTold,
    KindTold,
    Noted,
    PitMoved,
    Planned,
    PutOff,
    Reading,
    Serving,
    ServingMoved,
    Slot,
    StepDone,
    StepSkipped,
    Told,
    Undone,
    Warned,
    WatchesTold,
    Withdrawn,
    Wrapped,
)  # fmt: skip

OVERTAKEN = "overtaken"
"""Reason of a withdrawal that stands only while what overtook the prompt stands: undo brings the prompt back."""


class Stage(StrEnum):
    """How far a cook is; each member names what has happened last."""

    BEFORE = "before"
    """Planned, fire not lit."""
    FIRE = "fire"
    """Fire lit, meat not on."""
    COOKING = "cooking"
    """Meat on."""
    RESTING = "resting"
    """Meat off the fire."""
    AFTER = "after"
    """Served."""
    CLOSED = "closed"
    """Over."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class DoneAt:
    """A step that was done: when, by whom, with which outcome, and the fact that says so."""

    at: dt.datetime
    by: str | None
    outcome: str | None
    fact: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class ReadingAt:
    """A reading with its instant (UTC), author and fact."""

    at: dt.datetime
    slot: Slot
    value_c: float
    spread_c: float
    spot: str | None
    doubtful: bool
    by: str | None
    fact: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class AskedAt:
    """When a prompt was asked first and last, and how often."""

    first_at: dt.datetime
    last_at: dt.datetime
    times: int


@dataclasses.dataclass(frozen=True, kw_only=True)
class PitBand:
    """The pit's set point or band from an instant on [°C]."""

    at: dt.datetime
    low_c: float
    high_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class CookState:
    """The state of one cook. Everything in it follows from the facts alone."""

    cook: str
    piece: str
    planned: Planned
    planned_at: dt.datetime
    lead: str | None
    """Name of whoever began the cook: what nobody else has taken is up to them."""
    heard_at: dt.datetime
    """When a person last told anything."""
    serving: Serving
    pit: tuple[PitBand, ...]
    as_of: dt.datetime
    """When the newest fact was recorded: the schedule is computed as of this instant, never as of the clock."""
    done: Mapping[str, tuple[DoneAt, ...]]
    readings: tuple[ReadingAt, ...]
    """In order of time, doubtful ones too."""
    wraps: tuple[tuple[dt.datetime, Wrapped], ...]
    feels: tuple[tuple[dt.datetime, Felt], ...]
    air: AirTold
    """What was told last of the air: its temperature and its wind, each by itself."""
    put_off: Mapping[str, dt.datetime]
    """Step -> instant until which its prompt was put off."""
    closed: Mapping[str, dt.datetime]
    """Prompt key -> when it was answered, skipped or withdrawn."""
    withdrawn: Mapping[str, str]
    """Prompt key -> reason, for those given up unanswered."""
    skipped: Mapping[str, int]
    asked: Mapping[str, AskedAt]
    told: Told | None
    """The newest `Told`."""
    told_milestones: Told | None
    """The newest `Told` that named milestones."""
    cautions: frozenset[str]
    warned: frozenset[tuple[str, dt.datetime | None]]
    """(rule, since) of every safety finding that people were told."""
    notes: tuple[tuple[dt.datetime, Noted], ...]
    over: bool
    detail: Detail = Detail.USUAL
    """How much people want to be told: as planned, or as said since."""
    kinds: Mapping[str, bool] = dataclasses.field(default_factory=dict)
    """Step -> whether somebody said that its prompts are wanted."""
    watches: WatchesTold | None = None
    cooker: CookerTold | None = None
    guests: GuestsTold | None = None
    people: frozenset[str] = frozenset()
    """Names of everybody who told anything."""

    def did(self, step: str) -> DoneAt | None:
        """Return the newest time a step was done, None when never."""
        times = self.done.get(step)
        return times[-1] if times else None

    def at(self, step: str) -> dt.datetime | None:
        """Return the instant a step was done last, None when never."""
        done = self.did(step)
        return None if done is None else done.at

    @property
    def stage(self) -> Stage:
        """Return how far the cook is."""
        if self.over:
            return Stage.CLOSED
        for step, stage in (("serve", Stage.AFTER), ("pull", Stage.RESTING), ("meat_on", Stage.COOKING)):
            if self.did(step):
                return stage
        return Stage.FIRE if self.did("light") else Stage.BEFORE

    def read(self, slot: Slot, *, doubtful: bool = False) -> tuple[ReadingAt, ...]:
        """Return the readings of a slot in order of time, without the doubtful ones unless asked for."""
        return tuple(r for r in self.readings if r.slot is slot and (doubtful or not r.doubtful))

    def last(self, slot: Slot) -> ReadingAt | None:
        """Return the newest undoubted reading of a slot, None when there is none."""
        found = self.read(slot)
        return found[-1] if found else None

    @property
    def pit_c(self) -> float:
        """Return the middle of the band the pit should hold now [°C]."""
        return (self.pit[-1].low_c + self.pit[-1].high_c) / 2


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


def _corrected(fact: Fact, corrections: Mapping[str, Fact]) -> Fact:
    correction = corrections.get(fact.id)
    if correction is None or not isinstance(correction.body, Corrected):
        return fact
    return dataclasses.replace(
        fact, body=correction.body.body, happened_at=correction.body.happened_at or fact.happened_at
    )


def last_by(facts: Iterable[Fact], person: str) -> Fact | None:
    """Return the newest fact that this person told and that still stands (what undo takes back): also a correction."""
    log = standing(facts)
    ids = {fact.id for fact in log}
    mine = [f for f in log if f.by == person and not isinstance(f.body, (*BOT_BODIES, Planned))]
    mine = [f for f in mine if not isinstance(f.body, Noted) or f.body.understood]
    mine = [f for f in mine if not isinstance(f.body, Corrected) or f.body.of in ids]
    return mine[-1] if mine else None


def fold(facts: tuple[Fact, ...], as_of: dt.datetime | None = None) -> CookState:
    """Return the state that a log adds up to, as of its newest fact or of a later instant.

    Raises
    ------
    BrokenLog
        When the log does not begin with a plan, or holds facts of several cooks.
    """
    if not facts:
        raise BrokenLog("an empty log is no cook")
    if len({fact.cook for fact in facts}) != 1:
        raise BrokenLog("a log holds facts of several cooks", cooks=sorted({fact.cook for fact in facts}))
    plans = [f for f in effective(facts) if isinstance(f.body, Planned)]
    if not plans:
        raise BrokenLog("a log without a plan", cook=facts[0].cook)
    state = _Fold(facts, plans).state()
    return state if as_of is None or as_of <= state.as_of else dataclasses.replace(state, as_of=as_of)


class _Fold:
    """Counts the facts of one log."""

    def __init__(self, facts: tuple[Fact, ...], plans: list[Fact]) -> None:
        self._facts = facts
        self._standing = effective(facts)
        self._plan_fact = plans[-1]
        self._first_plan = plans[0]

    def state(self) -> CookState:
        planned = self._plan_fact.body
        assert isinstance(planned, Planned)
        told = [f.body for f in self._standing if isinstance(f.body, Told)]
        with_milestones = [t for t in told if t.milestones]
        return CookState(
            cook=self._facts[0].cook,
            piece=self._first_plan.piece or "p1",
            planned=planned,
            planned_at=self._first_plan.recorded_at,
            lead=self._first_plan.by,
            heard_at=max(f.recorded_at for f in self._facts if f.by is not None or f is self._facts[0]),
            serving=self._serving(planned),
            pit=self._pit(),
            as_of=max(f.recorded_at for f in self._facts),
            done=self._done(),
            readings=self._readings(),
            wraps=tuple((f.happened_at, f.body) for f in self._by_time() if isinstance(f.body, Wrapped)),
            feels=tuple((f.happened_at, f.body) for f in self._by_time() if isinstance(f.body, Felt)),
            air=self._air(),
            put_off=self._put_off(),
            closed=self._closed(),
            withdrawn={f.body.prompt: f.body.reason for f in self._standing if isinstance(f.body, Withdrawn)},
            skipped=self._skipped(),
            asked=self._asked(),
            told=told[-1] if told else None,
            told_milestones=with_milestones[-1] if with_milestones else None,
            cautions=frozenset(c for f in self._standing if isinstance(f.body, Asked) for c in f.body.cautions),
            warned=frozenset((f.body.rule, f.body.since) for f in self._standing if isinstance(f.body, Warned)),
            notes=tuple((f.happened_at, f.body) for f in self._by_time() if isinstance(f.body, Noted)),
            over=any(isinstance(f.body, Closed) for f in self._standing),
            detail=self._detail(planned),
            kinds={f.body.step: f.body.wanted for f in self._standing if isinstance(f.body, KindTold)},
            watches=next((f.body for f in reversed(self._standing) if isinstance(f.body, WatchesTold)), None),
            cooker=next((f.body for f in reversed(self._standing) if isinstance(f.body, CookerTold)), None),
            guests=next((f.body for f in reversed(self._standing) if isinstance(f.body, GuestsTold)), None),
            people=frozenset(f.by for f in self._facts if f.by is not None),
        )

    def _detail(self, planned: Planned) -> Detail:
        """Return how much people want to be told: the newest word since the plan, which a new plan replaces."""
        said = [f for f in self._standing if f.id == self._plan_fact.id or isinstance(f.body, DetailTold)]
        last = said[-1].body if said else planned
        return last.detail if isinstance(last, DetailTold) else planned.detail

    def _by_time(self) -> list[Fact]:
        return sorted(self._standing, key=lambda fact: fact.happened_at)

    def _serving(self, planned: Planned) -> Serving:
        serving = planned.serving
        seen_plan = False
        for fact in self._standing:
            seen_plan = seen_plan or fact.id == self._plan_fact.id
            if seen_plan and isinstance(fact.body, ServingMoved):
                serving = fact.body.serving
        return serving

    def _pit(self) -> tuple[PitBand, ...]:
        """Return the bands in order of time; a later plan with the same pit changes nothing."""
        bands: list[PitBand] = []
        planned: tuple[float, float] | None = None
        for fact in self._by_time():
            if isinstance(fact.body, Planned):
                same = planned == (fact.body.pit_low_c, fact.body.pit_high_c)
                planned = (fact.body.pit_low_c, fact.body.pit_high_c)
                if same:
                    continue
            elif not isinstance(fact.body, PitMoved):
                continue
            bands.append(PitBand(at=fact.happened_at, low_c=fact.body.pit_low_c, high_c=fact.body.pit_high_c))
        return tuple(bands)

    def _done(self) -> dict[str, tuple[DoneAt, ...]]:
        done: dict[str, tuple[DoneAt, ...]] = {}
        for fact in self._by_time():
            if isinstance(fact.body, StepDone):
                entry = DoneAt(at=fact.happened_at, by=fact.by, outcome=fact.body.outcome, fact=fact.id)
                done[fact.body.step] = (*done.get(fact.body.step, ()), entry)
        return done

    def _readings(self) -> tuple[ReadingAt, ...]:
        return tuple(
            ReadingAt(
                at=fact.happened_at,
                slot=fact.body.slot,
                value_c=fact.body.value_c,
                spread_c=fact.body.spread_c,
                spot=fact.body.spot,
                doubtful=fact.body.doubtful,
                by=fact.by,
                fact=fact.id,
            )
            for fact in self._by_time()
            if isinstance(fact.body, Reading)
        )

    def _air(self) -> AirTold:
        """Return the newest temperature (number or word) and the newest wind."""
        air = AirTold()
        for fact in self._by_time():
            if isinstance(fact.body, AirTold):
                told = fact.body
                warmth = air if told.temp_c is None and told.word is None else told
                air = AirTold(temp_c=warmth.temp_c, word=warmth.word, wind=told.wind or air.wind)
        return air

    def _put_off(self) -> dict[str, dt.datetime]:
        return {f.body.step: f.body.until for f in self._standing if isinstance(f.body, PutOff)}

    def _closed(self) -> dict[str, dt.datetime]:
        closed: dict[str, dt.datetime] = {}
        for fact in self._standing:
            for key in fact.answers:
                closed.setdefault(key, fact.happened_at)
            if isinstance(fact.body, Withdrawn) and fact.body.reason != OVERTAKEN:
                closed.setdefault(fact.body.prompt, fact.recorded_at)
        return closed

    def _skipped(self) -> dict[str, int]:
        skipped: dict[str, int] = {}
        for fact in self._standing:
            if isinstance(fact.body, StepSkipped):
                skipped[fact.body.step] = skipped.get(fact.body.step, 0) + 1
        return skipped

    def _asked(self) -> dict[str, AskedAt]:
        asked: dict[str, AskedAt] = {}
        for fact in self._standing:
            if not isinstance(fact.body, Asked):
                continue
            for key in fact.body.prompts:
                before = asked.get(key)
                asked[key] = AskedAt(
                    first_at=before.first_at if before else fact.happened_at,
                    last_at=fact.happened_at,
                    times=(before.times if before else 0) + 1,
                )
        return asked
