"""When the first prompt of a step is due: one kind of anchor after the other."""

from __future__ import annotations

import pytest

from scheduler.facts import Detail, Feel, Felt, Reading, Slot, StepDone, Undone, Wrap
from scheduler.planning.series import PIT_OFF_C
from scheduler.safety import act_by
from tests.unit.scheduler.logbook import (
    CATALOGUE,
    WHEN_READY,
    Logbook,
    cooking,
    cut,
    dinner,
    minutes_of,
    planned,
    resting,
)

# --- before serving ----------------------------------------------------------------------


def test_before_serving_counts_back_from_the_plate() -> None:
    """Go or slip at ninety minutes, the last reading and the knife at fifteen, the plate at none."""
    log = resting(planned(serving=dinner(780)))
    assert [log.due(step) for step in ("t_minus", "serve_reading", "slice", "serve")] == [690, 765, 765, 780]


def test_before_serving_follows_a_late_plate() -> None:
    """When the meat is late, the knife waits for the meat and not for the clock; go or move is asked by the clock."""
    log = resting(planned(serving=dinner(300)), pulled=480)
    plate_at = minutes_of(log.situation.outlook.plate.likely)
    assert plate_at is not None
    assert log.due("slice") == plate_at - 15
    assert log.due("t_minus") == 300 - 90


def test_nobody_is_asked_to_slice_what_is_on_the_fire() -> None:
    """However late it is: reading before slicing, slicing and the plate wait for the pull."""
    log = cooking(planned(serving=dinner(300)))
    assert [log.prompt(step) for step in ("serve_reading", "slice", "serve")] == [None, None, None]


def test_go_or_slip_is_not_asked_when_dinner_follows_the_meat() -> None:
    """There is no time to keep, so nobody is asked to keep it."""
    assert cooking(planned(serving=WHEN_READY)).prompt("t_minus") is None
    assert cooking().prompt("t_minus") is not None


def test_slicing_and_serving_are_not_asked_before_there_is_meat_on_the_fire() -> None:
    """They stand in the plan from the start, but are asked for only once the meat is on."""
    log = Logbook()
    assert {step.id for _, step in log.situation.itinerary()} >= {"serve_reading", "slice", "serve"}
    assert [log.prompt(step) for step in ("serve_reading", "slice", "serve")] == [None, None, None]


# --- after an event ----------------------------------------------------------------------


def test_after_an_event_waits_for_the_event_itself() -> None:
    """Parts go in twenty minutes after the fire was lit, not after it was planned to be lit."""
    log = Logbook()
    assert log.prompt("heat_parts_in") is None
    log.done("light", 100)
    assert log.due("heat_parts_in") == 120


def test_after_an_event_may_follow_its_planned_time() -> None:
    """The fire is lit an hour before the planned meat on; the box is warmed before the expected pull."""
    log = Logbook()
    on_at = minutes_of(log.situation.outlook.on_at)
    assert on_at is not None
    assert log.due("light") == on_at - 60
    log = cooking()
    pull_at = minutes_of(log.situation.outlook.pull.likely)
    assert pull_at is not None
    assert log.due("box_ready") == pytest.approx(pull_at - 45)


def test_after_an_event_moves_with_a_corrected_time() -> None:
    """Vent and box count from the pull as it is known now."""
    log = resting(pulled=480)
    assert (log.due("vent_meat"), log.due("box_meat")) == (480, 500)
    log.taken(StepDone(step="pull"), minutes=490, ago=20, dated=True)
    assert (log.due("vent_meat"), log.due("box_meat")) == (470, 490)


def test_the_day_before_is_not_asked_at_night() -> None:
    """Salting that falls due at three in the morning is asked the evening before at eight; by day it stays."""
    night = Logbook(planned(serving=dinner(48 * 60 + 15)))
    on_at = minutes_of(night.situation.outlook.on_at)
    assert on_at is not None
    assert (on_at - 18 * 60 + 6 * 60) % (24 * 60) < 7 * 60, "the case: due before seven"
    due = night.due("dry_brine")
    assert due is not None
    assert (due + 6 * 60) % (24 * 60) == 20 * 60
    assert due < on_at - 18 * 60


