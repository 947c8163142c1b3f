"""Dinner times that can and cannot be, at the beginning and when dinner moves."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.cook import Beginning, Changes, Refusal, begin
from scheduler.facts import Planned, Serving, ServingMoved, StepDone
from scheduler.planning.outlook import Verdict, after_pull
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
)  # fmt: skip


def _begin(plan: Planned, **more: object) -> Changes | Refusal:
    beginning = Beginning(cook="c1", planned=plan, **more)  # type: ignore[arg-type]  # fields of the beginning
    return begin(beginning, by="Ines", now=at(0), seed="s", message="m0", catalogue=CATALOGUE)


def _refused(plan: Planned, **more: object) -> Refusal:
    result = _begin(plan, **more)
    assert isinstance(result, Refusal), result
    return result


def _begun(plan: Planned, **more: object) -> Logbook:
    result = _begin(plan, **more)
    assert isinstance(result, Changes), result
    log = Logbook(plan)
    log.facts = result.facts
    return log


# --- at the beginning -------------------------------------------------------------------------------------------------


def test_dinner_in_the_past_is_refused_with_the_earliest() -> None:
    """Ten minutes ago: refused, with the earliest plate and the sum behind it."""
    refusal = _refused(planned(serving=dinner(-10)))
    assert refusal.reason == "serving_past"
    assert refusal.at is not None
    assert refusal.at > at(300)
    assert [name for name, _ in refusal.minutes] == ["light", "cook", "vent", "rest", "slice"]


def test_dinner_impossibly_soon_is_refused_with_the_earliest() -> None:
    """In three hours no rack is tender: refused, and the time offered instead is accepted."""
    refusal = _refused(planned(serving=dinner(180)))
    assert refusal.reason == "serving_too_soon"
    earliest = minutes_of(refusal.at)
    assert earliest is not None
    assert earliest % 5 == 0
    _begun(planned(serving=dinner(earliest)))


def test_the_sum_behind_the_earliest_adds_up() -> None:
    """Fire, cooking, venting, shortest rest and slicing lead from now to the time named, give or take the rounding."""
    refusal = _refused(planned(serving=dinner(180)))
    total = sum(minutes for _, minutes in refusal.minutes)
    earliest = minutes_of(refusal.at)
    assert earliest is not None
    assert 0 <= earliest - total < 5


def test_soon_with_luck_is_accepted_and_called_late() -> None:
    """Possible for the fastest rack in ten: taken, with an honest verdict."""
    earliest = minutes_of(Logbook(planned(serving=dinner(120))).situation.outlook.plate.early)
    assert earliest is not None
    log = _begun(planned(serving=dinner(earliest + 5)))
    assert log.situation.outlook.verdict == "late"


def test_a_window_is_possible_when_its_end_is() -> None:
    """The start may be too soon as long as the end is not."""
    assert isinstance(_begin(planned(serving=dinner(240, window=300))), Changes)
    assert _refused(planned(serving=dinner(60, window=60))).reason == "serving_too_soon"


def test_when_ready_is_always_possible() -> None:
    """Nothing can be too soon."""
    _begun(planned(serving=WHEN_READY))


def test_nothing_is_kept_of_a_cook_that_was_refused() -> None:
    """A refusal carries no facts."""
    assert not hasattr(_refused(planned(serving=dinner(-10))), "facts")


# --- in the middle ----------------------------------------------------------------------------------------------------


def test_a_cook_begun_in_the_middle_knows_meat_on_and_reading() -> None:
    """On since five hours, 74 C now: stage cooking, a forecast by the reading, and nothing asked of before."""
    log = _begun(planned(from_middle=True, serving=dinner(420)), on_at=at(-300), core_c=74.0)
    assert log.state.at("meat_on") == at(-300)
    assert [(r.value_c, r.at) for r in log.state.readings] == [(74.0, at(0))]
    assert log.state.stage == "cooking"
    assert not {"before", "fire"} & {prompt.step.phase for prompt in log.situation.prompts}


def test_in_the_middle_the_past_is_given_up_at_once() -> None:
    """Checks that were due before anybody planned are withdrawn in the beginning, so that the bell has none to tell."""
    log = _begun(planned(from_middle=True, serving=dinner(420)), on_at=at(-300), core_c=74.0)
    assert all(prompt.must_arrive or prompt.late_until >= at(0) for prompt in log.situation.prompts)
    rung = log.ring(0)
    assert not [event for event in rung.events if type(event).__name__ == "Lapsed"]


def test_in_the_middle_without_a_reading_there_is_still_a_plan() -> None:
    """On since two hours and nothing measured: the prior from then, and the meat is asked for soon."""
    log = _begun(planned(from_middle=True, serving=dinner(600)), on_at=at(-120))
    assert log.situation.outlook.pull.likely is not None
    due = log.due("core_read")
    assert due is not None
    assert due <= 60


def test_long_on_without_a_reading_is_felt_at_once() -> None:
    """On since twelve hours, nothing measured: the feel is due, and the pull is not expected in the past."""
    log = _begun(planned(from_middle=True, serving=WHEN_READY), on_at=at(-720))
    due = log.due("tender_test")
    assert due is not None
    assert due <= 0
    assert log.situation.outlook.pull.likely == at(0)


def test_meat_cannot_have_gone_on_in_the_future() -> None:
    """A time not yet come is refused by name."""
    refusal = _refused(planned(from_middle=True), on_at=at(30))
    assert (refusal.reason, refusal.step, refusal.at) == ("future", "meat_on", at(30))


def test_in_the_middle_a_dinner_too_soon_is_told_as_late() -> None:
    """On since an hour, dinner in one: the meat is on, so the cook is taken and called late."""
    log = _begun(planned(from_middle=True, serving=dinner(60)), on_at=at(-60))
    assert log.situation.outlook.verdict is Verdict.LATE


def test_in_the_middle_the_earliest_counts_from_now() -> None:
    """On since an hour, dinner an hour ago: refused; the sum has no fire in it."""
    refusal = _refused(planned(from_middle=True, serving=dinner(-30)), on_at=at(-60))
    assert refusal.reason == "serving_past"
    assert [name for name, _ in refusal.minutes] == ["cook", "vent", "rest", "slice"]
    earliest = minutes_of(refusal.at)
    assert earliest is not None
    assert 0 <= earliest - sum(minutes for _, minutes in refusal.minutes) < 5


# --- moving dinner ----------------------------------------------------------------------------------------------------


def test_dinner_moves_and_closes_the_question() -> None:
    """Go or slip, answered by slipping."""
    log = cooking(planned(serving=dinner(780)))
    log.ring(690)
    fact = log.taken(ServingMoved(serving=dinner(810)), minutes=692).facts[0]
    assert "p1/t_minus/1" in fact.answers
    assert log.state.serving.starts_at() == at(810)


def test_dinner_cannot_move_to_the_past_or_impossibly_soon() -> None:
    """Refused, with the earliest; the old time stands."""
    log = cooking(planned(serving=dinner(780)))
    assert log.refused(ServingMoved(serving=dinner(90)), minutes=100).reason == "serving_past"
    soon = log.refused(ServingMoved(serving=dinner(150)), minutes=100)
    assert soon.reason == "serving_too_soon"
    assert soon.at is not None
    assert soon.at > at(300)
    assert log.state.serving.starts_at() == at(780)


@pytest.mark.parametrize("minutes", [465, 480, 600])
def test_before_the_meat_is_on_dinner_may_move_forward(minutes: float) -> None:
    """Planned for the late evening, wanted at two: the meat simply goes on earlier."""
    log = Logbook(planned(serving=dinner(1000)))
    log.taken(ServingMoved(serving=dinner(minutes)), minutes=5)
    assert log.situation.outlook.serve_at == at(minutes)


def test_the_earliest_that_is_offered_is_accepted() -> None:
    """Whatever is named as the earliest plate can be chosen, before the fire, with the fire lit and on the fire."""
    for log in (Logbook(), _lit(), cooking()):
        refusal = log.refused(ServingMoved(serving=dinner(90)), minutes=70)
        earliest = minutes_of(refusal.at)
        assert earliest is not None
        log.taken(ServingMoved(serving=dinner(earliest)), minutes=70)


def _lit() -> Logbook:
    log = Logbook()
    log.done("light", 60)
    return log


def test_with_the_fire_lit_the_rest_of_the_hour_counts() -> None:
    """Lit ten minutes ago: fifty minutes of fire remain in the sum."""
    log = _lit()
    refusal = log.refused(ServingMoved(serving=dinner(90)), minutes=70)
    assert dict(refusal.minutes)["light"] == 50


def test_off_the_fire_dinner_may_be_any_time() -> None:
    """Pulled: the plate is ready when people are; only the past is refused."""
    log = resting(pulled=480)
    log.taken(ServingMoved(serving=dinner(500)), minutes=490)
    assert log.situation.outlook.verdict == "late"
    assert log.refused(ServingMoved(serving=dinner(480)), minutes=495).reason == "serving_past"


def test_dinner_may_follow_the_meat_from_now_on() -> None:
    """When ready: no verdict, no question whether to slip, and the plate follows the pull."""
    log = cooking()
    log.taken(ServingMoved(serving=WHEN_READY), minutes=100)
    outlook = log.situation.outlook
    assert (outlook.verdict, outlook.serve_at) == ("open", None)
    assert log.prompt("t_minus") is None


def test_a_move_is_a_wall_time_of_the_cooks_zone() -> None:
    """Six o'clock in Lisbon is five in UTC in summer."""
    log = cooking()
    wall = dt.datetime(2026, 9, 12, 20, 0)  # noqa: DTZ001 - wall time of the cook's own zone
    log.taken(ServingMoved(serving=Serving(kind=dinner(0).kind, zone="Europe/Lisbon", start=wall)), minutes=100)
    assert log.situation.outlook.serve_at == at(13 * 60)


