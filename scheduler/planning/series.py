"""A series of one step: when the next of it comes, and when it has ended.

Pure; the first of a series is dated in `scheduler.planning.anchors`.
"""

from __future__ import annotations

import datetime as dt
from typing import Protocol

from scheduler.cuts import Cut
from scheduler.facts import Feel, Slot
from scheduler.planning.nights import is_quiet, quiet_start
from scheduler.planning.outlook import Outlook, decided_bare
from scheduler.planning.prompts import key_of, step_of
from scheduler.planning.rest import read_by
from scheduler.planning.steps import Step
from scheduler.planning.worth import worth_reading_at
from scheduler.safety import ACT_C
from scheduler.safety.holding import held_reading
from scheduler.state import OVERTAKEN, CookState
from scheduler.state.values import PitBand

PIT_OFF_C = 8.0
"""A pit this far out of its band is looked at again sooner [°C]; common practice, no source."""

_FAR_TOO_HOT_C, _FAR_ABOVE_C = 150.0, 28.0
"""A pit over the first and so far above its band is a runaway fire [°C]; common practice, no source."""


def far_too_hot_c(band: PitBand) -> float:
    """Return above which the pit wakes whoever leads [°C]."""
    return max(_FAR_TOO_HOT_C, band.high_c + _FAR_ABOVE_C)


NEAR_C = 8.0
"""Within this of a decision the core is read more often [°C]; common practice, no source."""

BARK_STEP_C = 6.0
"""After "not yet" the bark is looked at again when the core has risen by this [°C]; common practice, no source."""

_BREATH = dt.timedelta(minutes=5)
"""Held meat is not read again before this, whatever the estimate says."""

_TIGHT_MOST = dt.timedelta(hours=1)
"""What felt tight is felt again once one piece in ten would be tender, but within this: house rule."""

_TWO = 2
"""A rise needs two readings."""

_BEFORE_NIGHT = dt.timedelta(minutes=15)
"""Fuel is looked at so long before the quiet hours begin; common practice, no source: always before a night watch."""


class Anchors(Protocol):
    """What a series is dated by (`scheduler.planning.anchors`)."""

    @property
    def state(self) -> CookState:
        """Return the state of the cook."""

    @property
    def outlook(self) -> Outlook:
        """Return what is expected of it."""

    @property
    def cut(self) -> Cut:
        """Return what is cooked."""

    def number(self, step: Step) -> int:
        """Return the number of the next prompt of a step."""


def _minutes(value: float) -> dt.timedelta:
    return dt.timedelta(minutes=value)


def next_at(anchors: Anchors, step: Step, number: int) -> tuple[dt.datetime, float] | None:
    """Return when the next of a series is due and the minutes since the one before, None when there is no next."""
    state, repeat = anchors.state, step.repeat
    if repeat is None or (repeat.most is not None and number > repeat.most):
        return None
    if key_of(state.piece, step.id, number) not in state.asked and asked_out(step, state):
        return None  # the one before was asked again and again: nobody is asked once more
    if step.phase == "resting" and state.at("pull") is None:
        return None  # the pull was taken back
    before = key_of(state.piece, step.id, number - 1)
    base = state.closed.get(before)
    asked = state.asked.get(before)
    if state.withdrawn.get(before, OVERTAKEN) != OVERTAKEN and asked is not None:
        base = asked.last_at
    if base is None:
        return None
    every = rhythm(anchors, step, base=base)
    at = base + _minutes(every)
    match step.id:
        case "core_read" if every >= repeat.every_min and not _wanted(anchors, step, number, at):
            at = worth_reading_at(at, state, anchors.outlook, anchors.cut)
            every = (at - base) / _minutes(1)
        case "bark_check":
            at = _risen(anchors, base, at)
        case "second_spot":
            at = _warmer(anchors, base, at)
        case "fuel_check":
            at = before_night(anchors, base, at)
        case "tender_test" if _tight(anchors):
            early = anchors.outlook.pull.early
            at = at if early is None else max(at, min(early, base + _TIGHT_MOST))
        case "hold_check":
            at = _careful(anchors, base, at)
            every = (at - base) / _minutes(1)
    return at, every


def asked_out(step: Step, state: CookState) -> bool:
    """Return whether a step that has only so many questions has asked them all, whichever of its series they were."""
    if step.repeat is None or not step.repeat.most_asked or step.repeat.most is None:
        return False
    times = sum(asked.times for key, asked in state.asked.items() if step_of(key) == step.id)
    return times >= step.repeat.most


def over(anchors: Anchors, step: Step, at: dt.datetime) -> bool:
    """Return whether a series has ended by an instant: spritz and wood by the core, wood by its hours as well."""
    cut, on_at = anchors.cut, anchors.state.at("meat_on")
    match step.id:
        case "spritz":
            return cut.spritz_until_c is not None and _passed(anchors, cut.spritz_until_c, at)
        case "wood_add":
            late = on_at is not None and at > on_at + dt.timedelta(hours=cut.wood_until_h)
            return late or _passed(anchors, cut.wood_until_c, at)
        case _:
            return False


def _passed(anchors: Anchors, core_c: float, at: dt.datetime) -> bool:
    """Return whether the core has passed a temperature by an instant, as read or as forecast."""
    last = anchors.state.last(Slot.CORE)
    if last is not None and last.value_c >= core_c:
        return True
    crossed_at = anchors.outlook.crossing(core_c).quantile(0.5)
    return crossed_at is not None and crossed_at <= at