@pytest.mark.parametrize(("shut_at", "due"), [(480, 480 + 2880), (-150, 2880 + 180), (1000, 1000 + 2880 + 620)])
def test_the_days_after_are_not_asked_at_night(shut_at: float, due: float) -> None:
    """Ash of an afternoon is asked about two days later at that hour; of half past three or of eleven, at nine."""
    log = Logbook()
    log.done("meat_on", -600, recorded=0)
    log.done("pull", shut_at - 10)
    log.done("shutdown", shut_at, "closed")
    assert log.due("ash") == due


# --- after an outcome ----------------------------------------------------------------------


def test_low_fuel_asks_for_charcoal_at_once_and_each_time() -> None:
    """Low: now. Added: quiet. Low again: now again."""
    log = cooking()
    log.taken(StepDone(step="fuel_check", outcome="plenty"), minutes=200)
    assert log.prompt("refuel") is None
    log.taken(StepDone(step="fuel_check", outcome="low"), minutes=340)
    assert log.due("refuel") == 340
    log.taken(StepDone(step="refuel"), minutes=350)
    assert log.prompt("refuel") is None
    log.taken(StepDone(step="fuel_check", outcome="low"), minutes=480)
    assert log.due("refuel") == 480


def test_low_fuel_told_twice_wants_charcoal_once() -> None:
    """Two people see the same empty basket: one load answers both."""
    log = cooking()
    log.taken(StepDone(step="fuel_check", outcome="low"), minutes=200)
    log.done("fuel_check", 215, "low", by="Tomas")
    log.taken(StepDone(step="refuel"), minutes=220)
    assert log.prompt("refuel") is None


def test_charcoal_added_before_it_was_asked_for_answers_the_question_too() -> None:
    """Told late that it was added a while ago: nobody is sent to add more."""
    log = cooking()
    log.taken(StepDone(step="fuel_check", outcome="low"), minutes=200)
    log.taken(StepDone(step="refuel"), minutes=220, ago=25)
    assert log.prompt("refuel") is None


def test_tender_asks_for_the_pull_at_once() -> None:
    """The hand decides: slides in is pull now, almost is not."""
    log = cooking()
    log.taken(Felt(feel=Feel.ALMOST), minutes=400)
    assert log.prompt("pull") is None
    log.taken(Felt(feel=Feel.TENDER), minutes=420)
    assert log.due("pull") == 420


def test_tight_after_tender_takes_the_pull_back() -> None:
    """Felt again, and otherwise: the pull waits for the next tender feel."""
    log = cooking()
    log.taken(Felt(feel=Feel.TENDER), minutes=420)
    log.taken(Felt(feel=Feel.TIGHT), minutes=425, by="Tomas")
    assert log.prompt("pull") is None
    log.taken(Felt(feel=Feel.TENDER), minutes=450)
    assert log.due("pull") == 450


def test_after_the_pull_nobody_is_asked_to_pull() -> None:
    """Tender in two spots, then pulled; tender felt in the box again: no pull is asked for."""
    log = cooking()
    log.taken(Felt(feel=Feel.TENDER), minutes=420)
    log.taken(Felt(feel=Feel.TENDER, spot="point"), minutes=422)
    log.taken(StepDone(step="pull"), minutes=430)
    assert log.prompt("pull") is None
    log.felt(Feel.TENDER, 440)
    assert log.prompt("pull") is None


# --- at a core temperature ----------------------------------------------------------------------


def test_at_a_core_is_due_when_the_forecast_says() -> None:
    """Before any reading: the median of the forecast for that temperature."""
    log = cooking()
    expected = minutes_of(log.situation.outlook.crossing(cut().bark_look_c).quantile(0.5))
    assert log.due("bark_check") == expected
    prompt = log.prompt("bark_check")
    assert prompt is not None
    assert (prompt.why.kind, prompt.why.core_c) == ("core", 80.0)


