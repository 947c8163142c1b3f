"""Food off the fire: what clears a stop is measured or done in time, discarded, or corrected; nothing else."""

from __future__ import annotations

import pytest

from scheduler.facts import (
    AirTold,
    CareTold,
    Corrected,
    Discarded,
    Edition,
    EditionTold,
    Feel,
    Reading,
    SafeBy,
    SafeByTold,
    Slot,
    TreatedTold,
    Undone,
)  # fmt: skip
from scheduler.safety import Eating, Finding, FindingLevel, findings, next_look, serving, standing_stops
from scheduler.safety.holding import rest_span
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, minutes_of, resting


def _found(log: Logbook, minutes: float) -> dict[str, Finding]:
    return {f.rule: f for f in findings(log.state, cut(), CATALOGUE.cuts, at(minutes))}


def _stops(log: Logbook, minutes: float) -> set[str]:
    return {f.rule for f in _found(log, minutes).values() if f.level is FindingLevel.STOP}


def _held(*reads: tuple[float, float]) -> Logbook:
    """Return held meat with readings (minutes, °C) after the pull at 480."""
    log = resting()
    for minutes, value_c in reads:
        log.read(value_c, minutes)
    return log


# --- put away ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("step", ["two_hour", "leftovers"])
@pytest.mark.parametrize(("minutes", "stopped"), [(119, False), (120, False), (121, True), (240, True)])
def test_putting_it_away_too_late_clears_nothing(step: str, minutes: float, stopped: bool) -> None:
    """Within two hours it is kept; a minute later the stop stands, with how long it was out."""
    log = _held((775, 70.0))
    log.done("serve", 780)
    log.done(step, 780 + minutes, "away" if step == "two_hour" else None)
    assert ("two_hours_out" in _stops(log, 1100)) is stopped
    if stopped:
        assert _found(log, 1100)["two_hours_out"].found_min == minutes


def test_when_it_was_done_counts_not_when_it_was_told() -> None:
    """Put away in time and told three hours later: the stop ends."""
    log = _held((775, 70.0))
    log.done("serve", 780)
    assert "two_hours_out" in _stops(log, 960)
    log.done("leftovers", 860, recorded=961)
    assert "two_hours_out" not in _stops(log, 962)


def test_correcting_the_time_of_serving_ends_it() -> None:
    """It came out an hour later than told."""
    log = _held((775, 70.0))
    served = log.done("serve", 780)
    assert "two_hours_out" in _stops(log, 905)
    log.tell(Corrected(of=served, body=log.facts[-1].body, happened_at=at(840)), 906)
    assert "two_hours_out" not in _stops(log, 907)


@pytest.mark.parametrize(
    ("told", "limit"),
    [((), 120), ((AirTold(word="hot"),), 60), ((AirTold(temp_c=32.3),), 60), ((AirTold(temp_c=32.2),), 120)],
)
def test_one_hour_in_hot_air(told: tuple[AirTold, ...], limit: float) -> None:
    """Above 90 F (32.2 C) food is out for one hour at most, and the bell wakes then."""
    log = _held((775, 70.0))
    for air in told:
        log.tell(air, 776)
    log.done("serve", 780)
    assert minutes_of(next_look(log.state, cut(), CATALOGUE.cuts)) == 780 + limit
    assert "two_hours_out" not in _stops(log, 780 + limit - 1)
    assert _found(log, 780 + limit)["two_hours_out"].limit_min == limit


@pytest.mark.parametrize(
    ("read_at", "core_c", "at_risk", "limit"),
    [(775, 57.2, None, 240), (750, 80.0, None, 240), (749, 80.0, None, 120), (775, 70.0, True, 120)],
)
def test_four_hours_only_where_chosen_and_measured(
    read_at: float, core_c: float, at_risk: bool | None, limit: float
) -> None:
    """Time alone of the Food Code begins with a reading at 135 F (57.2 C) as the food came out, no guest at risk."""
    log = _held((read_at, core_c))
    log.tell(EditionTold(edition=Edition.FOOD_CODE), 1)
    log.tell(CareTold(at_risk=at_risk), 1)
    log.done("serve", 780)
    assert "two_hours_out" not in _stops(log, 780 + limit - 1)
    assert "two_hours_out" in _stops(log, 780 + limit)


