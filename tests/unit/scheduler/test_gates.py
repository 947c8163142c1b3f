"""The gate before the meat goes on: its conditions, what waiting costs, and vents by the clock of the rising pit."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import Detail, Reading, Slot, StepDone, StepSkipped
from scheduler.planning.backward import after_pull, planned_after_pull
from scheduler.planning.gates import CLOSING_C, Pit, passes_at, pit_of, pit_ready_at, slack
from scheduler.planning.telling import boxed
from tests.unit.scheduler.logbook import WHEN_READY, Logbook, at, cooking, dinner, minutes_of, planned, steps_of


def _lit(*pits: tuple[float, float], cut: str = "beef_chuck_ribs") -> Logbook:
    """Return a fire lit at the start, with readings of its pit (minutes, °C)."""
    log = Logbook(planned(cut=cut, serving=dinner(780)))
    log.done("light", 0)
    for minutes, value_c in pits:
        log.read(value_c, minutes, slot=Slot.PIT)
    return log


# --- the pit ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("pits", "pit"),
    [
        ([], Pit.UNKNOWN), ([(15, 60)], Pit.LOW), ([(15, 60), (45, 128)], Pit.THERE), ([(30, 142)], Pit.THERE),
        ([(30, 150)], Pit.HIGH),
    ],
)  # fmt: skip
def test_how_the_pit_stands(pits: list[tuple[float, float]], pit: Pit) -> None:
    """For 135 C: nobody read it, far below, within 8 C, above."""
    assert pit_of(_lit(*pits).state) is pit


def test_a_pit_that_rises_with_its_vents_set_is_ready_for_the_meat() -> None:
    """The gate is a set of conditions, not a pit number: at 110 C with the vents set it may go on."""
    log = _lit((30, 110))
    assert pit_ready_at(log.state) is None
    log.done("vents_early", 32)
    assert (pit_of(log.state), minutes_of(pit_ready_at(log.state))) == (Pit.RISING, 32)


def test_a_number_out_of_the_band_leaves_the_gate_open() -> None:
    """Asked, answered with 90 C, and asked again a quarter of an hour later; met at 130 C."""
    log = _lit()
    log.ring(45)
    log.taken(Reading(slot=Slot.PIT, value_c=90.0), minutes=46)
    assert pit_ready_at(log.state) is None
    assert log.due("pit_stable") == 46 + 15
    log.taken(Reading(slot=Slot.PIT, value_c=130.0), minutes=62)
    assert log.prompt("pit_stable") is None
    prompt = log.prompt("meat_on")
    assert prompt is not None
    assert "pit_stable" not in prompt.why.open_conditions


def test_a_question_that_was_skipped_holds_nobody_up() -> None:
    """Who does not want to read the pit may put the meat on all the same."""
    log = _lit()
    log.ring(45)
    log.taken(StepSkipped(step="pit_stable"), minutes=47)
    assert minutes_of(pit_ready_at(log.state)) == 47


def test_ice_holds_the_meat_up() -> None:
    """Frozen meat: feeling for ice is asked the day before, and stays open until somebody has felt it."""
    log = Logbook(planned(frozen=True, serving=dinner(4 * 24 * 60)))
    assert log.prompt("thaw_start") is not None
    on_at = minutes_of(log.situation.outlook.on_at)
    due = log.due("thaw_check")
    assert on_at is not None
    assert due is not None
    assert due <= on_at - 2160
    log.taken(StepDone(step="thaw_check", outcome="soft"), minutes=on_at - 2160)
    assert log.prompt("thaw_check") is None


# --- what waiting costs ----------------------------------------------------------------------


def test_waiting_costs_rest_first_and_dinner_then() -> None:
    """Between the two lies the rest that a plan allows above its shortest."""
    log = _lit()
    found = slack(log.state, log.situation.outlook, log.situation.cut)
    assert found is not None
    cut = log.situation.cut
    assert found.rest_until - found.free_until == planned_after_pull(cut) - after_pull(cut)
    ready_at = log.situation.outlook.forecast.ready().quantile(found.p)
    assert ready_at is not None
    waited = found.rest_until - log.situation.outlook.on_at
    assert ready_at + waited + after_pull(cut) == log.situation.outlook.serve_end


def test_meat_that_goes_on_at_the_last_moment_is_on_time_as_often_as_was_wanted() -> None:
    """Put on when waiting has eaten all rest: the chance of dinner is the confidence of the plan."""
    log = _lit()
    found = slack(log.state, log.situation.outlook, log.situation.cut)
    assert found is not None
    last = minutes_of(found.rest_until)
    assert last is not None
    log.done("meat_on", last)
    assert log.situation.outlook.chance == pytest.approx(found.p, abs=0.05)


def test_there_is_no_slack_to_tell_when_dinner_follows_the_meat_or_the_meat_is_on() -> None:
    """Nothing is late without a time, and what is on waits no more."""
    free = Logbook(planned(serving=WHEN_READY))
    assert slack(free.state, free.situation.outlook, free.situation.cut) is None
    log = cooking()
    assert slack(log.state, log.situation.outlook, log.situation.cut) is None


# --- vents by the clock ----------------------------------------------------------------------


def test_vents_come_by_the_clock_of_the_readings() -> None:
    """60 C at fifteen and 90 C at twenty-five minutes: 121 C is foreseen soon after, and asked for then."""
    log = _lit((15, 60), (25, 90))
    foreseen = passes_at(log.state, 135 - CLOSING_C[0])
    prompt = log.prompt("vents_early")
    assert foreseen is not None
    assert prompt is not None
    assert at(25) < foreseen < at(60)
    assert (prompt.due_at, prompt.why.kind, prompt.why.pit_c) == (foreseen, "rising", 121.0)


def test_a_faster_pit_is_asked_about_sooner() -> None:
    """The clock follows the readings, not a table."""
    slow, fast = (_lit((15, 50), (25, value_c)).due("vents_early") for value_c in (70, 110))
    assert slow is not None
    assert fast is not None
    assert fast < slow


def test_without_a_reading_the_vents_come_by_what_is_usual() -> None:
    """Half an hour after lighting, at a cooker that takes an hour."""
    log = _lit()
    assert log.due("vents_early") == 30
    assert log.prompt("pit_rising") is not None


def test_a_pit_that_has_passed_the_mark_wants_its_vents_at_once() -> None:
    """Read above it: due at that reading."""
    assert _lit((20, 124)).due("vents_early") == 20


def test_the_pit_is_read_twice_on_its_way_up() -> None:
    """At a quarter of an hour and ten minutes after that, at the usual level of detail only."""
    log = _lit()
    assert log.due("pit_rising") == 15
    log.taken(Reading(slot=Slot.PIT, value_c=60.0), minutes=16)
    assert log.due("pit_rising") == 26
    few = Logbook(planned(detail=Detail.DECISIONS))
    few.done("light", 0)
    assert [few.prompt(step) for step in ("pit_rising", "vents_early")] == [None, None]


# --- cuts that go by the thermometer ----------------------------------------------------------------------


def test_a_roast_comes_off_when_its_lowest_spot_is_read_at_its_target() -> None:
    """One number that nobody asked for is not several spots; the lowest of those that were asked for decides."""
    log = Logbook(planned(cut="whole_chicken", pit_low_c=149, pit_high_c=149, serving=dinner(400)))
    log.done("light", 0)
    log.done("meat_on", 60)
    log.read(72.0, 150)
    log.taken(Reading(slot=Slot.CORE, value_c=74.0), minutes=165)
    assert log.prompt("pull") is None
    assert "second_spot" in steps_of(log.trip(165))
    log.taken(Reading(slot=Slot.CORE, value_c=72.5), minutes=168)
    assert log.prompt("pull") is None
    again = log.due("second_spot")
    assert again is not None
    assert 168 < again <= 183
    log.ring(again)
    log.taken(Reading(slot=Slot.CORE, value_c=73.9), minutes=again + 1)
    assert log.due("pull") == again + 1
    assert log.prompt("tender_test") is None
    assert not boxed(log.state, log.situation.cut)
    assert log.prompt("box_ready") is None


def test_a_tough_cut_is_felt_and_not_read_for_its_target() -> None:
    """The hand decides about ribs."""
    log = cooking()
    assert log.prompt("second_spot") is None
    assert log.prompt("tender_test") is not None


def test_short_cooks_are_read_when_half_of_them_is_over() -> None:
    """A side of salmon is off before an hour and a half are over."""
    log = Logbook(planned(cut="salmon_side", pit_low_c=107, pit_high_c=107, serving=dinner(400)))
    log.done("light", 0)
    log.done("meat_on", 60)
    assert log.due("core_read") == 60 + 30 * log.situation.cut.duration_h.typical
    assert dt.timedelta(0) < log.situation.outlook.pull.likely - at(60) < dt.timedelta(hours=2)  # type: ignore[operator]  # a side of salmon has a pull
