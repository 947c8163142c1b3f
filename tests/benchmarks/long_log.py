"""A log that is long for one day: 400 facts, half of them cores of two people, for the time that its record takes.

Nothing is asserted and no time is taken here.
"""

from __future__ import annotations

import numpy as np

from scheduler.facts import Fact, Slot
from tests.benchmarks.cooks import BRISKET
from tests.unit.scheduler.logbook import Logbook, at, planned

FACTS, CORES = 400, 200
"""How many facts the log has at most, and how many of them are cores."""

OVER_AT = at(FACTS * 2.0)
"""The instant as of which the record is asked for."""


def long_log() -> tuple[Fact, ...]:
    """Return a brisket of thirteen hours with a core and a pit every four minutes, some cores of a second probe low."""
    log = Logbook(planned(cut="brisket_packer"))
    log.done("meat_on", 1)
    hours, cores_c = np.array(BRISKET).T
    for number in range(CORES):
        minutes = 2.0 + 3.6 * number
        core_c = float(np.interp(minutes / 60.0, hours, cores_c))
        log.read(round(core_c - (4.0 if number % 7 == 0 else 0.0), 1), minutes)
        if len(log.facts) < FACTS - (CORES - number - 1):
            log.read(132.0 + number % 5, minutes + 1.0, slot=Slot.PIT)
    return log.facts