def test_two_hours_are_not_the_food_codes() -> None:
    """Its rules were chosen and the food was not read hot as it came out: two hours count, and they are the USDA's."""
    for read_at, whose in ((775, Edition.FOOD_CODE), (700, Edition.CONSUMER)):
        log = _held((read_at, 70.0))
        log.tell(EditionTold(edition=Edition.FOOD_CODE), 60)
        log.done("serve", 780)
        assert _found(log, 1100)["two_hours_out"].edition is whose


# --- under the floor --------------------------------------------------------------------------------------------------


BY_TIME_CODE = (EditionTold(edition=Edition.FOOD_CODE), SafeByTold(by=SafeBy.EQUIVALENCE))


@pytest.mark.parametrize(
    ("told", "floor_c"),
    [
        ((), 60.0),
        ((EditionTold(edition=Edition.CONSUMER),), 60.0),
        ((EditionTold(edition=Edition.FOOD_CODE),), 57.2),
        ((EditionTold(edition=Edition.FOOD_CODE), CareTold(at_risk=True)), 60.0),
        ((EditionTold(edition=Edition.FOOD_CODE), SafeByTold(by=SafeBy.EQUIVALENCE)), 57.2),
        ((*BY_TIME_CODE, TreatedTold()), 57.2),
        ((*BY_TIME_CODE, CareTold(at_risk=False)), 57.2),
        ((*BY_TIME_CODE, CareTold(at_risk=False), TreatedTold()), 54.4),
        ((*BY_TIME_CODE, CareTold(at_risk=True), TreatedTold()), 60.0),
        ((SafeByTold(by=SafeBy.EQUIVALENCE), CareTold(at_risk=False), TreatedTold()), 60.0),
    ],
)
def test_the_floor_by_edition(
    told: tuple[EditionTold | CareTold | SafeByTold | TreatedTold, ...], floor_c: float
) -> None:
    """The stricter by default and for guests at risk; the lower ones only by somebody's own choice, the roast's only
    when somebody said that it is intact and that nobody is at risk.
    """
    for core_c, stopped in ((floor_c, False), (floor_c - 0.1, True)):
        log = _held((560, core_c))
        for body in told:
            log.tell(body, 1)
        assert ("held_under_floor" in _stops(log, 561)) is stopped
        if stopped:
            assert _found(log, 561)["held_under_floor"].limit_c == floor_c


@pytest.mark.parametrize(
    ("minutes", "core_c", "stopped"),
    [(590, 70.0, True), (590, 73.8, True), (590, 73.9, False), (600, 73.9, False), (601, 73.9, True)],
)
def test_only_74_in_time_clears_held_meat_under_the_floor(minutes: float, core_c: float, stopped: bool) -> None:
    """165 F is 73.9 C: read so within two hours of the pull at 480, last known hot then; else the stop stands."""
    log = _held((560, 58.0), (minutes, core_c))
    assert ("held_under_floor" in _stops(log, minutes + 1)) is stopped


def test_of_a_range_the_low_edge_clears() -> None:
    """About 75, give or take 2, may be 73."""
    log = _held((560, 58.0))
    log.read(75.0, 600, spread_c=2.0)
    assert "held_under_floor" in _stops(log, 601)


def test_another_spot_clears_nothing() -> None:
    """The point was cold, the flat is hot: the point is still not reheated."""
    log = resting()
    log.read(58.0, 560, spot="point")
    log.read(80.0, 590, spot="flat")
    assert "held_under_floor" in _stops(log, 591)
    log.read(80.0, 592, spot="Point")
    assert "held_under_floor" not in _stops(log, 593)


def test_a_named_spot_clears_no_low_reading_without_a_name() -> None:
    """50 without a name may be of the flat: point 76 says nothing of it, 76 without a name clears it."""
    log = _held((585, 70.0), (600, 50.0))
    log.read(76.0, 620, spot="point")
    assert "held_under_floor" in _stops(log, 640)
    log.read(76.0, 632)
    assert "held_under_floor" not in _stops(log, 640)


