"""The plan backward from dinner, and the verdict on it."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from scheduler.facts import CookerKind, Feel, PitMoved, Reading, ServingMoved, Slot, Wrap
from scheduler.planning.backward import CONFIDENCE, quantile_of
from scheduler.planning.outlook import LATE, LIGHT_LEAD, ON_TIME, Verdict, after_pull, cooking_span, planned_after_pull
from tests.unit.scheduler.logbook import (
    CATALOGUE,
    WHEN_READY,
    Logbook,
    at,
    cooking,
    cut,
    dinner,
    minutes_of,
    planned,
    resting,
)

FIVE = dt.timedelta(minutes=5)


def test_the_plan_is_made_backward_from_dinner() -> None:
    """Meat on is dinner minus slicing, the shortest rest, venting and a careful cooking time, on whole five minutes."""
    log = Logbook(planned(serving=dinner(1200)))
    outlook = log.situation.outlook
    back = after_pull(cut()) + cooking_span(cut(), log.state, quantile_of(cut(), CONFIDENCE))
    assert dt.timedelta() <= at(1200) - back - outlook.on_at < FIVE
    assert outlook.on_at.minute % 5 == 0
    assert outlook.light_at == outlook.on_at - LIGHT_LEAD
    assert outlook.plate_at == at(1200)


@pytest.mark.parametrize("kind", CookerKind)
def test_each_kind_of_cooker_is_lit_as_long_before_as_it_takes(kind: CookerKind) -> None:
    """A kettle is lit later than ceramic for the same meat-on, and what is done meanwhile keeps its place."""
    log = Logbook(planned(serving=dinner(1200)))
    usual_on_at = log.situation.outlook.on_at
    cooker = CATALOGUE.cookers.of_kind(kind)
    assert cooker.light_min is not None
    log.tell(cooker, 1)
    outlook = log.situation.outlook
    assert outlook.on_at == usual_on_at
    assert outlook.on_at - outlook.light_at == dt.timedelta(minutes=cooker.light_min)
    assert log.due("light") == minutes_of(outlook.light_at)
    log.done("light", minutes_of(outlook.light_at) or 0)
    after = (log.due("smoke_clean") or 0) - (minutes_of(outlook.light_at) or 0)
    assert after % 5 == 0
    assert abs(after - 40 * cooker.light_min / 60) <= 2.5


def test_the_planned_rest_lies_in_the_ideal_and_the_shortest_below_it() -> None:
    """Planned: the lower part of the ideal rest; at the latest: the shortest rest that still counts."""
    ribs = cut()
    assert after_pull(ribs) == dt.timedelta(minutes=20 + 30 + 15)
    assert planned_after_pull(ribs) == dt.timedelta(minutes=20 + 75 + 15)


def test_nothing_is_planned_in_the_past() -> None:
    """When the careful start has passed, the meat goes on as soon as a fire can be ready."""
    log = Logbook(planned(serving=dinner(460)))
    assert log.situation.outlook.on_at == at(60)
    log.done("light", 30)
    assert log.situation.outlook.on_at == at(90)


def test_a_burning_fire_is_waited_for_and_no_longer() -> None:
    """Lit half an hour ago the meat can go on half an hour from now; lit long ago, now."""
    log = Logbook(planned(serving=WHEN_READY))
    log.done("light", 0)
    log.done("probe_in", 30)
    assert log.situation.outlook.on_at == at(60)
    log.done("smoke_clean", 200)
    assert log.situation.outlook.on_at == at(200)


def test_when_ready_starts_at_once_and_eats_when_the_meat_allows() -> None:
    """No dinner time: meat on as soon as it can be, the plate after the planned rest, no verdict."""
    outlook = Logbook(planned(serving=WHEN_READY)).situation.outlook
    assert outlook.on_at == at(60)
    assert outlook.pull.likely is not None
    assert outlook.plate_at == outlook.pull.likely + planned_after_pull(cut())
    assert (outlook.verdict, outlook.chance, outlook.spare) == (Verdict.OPEN, None, None)


def test_a_window_is_planned_for_its_end_and_eaten_from_its_start() -> None:
    """Six to seven: the plan meets seven, and the plate comes from six on."""
    at_six = Logbook(planned(serving=dinner(900))).situation.outlook
    window = Logbook(planned(serving=dinner(900, window=60))).situation.outlook
    assert window.on_at == at_six.on_at + dt.timedelta(hours=1)
    assert window.plate_at is not None
    assert at(900) <= window.plate_at <= at(960)
    assert (window.chance, window.spare) == (at_six.chance, at_six.spare)


@pytest.mark.parametrize(
    ("dinner_at", "verdict"),
    [(900, Verdict.EARLY), (660, Verdict.ON_TIME), (515, Verdict.CLOSE), (420, Verdict.LATE)],
)
def test_the_verdict_follows_the_chance_of_eating_on_time(dinner_at: float, verdict: Verdict) -> None:
    """Longer than it keeps is early, ample time on time, the usual time close, less late: then `spare` is negative."""
    outlook = cooking(planned(serving=dinner(dinner_at))).situation.outlook
    assert outlook.verdict is verdict
    assert outlook.spare is not None
    if verdict is not Verdict.CLOSE:  # about the usual time the likely plate may lie on either side
        assert (outlook.spare < dt.timedelta()) is (verdict is Verdict.LATE)


def test_a_late_dinner_is_planned_for_when_the_meat_allows() -> None:
    """When the meat will not be ready, the plate moves, not the meat."""
    outlook = cooking(planned(serving=dinner(300))).situation.outlook
    assert outlook.plate.likely is not None
    assert outlook.plate_at == outlook.plate.likely > at(300)


def test_while_it_is_on_the_fire_it_was_not_ready_before_the_last_news() -> None:
    """Ten hours on without a reading: the pull lies now, never in the past."""
    log = cooking(planned(serving=dinner(1000)))
    log.read(135.0, 900, slot=Slot.PIT)
    pull = log.situation.outlook.pull
    assert pull.early == pull.likely == at(900)


def test_the_hand_decides_when_it_is_ready() -> None:
    """Felt tender, the pull is due now whatever the forecast says; felt tight again, the forecast counts."""
    log = cooking()
    log.felt(Feel.TENDER, 300)
    assert log.situation.outlook.pull.likely == at(300)
    log.felt(Feel.TIGHT, 310)
    likely = minutes_of(log.situation.outlook.pull.likely)
    assert likely is not None
    assert likely > 330


def test_after_the_pull_the_plate_is_known() -> None:
    """Pulled: the earliest plate is vent, shortest rest and slicing later, and dinner is certain or missed."""
    outlook = resting(pulled=480).situation.outlook
    assert outlook.pull.early == outlook.pull.late == at(480)
    assert outlook.plate.likely == at(480 + 65)
    assert (outlook.chance, outlook.verdict) == (1.0, Verdict.EARLY)  # dinner is later than a cold box holds
    late = resting(planned(serving=dinner(500)), pulled=480).situation.outlook
    assert (late.chance, late.verdict) == (0.0, Verdict.LATE)


def test_after_serving_the_plate_is_when_it_was_served() -> None:
    """Nothing is expected any more."""
    log = resting()
    log.done("serve", 770)
    outlook = log.situation.outlook
    assert outlook.plate.early == outlook.plate.late == outlook.plate_at == at(770)


def test_dinner_moved_moves_the_plan_before_the_meat_is_on_and_not_after() -> None:
    """Two hours later for dinner is two hours later for the meat, unless it is on the fire already."""
    early, late = Logbook(planned(serving=dinner(900))), Logbook(planned(serving=dinner(900)))
    before = early.situation.outlook.on_at
    early.tell(ServingMoved(serving=dinner(1020)), 10)
    assert early.situation.outlook.on_at == before + dt.timedelta(hours=2)
    late.done("meat_on", 200)
    late.tell(ServingMoved(serving=dinner(1020)), 210)
    assert late.situation.outlook.on_at == at(200)
    assert late.situation.outlook.plate_at == at(1020)


def test_an_early_finish_that_outlasts_a_cold_box_is_named() -> None:
    """A pull seven hours before dinner waits longer than towels keep it hot."""
    assert resting(planned(serving=dinner(1000)), pulled=480).situation.outlook.box_outlasted
    assert not resting(planned(serving=dinner(580)), pulled=480).situation.outlook.box_outlasted
    assert not resting(planned(serving=WHEN_READY), pulled=480).situation.outlook.box_outlasted


def test_a_hotter_pit_and_a_wrap_bring_the_pull_forward() -> None:
    """What is known of pit and wrap reaches the forecast."""
    slow, hot, wrapped = cooking(), cooking(), cooking(planned(wrap=Wrap.NONE))
    bare = cooking(planned(wrap=Wrap.NONE)).situation.outlook.pull.likely
    hot.tell(PitMoved(pit_low_c=149.0, pit_high_c=149.0), 61)
    wrapped.wrapped(Wrap.FOIL, 240)
    pulls = [log.situation.outlook.pull.likely for log in (slow, hot, wrapped)]
    assert pulls[0] is not None
    assert pulls[1] is not None
    assert pulls[1] < pulls[0]
    assert bare is not None
    assert pulls[2] is not None
    assert pulls[2] < bare


def test_readings_before_the_meat_went_on_are_not_of_the_meat_on_the_fire() -> None:
    """A probe read in the fridge more than an hour before says nothing about the rise."""
    log = cooking()
    before = log.situation.outlook.pull
    log.tell(Reading(slot=Slot.CORE, value_c=40.0), -1, recorded=60)
    assert dataclasses.replace(before) == log.situation.outlook.pull


def test_across_the_change_of_clocks_hours_are_real_hours() -> None:
    """Dinner at six in London on the day the clocks go back: the plan counts instants, not clock faces."""
    night = dt.datetime(2026, 10, 24, 20, 0, tzinfo=dt.UTC)
    wall = dt.datetime(2026, 10, 25, 18, 0)  # noqa: DTZ001 - wall time of the cook's own zone
    serving = dataclasses.replace(dinner(0), zone="Europe/London", start=wall)
    log = Logbook(planned(cut="brisket_packer", serving=serving, pit_low_c=121.0, pit_high_c=121.0))
    log.facts = tuple(dataclasses.replace(f, happened_at=night, recorded_at=night) for f in log.facts)
    outlook = log.situation.outlook
    assert outlook.serve_at == dt.datetime(2026, 10, 25, 18, 0, tzinfo=dt.UTC)
    back = after_pull(cut("brisket_packer")) + cooking_span(
        cut("brisket_packer"), log.state, quantile_of(cut("brisket_packer"), CONFIDENCE)
    )
    planned_on = max(outlook.serve_at - back, night + LIGHT_LEAD)
    assert abs(outlook.on_at - planned_on) < FIVE


# --- cuts that do not keep --------------------------------------------------------------------------------------------


def _bird(*, on: float | None = None, serve: float = 780) -> Logbook:
    pit = {"pit_low_c": 163.0, "pit_high_c": 163.0}
    log = Logbook(planned(cut="whole_chicken", serving=dinner(serve), mass_kg=1.8, **pit))
    if on is not None:
        log.done("light", on - 60)
        log.done("meat_on", on)
    return log


def _on_for_a_bird(late_min: float) -> float:
    """Return when a bird goes on whose likely plate comes so many minutes after dinner."""
    outlook = _bird(on=600).situation.outlook
    assert outlook.plate.likely is not None
    return 600 + late_min - (outlook.plate.likely - at(780)) / dt.timedelta(minutes=1)


def test_a_cut_that_does_not_keep_is_planned_on_its_usual_time() -> None:
    """Before it is on and with time for it, half of all cooks are a little late: that is the plan and no verdict."""
    outlook = _bird().situation.outlook
    assert outlook.verdict is Verdict.USUAL
    assert outlook.chance is not None
    assert outlook.chance < ON_TIME
    assert Logbook(planned(cut="brisket_packer", serving=dinner(2000))).situation.outlook.verdict is Verdict.ON_TIME


def test_without_time_for_its_usual_pace_it_is_judged_as_any_other() -> None:
    """Dinner in an hour and a half: it is late, and said to be."""
    assert _bird(serve=150).situation.outlook.verdict is Verdict.LATE


def test_once_it_is_on_it_is_late_from_a_quarter_of_an_hour_on() -> None:
    """Ten minutes behind dinner it is no more than close, half an hour behind it is late; the chance told is the plain
    one.
    """
    on_time, close, late = (_bird(on=_on_for_a_bird(by)).situation.outlook for by in (-25, 10, 40))
    assert on_time.verdict is Verdict.ON_TIME
    assert close.verdict is Verdict.CLOSE
    assert late.verdict is Verdict.LATE
    assert close.chance is not None
    assert close.chance < LATE
    tough = cooking(planned(serving=dinner(780)))
    plate = tough.situation.outlook.plate.likely
    assert plate is not None
    behind = (plate - at(0)) / dt.timedelta(minutes=1) - 10
    assert cooking(planned(serving=dinner(behind))).situation.outlook.verdict is not Verdict.ON_TIME