def test_the_shortest_way_to_the_plate_is_what_the_refusal_counts() -> None:
    """Vent, shortest rest and slicing of the refusal are those of the plan."""
    refusal = _refused(planned(serving=dinner(180)))
    parts = dict(refusal.minutes)
    shortest = dt.timedelta(minutes=parts["vent"] + parts["rest"] + parts["slice"])
    assert shortest == after_pull(cut())


def test_serving_closes_the_day() -> None:
    """Moved after it was served: taken without a word about being too soon."""
    log = resting()
    log.taken(StepDone(step="serve"), minutes=780)
    log.taken(ServingMoved(serving=dinner(900)), minutes=790)
    assert log.state.stage == "after"


# --- what would make it possible --------------------------------------------------------------------------------------


def test_an_impossible_dinner_names_the_sure_time_beside_the_likely_one() -> None:
    """With the wanted confidence it is later; more confidence, later still; both can be chosen."""
    usual = _refused(planned(serving=dinner(180)))
    sure = _refused(planned(serving=dinner(180), confidence=0.95))
    assert usual.at is not None
    assert usual.sure_at is not None
    assert sure.sure_at is not None
    assert usual.at < usual.sure_at < sure.sure_at
    assert (usual.confidence, sure.confidence) == (0.85, 0.95)
    minutes = minutes_of(usual.sure_at)
    assert minutes is not None
    plan = _begun(planned(serving=dinner(minutes))).situation.outlook.plan
    assert plan is not None
    assert plan.late_probability is not None
    assert plan.late_probability <= 0.15 + 0.01


