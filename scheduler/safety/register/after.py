"""Rules of leftovers: cooling, reheating, how long they keep. Values only."""

from __future__ import annotations

from scheduler.safety.finding import FindingLevel
from scheduler.safety.limits import (
    COOL_COLD,
    COOL_FIRST,
    COOL_FIRST_TIME,
    COOL_FROM,
    COOL_TIME,
    LEFTOVER_LIFE,
    LEFTOVER_SOON,
    REHEAT,
    REHEAT_HOLD,
    REHEAT_TIME,
)
from scheduler.safety.register.rule import Rule

_TESTS = ("tests/unit/scheduler/safety/test_cooling.py", "tests/published/test_cooling_limits.py")

REGISTER: tuple[Rule, ...] = (
    Rule(
        id="cool_slow",
        worst=FindingLevel.STOP,
        figure="cooked food that cools, read above 70 F (21 C) later than 2 h after it was last known to be hot",
        limits=(COOL_FROM, COOL_FIRST, COOL_FIRST_TIME),
        tests=_TESTS,
    ),
    Rule(
        id="cool_too_long",
        worst=FindingLevel.STOP,
        figure="cooked food that cools, read above 41 F (5 C) later than 6 h after it was last known to be hot",
        limits=(COOL_FROM, COOL_COLD, COOL_TIME),
        tests=_TESTS,
    ),
    Rule(
        id="cool_not_read",
        worst=FindingLevel.CAUTION,
        figure="public meals: the time of a stage of cooling is over and no reading shows that it was kept",
        limits=(COOL_FIRST, COOL_FIRST_TIME, COOL_COLD, COOL_TIME),
        tests=_TESTS,
    ),
    Rule(
        id="reheat_under",
        worst=FindingLevel.STOP,
        figure="reheated food read under 165 F (74 C) at its coldest spot; the 15 s of the Food Code are no longer than"
        " a thermometer takes to settle, so a reading counts as held (house reading)",
        limits=(REHEAT, REHEAT_HOLD),
        tests=_TESTS,
    ),
    Rule(
        id="reheat_slow",
        worst=FindingLevel.STOP,
        figure="reheated food not read at 165 F (74 C) within 2 h; a caution while nobody read it",
        limits=(REHEAT, REHEAT_TIME),
        tests=_TESTS,
    ),
    Rule(
        id="leftovers_old",
        worst=FindingLevel.STOP,
        figure="leftovers in the fridge for 3 days (caution), for 4 (stop)",
        limits=(LEFTOVER_SOON, LEFTOVER_LIFE),
        tests=_TESTS,
    ),
)
"""Rules of food that was put away."""
