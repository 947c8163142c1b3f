"""Findings of the safety core: what is wrong now, by how much, and what clears it.

Every finding names its rule; it stands until a measured fact clears it. Nothing here can be skipped or muted.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum

from scheduler.cuts import Cut, Cuts
from scheduler.facts import Feel, Slot
from scheduler.safety.holding import ACT_C, FLOOR_C, held_reading
from scheduler.safety.minimum import safe_gate
from scheduler.state import CookState, Stage

PIT_COLD_C = 107.0
"""Pit air below this with a core below the danger edge is a caution [°C]: 225 F, lower edge of the smoking band in USDA
FSIS advice (225 F edition from memory, 250 F edition read)."""

DANGER_C = 60.0
"""Upper edge of the danger zone [°C]: 140 F, USDA FSIS Smoking Meat and Poultry."""

COME_UP = dt.timedelta(minutes=210)
"""From this long on the fire a big cut is judged by its come-up: the four-hour check, half an hour early at most."""

COME_UP_C = 50.0
"""Core a big cut should have passed by then [°C]: house rule, stricter than the 6 h between 10 and 54.4 C that FSIS
Appendix A (2021) gives for intact cuts."""

TWO_HOURS = dt.timedelta(hours=2)
"""Food out of temperature control: USDA FSIS basics for handling food safely (1 h above 32 C)."""


class FindingLevel(StrEnum):
    """How grave a finding is."""

    CAUTION = "caution"
    """Act soon."""
    STOP = "stop"
    """Do not serve or keep serving."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Finding:
    """One thing that is not safe: the rule, the number found [°C] and the limit [°C], or since when."""

    rule: str
    level: FindingLevel
    found_c: float | None = None
    limit_c: float | None = None
    since: dt.datetime | None = None


def findings(state: CookState, cut: Cut, cuts: Cuts, now: dt.datetime) -> tuple[Finding, ...]:
    """Return what is not safe at `now`, gravest first."""
    if state.stage is Stage.CLOSED:
        return ()
    found = [
        *_unmeasured(state, cut, cuts, now),
        *pulled_too_cold(state, cut, cuts),
        *_held(state),
        *_served_under_floor(state),
        *_food_out(state, now),
        *_cold_pit(state),
        *_slow_come_up(state, cut),
        *_not_read_since_pull(state),
    ]
    return tuple(sorted(found, key=lambda finding: finding.level is not FindingLevel.STOP))


def next_look(state: CookState) -> dt.datetime | None:
    """Return when time alone may make something unsafe: two hours after the food came out."""
    served = state.did("serve")
    if served is None or _put_away(state, served.at):
        return None
    limit_at = served.at + TWO_HOURS
    return None if ("two_hours_out", served.at) in state.warned else limit_at


def _put_away(state: CookState, served_at: dt.datetime) -> bool:
    """Return whether the food was put away since it came out: what was put away before was an earlier wave."""
    times = [done.at for step in ("two_hour", "leftovers") for done in state.done.get(step, ())]
    return any(at >= served_at for at in times)


def _unmeasured(state: CookState, cut: Cut, cuts: Cuts, now: dt.datetime) -> list[Finding]:
    """The minimum has not been measured although the meat is being served."""
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


def pulled_too_cold(state: CookState, cut: Cut, cuts: Cuts) -> list[Finding]:
    """Return that meat was pulled, is not served, and its coldest spot was never read at the minimum.

    A cut that goes by the hand says so only with a number below it: nobody reads what falls apart.
    """
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


def _held(state: CookState) -> list[Finding]:
    """The held core is at or below the acting temperature, or under the floor."""
    pulled_at = state.at("pull")
    last = held_reading(state)
    if state.stage is not Stage.RESTING or pulled_at is None or last is None:
        return []
    low_c = last.value_c - last.spread_c
    if low_c < FLOOR_C:
        return [
            Finding(rule="held_under_floor", level=FindingLevel.STOP, found_c=low_c, limit_c=FLOOR_C, since=last.at)
        ]
    if low_c <= ACT_C:
        return [Finding(rule="held_act_now", level=FindingLevel.CAUTION, found_c=low_c, limit_c=ACT_C, since=last.at)]
    return []


def _served_under_floor(state: CookState) -> list[Finding]:
    """Held meat was read under the floor, and served without a hotter reading since."""
    served, last = state.did("serve"), held_reading(state)
    if served is None or last is None or state.did("two_hour"):
        return []
    low_c = last.value_c - last.spread_c
    if low_c >= FLOOR_C or last.at > served.at:
        return []
    return [
        Finding(rule="served_under_floor", level=FindingLevel.STOP, found_c=low_c, limit_c=FLOOR_C, since=served.at)
    ]


def _food_out(state: CookState, now: dt.datetime) -> list[Finding]:
    """Food has been out for two hours and nobody has said that it was put away."""
    served = state.did("serve")
    if served is None or now < served.at + TWO_HOURS or _put_away(state, served.at):
        return []
    return [Finding(rule="two_hours_out", level=FindingLevel.STOP, since=served.at)]


def _slow_come_up(state: CookState, cut: Cut) -> list[Finding]:
    """A big cut is still cold after four hours on the fire."""
    core, on_at = state.last(Slot.CORE), state.at("meat_on")
    if state.stage is not Stage.COOKING or not cut.come_up_check or core is None or on_at is None:
        return []
    if core.at - on_at < COME_UP or core.value_c >= COME_UP_C:
        return []
    return [
        Finding(rule="come_up_slow", level=FindingLevel.CAUTION, found_c=core.value_c, limit_c=COME_UP_C, since=core.at)
    ]


def _not_read_since_pull(state: CookState) -> list[Finding]:
    """The food came out and nobody has read it since it left the fire: unknown is not hot."""
    served = state.did("serve")
    if served is None or state.did("two_hour") or held_reading(state) is not None:
        return []
    return [Finding(rule="held_not_read", level=FindingLevel.CAUTION, limit_c=FLOOR_C, since=served.at)]


def _cold_pit(state: CookState) -> list[Finding]:
    """The pit is cold while the core is still in the danger zone (unknown core counts as cold)."""
    pit, core = state.last(Slot.PIT), state.last(Slot.CORE)
    on_at = state.at("meat_on")
    if state.stage is not Stage.COOKING or pit is None or on_at is None or pit.at < on_at:
        return []
    if pit.value_c >= PIT_COLD_C or (core is not None and core.value_c >= DANGER_C):
        return []
    return [Finding(rule="pit_cold", level=FindingLevel.CAUTION, found_c=pit.value_c, limit_c=PIT_COLD_C, since=pit.at)]
