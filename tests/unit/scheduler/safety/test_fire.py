"""Meat on the fire: a cold pit, a dead pit, and a core that comes up too slowly for what was done to the meat."""

from __future__ import annotations

import pytest

from scheduler.facts import (
    AirTold,
    Corrected,
    Discarded,
    MovedToOven,
    Reading,
    Slot,
    TreatedTold,
    Treatment,
    Undone,
)
from scheduler.safety import Eating, Finding, FindingLevel, Serving, findings, next_look, serving
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, minutes_of, planned


def _found(log: Logbook, minutes: float, name: str = "beef_chuck_ribs") -> dict[str, Finding]:
    return {f.rule: f for f in findings(log.state, cut(name), CATALOGUE.cuts, at(minutes))}


def _look(log: Logbook, name: str = "beef_chuck_ribs") -> float | None:
    return minutes_of(next_look(log.state, cut(name), CATALOGUE.cuts))


def _eating(log: Logbook, minutes: float, name: str = "pork_butt") -> Serving:
    return serving(log.state, cut(name), CATALOGUE.cuts, at(minutes))


def _treated(*treatments: Treatment, name: str = "pork_butt") -> Logbook:
    log = cooking(planned(cut=name))
    log.tell(TreatedTold(treatments=treatments), 60)
    return log


def _dead(minutes: float = 100) -> Logbook:
    """Return a cook whose pit was read at 50 C, the meat unread."""
    log = cooking()
    log.read(50.0, minutes, slot=Slot.PIT)
    return log


# --- a cold pit -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("pit_c", "spread_c", "found"), [(110.0, 5.0, True), (112.0, 5.0, False)])
def test_of_a_pit_given_as_a_range_the_low_edge_counts(pit_c: float, spread_c: float, found: bool) -> None:
    """About 110, give or take 5, may be 105: cold."""
    log = cooking()
    log.read(pit_c, 200, slot=Slot.PIT, spread_c=spread_c)
    assert ("pit_cold" in _found(log, 201)) is found


def test_a_core_read_before_the_meat_was_on_warms_nothing() -> None:
    """A probe tested in hot water is no core: unknown counts as cold."""
    log = Logbook()
    log.done("light", 0)
    log.read(95.0, 50)
    log.done("meat_on", 60)
    log.read(90.0, 200, slot=Slot.PIT)
    assert "pit_cold" in _found(log, 201)


def test_the_lowest_spot_of_a_look_is_the_core() -> None:
    """Point 58, flat 65 two minutes later: still in the danger zone."""
    log = cooking()
    log.read(58.0, 198, spot="point")
    log.read(65.0, 200, spot="flat")
    log.read(90.0, 201, slot=Slot.PIT)
    assert "pit_cold" in _found(log, 202)


# --- a dead pit -------------------------------------------------------------------------------------------------------


def test_two_hours_under_a_dead_pit_are_a_stop() -> None:
    """Read under 60 C with the meat unread: nothing at 1:59, a stop at 2:00, since the reading."""
    log = _dead()
    assert "pit_dead" not in _found(log, 219)
    stop = _found(log, 220)["pit_dead"]
    assert (stop.level, stop.found_c, stop.limit_c) == (FindingLevel.STOP, 50.0, 60.0)
    assert (stop.found_min, stop.limit_min, stop.since) == (120.0, 120.0, at(100))


@pytest.mark.parametrize("air", [AirTold(temp_c=32.3), AirTold(word="hot")])
def test_one_hour_is_enough_in_hot_air(air: AirTold) -> None:
    """Above 32.2 C, or told as hot: one hour."""
    log = _dead()
    log.tell(air, 101)
    assert "pit_dead" not in _found(log, 159)
    assert _found(log, 160)["pit_dead"].limit_min == 60.0


@pytest.mark.parametrize("air", [AirTold(temp_c=32.2), AirTold(word="warm"), AirTold(wind="windy")])
def test_other_air_leaves_two_hours(air: AirTold) -> None:
    """90 F and less, a warm word or none at all: two hours."""
    log = _dead()
    log.tell(air, 101)
    assert "pit_dead" not in _found(log, 219)
    assert "pit_dead" in _found(log, 220)


@pytest.mark.parametrize(("pit_c", "found"), [(59.9, True), (60.0, False)])
def test_a_pit_is_dead_under_60(pit_c: float, found: bool) -> None:
    """140 F is the edge of the danger zone: 59.9 is under it, 60.0 is not."""
    log = cooking()
    log.read(pit_c, 100, slot=Slot.PIT)
    assert ("pit_dead" in _found(log, 300)) is found


def test_heat_in_time_leaves_nothing_and_too_late_leaves_the_stop() -> None:
    """Hot again at 1:59: none. Hot again at 2:01: no reading makes that food good."""
    for again, found in ((219, False), (221, True)):
        log = _dead()
        log.read(120.0, again, slot=Slot.PIT)
        log.read(90.0, 500)
        assert ("pit_dead" in _found(log, 501)) is found


