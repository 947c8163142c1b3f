"""A core that is corrected to one that nobody can believe: the old one stands, and a second spot is asked for."""

from __future__ import annotations

import pytest

from scheduler.cook import Changes, Refusal, Report, decide
from scheduler.facts import Corrected, Reading, Slot
from scheduler.units import c_from_f
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at


@pytest.fixture
def cooking() -> Logbook:
    """Return ribs two and a half hours on the fire, read at 110 and 132 F."""
    log = Logbook()
    log.done("light", 0)
    log.done("meat_on", 60)
    log.read(c_from_f(110), 150)
    return log


def corrected(log: Logbook, core_f: float, *, sure: bool = False) -> Changes | Refusal:
    """Return what becomes of the newest reading when it is corrected ten minutes later."""
    reading = log.read(c_from_f(132), 190)
    body = Corrected(of=reading, body=Reading(slot=Slot.CORE, value_c=c_from_f(core_f)))
    report = Report(body=body, happened_at=at(200), by="Ines", sure=sure)
    return decide(log.facts, (report,), now=at(200), seed="t", catalogue=CATALOGUE)


def test_a_number_that_nobody_can_believe_is_not_taken(cooking: Logbook) -> None:
    """From 132 to 187 F after two hours: refused with what was expected; nothing is called safe by it."""
    found = corrected(cooking, 187)
    assert isinstance(found, Refusal)
    assert (found.reason, round(found.core_c or 0)) == ("unlikely_core", 86)
    assert found.expected_c is not None
    assert found.expected_c[1] < 75


@pytest.mark.parametrize("core_f", [123, 137, 142])
def test_a_slip_of_a_key_is_mended(cooking: Logbook, core_f: float) -> None:
    """A number near the old one, or where the meat may well be, takes its place."""
    assert isinstance(corrected(cooking, core_f), Changes)


def test_whoever_is_sure_is_believed(cooking: Logbook) -> None:
    """Confirmed by a button, it is taken."""
    assert isinstance(corrected(cooking, 187, sure=True), Changes)