def test_correcting_the_low_reading_ends_it_and_both_stay() -> None:
    """Typed 58, meant 85."""
    log = resting()
    low = log.read(58.0, 560)
    log.tell(Corrected(of=low, body=Reading(slot=Slot.CORE, value_c=85.0)), 570)
    assert not _stops(log, 571)
    assert [f.body.kind for f in log.facts[-2:]] == ["reading", "corrected"]


def test_held_too_cold_for_two_hours_is_food_out_too_long() -> None:
    """Not reheated in time: the two-hour stop joins, since it was last known hot, and the bell wakes for it."""
    log = _held((530, 62.0), (560, 58.0))
    log.ring(560)
    assert minutes_of(next_look(log.state, cut(), CATALOGUE.cuts)) == 650
    assert _stops(log, 649) == {"held_under_floor"}
    assert _found(log, 650)["two_hours_out"].since == at(530)


def test_held_meat_counts_from_when_it_was_last_known_hot() -> None:
    """Read hot at 540, cold at 620: both are said, and two hours count from 540; unread since the pull, from there."""
    known = _found(_held((540, 70.0), (620, 58.0)), 621)["held_under_floor"]
    assert (known.since, known.known_at, known.until) == (at(620), at(540), at(660))
    assert (known.found_min, known.limit_min) == (81.0, 120.0)
    unread = _held((660, 58.0))
    found = _found(unread, 660)
    assert found["held_under_floor"].known_at == at(480)
    assert found["held_under_floor"].until == at(600), "over before it was read"
    assert found["two_hours_out"].since == at(480)
    unread.read(80.0, 665)
    assert _stops(unread, 666) == {"held_under_floor", "two_hours_out"}, "nothing heats that away"


def test_between_the_floor_and_165_nothing_begins_anew() -> None:
    """58, then 62, then 58: the time still counts from the pull; 165 F mends all of it in time, and is known hot."""
    log = _held((500, 58.0), (520, 62.0), (540, 58.0))
    assert _found(log, 541)["held_under_floor"].known_at == at(480)
    log.read(74.0, 599)
    assert not _stops(log, 640)
    log.read(58.0, 650)
    assert _found(log, 651)["held_under_floor"].known_at == at(599)


def test_what_is_told_as_leftovers_while_it_is_boxed_is_a_reading_of_it() -> None:
    """Reheated to 165 F, of meat that was never put away mends the hold, and tells how hot it was opened; "leftovers
    120" is a cold one.
    """
    log = _held((500, 58.0))
    log.read(74.0, 560, slot=Slot.LEFTOVERS)
    assert not _stops(log, 561)
    assert serving(log.state, cut(), CATALOGUE.cuts, at(575)).eating is Eating.SAFE
    cold = _held((500, 70.0))
    cold.read(49.0, 560, slot=Slot.LEFTOVERS)
    assert "held_under_floor" in _stops(cold, 561)


def test_cooler_air_that_is_told_later_ends_nothing() -> None:
    """Out for 70 minutes on a hot day: a stop, also when the evening is cool."""
    log = _held((775, 70.0))
    log.tell(AirTold(word="hot"), 776)
    log.done("serve", 780)
    log.done("two_hour", 850, "away")
    assert "two_hours_out" in _stops(log, 851)
    log.tell(AirTold(word="cool"), 860)
    assert _found(log, 861)["two_hours_out"].limit_min == 60
    other = _held((775, 70.0))
    other.done("serve", 780)
    other.done("two_hour", 850, "away")
    other.tell(AirTold(word="hot"), 900)
    assert "two_hours_out" not in _stops(other, 901), "hot when it was in the fridge already"


def test_reheating_never_ends_food_that_was_out_too_long() -> None:
    """Out for three hours, put away, read at 75 C the next day: it stays thrown-away food."""
    log = _held((775, 70.0))
    log.done("serve", 780)
    log.done("two_hour", 960, "away")
    assert "two_hours_out" in _stops(log, 961)
    log.done("reheat_on", 2200)
    log.read(75.0, 2240, slot=Slot.LEFTOVERS)
    assert _found(log, 2241)["two_hours_out"].since == at(780)
    log.done("reheat_away", 2260, "away")
    assert "two_hours_out" in _stops(log, 2261)


