"""Rules of meat on the fire: a cold pit, a dead pit, a slow come-up. Values only."""

from __future__ import annotations

from scheduler.safety.finding import FindingLevel
from scheduler.safety.limits import COME_UP_HIGH, COME_UP_LOW, COME_UP_TIME, DANGER_HIGH, OUT, OUT_HOT, PIT_COLD
from scheduler.safety.register.rule import Rule

_TEST = "tests/unit/scheduler/safety/test_fire.py"

REGISTER: tuple[Rule, ...] = (
    Rule(
        id="pit_cold",
        worst=FindingLevel.CAUTION,
        figure="pit air under 107 C (225 F) while the core is under 60 C (140 F) or unread",
        limits=(PIT_COLD, DANGER_HIGH),
        tests=(_TEST, "tests/published/test_safety_limits.py"),
    ),
    Rule(
        id="pit_dead",
        worst=FindingLevel.STOP,
        figure="pit air read under 60 C (140 F), no hotter reading for two hours (one in hot air) since then,"
        " or since the fire was told to be out, the core under 60 C"
        " or unread, or so long after a warm core can have fallen under it; such a core read later, warm and no hotter"
        " than before, was warm all the time",
        limits=(OUT, OUT_HOT, DANGER_HIGH),
        tests=(_TEST, "tests/published/test_safety_limits.py"),
    ),
    Rule(
        id="pit_dead_unread",
        worst=FindingLevel.CAUTION,
        figure="pit air read under 60 C (140 F), the core read warm before, and nobody has read it since it can have"
        " fallen under 60 C at 1.4 C/min (thin meat faster)",
        limits=(DANGER_HIGH,),
        tests=(_TEST,),
    ),
    Rule(
        id="pit_unread",
        worst=FindingLevel.CAUTION,
        figure="the fire told to be out, and the pit not read, for two hours (one in hot air), the core under 60 C"
        " (140 F) or unread; a pit read under 60 C (140 F) then makes it a dead pit from when the fire went out",
        limits=(OUT, OUT_HOT, DANGER_HIGH),
        tests=("tests/unit/scheduler/safety/test_fire_out.py",),
    ),
    Rule(
        id="come_up_slow",
        worst=FindingLevel.CAUTION,
        figure="core under 50 C (122 F) from three and a half to six hours after a big cut went on, under 54.4 C"
        " (130 F) where it is not intact",
        sources=("house rule, earlier than the six hours of USDA FSIS Appendix A (2021)",),
        house=True,
        tests=(_TEST,),
    ),
    Rule(
        id="come_up_over",
        worst=FindingLevel.STOP,
        figure="core read under 54.4 C (130 F) six hours or more after meat on: a stop for meat that is not intact, a"
        " caution for intact cuts, whose surface counts",
        limits=(COME_UP_TIME, COME_UP_LOW, COME_UP_HIGH),
        tests=(_TEST, "tests/published/test_safety_limits.py"),
    ),
    Rule(
        id="come_up_unknown",
        worst=FindingLevel.CAUTION,
        figure="nobody has read 54.4 C (130 F) within six hours of meat on in meat that is not intact: unknown"
        " to the end",
        limits=(COME_UP_TIME, COME_UP_HIGH),
        tests=(_TEST,),
    ),
)
"""Every rule."""