def test_at_a_core_is_due_at_the_reading_that_shows_it() -> None:
    """Read at or above it: due at the first such reading, not at what was forecast."""
    log = cooking()
    log.read(60.0, 240)
    log.read(80.0, 330)
    log.read(84.0, 350)
    assert log.due("bark_check") == 330


def test_at_a_core_is_never_due_before_a_reading_that_lies_below() -> None:
    """Read a degree below it just now: due later than now."""
    log = cooking()
    log.read(79.0, 600)
    due = log.due("bark_check")
    assert due is not None
    assert due >= 600


def test_a_doubtful_reading_makes_nothing_due() -> None:
    """A probe against the bone does not call for the feel."""
    log = cooking()
    before = log.due("tender_test")
    log.read(95.0, 120, doubtful=True)
    assert log.due("tender_test") == before


def test_before_the_meat_is_on_nothing_is_due_at_a_core() -> None:
    """There is no core to pass a temperature."""
    log = Logbook()
    assert log.prompt("bark_check") is None
    assert log.prompt("tender_test") is None


def test_the_bark_is_not_looked_at_when_the_wrap_is_settled() -> None:
    """Bare by plan, wrapped already, bare to the end by word, or tender: nobody is asked to look."""
    assert cooking(planned(wrap=Wrap.NONE)).prompt("bark_check") is None
    for wrap in (Wrap.FOIL, Wrap.NONE):
        log = cooking()
        log.wrapped(wrap, 300)
        assert log.prompt("bark_check") is None
    log = cooking()
    log.felt(Feel.TENDER, 300)
    assert log.prompt("bark_check") is None
    assert cooking(planned(wrap=Wrap.PAPER)).prompt("bark_check") is not None


# --- a gate of several conditions ----------------------------------------------------------------------


def test_meat_on_waits_for_its_planned_time_while_conditions_are_open() -> None:
    """An hour after lighting, naming what is still open."""
    log = Logbook(planned(serving=WHEN_READY))
    assert log.prompt("meat_on") is None
    log.done("light", 0)
    prompt = log.prompt("meat_on")
    assert prompt is not None
    assert log.due("meat_on") == 60
    assert prompt.why.open_conditions == ("smoke_clean", "pit_stable", "probe_in")


def test_meat_on_is_due_as_soon_as_its_conditions_are_met() -> None:
    """Clean smoke, pit there, probe in: no waiting for the clock; asked for or told unasked, both count."""
    log = Logbook(planned(serving=WHEN_READY))
    log.done("probe_in", -10)
    log.taken(StepDone(step="light"), minutes=0)
    log.taken(StepDone(step="smoke_clean", outcome="thin"), minutes=35)
    prompt = log.prompt("meat_on")
    assert prompt is not None
    assert prompt.why.open_conditions == ("pit_stable",)
    log.taken(Reading(slot=Slot.PIT, value_c=135.0), minutes=40)
    assert log.due("meat_on") == 40


def test_grey_smoke_is_no_clean_smoke() -> None:
    """The condition stays open and is asked about again after ten minutes."""
    log = Logbook(planned(serving=WHEN_READY))
    log.taken(StepDone(step="light"), minutes=0)
    log.taken(StepDone(step="smoke_clean", outcome="grey"), minutes=42)
    assert log.due("smoke_clean") == 52
    prompt = log.prompt("meat_on")
    assert prompt is not None
    assert "smoke_clean" in prompt.why.open_conditions


# --- held meat ----------------------------------------------------------------------


def test_held_meat_is_looked_at_when_a_careful_estimate_says_so() -> None:
    """Due when the estimate comes down to 63 C; a reading in the box replaces the estimate."""
    log = resting(planned(serving=dinner(1000)), pulled=480)
    assert log.due("hold_check") == minutes_of(act_by(log.state, cut()))
    log.read(75.0, 560)
    assert log.due("hold_check") == minutes_of(act_by(log.state, cut()))


