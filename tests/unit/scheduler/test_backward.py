"""The plan backward from dinner: the wanted confidence, the rest, and what is said when it is made."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest

from scheduler.facts import PitMoved, Planned, Serving, ServingKind
from scheduler.planning.backward import (
    CONFIDENCE,
    Backward,
    SnagKind,
    after_pull,
    backward,
    earliest_on,
    latest_on,
)  # fmt: skip
from scheduler.planning.fuel import LIGHT_LEAD
from tests.unit.scheduler.logbook import WHEN_READY, Logbook, at, cut, dinner, planned

FIVE = dt.timedelta(minutes=5)
TOMORROW = 36 * 60


def _plan(name: str = "brisket_packer", minutes: float = TOMORROW, **more: object) -> Backward:
    made = planned(cut=name, serving=dinner(minutes), pit_low_c=121.0, pit_high_c=121.0, **more)
    log = Logbook(made)
    return backward(log.state, cut(name))


def _kinds(plan: Backward) -> set[SnagKind]:
    return {snag.kind for snag in plan.snags}


@pytest.mark.parametrize("confidence", [0.6, 0.75, None, 0.95])
def test_dinner_is_met_with_the_wanted_confidence_and_no_more(confidence: float | None) -> None:
    """The chance of being late is one minus the confidence, but for the rounding down to five minutes."""
    plan = _plan(confidence=confidence)
    wanted = CONFIDENCE if confidence is None else confidence
    assert plan.late_probability is not None
    assert 1.0 - wanted - 0.02 <= plan.late_probability <= 1.0 - wanted + 1e-9
    assert (plan.met, plan.confidence) == (True, wanted)
    assert plan.light_at == plan.on_at - LIGHT_LEAD
    assert plan.on_at.minute % 5 == 0


@pytest.mark.parametrize("name", ["brisket_packer", "beef_chuck_ribs"])
def test_more_confidence_never_starts_later(name: str) -> None:
    """From one in two to one in a hundred, every start is at or before the one before it."""
    starts = [_plan(name, confidence=p / 100).on_at for p in range(50, 100, 7)]
    assert all(one >= other for one, other in itertools.pairwise(starts))
    assert starts[0] > starts[-1]


def test_early_finishes_are_absorbed_by_the_rest() -> None:
    """People eat at the serving time or when the meat allows, and the likely rest is what lies between."""
    plan = _plan()
    assert plan.plate.early == plan.plate.likely == at(TOMORROW)
    assert plan.plate.late is not None
    assert plan.pull.late is not None
    assert plan.plate.late == max(at(TOMORROW), plan.pull.late + after_pull(cut("brisket_packer")))
    assert plan.pull.likely is not None
    of = cut("brisket_packer")
    assert plan.rest == at(TOMORROW) - plan.pull.likely - dt.timedelta(minutes=of.vent_min + of.slice_min)


def test_the_fast_end_and_the_slow_end_are_named_when_the_plan_is_made() -> None:
    """A brisket over the night: the fast one outlasts a cold box, the slow one makes dinner slip by so much."""
    plan = _plan()
    assert {SnagKind.NEEDS_OVEN, SnagKind.SLIPS} <= _kinds(plan)
    slips = next(snag.minutes for snag in plan.snags if snag.kind is SnagKind.SLIPS)
    assert plan.plate.late is not None
    assert slips == (plan.plate.late - at(TOMORROW)) / dt.timedelta(minutes=1) > 0
    sure = _plan(confidence=0.99)
    assert SnagKind.SLIPS not in _kinds(sure)


def test_a_start_that_has_passed_is_said_and_the_fire_is_lit_now() -> None:
    """Eight hours for a brisket: on as soon as it can be, not as wanted, and by how much it is too late."""
    plan = _plan(minutes=8 * 60)
    assert plan.on_at == at(60)
    assert not plan.met
    assert SnagKind.TOO_LATE in _kinds(plan)
    assert plan.late_probability is not None
    assert plan.late_probability > 1 - CONFIDENCE


def test_a_window_is_met_by_its_end_and_nobody_eats_before_its_start() -> None:
    """Six to seven is met at seven: the start is that of seven, the plate not before six."""
    seven = _plan(minutes=TOMORROW + 60)
    window = Logbook(
        planned(cut="brisket_packer", serving=dinner(TOMORROW, window=60), pit_low_c=121.0, pit_high_c=121.0)
    )
    plan = backward(window.state, cut("brisket_packer"))
    assert plan.on_at == seven.on_at
    assert plan.late_probability == seven.late_probability
    assert plan.plate.early == at(TOMORROW)


def test_without_a_dinner_the_meat_goes_on_as_soon_as_it_can() -> None:
    """When ready: no latest start, nothing to be late for, nothing to warn of."""
    log = Logbook(planned(serving=WHEN_READY))
    plan = backward(log.state, cut())
    assert latest_on(log.state, cut()) is None
    assert plan.on_at == earliest_on(log.state) == at(60)
    assert (plan.late_probability, plan.met, plan.snags) == (None, True, ())


def test_a_pit_that_will_be_hotter_later_is_counted_from_its_time() -> None:
    """A band that begins in the night makes the cook shorter than none, and longer than one from the start."""
    of = cut("brisket_packer")
    low, high = _plan().on_at, _plan_at(141.0)
    log = Logbook(planned(cut="brisket_packer", serving=dinner(TOMORROW), pit_low_c=121.0, pit_high_c=121.0))
    log.tell(PitMoved(pit_low_c=141.0, pit_high_c=141.0), TOMORROW - 10 * 60, recorded=1)
    latest = latest_on(log.state, of)
    assert latest is not None
    assert low < latest < high
    plan = backward(log.state, of)
    assert plan.late_probability is not None
    assert abs(plan.late_probability - 0.15) < 0.02


def _plan_at(pit_c: float) -> dt.datetime:
    log = Logbook(planned(cut="brisket_packer", serving=dinner(TOMORROW), pit_low_c=pit_c, pit_high_c=pit_c))
    return backward(log.state, cut("brisket_packer")).on_at


@pytest.mark.parametrize(
    ("zone", "wall", "hours"),
    [
        ("Europe/Berlin", "2026-10-25T18:00", 17),
        ("Europe/Berlin", "2026-03-29T18:00", 16),
        ("America/Chicago", "2026-11-01T18:00", 24),
        ("America/Chicago", "2026-03-08T18:00", 23),
    ],
)
def test_a_night_with_a_clock_change_is_planned_by_instants(zone: str, wall: str, hours: int) -> None:
    """Six in the evening stays six on the wall; the meat goes on as long before it as on any other night."""
    serving = Serving(kind=ServingKind.AT, zone=zone, start=dt.datetime.fromisoformat(wall))
    dinner_at = serving.starts_at()
    assert dinner_at is not None
    assert dinner_at.hour == hours % 24
    usual = _plan()
    log = Logbook(Planned(cut="brisket_packer", serving=serving, pit_low_c=121.0, pit_high_c=121.0))
    shifted = dinner_at - dt.timedelta(hours=36)
    facts = tuple(
        type(f)(**{**vars(f), "happened_at": shifted, "recorded_at": shifted}) for f in log.facts
    )  # fmt: skip
    log.facts = facts
    assert dinner_at - backward(log.state, cut("brisket_packer")).on_at == at(TOMORROW) - usual.on_at


def test_what_does_not_keep_is_planned_on_its_middle_and_never_boxed() -> None:
    """A chicken: the ideal rest and the usual pace whatever is wanted, said so, and no word of a warm oven."""
    plan, sure = _plan("whole_chicken"), _plan("whole_chicken", confidence=0.99)
    assert plan.on_at == sure.on_at
    assert SnagKind.DOES_NOT_HOLD in _kinds(plan)
    assert SnagKind.NEEDS_OVEN not in _kinds(plan)
    of = cut("whole_chicken")
    assert plan.pull.likely is not None
    ideal = dt.timedelta(minutes=of.vent_min + sum(of.rest_ideal_min) / 2 + of.slice_min)
    assert abs(plan.pull.likely + ideal - at(TOMORROW)) <= FIVE
