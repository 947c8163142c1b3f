"""Which reading opened the gate: the one that passed, not what was read of the meat as it cooled."""

from __future__ import annotations

from scheduler.safety.minimum import safe_gate
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, cooking, cut, planned


def _opened_by(log: Logbook) -> float | None:
    opened_by = safe_gate(log.state, cut("whole_chicken"), CATALOGUE.cuts).opened_by
    return None if opened_by is None else opened_by.value_c


def test_the_reading_that_passed_is_named() -> None:
    """Nothing, 70, then 74.5, and 60 as it is opened: 74.5 opened it."""
    log = cooking(planned(cut="whole_chicken"))
    assert _opened_by(log) is None
    log.read(70.0, 200)
    assert _opened_by(log) is None
    log.read(74.5, 240)
    log.done("pull", 245)
    log.read(60.0, 300)
    assert _opened_by(log) == 74.5


def test_of_several_spots_the_lowest_that_passed() -> None:
    """Breast 80, thigh not yet: none; thigh 74: that."""
    log = cooking(planned(cut="whole_chicken"))
    log.read(80.0, 200, spot="breast")
    log.read(72.0, 201, spot="thigh")
    assert _opened_by(log) is None
    log.read(74.0, 240, spot="thigh")
    assert _opened_by(log) == 74.0
