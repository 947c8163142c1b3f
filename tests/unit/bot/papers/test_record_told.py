"""What else was told stands in the record: a fire that was out, dropped food, numbers nobody took, late-told facts."""

from __future__ import annotations

import pytest

from bot.messages.record_told import lasted
from scheduler.facts import Noted, Reading, Slot, Troubled
from tests.unit.bot.papers.records import entries, pages, record
from tests.unit.scheduler.logbook import Logbook, cooking, resting


def _whats(log: Logbook) -> list[str]:
    return [row["what"] for row in entries(record(log))]


def test_a_fire_that_was_out_and_relit_is_in_it() -> None:
    """Both, with who and when."""
    log = cooking()
    log.tell(Troubled(problem="fire_out"), 200)
    log.tell(Troubled(problem="fire_out", over=True), 260)
    whats = _whats(log)
    assert "REPORTED: the fire is out" in whats
    assert "told: The fire burns again" in whats


def test_what_makes_food_doubtful_is_in_it() -> None:
    """Dropped food and a wrong thermometer; what is about taste is not."""
    log = resting()
    log.tell(Troubled(problem="dropped_done"), 490)
    log.tell(Troubled(problem="reader_wrong"), 491)
    log.tell(Troubled(problem="bark_soft"), 492)
    whats = _whats(log)
    assert {"REPORTED: cooked meat fell down", "REPORTED: the thermometer is wrong"} <= set(whats)
    assert not any("bark" in what for what in whats)
    assert "thermometer said to be wrong" in " ".join(pages(record(log))) or not log.state.readings


def test_a_number_that_was_not_taken_is_in_it_as_a_note() -> None:
    """A "tri-tip 140 pulled" that found no piece stands there as it was typed; words without a number do not."""
    log = cooking()
    log.tell(Noted(text="tri-tip 140 pulled", understood=False), 300)
    log.tell(Noted(text="lovely day", understood=False), 301)
    whats = _whats(log)
    assert 'told, NOT taken as a reading: "tri-tip 140 pulled"' in whats
    assert not any("lovely" in what for what in whats)


def test_a_stop_ended_by_something_told_late_says_for_when_and_when() -> None:
    """Put away at 800, told at 961: both times, and what was told."""
    log = resting()
    log.read(70.0, 775)
    log.done("serve", 780)
    log.tell(Noted(text="still on the table"), 905)
    log.done("leftovers", 860, recorded=961)
    ended = [one.ended for one in record(log, 962).findings if one.rule == "out without temperature control too long"]
    assert ended == ["ended: leftovers put away 20:20, told 12 Sep 22:01 by Ines"]


def test_both_tables_name_one_time() -> None:
    """A reading typed later ends a finding when it was read, as the list of readings says."""
    log = cooking()
    log.tell(Reading(slot=Slot.PIT, value_c=95.0), 100)
    log.tell(Reading(slot=Slot.PIT, value_c=120.0), 120, recorded=123)
    (cold,) = [one for one in record(log, 130).findings if one.rule == "pit air too cold"]
    assert cold.ended == "ended 12 Sep 08:00: read 248 F (120 C), by Ines"


def test_a_print_long_after_counts_no_months() -> None:
    """The record of a cook that nobody closed looks on for some days after the last word only."""
    log = resting()
    log.read(70.0, 775)
    log.done("serve", 780)
    text = " ".join(one.numbers for one in record(log, 200_000).findings)
    assert "days" in text or "h" in text
    assert "200" not in text
    assert "min, limit 120" not in text


@pytest.mark.parametrize(
    ("minutes", "said"), [(9, "9 min"), (60, "1 h"), (122, "2 h 2 min"), (1500, "25 h"), (147496, "102.4 days")]
)
def test_a_duration_is_read_in_its_unit(minutes: float, said: str) -> None:
    """Minutes up to an hour, hours and minutes, days from three on."""
    assert lasted(minutes) == said
