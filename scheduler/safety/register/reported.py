"""Rules of what people report about food and thermometer: it fell down, raw meat touched it, the number is wrong.

Values only.
"""

from __future__ import annotations

from scheduler.safety.finding import FindingLevel
from scheduler.safety.limits import REHEAT
from scheduler.safety.register.rule import Rule

_TESTS = ("tests/unit/scheduler/safety/test_reported.py",)

REGISTER: tuple[Rule, ...] = (
    Rule(
        id="food_spoiled",
        worst=FindingLevel.STOP,
        figure="cooked meat fell down: it is thrown away; while it cooks, unknown until somebody says that it was raw",
        sources=("FDA Food Code 3-701.11: contaminated ready-to-eat food is discarded (from memory)",),
        tests=_TESTS,
    ),
    Rule(
        id="raw_touched",
        worst=FindingLevel.STOP,
        figure="raw meat, its tray, board, knife or marinade touched cooked food: 165 F (73.9 C) at the lowest spot"
        " read afterwards, or the bin; while it cooks, a caution",
        limits=(REHEAT,),
        sources=("USDA FSIS basics for handling food safely: raw and cooked apart",),
        tests=_TESTS,
    ),
    Rule(
        id="reader_doubted",
        worst=FindingLevel.CAUTION,
        figure="the thermometer was said to be wrong: no number counts as safe until another one reads the minimum",
        house=True,
        tests=_TESTS,
    ),
)
"""Rules of what is reported."""
