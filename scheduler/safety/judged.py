"""Every reading of a cook beside the limit that applied to it then, and what was done next where it was not met.

It decides about no food (findings do that), and says nothing of what nobody read.
"""

from __future__ import annotations

import dataclasses

from scheduler.cuts import Cuts
from scheduler.facts import (
    Body,
    Corrected,
    Discarded,
    Fact,
    FuelTold,
    MovedToOven,
    Noted,
    PieceAdded,
    PitMoved,
    Planned,
    PutBack,
    Reading,
    SafeBy,
    Slot,
    StepDone,
    Troubled,
    Undone,
    Wrapped,
)
from scheduler.safety.bounds import Bounds, Mark, marks_of, phase_at
from scheduler.safety.case import THROWN
from scheduler.safety.entries import Action, Bound, Change, Meets, Phase, ReadingEntry, StepEntry
from scheduler.safety.minimum import safe_gate
from scheduler.state import FIRST, CookState, effective, own, seen_from

SHOWN = frozenset({
    "collect_meat", "fridge_check", "thaw_start", "thaw_check", "thaw_rescue", "dry_brine", "rub_binder", "raw_out",
    "raw_cleanup", "light", "meat_on", "pull", "vent_meat", "box_meat", "slice", "serve", "two_hour", "leftovers",
    "reheat_on", "reheat_away", "leftover_expire",
})  # fmt: skip
"""Steps that say where the food was, and how raw and cooked were kept apart."""


