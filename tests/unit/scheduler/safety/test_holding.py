"""Held meat: acted on at 63 C, stopped under 60 C, and looked at before either can be."""

from __future__ import annotations

import pytest

from scheduler.facts import Reading, Slot
from scheduler.safety import ACT_C, FLOOR_C, Finding, FindingLevel, act_by, findings
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, dinner, minutes_of, planned, resting


def _found(log: Logbook, minutes: float) -> dict[str, Finding]:
    return {f.rule: f for f in findings(log.state, cut(), CATALOGUE.cuts, at(minutes))}


@pytest.mark.parametrize(
    ("value_c", "rule"),
    [
        (63.1, None),
        (63.0, "held_act_now"),
        (60.0, "held_act_now"),
        (59.9, "held_under_floor"),
    ],
)
def test_63_is_acted_on_and_under_60_is_stopped(value_c: float, rule: str | None) -> None:
    """At 63.0 C something is done; at 59.9 C the meat is no longer hot."""
    log = resting()
    log.read(value_c, 560)
    assert set(_found(log, 561)) == ({rule} if rule else set())


def test_a_finding_names_the_number_and_the_limit() -> None:
    """Act: a caution with 63; under the floor: a stop with 60; both since the reading."""
    log = resting()
    log.read(62.0, 560)
    act = _found(log, 570)["held_act_now"]
    assert (act.level, act.found_c, act.limit_c, act.since) == (FindingLevel.CAUTION, 62.0, ACT_C, at(560))
    log.read(58.0, 600)
    stop = _found(log, 601)["held_under_floor"]
    assert (stop.level, stop.found_c, stop.limit_c, stop.since) == (FindingLevel.STOP, 58.0, FLOOR_C, at(600))


def test_of_a_range_the_low_edge_counts() -> None:
    """About 64, give or take 2, may be 62: acted on."""
    log = resting()
    log.read(64.0, 560, spread_c=2.0)
    assert "held_act_now" in _found(log, 561)


def test_a_hotter_reading_clears_it() -> None:
    """Warmed again and measured: the finding is gone; a forecast clears nothing."""
    log = resting()
    log.read(62.0, 560)
    assert _found(log, 5000)
    log.read(70.0, 620)
    assert not _found(log, 621)


def test_on_the_fire_the_floor_does_not_count() -> None:
    """A rising core passes 60 C on its way; only what was pulled is held."""
    log = cooking()
    log.read(58.0, 300)
    assert not _found(log, 301)
    assert act_by(log.state, cut()) is None


def test_a_reading_from_before_the_pull_says_nothing_of_the_box() -> None:
    """The last core on the fire is not the core in the box."""
    log = resting(pulled=480)
    first = act_by(log.state, cut())
    other = cooking()
    other.read(63.0, 475)
    other.done("pull", 480)
    assert act_by(other.state, cut()) == first
    assert not _found(other, 481)


def test_the_careful_estimate_comes_before_the_floor() -> None:
    """Three quarters of the usual cooling: the box is opened well before the trade's longest unheated rest."""
    log = resting(pulled=480)
    look_at = minutes_of(act_by(log.state, cut()))
    assert look_at is not None
    boxed = 480 + cut().vent_min
    assert boxed + 60 < look_at < boxed + cut().rest_max_unheated_min * 0.75


def test_a_cooler_reading_brings_the_look_forward() -> None:
    """Read at 85, 75 and 65 an hour in: the cooler, the sooner; at 63 at once."""
    looks = []
    for value_c in (85.0, 75.0, 65.0, 63.0):
        log = resting(pulled=480)
        log.read(value_c, 540)
        looks.append(minutes_of(act_by(log.state, cut())))
    assert None not in looks
    assert looks == sorted(looks, reverse=True)  # type: ignore[type-var]  # none is None
    assert looks[-1] == 540


def test_boxed_late_counts_from_the_box() -> None:
    """The estimate starts when the box was shut, else when venting should be over."""
    log = resting(pulled=480)
    unboxed = minutes_of(act_by(log.state, cut()))
    log.done("box_meat", 520)
    boxed = minutes_of(act_by(log.state, cut()))
    assert unboxed is not None
    assert boxed is not None
    assert boxed - unboxed == pytest.approx(20)


def test_served_meat_is_held_no_longer() -> None:
    """After serving the two-hour clock takes over."""
    log = resting()
    log.done("serve", 780)
    assert act_by(log.state, cut()) is None
    log.read(55.0, 790)
    assert "held_under_floor" not in _found(log, 791)


def test_held_too_cool_is_told_at_once() -> None:
    """The report that shows it is followed by the warning in the same breath, and by it once."""
    log = resting()
    log.taken(Reading(slot=Slot.CORE, value_c=58.0), minutes=560)
    told = [fact.body.kind for fact in log.ring(560).facts]
    assert told.count("warned") == 1
    assert "warned" not in [fact.body.kind for fact in log.ring(561).facts]


def test_of_one_look_at_several_spots_the_lowest_counts() -> None:
    """Flat 66 and point 62 within one opening of the box: held meat is at 62, and acted on."""
    log = resting()
    log.read(62.0, 560, spot="point")
    log.read(66.0, 562, spot="flat")
    assert _found(log, 563)["held_act_now"].found_c == 62.0
    log.read(70.0, 620)
    assert not _found(log, 621)


def test_two_looks_into_one_box_measure_how_it_cools() -> None:
    """Thin ribs that fell three degrees in fifty minutes are not opened again after another half hour."""
    log = resting(planned(cut="spareribs_stl", serving=dinner(1400)), pulled=480)
    ribs = CATALOGUE.cuts.get("spareribs_stl")
    log.done("box_meat", 490)
    log.read(84.0, 530)
    one = minutes_of(act_by(log.state, ribs))
    log.read(81.0, 580)
    two = minutes_of(act_by(log.state, ribs))
    assert one is not None
    assert two is not None
    assert one - 530 < 50
    assert 60 < two - 580 < 130
    fast = resting(planned(cut="spareribs_stl", serving=dinner(1400)), pulled=480)
    fast.done("box_meat", 490)
    fast.read(84.0, 530)
    fast.read(72.0, 560)
    quick = minutes_of(act_by(fast.state, ribs))
    assert quick is not None
    assert quick - 560 < 30
