"""The calendar file: what is in it, what stays the same over issues, and how it treats odd text and odd nights."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Any

from bot.papers import calendar_file, sheet_of
from scheduler.facts import PaperIssued, Serving, ServingKind, ServingMoved
from tests.unit.bot.papers.papers import A_LONG_NAME, events, pieces_of, sheet, unfolded
from tests.unit.scheduler.logbook import START, Logbook, at, cooking, dinner, planned

WANTED = ("light", "meat_on", "bark_check", "tender_test", "pull", "sides", "slice", "serve")


def steps(found: list[Any]) -> set[str]:
    """Return the steps of events, from their UIDs."""
    return {str(event.uid.value).split("-")[1] for event in found}


def test_every_step_that_somebody_must_act_on_is_an_event() -> None:
    """Fire, meat on, wrap window, feel, pull window, sides and dinner are in the file of a fresh plan."""
    assert set(WANTED) <= steps(events(sheet()))


def test_instants_are_those_of_the_plan() -> None:
    """Meat on begins when the plan says, in UTC."""
    made = sheet()
    begins = {e.uid.value.split("-")[1]: e.dtstart.value for e in events(made)}
    assert begins["meat_on"] == made.pieces[0].on_at
    assert begins["serve"] == at(780)


def test_the_pull_is_a_window() -> None:
    """Pull begins where one cook in ten is ready and ends where nine in ten are."""
    made = sheet()
    pull = next(e for e in events(made) if "-pull-" in e.uid.value)
    window = made.pieces[0].pull
    assert window.early is not None
    assert window.late is not None
    assert abs(pull.dtstart.value - window.early) <= dt.timedelta(minutes=3)
    assert abs(pull.dtend.value - window.late) <= dt.timedelta(minutes=3)


def test_every_event_to_come_has_one_alarm_before_it() -> None:
    """Alarms are shown, none rings after its event begins or before the paper was made."""
    made = sheet()
    for event in events(made):
        alarm = event.valarm
        assert alarm.action.value == "DISPLAY"
        assert dt.timedelta(0) <= -alarm.trigger.value <= event.dtstart.value - made.issued_at


def test_uids_stay_and_the_sequence_rises_when_it_is_issued_again() -> None:
    """The same steps keep their UIDs although dinner moved; the sequence and the stamps are those of the new issue."""
    log = Logbook(planned(mass_kg=2.0))
    first = events(sheet(log))
    log.tell(ServingMoved(serving=dinner(840)), minutes=5)
    second = events(sheet(log, now=at(10), sequence=1))
    assert {e.uid.value for e in first} == {e.uid.value for e in second}
    assert {e.sequence.value for e in first} == {"0"}
    assert {e.sequence.value for e in second} == {"1"}
    assert {e.last_modified.value for e in second} == {at(10)}
    starts = {e.uid.value: e.dtstart.value for e in first}
    assert all(e.dtstart.value - starts[e.uid.value] >= dt.timedelta(minutes=55) for e in second)


def test_another_cook_has_other_uids() -> None:
    """Two cooks never overwrite one another in somebody's calendar, even with the same number."""
    one, other = sheet(), sheet(Logbook(planned(mass_kg=2.0), planned_at=7))
    assert not {e.uid.value for e in events(one)} & {e.uid.value for e in events(other)}


def test_no_name_of_anybody_is_in_the_file() -> None:
    """Who leads the cook stands on the page beside the cooker, not in a file that is passed on."""
    log = Logbook(planned(mass_kg=2.0))
    assert log.state.lead == "Ines"
    assert b"Ines" not in calendar_file(sheet(log))


