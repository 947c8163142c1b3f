"""The fold: what a log of facts adds up to, as seen from one piece.

A pure count of the facts that stand: no catalogue, no forecast, no plan.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import TypeVar

from scheduler.errors import BrokenLog
from scheduler.facts import (
    AirTold,
    Asked,
    Body,
    CareTold,
    Closed,
    CookerTold,
    Detail,
    DetailTold,
    Discarded,
    Divided,
    Fact,
    Felt,
    FuelTold,
    GuestsTold,
    KindTold,
    LeverTaken,
    MovedToOven,
    Noted,
    PaperIssued,
    PieceAdded,
    Planned,
    PutOff,
    Reading,
    RestTold,
    SafeBy,
    SafeByTold,
    Serving,
    ServingMoved,
    Slot,
    StepDone,
    StepSkipped,
    TargetTold,
    Told,
    TreatedTold,
    Treatment,
    Troubled,
    Warned,
    WatchesTold,
    Withdrawn,
    Wrap,
    Wrapped,
    WrapPlanned,
)  # fmt: skip
from scheduler.state.back import went_back
from scheduler.state.crew import company_of
from scheduler.state.pieces import FIRST, pieces_of, seen_from
from scheduler.state.pit import bands
from scheduler.state.rules import by_time_since, edition_of
from scheduler.state.standing import by_kind, effective
from scheduler.state.values import OVERTAKEN, AskedAt, CookState, DoneAt, FuelAt, Piece, ReadingAt

B = TypeVar("B", bound=Body)
"""A kind of fact."""


def fold(facts: tuple[Fact, ...], as_of: dt.datetime | None = None, piece: str | None = None) -> CookState:
    """Return the state that a log adds up to, as of its newest fact or of a later instant, as seen from one piece
    (None: the first that is still cooked).

    Raises
    ------
    BrokenLog
        When the log does not begin with a plan, holds facts of several cooks, or knows no such piece.
    """
    if not facts:
        raise BrokenLog("an empty log is no cook")
    if len({fact.cook for fact in facts}) != 1:
        raise BrokenLog("a log holds facts of several cooks", cooks=sorted({fact.cook for fact in facts}))
    standing = effective(facts)
    if not any(isinstance(f.body, Planned) for f in standing):
        raise BrokenLog("a log without a plan", cook=facts[0].cook)
    pieces = pieces_of(standing)
    known = [one.id for one in pieces]
    if piece is not None and piece not in known:
        raise BrokenLog("a log knows no such piece", cook=facts[0].cook, piece=piece, pieces=known)
    seen = piece or (known[0] if known else FIRST)
    state = _Fold(facts, standing, pieces, seen).state()
    return state if as_of is None or as_of <= state.as_of else dataclasses.replace(state, as_of=as_of)


class _Fold:
    """Counts the facts of one log that one piece sees."""

    def __init__(
        self, facts: tuple[Fact, ...], standing: tuple[Fact, ...], pieces: tuple[Piece, ...], piece: str
    ) -> None:
        self._facts = facts
        self._all = standing
        self._pieces = pieces
        self._piece = piece
        self._several = len({f.piece or FIRST for f in standing if isinstance(f.body, Planned | PieceAdded)}) > 1
        seen = seen_from(standing, piece) if self._several else standing
        self._standing, self._off_spells = went_back(seen)
        self._in_time = sorted(self._standing, key=lambda fact: fact.happened_at)
        self._of_kind, self._of_kind_in_time = by_kind(self._standing), by_kind(self._in_time)
        plans = [f for f in standing if isinstance(f.body, Planned)]
        self._plan_fact = plans[-1]
        self._first_plan = plans[0]
        added = [f for f in self._standing if isinstance(f.body, PieceAdded)]
        is_first = piece == (plans[-1].piece or FIRST)
        self._added = None if is_first or not added else added[-1]

    def state(self) -> CookState:
        planned, added = self._planned(), self._addition
        told = self._bodies(Told)
        with_milestones = [t for t in told if t.milestones]
        guests, cookers, watches = self._bodies(GuestsTold), self._bodies(CookerTold), self._bodies(WatchesTold)
        ovens = self._timed(MovedToOven)
        safe_by, targets = self._timed(SafeByTold), self._bodies(TargetTold)
        return CookState(
            cook=self._facts[0].cook,
            piece=self._piece,
            pieces=self._pieces,
            planned=planned,
            planned_at=self._planned_at(),
            begun_at=self._first_plan.recorded_at,
            lead=self._first_plan.by or None,
            heard_at=max(f.recorded_at for f in self._facts if f.by is not None or f is self._facts[0]),
            serving=self._serving(added),
            pit=bands(self._standing, self._all, self._piece, several=self._several),
            as_of=max(f.recorded_at for f in self._facts),
            done=self._done(),
            readings=self._readings(),
            wraps=self._timed(Wrapped),
            feels=self._timed(Felt),
            air=self._air(),
            airs=self._airs(),
            put_off=self._put_off(),
            closed=self._closed(),
            withdrawn={b.prompt: b.reason for b in self._bodies(Withdrawn)},
            skipped=self._skipped(),
            asked=self._asked(),
            told=told[-1] if told else None,
            told_milestones=with_milestones[-1] if with_milestones else None,
            cautions=frozenset(c for b in self._bodies(Asked) for c in b.cautions),
            warned=frozenset((b.rule, b.since) for b in self._bodies(Warned) if not b.over),
            warnings=self._timed(Warned),
            notes=self._timed(Noted),
            over=bool(self._bodies(Closed)),
            over_at=next((at for at, _closed in self._timed(Closed)), None),
            guests=guests[-1] if guests else None,
            cooker=cookers[-1] if cookers else None,
            fuel=self._fuel(),
            watches=watches[-1] if watches else None,
            people=frozenset(f.by for f in self._facts if f.by),
            kinds={b.step: b.wanted for b in self._bodies(KindTold)},
            rest=self._rest(),
            oven=ovens[-1] if ovens else None,
            ovens=ovens,
            off_spells=self._off_spells,
            divided=tuple((at, body.parts) for at, body in self._timed(Divided)),
            troubles=self._troubles(),
            levers=tuple((at, body.lever) for at, body in self._timed(LeverTaken)),
            papers=self._timed(PaperIssued),
            care=self._care(),
            treated=self._treated(),
            safe_by=safe_by[-1][1].by if safe_by else SafeBy.MINIMUM,
            target_c=targets[-1].core_c if targets else None,
            edition=edition_of(self._by_time()),
            by_time_since=by_time_since(self._by_time()),
            discarded=self._discarded(),
            trouble_log=self._timed(Troubled),
            company=company_of(self._in_time),
        )

    def _by_time(self) -> list[Fact]:
        return self._in_time

    def _bodies(self, kind: type[B]) -> list[B]:
        """Return the bodies of one kind in order of recording."""
        return [f.body for f in self._of_kind.get(kind, ()) if isinstance(f.body, kind)]

    def _timed(self, kind: type[B]) -> tuple[tuple[dt.datetime, B], ...]:
        """Return (instant, body) of one kind in order of time."""
        return tuple((f.happened_at, f.body) for f in self._of_kind_in_time.get(kind, ()) if isinstance(f.body, kind))

    def _planned_at(self) -> dt.datetime:
        if self._added is None:
            return self._first_plan.recorded_at
        return next(piece.added_at for piece in self._pieces if piece.id == self._piece)

    @property
    def _addition(self) -> PieceAdded | None:
        """Return what the piece was added with, None for the one that the plan stands for."""
        body = None if self._added is None else self._added.body
        return body if isinstance(body, PieceAdded) else None

    def _planned(self) -> Planned:
        """Return the inputs of the piece, with the detail and the wrap as told last."""
        whole, added = self._plan_fact.body, self._addition
        assert isinstance(whole, Planned)
        planned = dataclasses.replace(whole, detail=self._detail())
        if added is None or self._added is None:
            return dataclasses.replace(planned, wrap=self._wrap_plan(whole.wrap, self._plan_fact))
        low_c = whole.pit_low_c if added.pit_low_c is None else added.pit_low_c
        high_c = added.pit_high_c if added.pit_high_c is not None else added.pit_low_c
        return dataclasses.replace(
            planned,
            cut=added.cut,
            serving=added.serving or whole.serving,
            count=added.count,
            mass_kg=added.mass_kg,
            thickness_m=added.thickness_m,
            wrap=self._wrap_plan(added.wrap, self._added),
            pit_low_c=low_c,
            pit_high_c=whole.pit_high_c if high_c is None else high_c,
            frozen=added.frozen,
            from_middle=False,
        )

    def _detail(self) -> Detail:
        """Return the detail as told last, by a plan or by itself."""
        told = [f.body.detail for f in self._standing if isinstance(f.body, Planned | DetailTold)]
        return told[-1]

    def _wrap_plan(self, wrap: Wrap | None, plan: Fact) -> Wrap | None:
        """Return the intended wrap: that of the plan, or one told since."""
        since = self._standing[self._place(plan) :]
        told = [f.body.wrap for f in since if isinstance(f.body, WrapPlanned)]
        return told[-1] if told else wrap

    def _place(self, fact: Fact) -> int:
        return next(at for at, other in enumerate(self._standing) if other.id == fact.id)

    def _serving(self, added: PieceAdded | None) -> Serving:
        """Return when the piece is wanted: at a time of its own, or with the others; each as moved last."""
        if added is not None and added.serving is not None and self._added is not None:
            since = self._standing[self._place(self._added) :]
            moved = [f.body.serving for f in since if isinstance(f.body, ServingMoved) and f.piece == self._piece]
            return moved[-1] if moved else added.serving
        apart = {f.piece for f in self._all if isinstance(f.body, PieceAdded) and f.body.serving is not None}
        since = self._standing[self._place(self._plan_fact) :]
        moved = [f.body.serving for f in since if isinstance(f.body, ServingMoved) and f.piece not in apart]
        whole = self._plan_fact.body
        assert isinstance(whole, Planned)
        return moved[-1] if moved else whole.serving

    def _done(self) -> dict[str, tuple[DoneAt, ...]]:
        done: dict[str, tuple[DoneAt, ...]] = {}
        for fact in self._by_time():
            if isinstance(fact.body, StepDone):
                entry = DoneAt(at=fact.happened_at, by=fact.by, outcome=fact.body.outcome, fact=fact.id)
                done[fact.body.step] = (*done.get(fact.body.step, ()), entry)
        return done

    def _readings(self) -> tuple[ReadingAt, ...]:
        """Return the readings in order of time; of several pieces, one in an oven has no pit any more."""
        ovens = self._timed(MovedToOven) if self._several else ()
        oven_at = ovens[0][0] if ovens else None
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
            for fact in self._of_kind_in_time.get(Reading, ())
            if isinstance(fact.body, Reading)
            and (oven_at is None or fact.body.slot is not Slot.PIT or fact.happened_at < oven_at)
        )

    def _fuel(self) -> tuple[FuelAt, ...]:
        return tuple(
            FuelAt(at=f.happened_at, kg=f.body.kg, added=f.body.added, fact=f.id)
            for f in self._by_time()
            if isinstance(f.body, FuelTold)
        )

    def _rest(self) -> RestTold | None:
        """Return how it is to rest, each part as told last."""
        rest: RestTold | None = None
        for told in self._bodies(RestTold):
            before = rest or RestTold()
            rest = RestTold(
                minutes=before.minutes if told.minutes is None else told.minutes,
                place=told.place or before.place,
                oven_c=before.oven_c if told.oven_c is None else told.oven_c,
            )
        return rest

    def _troubles(self) -> dict[str, dt.datetime]:
        standing: dict[str, dt.datetime] = {}
        for fact in self._by_time():
            if not isinstance(fact.body, Troubled):
                continue
            if fact.body.over:
                standing.pop(fact.body.problem, None)
            else:
                standing.setdefault(fact.body.problem, fact.happened_at)
        return standing

    def _care(self) -> CareTold:
        """Return what was told of the guests and the occasion, each part as told last."""
        care = CareTold()
        for _at, told in self._timed(CareTold):
            care = CareTold(
                at_risk=care.at_risk if told.at_risk is None else told.at_risk,
                allergies=care.allergies if told.allergies is None else told.allergies,
                public=care.public if told.public is None else told.public,
            )
        return care

    def _treated(self) -> tuple[Treatment, ...] | None:
        """Return what was done to the piece, None: nobody said. As told last; but from meat on no single word takes
        back what was told: it has to be said twice, or corrected.
        """
        ons = [f.happened_at for f in self._by_time() if isinstance(f.body, StepDone) and f.body.step == "meat_on"]
        counts: tuple[Treatment, ...] | None = None
        doubted: tuple[Treatment, ...] | None = None
        for at, told in self._timed(TreatedTold):
            less = set(counts or ()) - set(told.treatments)
            if not less or not ons or at < ons[0] or doubted == told.treatments:
                counts, doubted = told.treatments, None
            else:
                counts, doubted = tuple(dict.fromkeys((*(counts or ()), *told.treatments))), told.treatments
        return counts

    def _discarded(self) -> tuple[DoneAt, ...]:
        return tuple(
            DoneAt(at=f.happened_at, by=f.by, outcome=None, fact=f.id)
            for f in self._by_time()
            if isinstance(f.body, Discarded)
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

    def _airs(self) -> tuple[tuple[dt.datetime, AirTold], ...]:
        told = self._timed(AirTold)
        return tuple((at, air) for at, air in told if air.temp_c is not None or air.word is not None)

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