def test_a_held_check_just_before_the_last_reading_is_left_to_it() -> None:
    """One opening of the box, not two, as long as the last reading is asked for, if only once an hour."""
    log = resting(planned(serving=dinner(585)), pulled=480)
    assert log.prompt("serve_reading") is not None
    assert log.prompt("hold_check") is None
    for minutes in (570, 580, 590, 600):
        log.ring(minutes)
    assert log.wakes("serve_reading") == 600 + 60
    assert log.prompt("hold_check") is None


# --- what belongs to a cook ----------------------------------------------------------------------


def test_levels_of_detail_hold_one_another() -> None:
    """Every step, the must and should, only the must; safety is in all of them."""
    steps = {
        detail: {prompt.step.id for prompt in cooking(planned(detail=detail)).situation.prompts} for detail in Detail
    }
    assert steps[Detail.DECISIONS] < steps[Detail.USUAL] < steps[Detail.EVERY]
    assert "raw_cleanup" in steps[Detail.DECISIONS]
    assert "spritz" in steps[Detail.EVERY] - steps[Detail.USUAL]
    assert "pit_check" in steps[Detail.USUAL] - steps[Detail.DECISIONS]


def test_big_cuts_are_read_at_four_hours() -> None:
    """Brisket and shoulder loiter in the warm; ribs do not."""
    assert cooking().prompt("come_up_check") is None
    assert cooking(planned(cut="brisket_packer")).due("come_up_check") == 60 + 240


def test_what_is_done_is_not_asked_again_unless_taken_back() -> None:
    """Done stays done; its undo brings the question back under its old key."""
    log = Logbook()
    assert log.prompt("trim") is not None
    done = log.taken(StepDone(step="trim"), minutes=10).facts[0]
    assert log.prompt("trim") is None
    log.taken(Undone(of=done.id), minutes=11)
    prompt = log.prompt("trim")
    assert prompt is not None
    assert prompt.key == "p1/trim/1"


def test_a_cook_from_the_middle_is_not_asked_about_its_past() -> None:
    """No day before, no fire, no washing down of hours ago; what comes is asked."""
    log = Logbook(planned(from_middle=True), planned_at=300)
    log.done("meat_on", 0, recorded=300)
    log.tell(Reading(slot=Slot.CORE, value_c=74.0), 300)
    asked = {prompt.step.id for prompt in log.situation.prompts}
    assert not asked & {"trim", "clean_cooker", "rules_recheck", "light", "smoke_clean", "meat_on", "raw_cleanup"}
    assert asked >= {"bark_check", "tender_test"}


def test_a_pit_far_out_of_its_band_is_more_than_eight_degrees_off() -> None:
    """The width of "off" is what the advice about the pit uses, too."""
    assert PIT_OFF_C == 8.0


@pytest.mark.parametrize("outcome", ["away", "on_heat", "thrown"])
def test_food_put_away_is_not_asked_about_again(outcome: str) -> None:
    """Two hours: asked from ninety minutes after serving, until it is answered or the leftovers are in the fridge."""
    log = resting()
    log.done("serve", 780)
    assert log.due("two_hour") == 870
    log.taken(StepDone(step="two_hour", outcome=outcome), minutes=871)
    assert log.prompt("two_hour") is None
    other = resting()
    other.done("serve", 780)
    other.taken(StepDone(step="leftovers"), minutes=860)
    assert other.prompt("two_hour") is None


@pytest.mark.parametrize("name", [one.id for one in CATALOGUE.cuts.cuts])
def test_no_look_at_the_fire_is_planned_after_the_pull(name: str) -> None:
    """What the pull ends is not in the plan of a cook that is off the fire by then; of one that is not, it is."""
    of = cut(name)
    log = Logbook(planned(cut=name, serving=dinner(2160), pit_low_c=of.pit_c.typical, pit_high_c=of.pit_c.typical))
    pull = log.situation.outlook.pull.likely
    assert pull is not None
    listed = [(at_, step) for at_, step in log.situation.itinerary() if "pull" in step.until]
    assert [step.id for at_, step in listed if at_ > pull] == []
    assert {"pull", "pit_check"} <= {step.id for _at, step in listed}