def rhythm(anchors: Anchors, step: Step, *, one_more: bool = False, base: dt.datetime | None = None) -> float:
    """Return the minutes to the next of a series: closer near a decision or while the pit is off, longer at night.

    Each time in a row that nobody answered makes the pause longer by one; `one_more` counts the one now open.
    """
    repeat = step.repeat
    assert repeat is not None
    every = repeat.every_min
    if step.id == "spritz" and anchors.cut.spritz_every_min is not None:
        every = anchors.cut.spritz_every_min
    silent = _unanswered(anchors, step) + (1 if one_more else 0)
    if silent:
        return every * (1 + silent)
    closer = {"pit_check": _pit_off, "core_read": _near_decision, "tender_test": _almost}.get(step.id)
    if repeat.closer_min is not None and closer is not None and closer(anchors):
        return repeat.closer_min
    night = repeat.night_min
    if night is not None and base is not None and is_quiet(anchors.state, base) and _quietly(anchors, base, night):
        return max(every, night)
    return every


def _quietly(anchors: Anchors, base: dt.datetime, minutes: float) -> bool:
    """Return whether the longer rhythm of the night fits: still night then, and no decision before."""
    decisions = [anchors.outlook.crossing(c).quantile(0.5) for c in _decisions_c(anchors)]
    at = base + _minutes(minutes)
    return is_quiet(anchors.state, at) and not any(d is not None and base <= d <= at for d in decisions)


def _decisions_c(anchors: Anchors) -> tuple[float, ...]:
    cut = anchors.cut
    bark = (cut.bark_look_c,) if cut.asks_bark and not anchors.state.wraps else ()
    return (*bark, cut.start_testing_c)


def before_night(anchors: Anchors, base: dt.datetime, at: dt.datetime) -> dt.datetime:
    """Return a look at the fuel moved to just before the quiet hours, when it would come in them."""
    before = quiet_start(anchors.state, base) - _BEFORE_NIGHT
    return before if base + _minutes(30) <= before < at else at


def _wanted(anchors: Anchors, step: Step, number: int, at: dt.datetime) -> bool:
    """Return whether a reading is wanted whatever it would tell: there are not yet two that show a rise, it was
    asked for already or put off by somebody, or the bark is to be looked at within the hour.
    """
    state, cut = anchors.state, anchors.cut
    on_at = state.at("meat_on")
    read = [r for r in state.read(Slot.CORE) if on_at is not None and r.at > on_at]
    put_off = state.put_off.get(step.id)
    asked = key_of(state.piece, step.id, number) in state.asked
    if asked or len(read) < _TWO or (put_off is not None and put_off > read[-1].at):
        return True
    if read[-1].value_c >= cut.bark_look_c or not cut.asks_bark or state.wraps or decided_bare(state):
        return False
    look_at = anchors.outlook.crossing(cut.bark_look_c).quantile(0.5)
    return look_at is not None and look_at <= at + _minutes(60)


def _unanswered(anchors: Anchors, step: Step) -> int:
    """Return how many of the newest prompts of a series were given up without an answer."""
    count = 0
    for number in range(anchors.number(step) - 1, 0, -1):
        if anchors.state.withdrawn.get(key_of(anchors.state.piece, step.id, number)) != "no_answer":
            break
        count += 1
    return count


def _pit_off(anchors: Anchors) -> bool:
    last, band = anchors.state.last(Slot.PIT), anchors.state.pit[-1]
    return last is not None and not band.low_c - PIT_OFF_C <= last.value_c <= band.high_c + PIT_OFF_C


def _near_decision(anchors: Anchors) -> bool:
    last = anchors.state.last(Slot.CORE)
    return last is not None and 0 <= anchors.cut.start_testing_c - last.value_c <= NEAR_C


def _tight(anchors: Anchors) -> bool:
    feels = anchors.state.feels
    return bool(feels) and feels[-1][1].feel is Feel.TIGHT


def _almost(anchors: Anchors) -> bool:
    feels = anchors.state.feels
    return bool(feels) and feels[-1][1].feel is Feel.ALMOST


def _risen(anchors: Anchors, base: dt.datetime, at: dt.datetime) -> dt.datetime:
    """Return when the bark is looked at again: after a rise as read or as forecast, or at its time if that is first."""
    readings = [r for r in anchors.state.read(Slot.CORE) if r.at <= base]
    if not readings:
        return at
    higher_c = readings[-1].value_c + BARK_STEP_C
    read_at = next((r.at for r in anchors.state.read(Slot.CORE) if r.at > base and r.value_c >= higher_c), None)
    if read_at is not None:
        return min(at, read_at)
    risen_at = anchors.outlook.crossing(higher_c).quantile(0.5)
    return at if risen_at is None else min(at, max(risen_at, base + _minutes(5)))


def _warmer(anchors: Anchors, base: dt.datetime, at: dt.datetime) -> dt.datetime:
    """Return when spots are read again that were not warm enough: when the lowest is expected there."""
    ready_at = anchors.outlook.crossing(anchors.cut.off_c).quantile(0.5)
    return at if ready_at is None else min(at, max(ready_at, base + _minutes(5)))


def _careful(anchors: Anchors, base: dt.datetime, at: dt.datetime) -> dt.datetime:
    """Return when held meat is read again: when the estimate made anew from the last reading has come down to the
    acting temperature, no sooner and no later; in the usual rhythm once it is to be acted on, or was never read.
    """
    last = held_reading(anchors.state)
    if last is None:
        return at
    if last.value_c - last.spread_c <= ACT_C:
        return max(at, last.at + (at - base))
    by = read_by(anchors.state, anchors.cut)
    return at if by is None else max(by, base + _BREATH)