def _warm(core_c: float, minutes: float = 100) -> Logbook:
    """Return a cook read warm and, five minutes later, a pit at 40 C."""
    log = cooking()
    log.read(core_c, minutes - 5)
    log.read(40.0, minutes, slot=Slot.PIT)
    return log


@pytest.mark.parametrize(
    ("core_c", "from_at"), [(61.0, 100), (67.0, 100), (74.0, 105), (88.0, 115)], ids=["61", "67", "74", "88"]
)
def test_a_warm_core_in_a_dead_pit_is_warm_only_as_long_as_it_can_be(core_c: float, from_at: float) -> None:
    """From 60 C plus 1.4 C for each minute on it may be cold: a caution then, a stop two hours later, both rung for."""
    log = _warm(core_c)
    log.ring(100)
    assert ("pit_dead_unread" in _found(log, 100)) is (from_at == 100)
    caution = _found(log, from_at)["pit_dead_unread"]
    assert (caution.level, caution.found_c, caution.since) == (FindingLevel.CAUTION, 40.0, at(from_at))
    if from_at > 100:
        assert "pit_dead_unread" not in _found(log, from_at - 1)
        assert _look(log) == from_at
    log.ring(from_at)
    assert "pit_dead" not in _found(log, from_at + 119)
    stop = _found(log, from_at + 120)["pit_dead"]
    assert (stop.level, stop.since, stop.unread) == (FindingLevel.STOP, at(from_at), True)


def test_the_bell_wakes_for_a_warm_core_in_a_dead_pit() -> None:
    """First when it may be cold, then when it may have been so for too long."""
    log = _warm(88.0)
    log.ring(100)
    assert _look(log) == 115
    log.ring(115, answering=True)
    assert _look(log) == 235


def test_still_warm_and_no_hotter_was_warm_all_the_time() -> None:
    """A dead pit heats nothing: 70 after 75 clears, 80 after 75 tells of heat that nobody reported; 59 proves it."""
    for core_c, stopped in ((70.0, False), (75.0, False), (80.0, True), (59.9, True)):
        log = _warm(75.0)
        log.read(core_c, 300)
        assert ("pit_dead" in _found(log, 301)) is stopped
    log = _warm(75.0)
    log.read(59.9, 300)
    stop = _found(log, 301)["pit_dead"]
    assert not stop.unread
    log.read(120.0, 310, slot=Slot.PIT)
    log.read(90.0, 500)
    assert "pit_dead" in _found(log, 501)


def test_a_warm_core_read_with_the_new_fire_clears_and_one_read_later_does_not() -> None:
    """Relit after two hours and a half: 70 read beside the hot pit was warm all along, an hour later it was heated."""
    for minutes, stopped in ((305, False), (311, True)):
        log = _warm(75.0)
        log.read(120.0, 300, slot=Slot.PIT)
        assert "pit_dead" in _found(log, 301)
        log.read(70.0, minutes)
        assert ("pit_dead" in _found(log, minutes + 1)) is stopped


def test_eight_hours_in_a_dead_pit_are_never_safe() -> None:
    """Core 61, pit 40, nothing for eight hours, 25, relit: no heat afterwards makes it good."""
    log = _warm(61.0)
    log.read(25.0, 600)
    log.read(120.0, 630, slot=Slot.PIT)
    log.read(66.0, 800)
    assert _found(log, 801)["pit_dead"].since == at(100)


def test_heat_in_time_leaves_a_warm_core_alone() -> None:
    """Relit at 1:55 after it may have been cold: nothing, though nobody read the core."""
    log = _warm(61.0)
    log.read(120.0, 215, slot=Slot.PIT)
    assert not {"pit_dead", "pit_dead_unread"} & set(_found(log, 900))


def test_a_hot_core_after_the_time_clears_nothing() -> None:
    """Food that was without heat for too long is thrown away, however hot it gets afterwards."""
    log = _dead()
    log.read(90.0, 230)
    assert "pit_dead" in _found(log, 231)


def test_a_hot_oven_ends_it_in_time() -> None:
    """Moved to an oven within the two hours: none; later it stands. An oven under 60 C is no heat."""
    for minutes, oven_c, found in ((200, 150.0, False), (221, 150.0, True), (200, 50.0, True)):
        log = _dead()
        log.tell(MovedToOven(oven_c=oven_c), minutes)
        assert ("pit_dead" in _found(log, 400)) is found


def test_correcting_the_number_or_telling_of_a_hotter_one_ends_it() -> None:
    """Typed 50, meant 150; taken back; or read hot in between and told late."""
    log = cooking()
    wrong = log.read(50.0, 100, slot=Slot.PIT)
    assert "pit_dead" in _found(log, 300)
    log.tell(Corrected(of=wrong, body=Reading(slot=Slot.PIT, value_c=150.0)), 300)
    assert "pit_dead" not in _found(log, 301)
    assert [f.id for f in log.facts if isinstance(f.body, Reading)] == [wrong]
    log = cooking()
    log.tell(Undone(of=log.read(50.0, 100, slot=Slot.PIT)), 300)
    assert "pit_dead" not in _found(log, 301)
    log = _dead()
    log.tell(Reading(slot=Slot.PIT, value_c=140.0), 180, recorded=400)
    assert "pit_dead" not in _found(log, 401)


