"""Rules of the safety gate: least temperatures, rests, equivalence, readings that differ. Values only."""

from __future__ import annotations

from scheduler.safety.finding import FindingLevel
from scheduler.safety.limits import HOT_HOLD, MINIMUMS, NOT_INTACT, NOT_INTACT_HOLD, STUFFED, STUFFED_HOLD
from scheduler.safety.register.rule import Rule
from scheduler.safety.tables import MEAT_7_LOG, ROAST

_TESTS = (
    "tests/published/test_minimum_temperatures.py",
    "tests/published/test_safety_limits.py",
    "tests/unit/scheduler/safety/test_minimum.py",
    "tests/properties/test_lethality_gate.py",
)

REGISTER: tuple[Rule, ...] = (
    Rule(
        id="minimum_not_measured",
        worst=FindingLevel.STOP,
        figure="served before the least temperature of its class or treatment was read at every spot, and held: whole"
        " cuts 145 F (62.8 C) and 3 min (Food Code 15 s), ground meat 160 F (71.1 C; Food Code 155 F and 17 s),"
        " tenderised or injected 155 F (68.3 C) and 17 s, poultry and stuffed meat 165 F (73.9 C), fish 145 F (62.8 C;"
        " Food Code 15 s); rolled meat is handled as tenderised by a house reading of the Food Code, so between the"
        " whole cut's 145 F and 155 F it is a caution",
        limits=MINIMUMS,
        tests=(*_TESTS, "tests/unit/scheduler/safety/test_findings.py"),
    ),
    Rule(
        id="pulled_under_minimum",
        worst=FindingLevel.STOP,
        figure="off the fire, not served, and the least temperature was not read at every spot (rolled meat between 145"
        " F and 155 F: a caution)",
        limits=MINIMUMS,
        tests=(*_TESTS, "tests/unit/scheduler/safety/test_off.py"),
    ),
    Rule(
        id="spots_differ",
        worst=FindingLevel.CAUTION,
        figure="two readings of one spot within 10 min, more than 3 C (5.4 F) apart, on either side of a limit that"
        " counts: the lower stands, and the caution, until a third within 30 min is within 3 C of just one of them;"
        " near the lower one, the higher still counts for nothing",
        limits=(*MINIMUMS, HOT_HOLD),
        house=True,
        tests=("tests/unit/scheduler/safety/test_contested.py", "tests/unit/scheduler/safety/test_gate.py"),
    ),
    Rule(
        id="not_intact",
        worst=FindingLevel.NOTE,
        figure="tenderised, injected or rolled meat needs 155 F (68.3 C) and 17 s, stuffed meat 165 F (73.9 C); that"
        " rolled meat is handled as tenderised is a house reading",
        limits=(NOT_INTACT, NOT_INTACT_HOLD, STUFFED, STUFFED_HOLD),
        tests=("tests/unit/scheduler/safety/test_gate.py", "tests/published/test_minimum_temperatures.py"),
    ),
    Rule(
        id="time_counts",
        worst=FindingLevel.NOTE,
        figure="by choice, for intact beef, pork and lamb and no guest at risk: the time of the table at every spot,"
        " from 130 F (54.4 C) and 121 min (Food Code 112 min) to 158 F (70 C) at once, summed over a core taken at its"
        " lowest between readings",
        sources=(MEAT_7_LOG.source, ROAST.source),
        tests=(
            "tests/published/test_lethality.py",
            "tests/unit/scheduler/safety/test_lethality.py",
            "tests/unit/scheduler/safety/test_gate.py",
            "tests/properties/test_lethality.py",
        ),
    ),
)
"""Rules of the safety gate."""
