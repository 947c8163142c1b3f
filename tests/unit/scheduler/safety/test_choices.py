"""What people choose ends no stop: other rules, time at a lower temperature, guests at risk who stay away."""

from __future__ import annotations

import pytest

from scheduler.facts import CareTold, Edition, EditionTold, SafeBy, SafeByTold, TreatedTold, Treatment
from scheduler.safety import FindingLevel, findings, next_look, safe_gate
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, planned, resting


def _stops(log: Logbook, minutes: float) -> dict[str, float | None]:
    """Return the stops that stand with their limits [°C]."""
    own = cut(log.state.planned.cut)
    found = findings(log.state, own, CATALOGUE.cuts, at(minutes))
    return {f.rule: f.limit_c for f in found if f.level is FindingLevel.STOP}


def _held(core_c: float) -> Logbook:
    """Return held meat read at 600."""
    log = resting()
    log.read(core_c, 600)
    return log


@pytest.mark.parametrize(
    ("name", "treated", "chosen_at"),
    [
        ("prime_rib", None, 1),
        ("prime_rib", (Treatment.INJECTED,), 1),
        ("whole_chicken", (), 1),
        ("prime_rib", (), 481),
    ],
)
def test_the_floor_of_roasts_needs_time_that_may_count(
    name: str, treated: tuple[Treatment, ...] | None, chosen_at: float
) -> None:
    """Not told as intact, injected, a bird, or time chosen only off the fire: 135 F (57.2 C), not 130 F."""
    log = resting(planned(cut=name))
    log.tell(EditionTold(edition=Edition.FOOD_CODE), 1)
    log.tell(CareTold(at_risk=False), 1)
    log.tell(SafeByTold(by=SafeBy.EQUIVALENCE), chosen_at)
    if treated is not None:
        log.tell(TreatedTold(treatments=treated), 1)
    log.read(55.0, 560)
    assert _stops(log, 561)["held_under_floor"] == 57.2


def test_rules_chosen_later_end_no_stop() -> None:
    """58 C is under 140 F. The Food Code chosen before counts; chosen then it ends nothing, nor between other rules."""
    for chosen_at, stopped in ((1, False), (601, True)):
        log = _held(58.0)
        log.tell(EditionTold(edition=Edition.FOOD_CODE), chosen_at)
        assert ("held_under_floor" in _stops(log, 602)) is stopped
        log.tell(EditionTold(edition=Edition.CONSUMER), 603)
        assert "held_under_floor" in _stops(log, 604), "stricter rules may come later"
        log.tell(EditionTold(edition=Edition.FOOD_CODE), 605)
        assert "held_under_floor" in _stops(log, 606)


def test_guests_at_risk_who_stay_away_end_no_stop() -> None:
    """58 C by the Food Code is no stop; with guests at risk it is, and stays one when they do not come."""
    log = _held(58.0)
    log.tell(EditionTold(edition=Edition.FOOD_CODE), 1)
    assert "held_under_floor" not in _stops(log, 601)
    log.tell(CareTold(at_risk=True), 602)
    log.tell(CareTold(at_risk=False), 604)
    assert "held_under_floor" in _stops(log, 605)


def test_time_that_nobody_reads_runs_no_longer() -> None:
    """Pulled at 57.5 C by choice of time, read then: half an hour later nobody knows, a stop; the bell wakes for it."""
    log = cooking(planned(cut="prime_rib"))
    log.tell(TreatedTold(), 61)
    log.tell(CareTold(at_risk=False), 61)
    log.tell(SafeByTold(by=SafeBy.EQUIVALENCE), 61)
    log.read(57.5, 300)
    log.done("pull", 302)
    own = cut(log.state.planned.cut)
    assert next_look(log.state, own, CATALOGUE.cuts) == at(330)
    for minutes, stops in ((329, False), (330, True), (600, True)):
        assert ("pulled_under_minimum" in _stops(log, minutes)) is stops


def test_time_chosen_off_the_fire_ends_no_stop_until_it_is_measured() -> None:
    """Half an hour at 60 C, pulled under the minimum: the choice made then counts from readings after it."""
    log = cooking(planned(cut="prime_rib"))
    log.tell(TreatedTold(), 61)
    log.tell(CareTold(at_risk=False), 61)
    for minutes in range(300, 331, 5):
        log.read(60.0, minutes)
    log.done("pull", 331)
    log.tell(SafeByTold(by=SafeBy.EQUIVALENCE), 340)
    assert "pulled_under_minimum" in _stops(log, 341)
    assert safe_gate(log.state, cut("prime_rib"), CATALOGUE.cuts).open_at is None
    for minutes in range(345, 376, 5):
        log.read(60.0, minutes)
    assert safe_gate(log.state, cut("prime_rib"), CATALOGUE.cuts).open_at is not None
    assert "pulled_under_minimum" not in _stops(log, 376)
