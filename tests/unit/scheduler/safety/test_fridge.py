"""The fridge between its readings: how long it was warm is known only where somebody read it. `fridge_warm`."""

from __future__ import annotations

from scheduler.facts import Discarded, Reading, Slot
from scheduler.safety import Eating, Finding, FindingLevel, findings, serving
from scheduler.units import c_from_f
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cut, dinner, planned


def _book(*reads: tuple[float, float]) -> Logbook:
    """Return a plan for a dinner in two days, fetched at 0, with readings of the fridge (minutes, F)."""
    log = Logbook(planned(serving=dinner(2880)))
    log.done("collect_meat", 0)
    for minutes, temp_f in reads:
        log.read(c_from_f(temp_f), minutes, slot=Slot.FRIDGE)
    return log


def _warm(log: Logbook, minutes: float) -> Finding | None:
    found = findings(log.state, cut(), CATALOGUE.cuts, at(minutes))
    return next((f for f in found if f.rule == "fridge_warm"), None)


def test_a_warm_reading_soon_after_a_cold_one_is_told_anew() -> None:
    """50, 38, and 55 F ten minutes later: a caution of its own since the last."""
    log = _book((600, 38), (605, 50), (620, 38))
    assert _warm(log, 621) is None
    log.read(c_from_f(55), 630, slot=Slot.FRIDGE)
    again = _warm(log, 630)
    assert again is not None
    assert (again.level, again.since) == (FindingLevel.CAUTION, at(630))


def test_of_two_at_one_look_the_warmer_counts() -> None:
    """50 F, and 38 F five minutes later: still warm; 38 F after ten minutes ends it."""
    log = _book((595, 38), (600, 50), (605, 38))
    assert _warm(log, 606) is not None
    log.read(c_from_f(38), 610, slot=Slot.FRIDGE)
    assert _warm(log, 611) is None


def test_a_warm_reading_that_nobody_follows_up_is_unknown_after_two_hours() -> None:
    """At 2:00 after the cold reading before it a caution, at 2:01 one that says unknown, and stays after a cold one."""
    log = _book((600, 38), (650, 50))
    known = _warm(log, 720)
    assert known is not None
    assert not known.unread
    unknown = _warm(log, 721)
    assert unknown is not None
    assert (unknown.level, unknown.unread, unknown.found_min) == (FindingLevel.CAUTION, True, 121.0)
    log.read(c_from_f(38), 725, slot=Slot.FRIDGE)
    after = _warm(log, 2000)
    assert after is not None
    assert (after.unread, after.since, after.found_min) == (True, at(725), 125.0)


def test_unknown_stays_to_the_end_and_is_never_called_safe() -> None:
    """Cooked and read hot: nobody can say. A reading of that time told late, or throwing it away, ends it."""
    log = _book((600, 38), (650, 50), (725, 38))
    log.done("light", 800)
    log.done("meat_on", 860)
    log.read(90.0, 1200)
    log.done("pull", 1210)
    assert _warm(log, 1211) is not None
    verdict = serving(log.state, cut(), CATALOGUE.cuts, at(1220))
    assert (verdict.eating, verdict.why) == (Eating.UNKNOWN, "cannot_say")
    log.tell(Reading(slot=Slot.FRIDGE, value_c=3.0), 700, recorded=1230)
    assert _warm(log, 1231) is None
    assert serving(log.state, cut(), CATALOGUE.cuts, at(1231)).eating is Eating.SAFE
    gone = _book((600, 38), (650, 50), (725, 38))
    gone.tell(Discarded(), 800)
    assert _warm(gone, 801) is None


def test_meat_that_nobody_said_was_fetched_lies_there() -> None:
    """50 F and, two and a half hours later, 38 F: unknown. Fetched after that: it never lay there."""
    log = Logbook(planned(serving=dinner(2880)))
    for minutes, temp_f in ((600, 50), (750, 38)):
        log.read(c_from_f(temp_f), minutes, slot=Slot.FRIDGE)
    found = _warm(log, 751)
    assert found is not None
    assert found.unread
    log.done("collect_meat", 800)
    assert _warm(log, 801) is None
