"""Raw meat: how long it keeps and lies out, how it thaws, how cold its fridge is. Nothing told, nothing said."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest

from scheduler.facts import (
    AirTold,
    Discarded,
    Edition,
    EditionTold,
    Reading,
    Slot,
    StepDone,
    TreatedTold,
    Treatment,
    Troubled,
)
from scheduler.safety import Eating, Finding, FindingLevel, findings, next_look, serving
from scheduler.units import c_from_f
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cut, dinner, planned

DAY = 1440.0
OURS = frozenset({"raw_too_old", "raw_left_out", "thaw_not_done", "thaw_counter", "fridge_warm"})


def book(name: str = "beef_chuck_ribs", *, frozen: bool = False) -> Logbook:
    """Return a plan for a dinner in twelve days."""
    return Logbook(planned(cut=name, frozen=frozen, serving=dinner(12 * DAY)))


def found(log: Logbook, minutes: float, name: str = "beef_chuck_ribs") -> dict[str, Finding]:
    """Return what is found about raw meat and its fridge."""
    return {f.rule: f for f in findings(log.state, cut(name), CATALOGUE.cuts, at(minutes)) if f.rule in OURS}


def fridge(log: Logbook, temp_f: float, minutes: float) -> None:
    """Write a reading of the fridge, typed in Fahrenheit."""
    log.read(c_from_f(temp_f), minutes, slot=Slot.FRIDGE)


# --- how long it keeps ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "days"), [("beef_chuck_ribs", 5), ("whole_chicken", 2), ("sausages", 2), ("salmon_side", 2)]
)
def test_raw_meat_keeps_so_many_days(name: str, days: int) -> None:
    """At its last minute nothing, then a caution with both numbers."""
    log = book(name)
    log.done("collect_meat", 100)
    assert found(log, 100 + days * DAY, name) == {}
    caution = found(log, 101 + days * DAY, name)["raw_too_old"]
    assert (caution.level, caution.limit_min, caution.since) == (FindingLevel.CAUTION, days * DAY, at(100 + days * DAY))
    assert next_look(log.state, cut(name), CATALOGUE.cuts) == at(101 + days * DAY)


def test_ground_meat_keeps_two_days_whatever_its_cut() -> None:
    """Beef that somebody says is ground is kept as ground meat."""
    log = book()
    log.done("collect_meat", 100)
    log.tell(TreatedTold(treatments=(Treatment.GROUND,)), 101)
    assert "raw_too_old" in found(log, 101 + 2 * DAY)


def test_meat_that_went_on_in_time_is_not_too_old_later() -> None:
    """The days end on the fire; meat that was too old when it went on stays so."""
    for days, old in ((4.0, False), (6.0, True)):
        log = book()
        log.done("collect_meat", 100)
        log.done("light", days * DAY)
        log.done("meat_on", days * DAY + 60)
        assert ("raw_too_old" in found(log, days * DAY + 70)) is old


def test_nothing_is_said_of_meat_that_nobody_fetched() -> None:
    """Unknown is not too old, nor left out."""
    assert found(book(), 11 * DAY) == {}
    log = book(frozen=True)
    log.done("collect_meat", 0)
    assert found(log, 9 * DAY) == {}, "frozen meat does not age"
    log.done("thaw_check", 9 * DAY, "soft")
    assert "raw_too_old" in found(log, 14 * DAY + 1)


# --- out of the fridge ------------------------------------------------------------------------------------------------


def test_raw_meat_may_be_out_for_two_hours() -> None:
    """At 2:00 nothing, at 2:01 a stop, which time alone brings; going on ends the clock, not the stop."""
    log = book()
    log.done("raw_out", 600, "out")
    assert found(log, 720) == {}
    stop = found(log, 721)["raw_left_out"]
    assert (stop.level, stop.found_min, stop.limit_min, stop.since) == (FindingLevel.STOP, 121, 120, at(600))
    assert next_look(log.state, cut(), CATALOGUE.cuts) == at(721)
    log.done("light", 640)
    log.done("meat_on", 700)
    assert found(log, 900) == {}
    late = book()
    late.done("raw_out", 600, "out")
    late.done("meat_on", 730)
    assert "raw_left_out" in found(late, 900)


def test_the_times_out_are_added() -> None:
    """An hour out, a night in the fridge, and an hour and a minute out: two hours and a minute."""
    log = book()
    log.done("raw_out", 600, "out")
    log.done("raw_out", 660, "back")
    log.done("raw_out", 1600, "out")
    assert found(log, 1660) == {}
    assert found(log, 1661)["raw_left_out"].found_min == 121


@pytest.mark.parametrize(("air_f", "minutes"), [(90.0, 120), (91.0, 60)])
def test_above_90_f_it_is_one_hour(air_f: float, minutes: float) -> None:
    """90 F is not above 90 F."""
    log = book()
    log.tell(AirTold(temp_c=c_from_f(air_f)), 599)
    log.done("raw_out", 600, "out")
    assert found(log, 600 + minutes) == {}
    assert "raw_left_out" in found(log, 601 + minutes)


def test_no_later_stage_ends_a_stop_of_raw_meat() -> None:
    """Cooked, read hot, pulled, served, put away: meat that lay out too long stays so until it is thrown away."""
    log = book("whole_chicken")
    log.done("raw_out", 600, "out")
    log.done("light", 800)
    for n, step in enumerate(("meat_on", "pull", "box_meat", "serve", "two_hour", "leftovers")):
        log.done(step, 810 + 60 * n)
        log.read(75.0, 815 + 60 * n)
        assert "raw_left_out" in found(log, 820 + 60 * n, "whole_chicken"), step
    assert serving(log.state, cut("whole_chicken"), CATALOGUE.cuts, at(1200)).eating is Eating.NOT_SAFE
    log.tell(Discarded(), 1201)
    assert not found(log, 1202, "whole_chicken")


def test_cooler_air_that_is_told_later_makes_no_time_longer() -> None:
    """Out for 70 minutes on a hot day, and cool at night: still too long; hot weather after that shortens nothing."""
    hot, cool = AirTold(word="hot"), AirTold(word="cool")
    for first, then, stops in ((hot, cool, True), (cool, hot, False)):
        log = book()
        log.tell(first, 599)
        log.done("raw_out", 600, "out")
        log.done("raw_out", 670, "back")
        log.tell(then, 700)
        assert ("raw_left_out" in found(log, 701)) is stops


def test_throwing_it_away_ends_a_stop() -> None:
    """Nothing else does: back in the fridge it stays spoiled."""
    log = book()
    log.done("raw_out", 600, "out")
    log.done("raw_out", 800, "back")
    assert "raw_left_out" in found(log, 900)
    log.tell(Discarded(), 901)
    assert found(log, 902) == {}


# --- thawing ----------------------------------------------------------------------------------------------------------


def test_meat_does_not_thaw_on_the_counter() -> None:
    """A caution at once with the time that is left, until it is back in the cold; after two hours a stop."""
    log = book(frozen=True)
    log.done("raw_out", 600, "thawing")
    caution = found(log, 601)["thaw_counter"]
    assert (caution.level, caution.until) == (FindingLevel.CAUTION, at(720))
    assert "raw_left_out" in found(log, 721)
    log.done("raw_out", 650, "back")
    assert found(log, 721) == {}


@pytest.mark.parametrize(("felt", "warned"), [(None, True), ("hard", True), ("icy", True), ("soft", False)])
def test_frozen_meat_is_felt_soft_before_it_goes_on(felt: str | None, warned: bool) -> None:
    """Told when the fire is lit and again when it went on; what was never felt is not soft."""
    log = book(frozen=True)
    if felt is not None:
        log.done("thaw_check", 500, felt)
    assert found(log, 600) == {}
    log.done("light", 600)
    lit = found(log, 601).get("thaw_not_done")
    log.done("meat_on", 660)
    on = found(log, 661).get("thaw_not_done")
    assert [one is not None for one in (lit, on)] == [warned, warned]
    if lit is not None and on is not None:
        assert (lit.since, on.since, on.level) == (at(600), at(660), FindingLevel.CAUTION)


def test_ice_that_somebody_tells_of_counts_as_felt() -> None:
    """Fresh meat, and somebody says that its middle is icy: warned until that is over."""
    log = book()
    log.tell(Troubled(problem="frozen_middle"), 590)
    log.done("light", 600)
    assert "thaw_not_done" in found(log, 601)
    log.tell(Troubled(problem="frozen_middle", over=True), 610)
    assert found(log, 611) == {}


def test_a_core_above_freezing_is_thawed() -> None:
    """Measured beats felt: 38 F in the middle holds no ice; fresh meat is never asked."""
    log = book(frozen=True)
    log.done("light", 600)
    log.read(c_from_f(38.0), 610)
    assert found(log, 611) == {}
    fresh = book()
    fresh.done("light", 600)
    assert found(fresh, 611) == {}


# --- the fridge -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("edition", "temp_f", "warm"),
    [
        (Edition.STRICTER, 40.0, False), (Edition.STRICTER, 41.0, True), (Edition.CONSUMER, 40.0, False),
        (Edition.CONSUMER, 41.0, True), (Edition.FOOD_CODE, 41.0, False), (Edition.FOOD_CODE, 42.0, True),
    ],
)  # fmt: skip
def test_a_fridge_is_cold_by_its_edition(edition: Edition, temp_f: float, warm: bool) -> None:
    """40 F (4.4 C) for homes and by default, 41 F (5 C) by the Food Code: exactly there it passes."""
    log = book()
    log.tell(EditionTold(edition=edition), 1)
    fridge(log, temp_f, 600)
    assert ("fridge_warm" in found(log, 601)) is warm
    if warm:
        fridge(log, 38.0, 650)
        assert found(log, 651) == {}


def test_food_in_a_fridge_that_was_warm_for_two_hours_is_stopped() -> None:
    """Read warm twice, more than two hours apart with meat in it: no colder reading takes that back."""
    log = book()
    log.done("collect_meat", 500)
    fridge(log, 45.0, 600)
    assert found(log, 900)["fridge_warm"].level is FindingLevel.CAUTION, "one reading says nothing of how long"
    fridge(log, 45.0, 721)
    stop = found(log, 722)["fridge_warm"]
    assert (stop.level, stop.found_min) == (FindingLevel.STOP, 121)
    fridge(log, 38.0, 800)
    assert found(log, 801)["fridge_warm"].level is FindingLevel.STOP
    log.done("light", 810)
    for minutes, step in ((900, "meat_on"), (1200, "pull"), (1300, "serve")):
        log.done(step, minutes)
        assert found(log, minutes + 1)["fridge_warm"].level is FindingLevel.STOP, step
    empty = book()
    fridge(empty, 45.0, 600)
    fridge(empty, 45.0, 721)
    assert found(empty, 722)["fridge_warm"].level is FindingLevel.CAUTION, "nothing was said to lie in it"
    cold_between = book()
    cold_between.done("collect_meat", 500)
    for temp_f, minutes in ((45.0, 600), (39.0, 660), (45.0, 721)):
        fridge(cold_between, temp_f, minutes)
    assert found(cold_between, 722)["fridge_warm"].level is FindingLevel.CAUTION


def test_leftovers_lie_in_that_fridge_too() -> None:
    """The day after dinner it is the leftovers that are stopped."""
    log = Logbook()
    for step, minutes in (("light", 0), ("meat_on", 60), ("pull", 480), ("serve", 700), ("leftovers", 760)):
        log.done(step, minutes)
    fridge(log, 45.0, 1500)
    fridge(log, 46.0, 1630)
    assert found(log, 1631)["fridge_warm"].level is FindingLevel.STOP


def test_the_question_about_the_fridge_wants_its_number() -> None:
    """The word "done" measures nothing and leaves it open; a number closes it and is no core of the meat."""
    log = Logbook(planned(serving=dinner(4 * DAY)))
    due = log.due("fridge_check")
    assert due is not None
    log.ring(due)
    log.taken(StepDone(step="fridge_check"), minutes=due + 1)
    assert log.prompt("fridge_check") is not None
    log.taken(Reading(slot=Slot.FRIDGE, value_c=3.0), minutes=due + 2)
    assert log.prompt("fridge_check") is None
    assert log.state.read(Slot.CORE) == ()


def test_the_order_of_late_messages_does_not_matter() -> None:
    """What was told late of raw meat, in any order: the same findings."""
    told: list[Callable[[Logbook], object]] = [
        lambda log: log.done("collect_meat", 100),
        lambda log: log.done("raw_out", 7000, "out"),
        lambda log: log.done("raw_out", 7050, "back"),
        lambda log: log.done("raw_out", 7600, "out"),
        lambda log: fridge(log, 45.0, 3000),
        lambda log: fridge(log, 45.0, 3130),
    ]
    results = set()
    for order in itertools.permutations(told):
        log = book()
        for tell in order:
            tell(log)
        results.add(tuple(sorted((f.rule, f.level, f.since) for f in found(log, 7700).values())))
    assert len(results) == 1
    assert {rule for rule, *_ in next(iter(results))} == {"raw_too_old", "raw_left_out", "fridge_warm"}