def test_what_is_no_longer_planned_is_cancelled_at_its_old_time() -> None:
    """An event that was overtaken comes back as cancelled, with its UID, while its time is still to come."""
    log = Logbook(planned(mass_kg=2.0))
    first = sheet(log)
    given = PaperIssued(paper="calendar", sequence=0, milestones=first.issued)
    log.done("light", 60)
    again = sheet_of(log.situation, at(61), 1, issued=[given])
    gone = {e.uid.value: e for e in events(again) if e.status.value == "CANCELLED"}
    light = next(e for e in events(first) if "-light-" in e.uid.value)
    assert light.dtstart.value > at(61)
    assert gone[light.uid.value].dtstart.value == light.dtstart.value
    assert gone[light.uid.value].sequence.value == "1"
    assert "valarm" not in gone[light.uid.value].contents
    assert any(e.status.value == "CONFIRMED" for e in events(again))


def test_what_is_over_is_left_alone() -> None:
    """An event whose time has gone by is neither planned nor cancelled."""
    log = Logbook(planned(mass_kg=2.0))
    given = PaperIssued(paper="calendar", sequence=0, milestones=sheet(log).issued)
    later = cooking(planned(mass_kg=2.0))
    again = sheet_of(later.situation, at(700), 1, issued=[given])
    assert not any("-light-" in e.uid.value or "-meat_on-" in e.uid.value for e in events(again))


def test_it_says_that_an_alarm_may_stay_silent() -> None:
    """Every planned event says that it is a help and that an ordinary alarm is for what must wake somebody."""
    for event in events(sheet()):
        assert "Phones may stay silent" in event.description.value
        assert "ordinary alarm" in event.description.value


def test_commas_line_ends_and_long_words_come_back_as_they_were() -> None:
    """What a person typed into a name is escaped and folded, and read back unchanged."""
    odd = f"ribs, shoulder; and a back\\slash\nsecond line \N{MEAT ON BONE} {A_LONG_NAME * 3}"
    made = sheet()
    rows = tuple(dataclasses.replace(row, event_title=odd) for row in made.rows)
    data = calendar_file(dataclasses.replace(made, rows=rows))
    assert all(len(line) <= 75 for line in data.split(b"\r\n"))
    assert {e.summary.value for e in events(dataclasses.replace(made, rows=rows))} == {odd}


def test_a_night_in_which_the_clocks_go_back_is_planned_in_instants() -> None:
    """Over the repeated hour every event keeps its instant: the file speaks UTC and needs no zone."""
    zone = "Europe/Berlin"
    sunday = dt.datetime(2026, 10, 25, 13, 0)  # noqa: DTZ001 - wall time, as people say it
    serving = Serving(kind=ServingKind.AT, zone=zone, start=sunday)
    log = Logbook(planned(mass_kg=2.0, serving=serving, pit_low_c=121.0, pit_high_c=121.0))
    made = sheet(log, now=dt.datetime(2026, 10, 24, 12, 0, tzinfo=dt.UTC))
    serve = next(e for e in events(made) if "-serve-" in e.uid.value)
    assert serve.dtstart.value == dt.datetime(2026, 10, 25, 12, 0, tzinfo=dt.UTC)
    assert "go back an hour at Sun 03:00" in made.clock_change
    assert not any(line.startswith(("DTSTART;", "BEGIN:VTIMEZONE")) for line in unfolded(calendar_file(made)))


def test_the_same_sheet_gives_the_same_bytes() -> None:
    """A file made again from the same values is the same file."""
    assert calendar_file(sheet()) == calendar_file(sheet())
    assert calendar_file(sheet()) != calendar_file(sheet(now=START + dt.timedelta(minutes=10)))


def test_a_bird_comes_off_by_its_temperature() -> None:
    """The window of the pull names the hand for a tough cut, and the number for one that goes by it."""
    rows = sheet(pieces_of("pork_butt", "whole_chicken")).rows
    assert {row.event_title for row in rows if row.step == "pull"} == {
        "Whole chicken: pull window: off the fire when the coldest spot reads 165 F (74 C)",
        "Pork shoulder: pull window: off the fire when it is tender",
    }