def test_a_hotter_pit_is_named_where_it_makes_the_dinner_likely() -> None:
    """Too soon for a mild pit, and likely in a hot one: that is offered; where nothing helps, nothing is."""
    butt = {"cut": "pork_butt", "pit_low_c": 107.0, "pit_high_c": 107.0}
    early = minutes_of(Logbook(planned(**butt, serving=dinner(240))).situation.outlook.plate.early)
    assert early is not None
    offered = _refused(planned(**butt, serving=dinner(early - 20))).instead
    assert offered
    for one in offered:
        assert one.plan.late_probability is not None
        assert one.plan.late_probability <= 0.5
        assert one.pit_low_c > 107.0
    assert _refused(planned(serving=dinner(120))).instead == ()


def test_a_dinner_moved_too_early_names_what_would_meet_the_new_time() -> None:
    """Before the meat is on: the remedies are those of the time asked for, not of the old one."""
    log = Logbook(planned(cut="pork_butt", pit_low_c=107.0, pit_high_c=107.0, serving=dinner(48 * 60)))
    early = minutes_of(
        Logbook(planned(cut="pork_butt", pit_low_c=107.0, pit_high_c=107.0, serving=dinner(240)))
        .situation.outlook.plate.early
    )  # fmt: skip
    assert early is not None
    refusal = log.refused(ServingMoved(serving=dinner(early - 20)), minutes=1)
    assert refusal.instead
    assert all(one.plan.plate.likely is not None for one in refusal.instead)
