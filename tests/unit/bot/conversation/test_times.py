"""Times in texts: the nearest past, the nearest future, over midnight and over a change of the clocks."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import pytest

from bot.conversation.parsing import times
from bot.conversation.parsing.words import tidy

BERLIN = "Europe/Berlin"


def wall(text: str, zone: str = BERLIN) -> dt.datetime:
    """Return the instant of a wall time like "2026-10-25 01:30"."""
    return dt.datetime.fromisoformat(text).replace(tzinfo=ZoneInfo(zone)).astimezone(dt.UTC)


def only(text: str) -> times.When:
    """Return the one time in a text."""
    (when,) = times.find(tidy(text))
    return when


@pytest.mark.parametrize(
    ("text", "now", "past"),
    [
        ("at 2:15", "2026-09-12 14:40", "2026-09-12 14:15"),
        ("at 2:15", "2026-09-12 05:10", "2026-09-12 02:15"),
        ("at 11", "2026-09-13 00:20", "2026-09-12 23:00"),
        ("quarter past", "2026-09-12 08:31", "2026-09-12 08:15"),
        ("quarter past", "2026-09-12 08:05", "2026-09-12 07:15"),
        ("quarter to nine", "2026-09-12 09:05", "2026-09-12 08:45"),
        ("twenty past 8", "2026-09-12 09:05", "2026-09-12 08:20"),
        ("halb 7", "2026-09-12 07:50", "2026-09-12 06:30"),
        ("14h15", "2026-09-12 14:40", "2026-09-12 14:15"),
        ("at 0615", "2026-09-12 19:00", "2026-09-12 06:15"),
        ("since noon", "2026-09-12 14:40", "2026-09-12 12:00"),
        ("at seven thirty", "2026-09-12 09:00", "2026-09-12 07:30"),
        ("6 in the morning", "2026-09-12 23:00", "2026-09-12 06:00"),
        ("at 6 in the morning", "2026-09-12 23:00", "2026-09-12 06:00"),
        ("last night at 11", "2026-09-12 12:00", "2026-09-11 23:00"),
        ("half an hour ago", "2026-09-12 09:42", "2026-09-12 09:12"),
        ("an hour and a half ago", "2026-09-12 09:42", "2026-09-12 08:12"),
        ("1h 20m ago", "2026-09-12 09:42", "2026-09-12 08:22"),
        ("like 20 mins ago", "2026-09-12 09:42", "2026-09-12 09:22"),
        ("vor 10 minuten", "2026-09-12 09:42", "2026-09-12 09:32"),
        ("at 14:42", "2026-09-12 14:40", "2026-09-12 14:40"),
    ],
)
def test_the_nearest_past(text: str, now: str, past: str) -> None:
    """A time of something done is the nearest one gone; a watch some minutes fast means now."""
    assert times.past(only(text), wall(now), BERLIN) == wall(past)


@pytest.mark.parametrize(
    ("text", "now", "future"),
    [
        ("at 3", "2026-09-12 14:40", "2026-09-12 15:00"),
        ("at 11", "2026-09-12 23:30", "2026-09-13 11:00"),
        ("in 20", "2026-09-12 23:50", "2026-09-13 00:10"),
        ("gimme 10", "2026-09-12 10:00", "2026-09-12 10:10"),
        ("5 more minutes", "2026-09-12 10:00", "2026-09-12 10:05"),
        ("in a couple of hours", "2026-09-12 10:00", "2026-09-12 12:00"),
    ],
)
def test_the_nearest_future(text: str, now: str, future: str) -> None:
    """A time ahead is the nearest one to come."""
    assert times.future(only(text), wall(now), BERLIN) == wall(future)


def test_an_hour_ago_counts_minutes_when_the_clocks_go_back() -> None:
    """On the night of the change an hour ago is sixty minutes, whatever the wall says."""
    now = wall("2026-10-25 03:30")
    assert now - times.past(only("an hour ago"), now, BERLIN) == dt.timedelta(hours=1)


def test_a_wall_time_that_comes_twice_is_the_later_one_already_gone() -> None:
    """02:30 comes twice when the clocks go back; seen from 03:10 the second one is the nearest past."""
    past = times.past(only("at 02:30"), wall("2026-10-25 03:10"), BERLIN)
    assert past == dt.datetime(2026, 10, 25, 1, 30, tzinfo=dt.UTC)


def test_a_wall_time_that_never_was_is_still_an_instant() -> None:
    """02:30 does not exist when the clocks go forward; it is read without failing, close to the gap."""
    past = times.past(only("at 02:30"), wall("2026-03-29 04:00"), BERLIN)
    assert abs(past - wall("2026-03-29 03:00")) <= dt.timedelta(hours=1)


@pytest.mark.parametrize(
    "text", ["178", "165-170", "at 265", "pit 250", "slides in 203", "probe in 38", "at 99:99", "6 kg"]
)
def test_what_is_no_time(text: str) -> None:
    """Figures that cannot be times are left to the readers of figures."""
    assert times.find(tidy(text)) == ()
