"""The plan as a calendar file of RFC 5545, for a phone's own alarms.

It must not promise that an alarm rings, and holds no name of anybody.

No METHOD is given: RFC 5546 section 3.2.1 wants an organiser with it, which is personal. All times are UTC (form 2 of
section 3.3.5), so that no description of a zone is needed and a change of the clocks changes nothing.
"""

from __future__ import annotations

import datetime as dt
import unicodedata

from icalendar import Alarm, Calendar, Event

from bot.messages import papers as words
from bot.papers.rows import SOON, Row
from bot.papers.sheet import PlanSheet, Withdrawn

PRODID = "-//Slowbell//Plan of a cook//EN"


def calendar_file(sheet: PlanSheet) -> bytes:
    """Return the plan as the bytes of an iCalendar object (RFC 5545).

    An event keeps its UID over every issue; SEQUENCE is the number of the issue, so that a calendar which imports a
    later file replaces what it has. Events of earlier issues that are no longer planned are cancelled.
    """
    calendar = Calendar()
    calendar.add("prodid", PRODID)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("x-wr-calname", _clean(words.calendar_name(sheet.title)))
    for row in sheet.rows:
        if row.is_event:
            calendar.add_component(_event(row, sheet))
    for gone in sheet.withdrawn:
        calendar.add_component(_cancelled(gone, sheet))
    return bytes(calendar.to_ical())


def uid(key: str, seed: str) -> str:
    """Return the UID of the event of a prompt: the same in every issue, another in every cook."""
    return f"{key.replace('/', '-')}@{seed}.slowbell"


def _event(row: Row, sheet: PlanSheet) -> Event:
    event = _stamped(row.key, sheet)
    event.add("dtstart", row.starts_at)
    event.add("dtend", row.ends_at)
    event.add("summary", _clean(row.event_title))
    event.add("description", _clean("\n".join(part for part in (row.note, words.no_alarm_promise()) if part)))
    event.add("status", "CONFIRMED")
    event.add("transp", "TRANSPARENT")
    if row.starts_at > sheet.issued_at:
        event.add_component(_alarm(row, sheet.issued_at))
    return event


def _alarm(row: Row, issued_at: dt.datetime) -> Alarm:
    """Return the alarm of an event: so long before it, or at once when there is less time left."""
    lead = min(row.lead, row.starts_at - issued_at)
    lead = dt.timedelta(minutes=lead // dt.timedelta(minutes=1))
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("trigger", -lead)
    alarm.add("description", _clean(words.alarm_words(row.event_title, lead)))
    return alarm


def _cancelled(gone: Withdrawn, sheet: PlanSheet) -> Event:
    event = _stamped(gone.key, sheet)
    event.add("dtstart", gone.at)
    event.add("dtend", gone.at + SOON)
    event.add("summary", _clean(words.event_cancelled(gone.title)))
    event.add("status", "CANCELLED")
    event.add("transp", "TRANSPARENT")
    return event


def _stamped(key: str, sheet: PlanSheet) -> Event:
    event = Event()
    event.add("uid", uid(key, sheet.seed))
    event.add("dtstamp", sheet.issued_at)
    event.add("last-modified", sheet.issued_at)
    event.add("sequence", sheet.sequence)
    return event


def _clean(text: str) -> str:
    """Return a text without control characters, which RFC 5545 section 3.1 leaves out of values; line breaks stay."""
    return "".join(char for char in text if char == "\n" or unicodedata.category(char) != "Cc")