def test_serving_food_read_under_the_floor_stands_until_reheated_or_discarded() -> None:
    """Putting it away clears nothing; 165 F in time does."""
    log = _held((760, 58.0))
    log.done("serve", 780)
    assert _found(log, 781)["served_under_floor"].found_c == 58.0
    log.done("two_hour", 800, "away")
    assert "served_under_floor" in _stops(log, 801)
    hot = _held((760, 58.0))
    hot.done("serve", 780)
    hot.read(75.0, 790)
    assert "served_under_floor" in _stops(hot, 791), "last known hot at 480"
    known = _held((700, 70.0), (760, 58.0))
    known.done("serve", 780)
    assert _found(known, 781)["served_under_floor"].known_at == at(700)
    known.read(75.0, 790)
    assert not _stops(known, 791)


# --- the minimum ------------------------------------------------------------------------------------------------------


def test_what_was_never_measured_stays_unknown_when_it_is_put_away() -> None:
    """Served and put away unread: the stop stands until it is measured or thrown away."""
    log = cooking()
    log.done("pull", 480)
    log.done("serve", 780)
    log.done("leftovers", 800)
    assert "minimum_not_measured" in _stops(log, 900)
    log.tell(Discarded(), 901)
    assert not _found(log, 902)


def test_tender_with_a_number_below_the_minimum_is_no_safe_pull() -> None:
    """Felt tender at 61 C: a stop; felt tender with a number from hours ago: unknown, and the gate stays shut."""
    log = cooking()
    log.read(61.0, 470)
    log.felt(Feel.TENDER, 470)
    log.done("pull", 480)
    assert "pulled_under_minimum" in _stops(log, 481)
    old = cooking()
    old.read(61.0, 300)
    old.felt(Feel.TENDER, 470)
    old.done("pull", 480)
    assert "pulled_under_minimum" not in _stops(old, 481)
    assert not old.situation.gate.is_open(at(900))


# --- thrown away ------------------------------------------------------------------------------------------------------


def test_discarding_ends_every_stop_that_began_before_it() -> None:
    """Never measured, too long out, too cold: all end with the food."""
    log = cooking()
    log.done("pull", 480)
    log.read(50.0, 560)
    log.done("serve", 780)
    assert _stops(log, 950) == {"minimum_not_measured", "served_under_floor", "two_hours_out"}
    log.tell(Discarded(), 951)
    assert not _found(log, 952)
    assert not standing_stops(log.state, cut(), CATALOGUE.cuts, at(952))


def test_thrown_as_the_answer_to_the_two_hour_question_is_discarding() -> None:
    """The choice says the same as the word."""
    log = _held((760, 58.0))
    log.done("serve", 780)
    log.done("two_hour", 1000, "thrown")
    assert not _stops(log, 1001)


def test_what_begins_after_discarding_is_told() -> None:
    """Thrown away and served all the same: the stop of that serving stands."""
    log = cooking()
    log.done("pull", 480)
    log.tell(Discarded(), 500)
    log.done("serve", 600)
    assert "minimum_not_measured" in _stops(log, 601)


def test_discarding_taken_back_brings_the_stop_back() -> None:
    """Only what stands in the log counts."""
    log = _held((560, 58.0))
    gone = log.tell(Discarded(), 570)
    assert not _stops(log, 571)
    log.tell(Undone(of=gone), 572)
    assert "held_under_floor" in _stops(log, 573)


# --- a rest is no holding ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", [one.id for one in CATALOGUE.cuts.cuts])
def test_no_rest_is_as_long_as_food_may_be_out(name: str) -> None:
    """What counts as a rest, and needs no reading of its own, ends before the two hours do."""
    assert 30 <= rest_span(cut(name)).total_seconds() / 60 < 120


def test_food_served_after_its_rest_alone_needs_no_second_reading() -> None:
    """Chuck ribs rest for 65 minutes with vent and slicing: read at the pull and served by then; a minute later not."""
    for minutes, named in ((65, False), (66, True)):
        log = resting()
        log.done("serve", 480 + minutes)
        assert ("held_not_read" in _found(log, 481 + minutes)) is named
