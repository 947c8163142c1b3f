"""Rules of meat on the fire: a pit that is too cold, a core that comes up too slowly."""

from __future__ import annotations

import datetime as dt

from scheduler.facts import Slot
from scheduler.safety.case import Case
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.state import Stage

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


def cold_pit(case: Case) -> list[Finding]:
    """The pit is cold while the core is still in the danger zone (unknown core counts as cold)."""
    state = case.state
    pit, core = state.last(Slot.PIT), state.last(Slot.CORE)
    on_at = state.at("meat_on")
    if state.stage is not Stage.COOKING or pit is None or on_at is None or pit.at < on_at:
        return []
    if pit.value_c >= PIT_COLD_C or (core is not None and core.value_c >= DANGER_C):
        return []
    return [Finding(rule="pit_cold", level=FindingLevel.CAUTION, found_c=pit.value_c, limit_c=PIT_COLD_C, since=pit.at)]


def slow_come_up(case: Case) -> list[Finding]:
    """A big cut is still cold after four hours on the fire."""
    state = case.state
    core, on_at = state.last(Slot.CORE), state.at("meat_on")
    if state.stage is not Stage.COOKING or not case.cut.come_up_check or core is None or on_at is None:
        return []
    if core.at - on_at < COME_UP or core.value_c >= COME_UP_C:
        return []
    return [
        Finding(rule="come_up_slow", level=FindingLevel.CAUTION, found_c=core.value_c, limit_c=COME_UP_C, since=core.at)
    ]


RULES = (cold_pit, slow_come_up)
"""Rules of meat on the fire, in the order in which they are told."""
