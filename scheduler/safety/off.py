"""Rules of food that is off the fire, on the table or put away: measured, held, left out."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Feel
from scheduler.safety.case import Case
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.holding import ACT_C, FLOOR_C, held_reading
from scheduler.safety.minimum import safe_gate
from scheduler.safety.put_away import chilling_since, out_since
from scheduler.state import CookState, Stage

TWO_HOURS = dt.timedelta(hours=2)
"""Food out of temperature control: USDA FSIS basics for handling food safely (1 h above 32 C)."""


_SETTLES = ("two_hour", "leftovers", "reheat_away", "leftover_expire")
"""Steps by which food that is out is cooled, kept hot, eaten or thrown away."""


def next_look(state: CookState) -> dt.datetime | None:
    """Return when time alone may make something unsafe: two hours after the food came out."""
    out_at = out_since(state)
    if out_at is None or _put_away(state, out_at):
        return None
    limit_at = out_at + TWO_HOURS
    return None if ("two_hours_out", out_at) in state.warned else limit_at


def _put_away(state: CookState, served_at: dt.datetime) -> bool:
    """Return whether the food was put away since it came out: what was put away before was an earlier wave."""
    times = [done.at for step in _SETTLES for done in state.done.get(step, ())]
    return any(at >= served_at for at in times)


def unmeasured(case: Case) -> list[Finding]:
    """The minimum has not been measured although the meat is being served."""
    state, cut, cuts, now = case.state, case.cut, case.cuts, case.now
    served = state.did("serve")
    gate = safe_gate(state, cut, cuts)
    if served is None or gate.is_open(now) or _put_away(state, served.at):
        return []
    return [
        Finding(
            rule="minimum_not_measured",
            level=FindingLevel.STOP,
            found_c=None if gate.lowest is None else gate.lowest.value_c - gate.lowest.spread_c,
            limit_c=gate.minimum_c,
            since=served.at,
        )
    ]


def pulled_under_minimum(case: Case) -> list[Finding]:
    """Return that meat was pulled, is not served, and its coldest spot was never read at the minimum.

    A cut that goes by the hand says so only with a number below it: nobody reads what falls apart.
    """
    state, cut, cuts = case.state, case.cut, case.cuts
    pulled_at = state.at("pull")
    if state.stage is not Stage.RESTING or pulled_at is None:
        return []
    gate = safe_gate(state, cut, cuts)
    until = dataclasses.replace(state, readings=tuple(r for r in state.readings if r.at <= pulled_at))
    then = safe_gate(until, cut, cuts)
    by_hand = cut.doneness == "feel" and (then.lowest is None or _felt_tender(state))
    if gate.open_at is not None or then.open_at is not None or by_hand:
        return []
    found_c = None if gate.lowest is None else gate.lowest.value_c - gate.lowest.spread_c
    return [
        Finding(
            rule="pulled_under_minimum",
            level=FindingLevel.STOP,
            found_c=found_c,
            limit_c=gate.minimum_c,
            since=pulled_at,
        )
    ]


def _felt_tender(state: CookState) -> bool:
    return bool(state.feels) and state.feels[-1][1].feel is Feel.TENDER


def held(case: Case) -> list[Finding]:
    """The held core is at or below the acting temperature, or under the floor."""
    state = case.state
    pulled_at = state.at("pull")
    last = held_reading(state)
    if state.stage is not Stage.RESTING or pulled_at is None or last is None:
        return []
    low_c = last.value_c - last.spread_c
    if low_c < FLOOR_C:
        return [
            Finding(rule="held_under_floor", level=FindingLevel.STOP, found_c=low_c, limit_c=FLOOR_C, since=last.at)
        ]
    if low_c <= ACT_C and chilling_since(state) is None:
        return [Finding(rule="held_act_now", level=FindingLevel.CAUTION, found_c=low_c, limit_c=ACT_C, since=last.at)]
    return []


def served_under_floor(case: Case) -> list[Finding]:
    """Held meat was read under the floor, and served without a hotter reading since."""
    state = case.state
    served, last = state.did("serve"), held_reading(state)
    if served is None or last is None or state.did("two_hour"):
        return []
    low_c = last.value_c - last.spread_c
    if low_c >= FLOOR_C or last.at > served.at:
        return []
    return [
        Finding(rule="served_under_floor", level=FindingLevel.STOP, found_c=low_c, limit_c=FLOOR_C, since=served.at)
    ]


def food_out(case: Case) -> list[Finding]:
    """Food has been out for two hours and nobody has said that it was put away."""
    state, now = case.state, case.now
    out_at = out_since(state)
    if out_at is None or now < out_at + TWO_HOURS or _put_away(state, out_at):
        return []
    return [Finding(rule="two_hours_out", level=FindingLevel.STOP, since=out_at)]


def not_read_since_pull(case: Case) -> list[Finding]:
    """The food came out and nobody has read it since it left the fire: unknown is not hot."""
    state = case.state
    served = state.did("serve")
    if served is None or state.did("two_hour") or held_reading(state) is not None:
        return []
    return [Finding(rule="held_not_read", level=FindingLevel.CAUTION, limit_c=FLOOR_C, since=served.at)]


RULES = (unmeasured, pulled_under_minimum, held, served_under_floor, food_out, not_read_since_pull)
"""Rules of food off the fire, in the order in which they are told."""
