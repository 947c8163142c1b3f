"""Rules of raw meat: storage, thawing, marinade, keeping raw and cooked apart. Values only."""

from __future__ import annotations

from scheduler.safety.finding import FindingLevel
from scheduler.safety.limits import DANGER_LOW, FRIDGE_OVER, HOT_AIR, OUT, OUT_HOT, RAW_SHORT, RAW_WHOLE
from scheduler.safety.register.rule import Rule

_TESTS = ("tests/unit/scheduler/safety/test_raw.py", "tests/published/test_cooling_limits.py")

REGISTER: tuple[Rule, ...] = (
    Rule(
        id="raw_left_out",
        worst=FindingLevel.STOP,
        figure="raw meat out of the fridge for more than 2 h in all before it goes on, 1 h above 90 F (32 C)",
        limits=(OUT, OUT_HOT, HOT_AIR),
        tests=_TESTS,
    ),
    Rule(
        id="thaw_counter",
        worst=FindingLevel.CAUTION,
        figure="frozen meat thaws out of the fridge",
        sources=("USDA FSIS Smoking Meat and Poultry: never thaw at room temperature",),
        tests=_TESTS,
    ),
    Rule(
        id="thaw_not_done",
        worst=FindingLevel.CAUTION,
        figure="the fire is lit for frozen meat, or it went on, felt icy last or never felt soft",
        sources=("USDA FSIS Smoking Meat and Poultry: thaw completely before smoking",),
        tests=_TESTS,
    ),
    Rule(
        id="fridge_warm",
        worst=FindingLevel.STOP,
        figure="fridge read above 40 F (4.4 C), Food Code 41 F (5 C): a caution; read so twice, with food in it for"
        " more than 2 h between: a stop; more than 2 h from the cold reading before to the one after: a caution that"
        " stays",
        limits=(DANGER_LOW, FRIDGE_OVER),
        tests=(*_TESTS, "tests/unit/scheduler/safety/test_fridge.py"),
    ),
    Rule(
        id="raw_too_old",
        worst=FindingLevel.CAUTION,
        figure="raw meat in the fridge longer than its cut keeps: 5 days, ground meat, poultry and fish 2",
        limits=(RAW_WHOLE, RAW_SHORT),
        tests=_TESTS,
    ),
)
"""Rules of raw meat."""
