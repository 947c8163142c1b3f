"""What people report about food or thermometer: while it stands nothing is called safe, and only facts end it."""

from __future__ import annotations

import pytest

from scheduler.facts import Discarded, Troubled
from scheduler.safety import Eating, FindingLevel, findings, serving
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, resting


def _rules(log: Logbook, minutes: float) -> dict[str, FindingLevel]:
    return {f.rule: f.level for f in findings(log.state, cut(), CATALOGUE.cuts, at(minutes))}


def _said(log: Logbook, minutes: float) -> tuple[Eating, str]:
    said = serving(log.state, cut(), CATALOGUE.cuts, at(minutes))
    return said.eating, said.why


def _safe() -> Logbook:
    """Return rested meat that was measured safe."""
    log = resting()
    log.read(95.0, 490)
    assert _said(log, 500) == (Eating.SAFE, "measured")
    return log


def test_cooked_meat_on_the_ground_is_for_the_bin() -> None:
    """After the pull "food_spoiled" stops, whatever was read; throwing it away ends it."""
    log = _safe()
    log.tell(Troubled(problem="dropped"), 501)
    log.read(96.0, 502)
    assert _rules(log, 503)["food_spoiled"] is FindingLevel.STOP
    assert _said(log, 503) == (Eating.NOT_SAFE, "stop")
    log.tell(Discarded(), 510)
    assert "food_spoiled" not in _rules(log, 511)


def test_while_it_cooks_one_word_is_wanted() -> None:
    """On the fire nobody knows: not safe to call, a caution; raw ends it, done makes it a stop."""
    log = cooking()
    log.read(95.0, 400)
    log.tell(Troubled(problem="dropped"), 401)
    assert _rules(log, 402)["food_spoiled"] is FindingLevel.CAUTION
    assert _said(log, 410) == (Eating.UNKNOWN, "reported")
    log.tell(Troubled(problem="dropped", over=True), 411)
    log.tell(Troubled(problem="dropped_raw"), 411)
    assert "food_spoiled" not in _rules(log, 412)
    log.tell(Troubled(problem="dropped_done"), 413)
    assert _rules(log, 414)["food_spoiled"] is FindingLevel.STOP


@pytest.mark.parametrize(("value_c", "stands"), [(73.8, True), (73.9, False)])
def test_raw_juices_on_cooked_food_need_a_hot_reading(value_c: float, stands: bool) -> None:
    """165 F (73.9 C) read after it ends "raw_touched"; what was read before proves nothing."""
    log = _safe()
    log.tell(Troubled(problem="cross_contamination"), 501)
    assert _rules(log, 502)["raw_touched"] is FindingLevel.STOP
    log.read(value_c, 530)
    assert ("raw_touched" in _rules(log, 531)) is stands


def test_a_wrong_thermometer_proves_nothing() -> None:
    """Numbers before and after the word are doubtful, until another one reads the minimum."""
    log = _safe()
    log.tell(Troubled(problem="reader_wrong"), 501)
    log.read(97.0, 503)
    assert _rules(log, 504) == {"reader_doubted": FindingLevel.CAUTION}
    assert _said(log, 504) == (Eating.UNKNOWN, "reported")
    log.tell(Troubled(problem="reader_other"), 505)
    assert _said(log, 506) == (Eating.UNKNOWN, "reported")
    log.read(94.0, 507)
    assert _said(log, 508) == (Eating.SAFE, "measured")


def test_a_thermometer_that_is_right_after_all_counts_again() -> None:
    """The end of the problem gives its numbers back."""
    log = _safe()
    log.tell(Troubled(problem="reader_wrong"), 501)
    log.tell(Troubled(problem="reader_wrong", over=True), 502)
    assert _said(log, 503) == (Eating.SAFE, "measured")


def test_raw_meat_on_the_ground_is_no_finding() -> None:
    """Before it is on it can be trimmed and cooked: the card says so."""
    log = Logbook()
    log.tell(Troubled(problem="dropped"), 10)
    assert "food_spoiled" not in _rules(log, 11)
