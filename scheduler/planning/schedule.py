"""The schedule: every prompt that a log of facts and its outlook call for.

Pure: the same log gives the same schedule. Nothing is sent from here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from zoneinfo import ZoneInfo

from scheduler.cuts import Cut
from scheduler.facts import Slot
from scheduler.planning import series
from scheduler.planning.anchors import Anchors, Due
from scheduler.planning.escalation import again_min
from scheduler.planning.handover import asked_anew
from scheduler.planning.nights import getting_up, quiet_hours
from scheduler.planning.outlook import Outlook
from scheduler.planning.prompts import Prompt, Why, key_of, step_of
from scheduler.planning.shaping import before_the_meat, shaped, waiting_for_claim
from scheduler.planning.steps import Catalogue, Step
from scheduler.planning.telling import wanted
from scheduler.planning.trips import JOIN
from scheduler.safety.case import OPENING
from scheduler.state import AskedAt, CookState, Stage

_EVENING, _MORNING = dt.timedelta(hours=2), dt.timedelta(hours=2)
"""Nothing of the day before is asked in the quiet hours, but so long before them; nothing of the days after, but so
long after them; common practice, no source."""

_DAYS_AFTER = 24 * 60
"""Minutes after its event from which a step is one of the days after."""

_ALIGN = dt.timedelta(minutes=30)
"""A pit or fuel check this near to a reading of the meat joins it (slip limits of both steps); common practice, no
source."""

_NEED_MEAT = frozenset({"pull", "serve_reading", "slice", "serve"})
"""Besides the steps of the cooking itself: planned from the start, but asked only once there is meat on the fire."""

_MOVED_TIMES = 2
"""How often more than its step allows a prompt is asked because it has moved to later since: house rule."""

_NEED_PULL = frozenset({"serve_reading", "slice", "serve"})
"""Nobody is asked to slice what is still on the fire."""

_FROM_PLAN = frozenset({"handover"})
"""Steps of the cooking that follow the clock of people and not the meat."""

_SERVES = dt.timedelta(minutes=15)
"""A reading that the box needs so long before the last one before serving is that one, taken then: within half an hour
of the plate it tells how hot the food comes out."""

_AWAKE = dt.timedelta(hours=2)
"""Who told something so short a time before need not be woken; common practice, no source."""

_SLOW, _SLOWEST = dt.timedelta(hours=1), dt.timedelta(hours=4)
_REMINDED = frozenset({"wrap_do"})
"""Decided and not told to be done: reminded of once more after an hour, then the plan only says so."""
_SLOW_TIMES = 6
"""An open step that nobody answers is asked again after 1, 2, 4, 4, 4 and 4 hours, then it rests: house rule."""


def schedule(state: CookState, outlook: Outlook, cut: Cut, catalogue: Catalogue) -> tuple[Prompt, ...]:
    """Return the open prompts of a cook in the order of their due times."""
    if state.stage is Stage.CLOSED:
        return ()
    state = _off_the_fire(state)
    anchors = Anchors(state=state, outlook=outlook, cut=cut, catalogue=catalogue)
    prompts = [
        prompt
        for step in catalogue.steps.steps
        if wanted(step, state, cut) and (prompt := _prompt(step, anchors)) is not None
    ]
    night = before_the_meat(shaped(tuple(_together(prompts, state)), state), state)
    return tuple(sorted(night, key=lambda p: (p.due_at, catalogue.steps.order(p.step.id))))


def _off_the_fire(state: CookState) -> CookState:
    """Return the state in which meat that was thrown away has left the fire, so that the fire is put out after it."""
    burns = state.did("light") or state.did("meat_on")
    if not state.discarded or not burns or state.did("pull"):
        return state
    return dataclasses.replace(state, done={**state.done, "pull": (state.discarded[0],)})


def itinerary(
    state: CookState, outlook: Outlook, cut: Cut, catalogue: Catalogue
) -> tuple[tuple[dt.datetime, Step], ...]:
    """Return every step still to come once, at its expected time: the plan as people read it."""
    state = _off_the_fire(state)
    anchors = Anchors(state=state, outlook=outlook, cut=cut, catalogue=catalogue, projected=True)
    found = []
    for step in catalogue.steps.steps:
        again = step.repeat is not None and anchors.number(step) > 1 and step.id != "hold_check"
        if not wanted(step, state, cut) or again:
            continue
        if step.id in {"refuel", "wrap_do", "thaw_rescue"}:  # these follow answers, not the plan
            continue
        due = anchors.due(step) if anchors.number(step) == 1 else None
        if due is not None and (not _in_its_time(step, due, state) or _after_the_fire(step, due, outlook)):
            continue
        if step.id == "hold_check" and due is not None:
            due = _before_opening(due, outlook)
        if due is not None and not _after_the_pull(step, due, outlook):
            found.append((_not_at_night(step, due, state), step))
    return tuple(sorted(found, key=lambda entry: (entry[0], catalogue.steps.order(entry[1].id))))


def _after_the_pull(step: Step, due: Due, outlook: Outlook) -> bool:
    """Return whether a step of the cooking would come only when the meat is expected off."""
    off_at = outlook.pull.likely
    return step.phase == "cooking" and step.id not in _FROM_PLAN and off_at is not None and due.at > off_at


def _after_the_fire(step: Step, due: Due, outlook: Outlook) -> bool:
    """Return whether a step that the pull ends is only due after it: a short cook needs no later look at the fuel."""
    return "pull" in step.until and outlook.pull.likely is not None and due.at > outlook.pull.likely


def _before_opening(due: Due, outlook: Outlook) -> Due | None:
    """Return the reading of held meat, None when the box is opened for dinner by then."""
    return due if outlook.plate_at is None or due.at < outlook.plate_at - JOIN else None


def _prompt(step: Step, anchors: Anchors) -> Prompt | None:
    state = anchors.state
    number = anchors.number(step)
    again = _opened_too_early(step, anchors)
    once = step.happens_once and not again
    if once and (number > 1 or state.did(step.id) or any(state.did(other) for other in step.closed_by)):
        return None
    on_somewhen = step.id in _NEED_MEAT and state.planned.from_middle
    need_meat = (step.phase == "cooking" or step.id in _NEED_MEAT) and step.id not in _FROM_PLAN
    if need_meat and not (state.did("meat_on") or on_somewhen):
        return None
    if step.id in _NEED_PULL and not state.did("pull"):
        return None
    due = anchors.due(step)
    if due is None or not _in_its_time(step, due, state):
        return None
    if again and state.did("slice") and anchors.outlook.plate_at is not None:  # nothing to walk for before the plate
        due = dataclasses.replace(due, at=anchors.outlook.plate_at)
    if state.planned.from_middle and _long_past(step, due, state):
        return None
    return _asked(step, anchors, due)


def _opened_too_early(step: Step, anchors: Anchors) -> bool:
    """Return whether the reading before serving was answered, and dinner has slipped so far that it is too old now."""
    state, plate_at = anchors.state, anchors.outlook.plate_at
    answered = [at for key, at in state.closed.items() if step_of(key) == step.id and key not in state.withdrawn]
    if step.id != "serve_reading" or not answered or plate_at is None or state.did("serve"):
        return False
    last = state.last(Slot.CORE)
    return plate_at - (max(answered) if last is None else last.at) > OPENING


def _in_its_time(step: Step, due: Due, state: CookState) -> bool:
    """Return whether a step has a place where its time lies: far ahead only if planned by then, getting up only if it
    is early.
    """
    if "early" in step.only and state.planned_at > due.at:
        return False
    asleep = getting_up(state, due.at) and state.heard_at < due.at - _AWAKE
    return "early_start" not in step.only or asleep


def _long_past(step: Step, due: Due, state: CookState) -> bool:
    """Return whether a step lay before a cook that was started in the middle: unknown, and not asked now."""
    return due.at < state.planned_at and due.why.kind == "after" and step.repeat is None


def _asked(step: Step, anchors: Anchors, due: Due) -> Prompt:
    """Return the prompt with what follows from its having been asked, put off or claimed."""
    state = anchors.state
    key = key_of(state.piece, step.id, anchors.number(step))
    asked = state.asked.get(key)
    prompt = Prompt(
        key=key,
        cook=state.cook,
        piece=state.piece,
        step=step,
        due_at=_not_at_night(step, due, state),
        why=due.why,
        order=anchors.catalogue.steps.order(step.id),
        asked=asked.times if asked else 0,
        asked_at=asked.last_at if asked else None,
        late_from=due.at,
    )
    put_off_to = state.put_off.get(step.id)
    if put_off_to is not None and put_off_to > max(prompt.due_at, asked.last_at if asked else prompt.due_at):
        return dataclasses.replace(prompt, due_at=put_off_to, wake_at=put_off_to, why=Why(kind="put_off"))
    if asked is not None:
        return waiting_for_claim(_again(prompt, asked, anchors), state)
    return waiting_for_claim(dataclasses.replace(prompt, wake_at=prompt.due_at), state)


def _again(prompt: Prompt, asked: AskedAt, anchors: Anchors) -> Prompt:
    """Return a prompt that was asked with when it is asked again, and when it is given up.

    So long after the last asking; where it has moved to later since (dinner moved, the meat runs slow), at its new
    time; where somebody else is called when nobody answers, after the minutes of that stage.
    """
    step, state, due_at = prompt.step, anchors.state, prompt.due_at
    stage_min = again_min(step, state, asked)
    again = asked.last_at + dt.timedelta(minutes=stage_min or step.unanswered.again_min)
    moved = due_at > max(asked.last_at + JOIN, state.as_of)
    again = due_at if moved else again
    more = stage_min is not None or asked.times <= step.unanswered.times + (_MOVED_TIMES if moved else 0)
    more = more and not series.asked_out(step, state)
    if (since := asked_anew(step, state, asked.last_at)) is not None:
        again, more = since, True
    if not more and step.unanswered.then == "open":
        again, more = _slowly(step, asked, again)
    elif not more and step.id in _REMINDED and asked.times == step.unanswered.times + 1:
        again, more = max(again, asked.last_at + _SLOW), True
    late_until = asked.first_at + dt.timedelta(minutes=step.late_min)
    lapses_at = max(again, late_until) if not more and step.unanswered.then == "lapse" else None
    follows_at = None
    if lapses_at is not None and step.repeat is not None:
        follows_at = max(lapses_at, asked.last_at + dt.timedelta(minutes=series.rhythm(anchors, step, one_more=True)))
    return dataclasses.replace(
        prompt, wake_at=again if more else None, lapses_at=lapses_at, follows_at=follows_at
    )  # fmt: skip


_ONCE = frozenset({"reheat"})
"""Said once and left open: nobody has to reheat anything, and a number answers it whenever it comes."""


def _slowly(step: Step, asked: AskedAt, again: dt.datetime) -> tuple[dt.datetime, bool]:
    """Return when an open step that nobody answers is asked once more, in growing pauses, and whether it still is."""
    if step.id in _ONCE:
        return again, False
    extra = asked.times - step.unanswered.times - 1
    pause = min(_SLOWEST, _SLOW * 2**extra)
    return max(again, asked.last_at + pause), extra < _SLOW_TIMES


def _not_at_night(step: Step, due: Due, state: CookState) -> dt.datetime:
    """Return the due time out of the night: of the day before in the evening, of the days after in the morning.

    A step of safety is never late by it: ash only gets safer, and leftovers are asked about the evening before.
    """
    days_after = step.phase == "after" and (due.why.minutes or 0) >= _DAYS_AFTER
    if step.phase != "before" and not days_after:
        return due.at
    start, end = quiet_hours(state)
    local = due.at.astimezone(ZoneInfo(state.serving.zone))
    night = (dt.datetime.combine(local.date(), end) - dt.datetime.combine(local.date(), start)) % dt.timedelta(days=1)
    since = (local.replace(tzinfo=None) - dt.datetime.combine(local.date(), start)) % dt.timedelta(days=1)
    if since >= night:
        return due.at
    wall = local.replace(tzinfo=None) - since
    if (days_after and step.id != "leftover_expire") or step.id == "collect_meat":  # raw meat waits no longer for it
        return (wall + night + _MORNING).replace(tzinfo=local.tzinfo).astimezone(dt.UTC)
    earliest = due.at - dt.timedelta(minutes=step.early_min)
    return max((wall - _EVENING).replace(tzinfo=local.tzinfo).astimezone(dt.UTC), earliest)


def _together(prompts: list[Prompt], state: CookState) -> list[Prompt]:
    """Put readings together: one walk to the cooker for pit, meat and fuel, and never the same number asked twice."""
    by_step = {p.step.id: p for p in prompts}
    feel, reading = by_step.get("tender_test"), by_step.get("core_read")
    feeling = bool(state.feels) or (feel is not None and feel.asked > 0)
    if reading is not None and reading.asked == 0:
        soon = feel is not None and max(reading.due_at, state.as_of) >= feel.due_at - JOIN
        if feeling or soon:  # the feel for tenderness asks for the same number
            prompts = [p for p in prompts if p is not reading]
            reading = None
    pit = by_step.get("pit_check")
    if pit is not None and feel is not None and (feeling or pit.due_at >= feel.due_at - JOIN) and not pit.asked:
        prompts = [p for p in prompts if p is not pit]  # with the lid open for the feel the pit tells nothing
    rising, there = by_step.get("pit_rising"), by_step.get("pit_stable")
    if rising is not None and there is not None and not rising.asked and there.early_from <= rising.due_at:
        prompts = [p for p in prompts if p is not rising]  # the pit is read in the same trip anyway
    hold, last = by_step.get("hold_check"), by_step.get("serve_reading")
    coming = last is not None and last.wake_at is not None  # one that is no longer asked for takes nobody's place
    if coming and hold is not None and last is not None and hold.asked == 0 and hold.due_at >= last.due_at - _SERVES:
        sooner = dataclasses.replace(last, due_at=hold.due_at, wake_at=hold.due_at)
        asked_sooner = not last.asked and hold.due_at < last.due_at
        prompts = [sooner if p is last and asked_sooner else p for p in prompts if p is not hold]
    lead = reading or feel
    return prompts if lead is None or lead.asked else [aligned(p, lead) for p in prompts]


def aligned(prompt: Prompt, lead: Prompt) -> Prompt:
    """Return a pit or fuel check moved to the reading of the meat when that is within half an hour."""
    near = abs(prompt.due_at - lead.due_at) <= _ALIGN
    if prompt.step.id not in {"pit_check", "fuel_check"} or prompt.asked or prompt.why.kind == "put_off" or not near:
        return prompt
    if prompt.why.kind == "repeat" and prompt.why.minutes != (prompt.step.repeat and prompt.step.repeat.every_min):
        return prompt  # looked at sooner because the pit is off
    return dataclasses.replace(prompt, due_at=lead.due_at, wake_at=lead.due_at)