REPORTED = frozenset({
    "fire_out", "fuel_out", "pit_cold", "lid_open", "hold_low", "frozen_middle", "pink_inside", "dropped",
    "dropped_raw", "dropped_done", "cross_contamination", "reader_wrong", "reader_other", "probe_dead",
    "pit_gauge_wrong",
    "burn", "co_symptom", "cooker_indoors", "allergic_reaction", "choking", "guest_ill", "grease_fire", "fire_spreads",
    "cooker_fell",
})  # fmt: skip
"""Problems of food, fire and people that somebody who inspects food wants to read of."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Known:
    """One piece with what the log says of it."""

    piece: str
    bounds: Bounds
    marks: tuple[Mark, ...]
    by_time: bool
    """True when its safety gate opened by time at a lower temperature."""


def known(state: CookState, facts: tuple[Fact, ...], cuts: Cuts) -> Known:
    """Return a piece as the whole log shows it; `state` is the cook as seen from it."""
    stand = effective(facts)
    several = len({f.piece or FIRST for f in stand if isinstance(f.body, Planned | PieceAdded)}) > 1
    seen = seen_from(stand, state.piece) if several else stand
    marks = marks_of(seen, from_middle=state.planned.from_middle)
    bounds = Bounds(state=state, cut=cuts.get(state.planned.cut), cuts=cuts)
    gate = safe_gate(state, bounds.cut, cuts)
    by_time = gate.by is SafeBy.EQUIVALENCE and gate.open_at is not None
    return Known(piece=state.piece, bounds=bounds, marks=marks, by_time=by_time)


def entries_of(facts: tuple[Fact, ...], pieces: tuple[Known, ...]) -> tuple[ReadingEntry | StepEntry, ...]:
    """Return readings and steps in order of time, those taken back too, each with what was told of it later."""
    told = _told(facts)
    by_id = {one.piece: one for one in pieces}
    found: list[ReadingEntry | StepEntry] = []
    for one in told:
        if isinstance(one.fact.body, Reading):
            found.append(_reading(one, by_id, told))
        elif _shown(one.fact.body):
            found.append(_step(one))
    judged = [_with_actions(entry, found, told, by_id) if isinstance(entry, ReadingEntry) else entry for entry in found]
    return tuple(sorted(judged, key=lambda entry: entry.at))


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Told:
    """A fact as it stands now, and what was told of it later."""

    fact: Fact
    changes: tuple[Change, ...]
    taken_back: bool


def _told(facts: tuple[Fact, ...]) -> tuple[_Told, ...]:
    undone: dict[str, Fact] = {}
    for fact in reversed(facts):
        if isinstance(fact.body, Undone) and fact.id not in undone:
            undone[fact.body.of] = fact
    found = []
    for fact in facts:
        if isinstance(fact.body, Corrected | Undone):
            continue
        stands, changes = fact, []
        for later in facts:
            if not (isinstance(later.body, Corrected) and later.body.of == fact.id):
                continue
            keeps = later.id not in undone
            was = stands
            if keeps:
                at = later.body.happened_at or fact.happened_at
                stands = dataclasses.replace(fact, body=later.body.body, happened_at=at)
            changes.append(
                Change(at=later.recorded_at, by=later.by, was=was.body, was_at=was.happened_at, stands=keeps)
            )
        if fact.id in undone:
            changes.append(Change(at=undone[fact.id].recorded_at, by=undone[fact.id].by, was=None))
        found.append(_Told(fact=stands, changes=tuple(changes), taken_back=fact.id in undone))
    return tuple(found)


def _shown(body: Body) -> bool:
    if isinstance(body, StepDone):
        return body.step in SHOWN
    if isinstance(body, Noted):
        return not body.understood and any(letter.isdigit() for letter in body.text)
    if isinstance(body, Troubled):
        return body.problem in REPORTED
    return isinstance(body, Discarded | MovedToOven | PutBack | Wrapped)


def _step(one: _Told) -> StepEntry:
    fact = one.fact
    return StepEntry(
        at=fact.happened_at,
        recorded_at=fact.recorded_at,
        by=fact.by,
        piece=_piece(fact),
        body=fact.body,
        changes=one.changes,
        taken_back=one.taken_back,
        fact=fact.id,
    )


def _piece(fact: Fact) -> str | None:
    return (fact.piece or FIRST) if own(fact.body) else None


def _reading(one: _Told, pieces: dict[str, Known], told: tuple[_Told, ...]) -> ReadingEntry:
    fact, body = one.fact, one.fact.body
    assert isinstance(body, Reading)
    piece = _piece(fact)
    phase, bound, up = None, None, True
    if not one.taken_back:
        phase, bound, up = _limit_of(fact, body, pieces, told)
    met = Meets.NOTHING if bound is None else _met(body, bound)
    return ReadingEntry(
        at=fact.happened_at,
        recorded_at=fact.recorded_at,
        by=fact.by,
        piece=piece,
        slot=body.slot,
        value_c=body.value_c,
        spread_c=body.spread_c,
        spot=body.spot,
        doubtful=body.doubtful,
        phase=phase,
        bound=bound,
        meets=met if up or met is not Meets.NO else Meets.NOT_YET,
        changes=one.changes,
        taken_back=one.taken_back,
        fact=fact.id,
    )


def _limit_of(
    fact: Fact, body: Reading, pieces: dict[str, Known], told: tuple[_Told, ...]
) -> tuple[Phase | None, Bound | None, bool]:
    """Return where food was when it was read, what the reading is compared with, and whether the time for it was up."""
    at, first = fact.happened_at, next(iter(pieces.values()))
    if body.slot is Slot.PIT:
        return None, _pit_bound(fact, pieces, told), True
    if body.slot is Slot.FRIDGE:
        return Phase.FRIDGE, first.bounds.in_phase(Phase.FRIDGE), True
    one = pieces.get(_piece(fact) or "", first)
    away = one.bounds.put_away(at, round(body.value_c + body.spread_c, 1))
    if away is not None:
        return away
    phase = Phase.HOLDING if body.slot is Slot.LEFTOVERS else phase_at(one.marks, at)
    return phase, one.bounds.in_phase(phase), True


def _met(body: Reading, bound: Bound) -> Meets:
    """Return whether a reading meets a limit: its edge on the unsafe side counts; a doubtful one proves nothing."""
    edge_c = round(body.value_c + (body.spread_c if bound.at_most else -body.spread_c), 1)
    if (edge_c > bound.limit_c) if bound.at_most else (edge_c < bound.limit_c):
        return Meets.NO
    return Meets.UNKNOWN if body.doubtful else Meets.YES


def _pit_bound(fact: Fact, pieces: dict[str, Known], told: tuple[_Told, ...]) -> Bound | None:
    """Return the limit of the pit, None unless a piece was on then with a core in the danger zone or unknown."""
    for piece in pieces.values():
        if phase_at(piece.marks, fact.happened_at) is not Phase.COOKING or _in_oven(piece.piece, fact, told):
            continue
        cores = [
            one.fact.body.value_c - one.fact.body.spread_c
            for one in sorted(told, key=lambda one: one.fact.happened_at)
            if not one.taken_back
            and isinstance(one.fact.body, Reading)
            and one.fact.body.slot is Slot.CORE
            and not one.fact.body.doubtful
            and _piece(one.fact) == piece.piece
            and one.fact.happened_at <= fact.happened_at
        ]
        if not cores or cores[-1] < piece.bounds.danger.limit_c:
            return piece.bounds.pit
    return None


def _in_oven(piece: str, fact: Fact, told: tuple[_Told, ...]) -> bool:
    return any(
        isinstance(one.fact.body, MovedToOven) and _piece(one.fact) == piece and not one.taken_back
        and one.fact.happened_at <= fact.happened_at
        for one in told
    )  # fmt: skip


# --- what was done next ---------------------------------------------------------------------------------------------


def _with_actions(
    entry: ReadingEntry, entries: list[ReadingEntry | StepEntry], told: tuple[_Told, ...], pieces: dict[str, Known]
) -> ReadingEntry:
    if entry.meets is not Meets.NO or entry.bound is None:
        return entry
    later = sorted(
        (
            one
            for one in entries
            if isinstance(one, ReadingEntry)
            and one.at > entry.at
            and one.piece == entry.piece
            and one.slot is entry.slot
        ),
        key=lambda one: one.at,
    )
    if entry.phase is Phase.COOKING and _goes_on(entry, later, told):
        return dataclasses.replace(entry, meets=Meets.NOT_YET)
    one = pieces.get(entry.piece or "")
    if entry.phase is Phase.COOKING and one is not None and one.by_time:
        return dataclasses.replace(entry, meets=Meets.BY_TIME)
    reheat = next(iter(pieces.values())).bounds.in_phase(Phase.REHEATING)
    again = [_again(one, entry, reheat) for one in later if one.meets is Meets.YES][:1]
    acts = sorted((act for one in told if (act := _act(one, entry)) is not None), key=lambda act: act.at)
    acts = [act for act in acts if not again or act.at <= again[0].at][:1]
    return dataclasses.replace(entry, actions=(*acts, *again))


def _goes_on(entry: ReadingEntry, later: list[ReadingEntry], told: tuple[_Told, ...]) -> bool:
    """Return whether a core under the minimum is only on its way: the piece stayed on, or was read again before it
    came off, and at the same spot where the spot has a name.
    """
    spot = (entry.spot or "").casefold()
    if any(one.phase is Phase.COOKING and (not spot or (one.spot or "").casefold() == spot) for one in later):
        return True
    return not any(
        not one.taken_back
        and one.fact.happened_at >= entry.at
        and _piece(one.fact) == entry.piece
        and _leaves_the_fire(one.fact.body)
        for one in told
    )


def _leaves_the_fire(body: Body) -> bool:
    return isinstance(body, Discarded) or (isinstance(body, StepDone) and body.step in {"pull", "serve"})


def _act(one: _Told, entry: ReadingEntry) -> Action | None:
    """Return what a fact did about a reading that did not meet its limit, None when it is something else."""
    fact = one.fact
    back = next((change for change in one.changes if change.was is None and change.stands), None)
    if back is not None:
        pulled = isinstance(fact.body, StepDone) and fact.body.step == "pull" and _piece(fact) == entry.piece
        return Action(what="back_on", at=back.at, by=back.by) if pulled and back.at >= entry.at else None
    if fact.happened_at < entry.at or (_piece(fact) not in {None, entry.piece}):
        return None
    what = _on_the_pit(fact.body) if entry.slot is Slot.PIT else _on_the_food(fact.body, entry)
    return None if what is None else Action(what=what, at=fact.happened_at, by=fact.by)


def _on_the_pit(body: Body) -> str | None:
    match body:
        case PitMoved() | FuelTold(added=True) | StepDone(step="refuel"):
            return "pit"
        case MovedToOven():
            return "oven"
        case Discarded():
            return "discarded"
        case _:
            return None


def _on_the_food(body: Body, entry: ReadingEntry) -> str | None:
    match body:
        case Discarded():
            return "discarded"
        case StepDone(step=step, outcome=outcome) if (step, outcome) in THROWN:
            return "discarded"
        case MovedToOven():
            return "oven"
        case PutBack():
            return "back_on"
        case StepDone(step="meat_on") if entry.phase is not Phase.RAW:
            return "back_on"
        case StepDone(step="reheat_on"):
            return "reheating"
        case StepDone(step="two_hour" | "leftovers") if entry.phase is Phase.HOLDING:
            return "put_away"
        case _:
            return None


def _again(one: ReadingEntry, entry: ReadingEntry, reheat: Bound | None) -> Action:
    hot = (
        reheat is not None
        and entry.phase in {Phase.HOLDING, Phase.COOLING, Phase.REHEATING}
        and round(one.value_c - one.spread_c, 1) >= reheat.limit_c
    )
    return Action(what="reheated" if hot else "read_again", at=one.at, by=one.by, value_c=one.value_c)
