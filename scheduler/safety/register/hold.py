"""Rules of held and served food: the floor, time without temperature control. Values only."""

from __future__ import annotations

from scheduler.safety.finding import FindingLevel
from scheduler.safety.limits import HOT_AIR, HOT_HOLD, HOT_HOLD_ROAST, OUT, OUT_HOT, REHEAT
from scheduler.safety.register.rule import Rule

_TESTS = (
    "tests/unit/scheduler/safety/test_off.py",
    "tests/unit/scheduler/safety/test_on_heat.py",
    "tests/published/test_safety_limits.py",
)

REGISTER: tuple[Rule, ...] = (
    Rule(
        id="held_act_now",
        worst=FindingLevel.CAUTION,
        figure="held meat read at 63 C (145 F) or below, down to the floor",
        sources=("house rule above the floor of hot holding",),
        house=True,
        tests=("tests/unit/scheduler/safety/test_holding.py",),
    ),
    Rule(
        id="held_under_floor",
        worst=FindingLevel.STOP,
        figure="held meat read under 60 C (140 F; Food Code 57 C, 135 F), until read at 74 C (165 F) within two hours"
        " (one in hot air) of when it was last known hot",
        limits=(HOT_HOLD, HOT_HOLD_ROAST, REHEAT, OUT, OUT_HOT),
        tests=_TESTS,
    ),
    Rule(
        id="served_under_floor",
        worst=FindingLevel.STOP,
        figure="held meat read under the floor, not reheated to 74 C (165 F) in time, and served",
        limits=(HOT_HOLD, HOT_HOLD_ROAST, REHEAT),
        tests=_TESTS,
    ),
    Rule(
        id="held_not_read",
        worst=FindingLevel.CAUTION,
        figure="meat served after it was off the fire for longer than its rest, without a reading since",
        limits=(HOT_HOLD,),
        tests=_TESTS,
    ),
    Rule(
        id="two_hours_out",
        worst=FindingLevel.STOP,
        figure="food out, held under the floor, or back on heat and not read at the floor since, for two hours (one"
        " above 32.2 C, 90 F; Food Code four hours when it was read hot as it came out)",
        limits=(OUT, OUT_HOT, HOT_AIR, HOT_HOLD),
        tests=_TESTS,
    ),
)
"""Every rule."""
