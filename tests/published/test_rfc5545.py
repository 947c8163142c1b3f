"""The calendar file against RFC 5545, "Internet Calendaring and Scheduling Core Object Specification", September 2009.

Sections and wording: from memory of the RFC. The file is read by hand here, not by a library, so that what stands in
the file itself is checked; tests/unit/bot/papers reads it with a library that did not write it.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re

import pytest

from bot.papers import PlanSheet, calendar_file, sheet_of
from scheduler.facts import PaperIssued
from tests.unit.bot.papers.papers import A_LONG_NAME, EVENING, night_cook, pieces_of, sheet, unfolded
from tests.unit.scheduler.logbook import Logbook, at, planned

UTC_FORM = re.compile(r"\d{8}T\d{6}Z")
DURATION = re.compile(r"-?P(?:\d+W|(?:\d+D)?(?:T(?:\d+H)?(?:\d+M)?(?:\d+S)?)?)")


def reissued() -> PlanSheet:
    """Return a second issue that cancels what was overtaken since the first."""
    log = Logbook(planned(mass_kg=2.0))
    first = PaperIssued(paper="calendar", sequence=0, milestones=sheet(log).issued)
    log.done("light", 60)
    return sheet_of(log.situation, at(61), 1, issued=[first])


def odd() -> PlanSheet:
    """Return a paper whose titles hold everything that must be escaped, and letters of several bytes."""
    made = sheet()
    text = f"a, b; c\\d\ne: \N{FIRE}{A_LONG_NAME * 4}"
    return dataclasses.replace(made, rows=tuple(dataclasses.replace(row, event_title=text) for row in made.rows))


@pytest.fixture(params=["fresh", "night", "pieces", "reissued", "odd"])
def made(request: pytest.FixtureRequest) -> PlanSheet:
    """Return each paper in turn."""
    papers = {
        "fresh": sheet,
        "night": lambda: sheet(night_cook(), now=EVENING),
        "pieces": lambda: sheet(pieces_of("pork_butt", "spareribs_stl", "spatchcock_chicken"), now=EVENING),
        "reissued": reissued,
        "odd": odd,
    }
    return papers[request.param]()


def components(made: PlanSheet, name: str) -> list[list[str]]:
    """Return the content lines of every component of a name, without those of components inside."""
    found: list[list[str]] = []
    inside: list[str] = []
    for line in unfolded(calendar_file(made)):
        if line.startswith("BEGIN:"):
            inside.append(line.removeprefix("BEGIN:"))
            if inside[-1] == name:
                found.append([])
        elif line.startswith("END:"):
            assert inside.pop() == line.removeprefix("END:")
        elif inside[-1] == name:
            found[-1].append(line)
    assert inside == []
    return found


def values(lines: list[str], name: str) -> list[str]:
    """Return the values of a property."""
    return [line.partition(":")[2] for line in lines if re.split("[:;]", line)[0] == name]


def test_lines_are_folded_at_75_octets_and_end_in_crlf(made: PlanSheet) -> None:
    """Section 3.1: content lines end in CRLF and SHOULD NOT be longer than 75 octets, excluding the line break."""
    data = calendar_file(made)
    assert data.endswith(b"\r\n")
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert max(len(line) for line in data.split(b"\r\n")) <= 75


def test_folding_never_splits_a_character(made: PlanSheet) -> None:
    """Section 3.1: a line may be folded between any two characters; each piece stays valid UTF-8 (section 3.1.4)."""
    for line in calendar_file(made).split(b"\r\n"):
        line.decode("utf-8")


def test_long_lines_were_folded_at_all() -> None:
    """The papers here do hold lines that must be folded: the tests above can fail."""
    assert any(line.startswith(b" ") for line in calendar_file(odd()).split(b"\r\n"))
    assert max(len(line.encode()) for line in unfolded(calendar_file(odd()))) > 200


def test_the_calendar_has_its_required_properties(made: PlanSheet) -> None:
    """Section 3.6: PRODID and VERSION are REQUIRED and occur once; 3.7.4: the version is 2.0; 3.7.1: Gregorian."""
    (lines,) = components(made, "VCALENDAR")
    assert len(values(lines, "PRODID")) == 1
    assert values(lines, "VERSION") == ["2.0"]
    assert values(lines, "CALSCALE") == ["GREGORIAN"]


def test_there_is_no_method_and_nobody_is_named(made: PlanSheet) -> None:
    """Section 3.7.2: without METHOD the file is a snapshot; RFC 5546 3.2.1 would want an organiser, who is somebody."""
    text = calendar_file(made).decode()
    assert "METHOD" not in text
    assert "ORGANIZER" not in text
    assert "ATTENDEE" not in text


def test_every_event_has_uid_stamp_and_start_once(made: PlanSheet) -> None:
    """Section 3.6.1: UID and DTSTAMP are REQUIRED, DTSTART too where there is no METHOD; each at most once."""
    events = components(made, "VEVENT")
    assert events
    for lines in events:
        for name in ("UID", "DTSTAMP", "DTSTART", "DTEND", "SEQUENCE", "LAST-MODIFIED", "SUMMARY", "STATUS"):
            assert len(values(lines, name)) == 1, name
        assert values(lines, "DURATION") == []


def test_no_two_events_share_a_uid(made: PlanSheet) -> None:
    """Section 3.8.4.7: the UID is globally unique; here it ends in what only this cook has."""
    uids = [values(lines, "UID")[0] for lines in components(made, "VEVENT")]
    assert len(set(uids)) == len(uids)
    assert all(uid.endswith(f"@{made.seed}.slowbell") for uid in uids)


def test_instants_are_utc_and_ends_come_after_starts(made: PlanSheet) -> None:
    """Section 3.3.5 form 2 (UTC, with Z); 3.8.2.2: DTEND is later than DTSTART; 3.8.7.2 and 3.8.7.3: stamps are UTC."""
    for lines in components(made, "VEVENT"):
        times = {name: values(lines, name)[0] for name in ("DTSTART", "DTEND", "DTSTAMP", "LAST-MODIFIED")}
        assert all(UTC_FORM.fullmatch(value) for value in times.values())
        assert times["DTEND"] > times["DTSTART"]


def test_the_sequence_is_a_whole_number_that_rises(made: PlanSheet) -> None:
    """Section 3.8.7.4: an integer from 0, incremented for a significant revision."""
    assert {values(lines, "SEQUENCE")[0] for lines in components(made, "VEVENT")} == {str(made.sequence)}


def test_status_is_one_of_those_of_an_event(made: PlanSheet) -> None:
    """Section 3.8.1.11: TENTATIVE, CONFIRMED or CANCELLED."""
    found = {values(lines, "STATUS")[0] for lines in components(made, "VEVENT")}
    assert found <= {"TENTATIVE", "CONFIRMED", "CANCELLED"}


def test_a_second_issue_holds_a_cancelled_event() -> None:
    """Section 3.8.1.11: what is no longer planned stays known by its UID, with the status CANCELLED."""
    assert any(values(lines, "STATUS") == ["CANCELLED"] for lines in components(reissued(), "VEVENT"))


def test_alarms_have_action_trigger_and_description(made: PlanSheet) -> None:
    """Section 3.6.6: a DISPLAY alarm has ACTION, DESCRIPTION and TRIGGER, once each; 3.8.6.3: before is negative."""
    alarms = components(made, "VALARM")
    assert alarms
    for lines in alarms:
        assert values(lines, "ACTION") == ["DISPLAY"]
        assert len(values(lines, "DESCRIPTION")) == 1
        (trigger,) = values(lines, "TRIGGER")
        assert DURATION.fullmatch(trigger)
        assert trigger.startswith("-") or trigger in {"PT0S", "P0D"}


def test_text_is_escaped() -> None:
    """Section 3.3.11: backslash, semicolon, comma and line break are escaped, a colon is not."""
    (summary,) = {values(lines, "SUMMARY")[0] for lines in components(odd(), "VEVENT")}
    assert summary.startswith("a\\, b\\; c\\\\d\\ne: \N{FIRE}")


def test_no_control_characters() -> None:
    """Section 3.1: control characters but TAB are not part of a value."""
    made = sheet()
    rows = tuple(dataclasses.replace(row, event_title="bell\x07 esc\x1b[31m nul\x00 end") for row in made.rows)
    data = calendar_file(dataclasses.replace(made, rows=rows))
    assert not re.search(rb"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]", data)


def test_the_repeated_hour_keeps_its_instants() -> None:
    """Section 3.3.5: a UTC instant is the same on both sides of a change of the clocks: no local time is ambiguous."""
    made = sheet()
    first = dt.datetime(2026, 10, 25, 0, 30, tzinfo=dt.UTC)
    moved = tuple(
        dataclasses.replace(row, at=first + dt.timedelta(hours=n), window=None) for n, row in enumerate(made.rows[:2])
    )
    rows = tuple(dataclasses.replace(row, is_event=True) for row in moved)
    starts = [values(lines, "DTSTART")[0] for lines in components(dataclasses.replace(made, rows=rows), "VEVENT")]
    assert starts == ["20261025T003000Z", "20261025T013000Z"]