def test_the_bell_wakes_for_a_dead_pit_once() -> None:
    """A row at two hours; told once; none once the pit is hot, or the meat was thrown away."""
    log = _dead()
    assert _look(log) == 220
    log.ring(220)
    assert _look(log) is None
    hot = _dead()
    hot.read(120.0, 150, slot=Slot.PIT)
    assert _look(hot) is None
    gone = _dead()
    gone.tell(Discarded(), 150)
    assert _look(gone) is None


# --- come-up ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("minutes", "core_c", "found"), [(420, 54.3, True), (420, 54.4, False), (419, 54.3, False), (600, 54.3, True)]
)
def test_an_intact_cut_over_six_hours_is_a_caution(minutes: float, core_c: float, found: bool) -> None:
    """130 F is 54.4 C: read under it six hours after meat on, a caution that a hotter reading ends."""
    log = cooking(planned(cut="pork_butt"))
    log.read(core_c, minutes)
    over = _found(log, minutes + 1, "pork_butt").get("come_up_over")
    assert (over is not None) is found
    if over is not None:
        assert (over.level, over.limit_c, over.limit_min) == (FindingLevel.CAUTION, 54.4, 360.0)
    log.read(60.0, minutes + 30)
    assert "come_up_over" not in _found(log, minutes + 31, "pork_butt")


@pytest.mark.parametrize("treatment", list(Treatment))
def test_meat_that_is_not_intact_is_stopped_and_stays_so(treatment: Treatment) -> None:
    """Tenderised, injected, rolled, ground or stuffed: a stop that a hotter reading does not end."""
    log = _treated(treatment)
    log.read(54.3, 420)
    assert _found(log, 421, "pork_butt")["come_up_over"].level is FindingLevel.STOP
    log.read(95.0, 700)
    assert _found(log, 701, "pork_butt")["come_up_over"].level is FindingLevel.STOP
    log.done("pull", 710)
    assert "come_up_over" in _found(log, 711, "pork_butt")
    log.tell(Discarded(), 720)
    assert "come_up_over" not in _found(log, 721, "pork_butt")


def test_ground_meat_is_never_intact() -> None:
    """The class of the cut is enough, whatever was told."""
    log = cooking(planned(cut="sausages"))
    log.read(54.0, 420)
    assert _found(log, 421, "sausages")["come_up_over"].level is FindingLevel.STOP


def test_an_answer_of_intact_is_intact() -> None:
    """Asked, and nothing was done to it: as a whole cut."""
    log = _treated()
    log.read(54.0, 420)
    assert _found(log, 421, "pork_butt")["come_up_over"].level is FindingLevel.CAUTION


def test_of_a_range_the_low_edge_comes_up_too_late() -> None:
    """About 55, give or take 1, may be 54."""
    log = _treated(Treatment.INJECTED)
    log.read(55.0, 420, spread_c=1.0)
    assert "come_up_over" in _found(log, 421, "pork_butt")


def test_unread_meat_that_is_not_intact_is_unknown_at_six_hours() -> None:
    """Nobody read 54.4 C in time: a caution, at the minute, by the bell; a hotter reading later tells nothing of it."""
    log = _treated(Treatment.ROLLED)
    log.read(45.0, 300)
    assert _look(log, "pork_butt") == 420
    assert "come_up_unknown" not in _found(log, 419, "pork_butt")
    unknown = _found(log, 420, "pork_butt")["come_up_unknown"]
    assert (unknown.level, unknown.found_c, unknown.limit_c) == (FindingLevel.CAUTION, 45.0, 54.4)
    for minutes, step in ((430, "first_look"), (470, "pull"), (490, "serve")):
        log.read(75.0, minutes - 2)
        log.done(step, minutes)
        assert "come_up_unknown" in _found(log, minutes, "pork_butt"), step
    verdict = _eating(log, 490)
    assert (verdict.eating, verdict.why) == (Eating.UNKNOWN, "cannot_say")
    log.tell(Reading(slot=Slot.CORE, value_c=55.0), 400, recorded=700)
    assert "come_up_unknown" not in _found(log, 701, "pork_butt"), "read in time and told late"
    assert _eating(log, 490).eating is Eating.SAFE
    in_time = _treated(Treatment.ROLLED)
    in_time.read(54.4, 400)
    assert (_look(in_time, "pork_butt"), "come_up_unknown" in _found(in_time, 500, "pork_butt")) == (None, False)


@pytest.mark.parametrize(("core_c", "name", "found"), [(54.3, "beef_cheeks", True), (54.4, "beef_cheeks", False)])
def test_the_four_hour_check_is_stricter_for_meat_that_is_not_intact(core_c: float, name: str, found: bool) -> None:
    """Of any cut, and already under 54.4 C."""
    log = _treated(Treatment.TENDERISED, name=name)
    log.read(core_c, 300)
    assert ("come_up_slow" in _found(log, 301, name)) is found
    intact = cooking(planned(cut=name))
    intact.read(45.0, 300)
    assert "come_up_slow" not in _found(intact, 301, name)
