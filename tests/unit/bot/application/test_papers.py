"""The plan on paper and in the calendar: given out on request, kept in the log, offered anew when it has moved."""

from __future__ import annotations

import datetime as dt

from bot.chat import IncomingKind
from scheduler.facts import PaperIssued
from tests.fakes.kitchen import Heard, PlayedKitchen, on, window
from tests.unit.bot.papers.papers import read_events


def papers(kitchen: PlayedKitchen) -> list[PaperIssued]:
    """Return what the log says of papers, oldest first."""
    return [fact.body for fact in kitchen.cook.facts if isinstance(fact.body, PaperIssued)]


def file_of(heard: Heard) -> tuple[str, bytes]:
    """Return name and bytes of the file that came with a message."""
    assert heard.outgoing.document is not None
    return heard.outgoing.document.name, heard.outgoing.document.data


def test_a_page_is_given_to_whoever_asks(planned: PlayedKitchen) -> None:
    """One PDF with a word what to do with it and when the next message comes; nobody else gets one."""
    answer = planned.say("Ines", "print the plan")
    name, data = file_of(answer)
    assert (name, data[:5]) == (f"slowbell-{planned.cook.id}-page-1.pdf", b"%PDF-")
    assert answer.lines[0] == "The plan on one page, no. 1. Tape it up beside the cooker."
    assert answer.last.startswith("Next: ")
    assert [heard for heard in planned.new if heard.outgoing.document is not None] == [answer]


def test_a_calendar_is_given_and_promises_nothing(planned: PlayedKitchen) -> None:
    """The file is a calendar; the message says that a phone may stay silent."""
    answer = planned.say("Ines", "calendar")
    name, data = file_of(answer)
    assert name == f"slowbell-{planned.cook.id}-calendar-1.ics"
    assert any("-meat_on-" in event.uid.value for event in read_events(data))
    assert "Phones may stay silent: set an ordinary alarm for what must wake you." in answer.text


def test_no_name_is_in_the_name_of_a_file(planned: PlayedKitchen) -> None:
    """Files are passed on: their names say which cook and which issue."""
    assert "ines" not in file_of(planned.say("Ines", "page"))[0].casefold()


def test_the_log_keeps_what_was_on_paper(planned: PlayedKitchen) -> None:
    """Each kind is counted from 0; the page keeps the milestones, the calendar its events as well."""
    for text in ("page", "calendar", "page"):
        planned.say("Ines", text)
    assert [(one.paper, one.sequence) for one in papers(planned)] == [("page", 0), ("calendar", 0), ("page", 1)]
    page, calendar, _again = papers(planned)
    told = dict(planned.situation.told(all_of_it=True).milestones)
    assert dict(page.milestones) == told
    assert told.items() <= dict(calendar.milestones).items()
    assert any(name.startswith("event:") for name, _at in calendar.milestones)


def test_a_second_calendar_updates_the_first(planned: PlayedKitchen) -> None:
    """After dinner moved the same UIDs come with a higher sequence and later times."""
    first = read_events(file_of(planned.say("Ines", "calendar"))[1])
    planned.say("Ines", "dinner at 19:30")
    second = read_events(file_of(planned.tap("Ines", "New calendar"))[1])
    by_uid = {event.uid.value: event for event in second}
    for event in first:
        assert int(by_uid[event.uid.value].sequence.value) == int(event.sequence.value) + 1
    serve = next(event for event in second if "-serve-" in event.uid.value)
    assert serve.dtstart.value == on("19:30")


def test_a_move_of_half_an_hour_offers_a_new_paper_of_each_kind_that_is_out(planned: PlayedKitchen) -> None:
    """One line and a button with the message that tells the move; a tap gives the new issue."""
    planned.say("Ines", "page")
    answer = planned.say("Ines", "dinner at 19:30")
    offers = [line for line in answer.lines if "print a new one?" in line]
    assert offers == ["Page no. 1 is off by 1 h 30 min now: print a new one?"]
    assert "New page" in answer.labels
    assert "New calendar" not in answer.labels
    assert answer.last.startswith("Next: ")
    name, _data = file_of(planned.tap("Ines", "New page"))
    assert name.endswith("-page-2.pdf")


def test_the_crew_is_offered_one_as_well(planned: PlayedKitchen) -> None:
    """Whoever taped the page up may be another than the one who moved dinner."""
    planned.say("Tomas", "page")
    planned.say("Ines", "dinner at 19:30")
    (echo,) = planned.told("Tomas", "echo")
    assert "New page" in echo.labels


def test_a_new_issue_ends_the_offers(planned: PlayedKitchen) -> None:
    """After a new page the next small change brings no offer."""
    planned.say("Ines", "page")
    planned.say("Ines", "dinner at 19:30")
    planned.say("Ines", "new page")
    assert "print a new one" not in planned.say("Ines", "dinner at 19:45").text


def test_small_moves_offer_nothing(planned: PlayedKitchen) -> None:
    """Under thirty minutes the old page stands."""
    planned.say("Ines", "page")
    assert "print a new one" not in planned.say("Ines", "dinner at 18:20").text


def test_nothing_is_offered_to_those_who_have_no_paper(ribs: PlayedKitchen) -> None:
    """A move is told as ever."""
    ribs.until(on("10:40"))
    answer = ribs.say("Ines", "272/98")
    assert "runs slower" in answer.text
    assert "New page" not in answer.labels


def test_slow_meat_offers_a_new_page_with_the_news(ribs: PlayedKitchen) -> None:
    """The reading that moves the pull by more than half an hour brings the offer in the same message, and once."""
    ribs.say("Ines", "page")
    ribs.until(on("10:40"))
    answer = ribs.say("Ines", "272/98")
    assert "runs slower" in answer.text
    assert answer.text.count("print a new one?") == 1
    ribs.later(3)
    assert "print a new one?" not in ribs.say("Ines", "meat 99").text


def test_before_a_cook_there_is_nothing_to_print(kitchen: PlayedKitchen) -> None:
    """Asking for a page without a cook is answered with words."""
    kitchen.opens("Ines")
    answer = kitchen.say("Ines", "page")
    assert answer.outgoing.document is None
    assert answer.text


def test_a_file_is_still_there_after_a_kill(planned: PlayedKitchen) -> None:
    """What was asked for and not sent when the program died is sent whole by the next one."""
    planned.accept(planned.incoming("Ines", window("Ines"), IncomingKind.TEXT, text="page"))
    planned.kitchen.take_in(planned.now)
    sent = planned.away_until(planned.now + dt.timedelta(minutes=1))
    (answer,) = [heard for heard in sent if heard.outgoing.document is not None]
    assert file_of(answer)[1].rstrip().endswith(b"%%EOF")
