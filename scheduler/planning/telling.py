"""Which steps belong to a cook: by its meat, its cooker and its people, and by how much those want to be told.

Pure. Nothing of it mutes a step of safety but that it has no place in this cook.
"""

from __future__ import annotations

from collections.abc import Callable

from scheduler.cuts import Cut
from scheduler.facts import Detail, ReadBy, RestPlace, ServingKind, Slot, Wrap
from scheduler.planning.backward import holds
from scheduler.planning.done import reached
from scheduler.planning.gates import pit_ready_at
from scheduler.planning.nights import everybody
from scheduler.planning.outlook import decided_bare, felt_tender
from scheduler.planning.steps import Condition, Level, Step
from scheduler.safety import chilling_since, gone_at, is_cooling_measured
from scheduler.state import CookState

_STILL_AFTER_TENDER = frozenset({"raw_cleanup", "refuel", "box_ready", "second_spot", "handover"})
"""What is asked of the cooking although the meat comes off now."""

_AFTER_DISCARDING = frozenset({
    "raw_cleanup", "shutdown", "fire_out", "ash", "wash_up", "quick_notes", "grease_clean", "restock",
})  # fmt: skip
"""What is asked of the cook although all of its food was thrown away: the fire, and cleaning up after raw meat."""


def wanted(step: Step, state: CookState, cut: Cut) -> bool:
    """Return whether a step belongs to this cook at its level of detail and has not been overtaken."""
    return left_out(step, state, cut) is None


def left_out(step: Step, state: CookState, cut: Cut) -> str | None:
    """Return why a step is not asked in this cook, None when it is.

    The reasons: merged (told with another, or as news), discarded (that meat was thrown away), kind and detail (nobody
    wants to be told), from_middle, overtaken (a later step was done), ready (the meat comes off now), wrapped,
    out_too_long, or the condition that does not hold.
    """
    if step.anchor.kind == "merged":
        return "merged"
    if state.discarded and (step.scope == "piece" or step.id not in _AFTER_DISCARDING):
        return "discarded"
    unmet = next((name for name in step.only if not _CONDITIONS[name](step, state, cut)), None)
    if unmet is not None:
        return unmet
    if state.planned.from_middle and step.phase in {"before", "fire"}:
        return "from_middle"
    if any(_overtakes(done, step, state) for done in step.until):
        return "overtaken"
    if reached(state, cut) and step.phase == "cooking" and step.id not in _STILL_AFTER_TENDER:
        return "ready"  # it comes off now: nobody looks at fuel or bark any more
    if step.id == "leftovers" and any(rule == "two_hours_out" for rule, _since in state.warned):
        return "out_too_long"  # what was out too long does not go into the fridge
    if _over_by_wrap(step, state):
        return "wrapped"
    return None if step.safety else _unwanted(step, state)


def _overtakes(done: str, step: Step, state: CookState) -> bool:
    """Return whether something that was done ends a step; a fire that is still to come for a later piece does not."""
    told = state.did(done)
    return told is not None and not (step.scope == "piece" and told.at > state.as_of)


def _unwanted(step: Step, state: CookState) -> str | None:
    """Return why people do not want to be told of a step: their word on its kind counts before that on the detail."""
    asked_for = state.kinds.get(step.id)
    if asked_for is not None:
        return None if asked_for else "kind"
    usual = state.detail is Detail.USUAL and step.level is Level.NICE
    few = state.detail is Detail.DECISIONS and step.level is not Level.MUST
    return "detail" if usual or few else None


def _over_by_wrap(step: Step, state: CookState) -> bool:
    """Return whether a wrap has ended a series: nothing is sprayed or smoked through paper or foil."""
    return step.id in {"spritz", "wood_add"} and bool(state.wraps) and state.wraps[-1][1].wrap is not Wrap.NONE


def boxed(state: CookState, cut: Cut) -> bool:
    """Return whether the meat rests in a box: as told, else as the cut wants it (one that does not hold: a tent)."""
    place = None if state.rest is None else state.rest.place
    return holds(cut) if place is None else place is not RestPlace.BOARD


def _warm_place(state: CookState) -> bool:
    """Return whether it rests where no box has to be warmed for it."""
    return state.rest is not None and state.rest.place in {RestPlace.OVEN, RestPlace.COOKER}


def crew(state: CookState) -> bool:
    """Return whether more than one person looks after this cook; guests do not."""
    return len(everybody(state)) > 1


def early_start(state: CookState) -> bool:
    """Return whether the fire is lit so early that somebody has to get up for it: decided where its time is known."""
    return not state.did("light")


def _wrap(step: Step, state: CookState, cut: Cut) -> bool:
    """A wrap that has happened, or a decision to stay bare, is final; above the window of the cut none pays."""
    if step.id == "bark_check" and any(d.outcome == "set" for d in state.done.get("bark_check", ())):
        return False  # it is set and to be wrapped: the wrap itself is asked for
    last = state.last(Slot.CORE)
    if step.id == "bark_check" and last is not None and last.value_c > cut.wrap_until_c:
        return False
    return cut.asks_bark and not state.wraps and not decided_bare(state) and not felt_tender(state)


def _not_soft(_step: Step, state: CookState, _cut: Cut) -> bool:
    felt = state.did("thaw_check")
    return felt is None or felt.outcome != "soft"


def _may_be_kept(state: CookState) -> bool:
    """Return whether there may be leftovers that can still be eaten: not gone, and not out too long before they were
    put away.
    """
    out_too_long = any(rule == "two_hours_out" for rule, _since in state.warned) and chilling_since(state) is None
    return gone_at(state) is None and not out_too_long


_CONDITIONS: dict[Condition, Callable[[Step, CookState, Cut], bool]] = {
    "wrap": _wrap,
    "feel": lambda _step, _state, cut: cut.doneness == "feel",
    "temperature": lambda _step, _state, cut: cut.doneness == "temperature",
    "big": lambda _step, _state, cut: cut.come_up_check,
    "fixed_time": lambda _step, state, _cut: state.serving.kind is not ServingKind.WHEN_READY,
    "frozen": lambda _step, state, _cut: state.planned.frozen,
    "crew": lambda _step, state, _cut: crew(state),
    "several": lambda _step, state, _cut: len(state.pieces) > 1 or state.planned.count > 1,
    "water_pan": lambda _step, state, _cut: state.cooker is not None and state.cooker.water_pan,
    "event": lambda _step, state, _cut: is_cooling_measured(state),
    "kept": lambda _step, state, _cut: _may_be_kept(state),
    "stall": lambda _step, _state, cut: cut.stall_h.high > 0,
    "boxed": lambda step, state, cut: boxed(state, cut) and not (step.id == "box_ready" and _warm_place(state)),
    "wire": lambda _step, state, _cut: state.read_by in {None, ReadBy.WIRE},
    "read": lambda _step, state, _cut: state.read_by is not ReadBy.NONE,
    "salted": lambda _step, _state, cut: cut.salt_pct > 0,
    "carved": lambda _step, _state, cut: cut.serve_by != "whole",
    "spritzed": lambda _step, _state, cut: cut.spritz_every_min is not None,
    "wood_later": lambda _step, state, _cut: state.cooker is None or state.cooker.wood_by != "before",
    "new_pit": lambda _step, state, _cut: state.brings_pit,
    "early": lambda _step, _state, _cut: True,
    "early_start": lambda _step, state, _cut: early_start(state),
    "not_soft": _not_soft,
    "pit_open": lambda _step, state, _cut: pit_ready_at(state) is None,
}
"""Each condition of the catalogue; "event" is a public meal, or the Food Code chosen; "early" is decided where the due
time is known."""
