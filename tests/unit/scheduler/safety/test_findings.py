"""What is not safe: said once each time it begins, cleared only by what was measured or done."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.cook import Found, NotSkipped
from scheduler.facts import Closed, Reading, Slot, StepDone, StepSkipped, Undone, Warned
from scheduler.safety import Finding, FindingLevel, findings, next_look
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, minutes_of, planned, resting


def _found(log: Logbook, minutes: float) -> dict[str, Finding]:
    return {f.rule: f for f in findings(log.state, cut(), CATALOGUE.cuts, at(minutes))}


def _next_look(log: Logbook) -> dt.datetime | None:
    return next_look(log.state, cut(), CATALOGUE.cuts)


def _served(log: Logbook | None = None, minutes: float = 780) -> Logbook:
    log = resting() if log is None else log
    log.done("serve", minutes)
    return log


# --- served without having been measured ------------------------------------------------------------------------------


def test_served_without_a_measured_minimum_is_stopped() -> None:
    """Nothing read, or read too low: stop, with what was found and what is needed."""
    log = cooking()
    log.done("pull", 480)
    stop = _found(_served(log), 781)["minimum_not_measured"]
    assert (stop.level, stop.found_c, stop.limit_c, stop.since) == (FindingLevel.STOP, None, 62.8, at(780))
    log = cooking()
    log.read(61.0, 470)
    log.done("pull", 480)
    assert _found(_served(log), 781)["minimum_not_measured"].found_c == 61.0


def test_a_reading_after_serving_clears_it() -> None:
    """Measured late is measured: the stop goes three minutes after a reading that passes."""
    log = cooking()
    log.done("pull", 480)
    _served(log)
    log.read(80.0, 782)
    assert "minimum_not_measured" in _found(log, 784)
    assert "minimum_not_measured" not in _found(log, 785)


def test_served_after_a_measured_minimum_lacks_only_the_last_reading() -> None:
    """Read at 96 C before the pull: safe was measured, that it stayed hot was not; a reading at the box settles it."""
    assert set(_found(_served(), 781)) == {"held_not_read"}
    log = cooking()
    log.read(96.0, 475)
    log.done("pull", 480)
    log.read(70.0, 775)
    log.done("serve", 780)
    assert _found(log, 781) == {}


# --- two hours ------------------------------------------------------------------------------------------------------


def test_food_is_stopped_after_two_hours() -> None:
    """At 1:59 nothing, at 2:00 stop; put away before it, nothing."""
    log = _served()
    assert "two_hours_out" not in _found(log, 780 + 119)
    stop = _found(log, 780 + 120)["two_hours_out"]
    assert (stop.level, stop.since) == (FindingLevel.STOP, at(780))
    log.done("leftovers", 780 + 100)
    assert "two_hours_out" not in _found(log, 780 + 120)


def test_time_alone_brings_it_about() -> None:
    """A row makes the bell ring at two hours, once; not when the food was put away."""
    log = _served()
    assert minutes_of(_next_look(log)) == 900
    log.ring(900)
    assert Warned(rule="two_hours_out", since=at(780), stop=True) in [fact.body for fact in log.facts]
    assert _next_look(log) is None
    other = _served()
    other.done("two_hour", 860, "away")
    assert minutes_of(_next_look(other)) == 860 + 4 * 1440  # the fourth day of what is in the fridge now
    other.done("leftover_expire", 900, "eaten")
    assert _next_look(other) is None


def test_serving_taken_back_and_told_anew_starts_the_clock_anew() -> None:
    """The two hours count from the serving that stands, and are warned of for that one."""
    log = resting()
    served = log.done("serve", 700)
    log.ring(820)
    log.tell(Undone(of=served), 825)
    assert _next_look(log) is None
    log.done("serve", 790, recorded=826)
    assert minutes_of(_next_look(log)) == 910
    assert [event for event in log.ring(910).events if isinstance(event, Found)]


# --- a cold pit -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("pit_c", "core_c", "found"),
    [(106.9, 40.0, True), (107.0, 40.0, False), (80.0, 60.0, False), (80.0, 59.9, True), (80.0, None, True)],
)
def test_a_cold_pit_matters_while_the_meat_is_in_the_danger_zone(
    pit_c: float, core_c: float | None, found: bool
) -> None:
    """Under 107 C with a core under 60 C, or an unknown one: a caution."""
    log = cooking()
    if core_c is not None:
        log.read(core_c, 200)
    log.read(pit_c, 210, slot=Slot.PIT)
    assert ("pit_cold" in _found(log, 211)) is found


def test_a_pit_read_before_the_meat_was_on_is_no_cold_pit() -> None:
    """While the fire grows it may be cold; nor does it matter once the meat is off."""
    log = Logbook()
    log.done("light", 0)
    log.read(60.0, 30, slot=Slot.PIT)
    log.done("meat_on", 60)
    assert _found(log, 61) == {}
    log = resting()
    log.read(60.0, 500, slot=Slot.PIT)
    assert "pit_cold" not in _found(log, 501)


# --- a slow come-up -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "minutes", "core_c", "found"),
    [
        ("brisket_packer", 270, 49.9, True),
        ("brisket_packer", 270, 50.0, False),
        ("brisket_packer", 269, 40.0, False),
        ("beef_chuck_ribs", 400, 40.0, False),
    ],
)
def test_a_big_cut_that_loiters_is_named(name: str, minutes: float, core_c: float, found: bool) -> None:
    """Read under 50 C from three and a half hours on: a caution for big cuts, none earlier, none for ribs."""
    log = cooking(planned(cut=name))
    log.read(core_c, minutes)
    rules = {f.rule for f in findings(log.state, cut(name), CATALOGUE.cuts, at(minutes))}
    assert ("come_up_slow" in rules) is found


def test_a_loitering_cut_is_named_by_a_reading_and_cleared_by_one() -> None:
    """Unread it is asked for, not named; hot enough at last, the caution is gone."""
    log = cooking(planned(cut="brisket_packer"))
    assert not findings(log.state, cut("brisket_packer"), CATALOGUE.cuts, at(1000))
    log.read(45.0, 300)
    log.read(52.0, 330)
    assert not findings(log.state, cut("brisket_packer"), CATALOGUE.cuts, at(331))


# --- unread since the pull ------------------------------------------------------------------------------------------


def test_food_that_nobody_read_since_the_pull_is_named_at_the_plate() -> None:
    """Unknown is not hot: a caution when it comes out unread, none once it was read in the box or at the plate."""
    log = _served()
    named = _found(log, 781)["held_not_read"]
    assert (named.level, named.limit_c, named.since) == (FindingLevel.CAUTION, 60.0, at(780))
    log.read(66.0, 785)
    assert "held_not_read" not in _found(log, 786)
    read = resting()
    read.read(75.0, 700)
    assert "held_not_read" not in _found(_served(read), 781)


# --- how they are told ----------------------------------------------------------------------------------------------


def test_the_gravest_comes_first() -> None:
    """A stop stands before a caution."""
    log = cooking()
    log.done("pull", 480)
    log.read(62.0, 700)
    _served(log, 701)
    levels = [finding.level for finding in findings(log.state, cut(), CATALOGUE.cuts, at(900))]
    assert levels == [FindingLevel.STOP] * len(levels)
    assert len(levels) == 2


def test_a_finding_is_told_once_each_time_it_begins() -> None:
    """A cold pit: told; still cold: not again; hot and cold again: told again."""
    log = cooking()
    told = []
    for minutes, pit_c in ((200, 90.0), (205, None), (230, 120.0), (260, 95.0)):
        if pit_c is not None:
            log.taken(Reading(slot=Slot.PIT, value_c=pit_c), minutes=minutes)
        told.append(sum(isinstance(event, Found) for event in log.ring(minutes, answering=True).events))
    assert told == [1, 0, 0, 1]


def test_nothing_is_said_of_a_cook_that_is_over() -> None:
    """Closed is closed."""
    log = _served(cooking())
    log.tell(Closed(), 1000)
    assert _found(log, 2000) == {}


# --- skipping -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("step", [one.id for one in CATALOGUE.steps.steps if one.safety])
def test_skipping_closes_no_safety_step(step: str) -> None:
    """Whatever was asked stays open, the word is kept, and the person is told so."""
    log = _served(resting(), 500)
    before = log.situation.prompts
    changes = log.taken(StepSkipped(step=step), minutes=500)
    assert [type(event) for event in changes.events] == [NotSkipped]
    assert [prompt.key for prompt in changes.after.prompts] == [prompt.key for prompt in before]
    assert all(not fact.answers for fact in changes.facts)


@pytest.mark.parametrize("step", [one.id for one in CATALOGUE.steps.steps if one.safety and one.slots])
def test_saying_done_measures_nothing(step: str) -> None:
    """A safety step that wants a number is closed by a number, not by "done"."""
    log = resting(pulled=480) if step != "come_up_check" else cooking()
    changes = log.taken(StepDone(step=step), minutes=500)
    assert [type(event) for event in changes.events] == [NotSkipped]
    assert log.state.did(step) is None


def test_a_skip_clears_no_finding() -> None:
    """Two hours out stays two hours out."""
    log = _served()
    log.ring(870)
    log.taken(StepSkipped(step="two_hour"), minutes=880)
    assert "two_hours_out" in _found(log, 900)
