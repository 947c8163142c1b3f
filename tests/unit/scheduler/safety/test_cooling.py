"""Food that was put away: cooling in two stages, reheating, and how long leftovers keep. Unknown is never kept."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest

from scheduler.cook import Found, Refusal
from scheduler.facts import CareTold, Discarded, Edition, EditionTold, Reading, Slot, StepDone
from scheduler.safety import Finding, FindingLevel, chilling_since, findings, next_look, put_away
from scheduler.units import c_from_f
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, resting

SERVED, AWAY = 700.0, 760.0
"""Minutes at which dinner comes out and at which the rest goes into the fridge."""

DAY = 1440.0
OURS = frozenset({"cool_slow", "cool_too_long", "cool_not_read", "reheat_under", "reheat_slow", "leftovers_old"})


def found(log: Logbook, minutes: float) -> dict[str, Finding]:
    """Return what is found about food that was put away."""
    return {f.rule: f for f in findings(log.state, cut(), CATALOGUE.cuts, at(minutes)) if f.rule in OURS}


def levels(log: Logbook, minutes: float) -> dict[str, str]:
    """Return the same by level alone."""
    return {rule: finding.level.value for rule, finding in found(log, minutes).items()}


def put_in_the_fridge(*, public: bool = True, away: float = AWAY) -> Logbook:
    """Return a cook that was served hot and put away."""
    log = resting()
    if public:
        log.tell(CareTold(public=True), 1)
    log.read(75.0, SERVED - 5)
    log.done("serve", SERVED)
    log.done("leftovers", away)
    return log


def left(log: Logbook, temp_f: float, minutes: float, **more: float) -> None:
    """Write a reading of the food in the fridge, typed in Fahrenheit."""
    log.read(c_from_f(temp_f), minutes, slot=Slot.LEFTOVERS, **more)


# --- two stages -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("temp_f", "missed"), [(69.0, False), (70.0, False), (70.1, True), (71.0, True)])
def test_the_first_stage_ends_at_70_f(temp_f: float, missed: bool) -> None:
    """Read a minute after two hours: 70 F is 21.1 C and passes, 71 F is stopped."""
    log = put_in_the_fridge()
    left(log, temp_f, SERVED + 121)
    assert ("cool_slow" in found(log, SERVED + 122)) is missed
    if missed:
        stop = found(log, SERVED + 122)["cool_slow"]
        assert (stop.level, stop.limit_c, stop.limit_min, stop.found_min) == (FindingLevel.STOP, 21.1, 120, 121)
        assert stop.edition is Edition.FOOD_CODE


@pytest.mark.parametrize(("temp_f", "missed"), [(40.0, False), (41.0, False), (41.2, True), (42.0, True)])
def test_the_whole_ends_at_41_f(temp_f: float, missed: bool) -> None:
    """Read a minute after six hours: 41 F is 5.0 C and passes, 42 F is stopped."""
    log = put_in_the_fridge()
    left(log, 68.0, SERVED + 119)
    left(log, temp_f, SERVED + 361)
    assert ("cool_too_long" in found(log, SERVED + 362)) is missed


def test_a_stage_that_was_kept_leaves_nothing() -> None:
    """70 F at two hours and 41 F at six: nothing is found, then or later."""
    log = put_in_the_fridge()
    left(log, 70.0, SERVED + 120)
    left(log, 41.0, SERVED + 360)
    assert all(found(log, SERVED + minutes) == {} for minutes in (121, 361, 400, 2000))


def test_a_stage_missed_stands_whatever_is_read_later() -> None:
    """Cold in the end does not take back that it was warm too long; throwing it away does."""
    log = put_in_the_fridge()
    left(log, 90.0, SERVED + 130)
    left(log, 40.0, SERVED + 350)
    assert levels(log, SERVED + 351) == {"cool_slow": "stop"}
    log.tell(Discarded(), SERVED + 352)
    assert found(log, SERVED + 353) == {}


def test_the_hottest_spot_counts() -> None:
    """Two boxes read in one look: the warmer one decides; of an approximate number its high edge does."""
    log = put_in_the_fridge()
    left(log, 60.0, SERVED + 121)
    left(log, 75.0, SERVED + 124)
    assert found(log, SERVED + 130)["cool_slow"].found_c == pytest.approx(c_from_f(75.0))
    rough = put_in_the_fridge()
    left(rough, 69.0, SERVED + 121, spread_c=2.0)
    assert "cool_slow" in found(rough, SERVED + 130)


def test_near_the_end_of_a_stage_it_can_still_be_mended() -> None:
    """A quarter of an hour before its end and still warm: a caution with the time; 165 F in time begins it anew."""
    log = put_in_the_fridge()
    left(log, 100.0, SERVED + 105)
    caution = found(log, SERVED + 111)["cool_slow"]
    assert (caution.level, caution.until) == (FindingLevel.CAUTION, at(SERVED + 120))
    left(log, 165.0, SERVED + 119)
    assert found(log, SERVED + 121) == {}
    left(log, 72.0, SERVED + 119 + 119)
    assert levels(log, SERVED + 119 + 120) == {"cool_slow": "caution"}
    left(log, 72.0, SERVED + 119 + 130)
    assert levels(log, SERVED + 119 + 131) == {"cool_slow": "stop"}


def test_the_clock_starts_when_it_was_last_known_hot() -> None:
    """From serving on, unless a reading of 135 F or more shows that it was hot later; 134 F shows nothing."""
    for temp_f, began in ((134.0, SERVED), (135.0, AWAY - 5), (160.0, AWAY - 5)):
        log = put_in_the_fridge()
        log.read(c_from_f(temp_f), AWAY - 5)
        (cooling,) = put_away(log.state).coolings
        assert (cooling.began_at, cooling.away_at) == (at(began), at(AWAY))


def test_what_nobody_read_is_unknown() -> None:
    """A public meal with no reading after two hours: a caution; after six, the other. A home is not asked."""
    log = put_in_the_fridge()
    assert found(log, SERVED + 120) == {}
    first = found(log, SERVED + 121)["cool_not_read"]
    assert (first.level, first.limit_c, first.since) == (FindingLevel.CAUTION, 21.1, at(SERVED + 120))
    left(log, 60.0, SERVED + 180)
    assert levels(log, SERVED + 181) == {"cool_not_read": "caution"}, "60 F after three hours tells nothing of two"
    assert found(put_in_the_fridge(public=False), SERVED + 400) == {}


def test_a_home_that_measures_is_told_what_it_measured() -> None:
    """Nobody asks at home; a number that misses counts by the stricter edition, and not where homes' own was chosen
    beforehand. Chosen after it, the stop stands.
    """
    for chosen_at, stops in ((None, True), (1, False), (SERVED + 131, True)):
        log = put_in_the_fridge(public=False)
        left(log, 90.0, SERVED + 130)
        if chosen_at is not None:
            log.tell(EditionTold(edition=Edition.CONSUMER), chosen_at)
        assert levels(log, SERVED + 133) == ({"cool_slow": "stop"} if stops else {})


def test_cooling_is_asked_before_its_limits() -> None:
    """At a public meal ten minutes before two and before six hours since it was hot; at home it is not asked."""
    log = put_in_the_fridge()
    assert log.due("cool_check") == SERVED + 110
    log.ring(SERVED + 110)
    log.taken(_reading(68.0), minutes=SERVED + 112)
    assert log.due("cool_check") == SERVED + 350
    log.ring(SERVED + 350)
    log.taken(_reading(41.0), minutes=SERVED + 352)
    assert log.due("cool_check") is None
    assert put_in_the_fridge(public=False).due("cool_check") is None


def test_food_that_is_chilled_is_not_held() -> None:
    """A core typed after it was put away is of the fridge: no rule of held meat looks at it."""
    log = resting()
    log.read(75.0, SERVED - 5)
    log.done("leftovers", SERVED)
    assert chilling_since(log.state) == at(SERVED)
    log.read(15.0, SERVED + 100)
    rules = {f.rule for f in findings(log.state, cut(), CATALOGUE.cuts, at(SERVED + 101))}
    assert not rules & {"held_under_floor", "held_act_now"}
    assert put_away(log.state).coolings[0].looks[0].high_c == 15.0


def test_time_alone_rings_for_what_is_unknown() -> None:
    """A cook is looked at when a stage is over unread, and once only."""
    log = put_in_the_fridge()
    assert next_look(log.state, cut(), CATALOGUE.cuts) == at(SERVED + 121)
    log.ring(SERVED + 121)
    assert next_look(log.state, cut(), CATALOGUE.cuts) == at(SERVED + 361)


# --- reheating --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("temp_f", "under"), [(160.0, True), (164.0, True), (164.9, True), (165.0, False), (170.0, False)]
)
def test_reheated_food_needs_165_f(temp_f: float, under: bool) -> None:
    """165 F is 73.9 C and passes; 164 F is a stop, ended by a hotter reading in time."""
    log = put_in_the_fridge(public=False)
    log.done("reheat_on", SERVED + DAY)
    left(log, temp_f, SERVED + DAY + 30)
    assert levels(log, SERVED + DAY + 31) == ({"reheat_under": "stop"} if under else {})
    left(log, 165.0, SERVED + DAY + 60)
    assert found(log, SERVED + DAY + 61) == {}


def test_reheating_takes_two_hours_at_most() -> None:
    """At 2:00 it passes, a minute later it is a stop that no heat ends."""
    for minutes, slow in ((120, False), (121, True)):
        log = put_in_the_fridge(public=False)
        log.done("reheat_on", SERVED + DAY)
        left(log, 120.0, SERVED + DAY + 60)
        left(log, 170.0, SERVED + DAY + minutes)
        assert levels(log, SERVED + DAY + 200) == ({"reheat_slow": "stop"} if slow else {})


def test_reheating_that_nobody_read_is_unknown() -> None:
    """Two hours without a number: a caution, until somebody says what became of it."""
    log = put_in_the_fridge(public=False)
    log.done("reheat_on", SERVED + DAY)
    assert found(log, SERVED + DAY + 120) == {}
    assert levels(log, SERVED + DAY + 121) == {"reheat_slow": "caution"}
    log.done("reheat_away", SERVED + DAY + 130, "eaten")
    assert found(log, SERVED + DAY + 131) == {}


def test_a_warm_number_the_day_after_is_food_that_is_reheated() -> None:
    """Nobody said so, but no fridge makes food 150 F: it counts as reheated, and as too cold for it."""
    log = put_in_the_fridge(public=False)
    left(log, 150.0, SERVED + DAY)
    assert levels(log, SERVED + DAY + 1) == {"reheat_under": "stop"}


def test_reheated_food_has_a_clock_of_its_own() -> None:
    """Two hours from the hot reading: asked at ninety minutes, stopped at two hours unless eaten or put away."""
    log = put_in_the_fridge(public=False)
    left(log, 168.0, SERVED + DAY)
    assert log.due("reheat_away") == SERVED + DAY + 90
    assert next_look(log.state, cut(), CATALOGUE.cuts) == at(SERVED + DAY + 120)
    out = {f.rule: f for f in findings(log.state, cut(), CATALOGUE.cuts, at(SERVED + DAY + 121))}
    assert out["two_hours_out"].since == at(SERVED + DAY)
    log.done("reheat_away", SERVED + DAY + 40, "eaten")
    assert "two_hours_out" not in {f.rule for f in findings(log.state, cut(), CATALOGUE.cuts, at(SERVED + DAY + 121))}


def test_a_question_about_reheating_stays_open_until_it_is_hot() -> None:
    """150 F does not answer it, 165 F does."""
    log = put_in_the_fridge(public=False)
    due = log.due("reheat")
    assert due is not None
    log.ring(due)
    log.taken(_reading(150.0), minutes=due + 5)
    assert log.prompt("reheat") is not None
    log.taken(_reading(165.0), minutes=due + 15)
    assert log.prompt("reheat") is None


# --- how long they keep -----------------------------------------------------------------------------------------------


def test_leftovers_keep_three_to_four_days() -> None:
    """A minute before three days nothing, then a caution, a stop from four on; eaten, it is over."""
    log = put_in_the_fridge(public=False)
    assert found(log, AWAY + 3 * DAY - 1) == {}
    assert levels(log, AWAY + 3 * DAY) == {"leftovers_old": "caution"}
    assert levels(log, AWAY + 4 * DAY - 1) == {"leftovers_old": "caution"}
    assert levels(log, AWAY + 4 * DAY) == {"leftovers_old": "stop"}
    for outcome in ("eaten", "frozen", "binned"):
        gone = put_in_the_fridge(public=False)
        gone.done("leftover_expire", AWAY + DAY, outcome)
        assert found(gone, AWAY + 5 * DAY) == {}


@pytest.mark.parametrize(
    ("outcome", "days", "stands"),
    [
        ("frozen", 4.01, True),
        ("eaten", 4.01, True),
        ("binned", 4.01, False),
        ("frozen", 3.99, False),
        ("eaten", 3.99, False),
    ],
)
def test_what_is_frozen_too_late_is_too_old(outcome: str, days: float, stands: bool) -> None:
    """Told on the fifth day: dated within four days it is over, later only throwing it away ends the stop."""
    log = put_in_the_fridge(public=False)
    log.done("leftover_expire", AWAY + days * DAY, outcome, recorded=AWAY + 5 * DAY)
    assert levels(log, AWAY + 5 * DAY + 1) == ({"leftovers_old": "stop"} if stands else {})
    log.tell(Discarded(), AWAY + 5 * DAY + 2)
    assert found(log, AWAY + 5 * DAY + 3) == {}


def test_nothing_is_claimed_of_leftovers_that_nobody_put_away() -> None:
    """Served and never spoken of again: two hours, no days."""
    log = resting()
    log.done("serve", SERVED)
    assert found(log, SERVED + 6 * DAY) == {}


def test_a_cook_stays_open_until_its_leftovers_are_settled() -> None:
    """Nobody answers: the stop of the fourth day is still told, and then the cook ends."""
    log = put_in_the_fridge(public=False)
    told: list[str] = []
    for hour in range(1, 24 * 12):
        if log.state.over:
            break
        events = log.ring(AWAY + hour * 60).events
        told += [f"{e.finding.rule}/{e.finding.level.value}" for e in events if isinstance(e, Found)]
    assert "leftovers_old/stop" in told
    assert log.state.over


# --- half-cooked, and order -------------------------------------------------------------------------------------------


def test_half_cooked_meat_is_not_cooled_for_later() -> None:
    """Nothing may be put away before it is safe: refused as half-cooked, nothing written."""
    log = cooking()
    log.read(50.0, 200)
    refusal = log.refused(StepDone(step="leftovers"), minutes=205)
    assert isinstance(refusal, Refusal)
    assert refusal.reason == "half_cooked"


def test_the_order_of_late_messages_does_not_matter() -> None:
    """Readings and steps told late, in any order: the same findings."""
    told: list[Callable[[Logbook], object]] = [
        lambda log: log.done("serve", SERVED),
        lambda log: log.done("leftovers", AWAY),
        lambda log: left(log, 90.0, SERVED + 130),
        lambda log: left(log, 40.0, SERVED + 340),
        lambda log: log.done("reheat_on", SERVED + DAY),
        lambda log: left(log, 150.0, SERVED + DAY + 30),
    ]
    results = set()
    for order in itertools.permutations(told):
        log = resting()
        log.tell(CareTold(public=True), 1)
        for tell in order:
            tell(log)
        results.add(tuple(sorted((f.rule, f.level, f.since) for f in found(log, SERVED + DAY + 40).values())))
    assert len(results) == 1
    assert {rule for rule, *_ in next(iter(results))} == {"cool_slow", "reheat_under"}


def test_dropping_a_reading_never_makes_it_safe() -> None:
    """Without the reading that failed, it is unknown: something is still found."""
    log = put_in_the_fridge()
    left(log, 90.0, SERVED + 130)
    assert "cool_slow" in found(log, SERVED + 131)
    assert "cool_not_read" in found(put_in_the_fridge(), SERVED + 131)


def _reading(temp_f: float) -> Reading:
    return Reading(slot=Slot.LEFTOVERS, value_c=c_from_f(temp_f))
