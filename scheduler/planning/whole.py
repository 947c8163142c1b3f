"""The schedule of a cook of several pieces: what is done once for all, and what is done to each.

Pure. Steps of scope "cook" are scheduled once, on a state in which the first piece lights the fire and the last one
closes it; steps of scope "piece" once for each.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.fuel import light_lead
from scheduler.planning.outlook import Outlook, Window
from scheduler.planning.pit_change import pit_change
from scheduler.planning.prompts import Prompt, step_of
from scheduler.planning.schedule import aligned, itinerary, schedule
from scheduler.planning.steps import Step
from scheduler.planning.views import PieceView, waiting
from scheduler.state import FIRST, PIECE_STEPS, CookState, DoneAt

_WHEN_FIRST = frozenset({"trim", "dry_brine", "probe_in", "meat_on"})
"""Steps that have happened for the cook when they were done to the first piece; all others when done to the last."""

_PER_BOARDING = frozenset({"raw_cleanup"})
"""What is asked again when more raw meat goes on."""

_PER_WAVE = frozenset({"two_hour", "leftovers"})
"""What is asked again when food comes out after it was put away."""

_READY = frozenset({"smoke_clean", "pit_stable"})
"""Conditions that were met for a fire that burns already."""

_LATER = dt.timedelta(minutes=20)
"""A piece that goes on so much after the first finds the fire burning: nobody asks for its smoke again."""


def whole_schedule(views: tuple[PieceView, ...], catalogue: Catalogue) -> tuple[Prompt, ...]:
    """Return the open prompts of a cook in the order of their due times."""
    if len(views) == 1:
        view = views[0]
        return schedule(view.state, view.outlook, view.cut, catalogue)
    prompts: list[Prompt] = []
    for view in views:
        own = schedule(_in_turn(view, views), view.outlook, view.cut, catalogue)
        prompts += [prompt for prompt in own if prompt.step.scope == "piece"]
    leads = [p for p in prompts if p.step.id in {"core_read", "tender_test"} and not p.asked]
    for prompt in _shared(views, catalogue):
        near = min(leads, key=lambda lead: abs(lead.due_at - prompt.due_at), default=None)
        prompts.append(prompt if near is None else aligned(prompt, near))
    return tuple(sorted(prompts, key=lambda p: (p.due_at, catalogue.steps.order(p.step.id), p.piece)))


Course = tuple[dt.datetime, Step, str | None]
"""A step still to come: its expected time, and its piece (None: of the whole cook)."""


def whole_itinerary(views: tuple[PieceView, ...], catalogue: Catalogue) -> tuple[Course, ...]:
    """Return every step still to come once, at its expected time, with its piece (None: of the whole cook)."""
    if len(views) == 1:
        view = views[0]
        return tuple((at, step, None) for at, step in itinerary(view.state, view.outlook, view.cut, catalogue))
    found: list[Course] = []
    lead = views[0]
    state = whole_state(views)
    shared = itinerary(state, whole_outlook(views, lead), _whole_cut(views), catalogue)
    found += [(at, step, None) for at, step in shared if step.scope == "cook"]
    again = [step for step in catalogue.steps.steps if step.id in _PER_BOARDING]
    for boarding in _boardings(views)[1:]:
        on_at = boarding[-1].outlook.on_at
        found += [(on_at, step, None) for step in again if not boarding[0].state.did("meat_on")]
    for view in views:
        own = itinerary(_in_turn(view, views), view.outlook, view.cut, catalogue)
        found += [(at, step, view.piece) for at, step in own if step.scope == "piece"]
    return tuple(sorted(found, key=lambda entry: (entry[0], catalogue.steps.order(entry[1].id), entry[2] or "")))


def _shared(views: tuple[PieceView, ...], catalogue: Catalogue) -> list[Prompt]:
    """Return the prompts of what is done once: up to dinner, and for every wave what becomes of the food."""
    lead = views[0]
    state, outlook = whole_state(views), whole_outlook(views, lead)
    cut = _whole_cut(views)
    prompts = [
        prompt
        for prompt in schedule(state, outlook, cut, catalogue)
        if prompt.step.scope == "cook" and prompt.step.phase != "after" and prompt.step.id not in _PER_BOARDING
    ]
    for boarding in _boardings(views):
        boarded = _boarded(state, boarding)
        prompts += [p for p in schedule(boarded, outlook, cut, catalogue) if p.step.id in _PER_BOARDING]
    keys: set[str] = set()
    for wave in _waves(views):
        served = _after(state, wave)
        for prompt in schedule(served, outlook, cut, catalogue):
            again = served.piece != FIRST and prompt.step.id not in _PER_WAVE
            if prompt.step.scope == "cook" and prompt.step.phase == "after" and not again and prompt.key not in keys:
                keys.add(prompt.key)
                prompts.append(prompt)
    return prompts


def _whole_cut(views: tuple[PieceView, ...]) -> Cut:
    """Return the cut of the leading piece, for one trip to the shop: no raw meat waits longer than any of it keeps."""
    raw = [view for view in views if not view.state.did("meat_on")] or list(views)
    strictest = min((view.cut.fridge_days for view in raw), key=lambda days: days[1])
    return views[0].cut.model_copy(update={"fridge_days": strictest})


def _boardings(views: tuple[PieceView, ...]) -> list[list[PieceView]]:
    """Return the pieces in groups that go on together, by what happened or is expected: raw meat lies about once for
    each of them.
    """
    found: list[list[PieceView]] = []
    for view in sorted(views, key=lambda view: view.outlook.on_at):
        if found and view.outlook.on_at - found[-1][0].outlook.on_at <= _LATER:
            found[-1].append(view)
        else:
            found.append([view])
    return found


def _boarded(state: CookState, boarding: list[PieceView]) -> CookState:
    """Return the state in which only these pieces went on, the newest of them last; what was washed before does not
    count.
    """
    on = [one for view in boarding if (one := view.state.did("meat_on")) is not None]
    done = {step: times for step, times in state.done.items() if step != "meat_on"}
    if on:
        done["meat_on"] = (max(on, key=lambda one: one.at),)
    first_at = min((one.at for one in on), default=None)
    for step in _PER_BOARDING:
        done[step] = tuple(d for d in state.done.get(step, ()) if first_at is not None and d.at >= first_at)
    key = f"{boarding[0].piece}/"
    closed = {k: at for k, at in state.closed.items() if step_of(k) not in _PER_BOARDING or k.startswith(key)}
    return dataclasses.replace(state, piece=boarding[0].piece, done=done, closed=closed)


def _waves(views: tuple[PieceView, ...]) -> list[PieceView]:
    """Return the first piece of every wave that was served apart: within twenty minutes it is one wave."""
    served = sorted(
        (v for v in _left(views) if v.state.did("serve")), key=lambda v: v.state.at("serve") or v.outlook.on_at
    )
    waves: list[PieceView] = []
    for view in served:
        at, before = view.state.at("serve"), waves[-1].state.at("serve") if waves else None
        if at is not None and (before is None or at - before > _LATER):
            waves.append(view)
    return waves or [_left(views)[0]]


def _left(views: tuple[PieceView, ...]) -> tuple[PieceView, ...]:
    """Return the pieces that were not thrown away; all of them when all were."""
    return tuple(view for view in views if not view.state.discarded) or views


def _after(state: CookState, wave: PieceView) -> CookState:
    """Return the state in which the food of one wave came out; the first wave keeps the keys of the cook."""
    done_at = wave.state.did("serve")
    if done_at is None:
        return state
    done = {**state.done, "serve": (done_at,)}
    first = min(
        (at for key, at in state.closed.items() if step_of(key) in _PER_WAVE and key.startswith(f"{FIRST}/")),
        default=None,
    )
    if first is None or first > done_at.at:
        return dataclasses.replace(state, done=done)
    for step in _PER_WAVE:
        done[step] = tuple(d for d in state.done.get(step, ()) if d.at >= done_at.at)
    closed = {
        key: at for key, at in state.closed.items() if step_of(key) not in _PER_WAVE or key.startswith(f"{wave.piece}/")
    }
    return dataclasses.replace(state, piece=wave.piece, done=done, closed=closed)


def whole_state(views: tuple[PieceView, ...]) -> CookState:
    """Return the state of the whole cook: what is done to every piece has happened when the last one had it."""
    lead = views[0].state
    done = {step: times for step, times in lead.done.items() if step not in PIECE_STEPS}
    for step in PIECE_STEPS:
        times = [view.state.did(step) for view in _left(views)]
        known = sorted((t for t in times if t is not None), key=lambda t: t.at)
        if known and step in _WHEN_FIRST:
            done[step] = (known[0],)
        elif known and len(known) == len(times):
            done[step] = (known[-1],)
    return dataclasses.replace(
        lead,
        piece=FIRST,
        done=done,
        pit=_on_the_fire(views).state.pit,
        planned=dataclasses.replace(lead.planned, from_middle=_first_planned(views).state.planned.from_middle),
        feels=(),
        discarded=lead.discarded if all(view.state.discarded for view in views) else (),
        serving=next_wave(views).state.serving,
    )


def _first_planned(views: tuple[PieceView, ...]) -> PieceView:
    return min(views, key=lambda view: view.state.planned_at)


def _on_the_fire(views: tuple[PieceView, ...]) -> PieceView:
    """Return a piece that sees the pit of the cooker: one that is on it, else the first."""
    return next((v for v in views if v.state.stage == "cooking" and v.state.oven is None), views[0])


def next_wave(views: tuple[PieceView, ...]) -> PieceView:
    """Return the piece that is wanted first of those not served yet."""
    far = dt.datetime.max.replace(tzinfo=dt.UTC)
    return min(waiting(views), key=lambda view: view.outlook.serve_at or far)


def whole_outlook(views: tuple[PieceView, ...], lead: PieceView) -> Outlook:
    """Return what is expected of the whole cook: on with the first piece, off with the last, then the next wave."""
    on_at = min(view.outlook.on_at for view in views)
    last = max((v.outlook.pull for v in _left(views) if v.outlook.pull.likely is not None), key=_likely, default=None)
    wave = next_wave(views)
    same = [v for v in views if v.outlook.serve_at == wave.outlook.serve_at and v.to_come] or [wave]
    plates = [v.outlook.plate_at for v in same if v.outlook.plate_at is not None]
    return dataclasses.replace(
        lead.outlook,
        on_at=on_at,
        light_at=lead.state.at("light") or on_at - light_lead(lead.state.cooker),
        pull=last or lead.outlook.pull,
        serve_at=wave.outlook.serve_at,
        serve_end=wave.outlook.serve_end,
        plate_at=max(plates, default=None),
    )


def _likely(window: Window) -> dt.datetime:
    assert window.likely is not None
    return window.likely


def _in_turn(view: PieceView, views: tuple[PieceView, ...]) -> CookState:
    """Return the state that a piece is scheduled on: one that goes on later finds the fire as if lit for it."""
    on_at = view.outlook.on_at
    state = dataclasses.replace(view.state, brings_pit=pit_change(view, views) is not None)
    lit = state.did("light")
    burns = any(other.state.did("meat_on") for other in views)
    first_on = min(other.outlook.on_at for other in views)
    if state.did("meat_on") or lit is None or not (burns or on_at - first_on > _LATER):
        return state
    ready_at = max(lit.at, on_at - light_lead(state.cooker))
    closed = {key: max(at, on_at) if step_of(key) in _READY else at for key, at in state.closed.items()}
    for step in _READY:
        closed.setdefault(f"{FIRST}/{step}/1", on_at)
    done = {**state.done, "light": (DoneAt(at=ready_at, by=lit.by, outcome=lit.outcome, fact=lit.fact),)}
    return dataclasses.replace(state, done=done, closed=closed)
