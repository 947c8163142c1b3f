"""The values that a fold returns: how one cook stands, as seen from one of its pieces.

Values only; they are counted in `scheduler.state.folding`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Mapping
from enum import StrEnum

from scheduler.facts import (
    AirTold,
    CareTold,
    CookerTold,
    CrewRole,
    Detail,
    Edition,
    Felt,
    GuestsTold,
    MovedToOven,
    Noted,
    PaperIssued,
    Planned,
    ReadBy,
    RestTold,
    SafeBy,
    Serving,
    Slot,
    Told,
    Treatment,
    Troubled,
    Warned,
    WatchesTold,
    Wrap,
    Wrapped,
)  # fmt: skip
from scheduler.state.crew import NOBODY, Claim, Company, LeverWait, Offer, PhotoAt, SoundAt, Taking, holder, spans

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
    GONE = "gone"
    """Thrown away before it was served: nothing more is done to it, and nobody eats it."""
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
class OffHeat:
    """A time that a piece was off the heat before it went back on."""

    pulled_at: dt.datetime
    back_at: dt.datetime


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
class FuelAt:
    """Charcoal put in [kg]: when, and whether it was added to a fire that burned."""

    at: dt.datetime
    kg: float
    added: bool
    fact: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Piece:
    """One piece of a cook: its id, its cut, and when it was first told of."""

    id: str
    cut: str
    added_at: dt.datetime


@dataclasses.dataclass(frozen=True, kw_only=True)
class CookState:
    """The state of one cook as seen from one of its pieces. Everything in it follows from the facts alone.

    What belongs to the cooker and the table (pit, fire, fuel, air, guests) is the same for every piece; cores, wraps,
    feels and the steps done to the meat are those of `piece`.
    """

    cook: str
    piece: str
    """Id of the piece that it is seen from."""
    pieces: tuple[Piece, ...]
    """Every piece that is still cooked, in the order in which they were told."""
    planned: Planned
    """The inputs of this piece; the detail and the wrap told last are in it."""
    planned_at: dt.datetime
    begun_at: dt.datetime
    """When the cook was first planned: the same whatever becomes of its pieces."""
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
    airs: tuple[tuple[dt.datetime, AirTold], ...]
    """Every time that a temperature of the air was told, by number or word, in order of time."""
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
    warnings: tuple[tuple[dt.datetime, Warned], ...]
    """Every telling of a finding, and of the end of a stop, in the order in which they were told."""
    notes: tuple[tuple[dt.datetime, Noted], ...]
    over: bool
    over_at: dt.datetime | None
    """When it was over."""
    guests: GuestsTold | None
    cooker: CookerTold | None
    fuel: tuple[FuelAt, ...]
    people: frozenset[str]
    """Names of everybody who told anything."""
    watches: WatchesTold | None
    """Watches and quiet hours as told last, None: nobody said."""
    kinds: Mapping[str, bool]
    """Step -> whether its prompts are wanted, for those about which somebody said so."""
    rest: RestTold | None
    """How it is to rest: minutes, place and oven, each as told last."""
    oven: tuple[dt.datetime, MovedToOven] | None
    """Since when this piece cooks on in an oven."""
    ovens: tuple[tuple[dt.datetime, MovedToOven], ...]
    """Every oven that it was moved to, or whose heat was told anew, in order of time."""
    off_spells: tuple[OffHeat, ...]
    """The times that this piece was off the heat before it went back on; the pull before them is in `done` no more."""
    divided: tuple[tuple[dt.datetime, int], ...]
    """(instant, parts) of every time this piece was cut into parts."""
    troubles: Mapping[str, dt.datetime]
    """Problem -> since when it stands."""
    levers: tuple[tuple[dt.datetime, str], ...]
    papers: tuple[tuple[dt.datetime, PaperIssued], ...]
    care: CareTold
    """Guests at risk, allergies and a public meal, each as told last; None was not told."""
    treated: tuple[Treatment, ...] | None
    """What was done to this piece, None: nobody said."""
    safe_by: SafeBy
    """By which rule the safety gate of this piece opens."""
    by_time_since: dt.datetime | None
    """Since when time at a lower temperature is chosen for this piece, None while it is not."""
    target_c: float | None
    """The core at which this piece is wished to come off [°C], None: as usual for its cut."""
    edition: Edition
    """Which published rules count for this cook: the stricter figures for guests at risk and public meals, whatever was
    told, and where another edition was told when there was something to judge (`scheduler.state.rules`)."""
    discarded: tuple[DoneAt, ...]
    """Every time this piece, or what was left of it, was thrown away."""
    trouble_log: tuple[tuple[dt.datetime, Troubled], ...] = ()
    """Every problem told, and that it was over, in order of time."""
    brings_pit: bool = False
    """True for a piece that waits and brings another pit to those that are on the fire."""
    pit_ahead: tuple[PitBand, ...] = ()
    """Bands that are planned for later, such as when a piece with a pit of its own goes on: not told, computed."""

    company: Company = NOBODY
    """What was told of the crew; read by the properties below."""

    @property
    def crew(self) -> Mapping[str, frozenset[CrewRole]]:
        """Return name -> roles of everybody who is in the crew of this cook."""
        return self.company.roles

    @property
    def claims(self) -> Mapping[str, Claim]:
        """Return step -> claim of this piece or of the whole cook, as of the newest fact: lapsed ones are not in it."""
        return {step: claim for step, claim in self.company.claims.items() if claim.holds(self.as_of)}

    @property
    def handover(self) -> Offer | None:
        """Return the offer of the watch that waits for an answer."""
        return self.company.offer

    @property
    def takings(self) -> tuple[Taking, ...]:
        """Return every time the watch was taken over, in order."""
        return self.company.takings

    @property
    def levers_asked(self) -> Mapping[str, LeverWait]:
        """Return lever -> the question that waits for who decides."""
        return self.company.levers

    @property
    def sound(self) -> Mapping[str, SoundAt]:
        """Return name -> the newest sound check."""
        return self.company.sound

    @property
    def photos(self) -> tuple[PhotoAt, ...]:
        """Return the photos kept, in order of time."""
        return self.company.photos

    def watch_holder(self, at: dt.datetime) -> str | None:
        """Return who has the watch at an instant, as taken over and not as planned; None when nobody has."""
        return holder(spans(self.watches, self.serving.zone), self.takings, at, self.as_of)

    @property
    def muted(self) -> frozenset[str]:
        """Return the steps that people do not want to be told of (a step of safety is told all the same)."""
        return frozenset(step for step, told in self.kinds.items() if not told)

    @property
    def detail(self) -> Detail:
        """Return how much people want to be told."""
        return self.planned.detail

    @property
    def wrap_plan(self) -> Wrap | None:
        """Return the wrap that is intended, None while it is undecided."""
        return self.planned.wrap

    @property
    def read_by(self) -> ReadBy | None:
        """Return how the core is read, None when nobody said."""
        return self.planned.read_by

    @property
    def confidence(self) -> float | None:
        """Return the wanted probability of eating on time, None: the usual one of the planner."""
        return self.planned.confidence

    def did(self, step: str) -> DoneAt | None:
        """Return the newest time a step was done, None when never."""
        times = self.done.get(step)
        return times[-1] if times else None

    def at(self, step: str) -> dt.datetime | None:
        """Return the instant a step was done last, None when never."""
        done = self.did(step)
        return None if done is None else done.at

    @property
    def off_at(self) -> dt.datetime | None:
        """Return when this piece came off the heat for the first time, None when it never did."""
        return self.off_spells[0].pulled_at if self.off_spells else self.at("pull")

    @property
    def stage(self) -> Stage:
        """Return how far the cook is."""
        if self.over:
            return Stage.CLOSED
        if self.discarded and not self.did("serve"):
            return Stage.GONE
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
