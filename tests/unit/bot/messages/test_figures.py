"""Times, spans, temperatures and masses as people read them."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import pytest

from bot.messages.figures import Voice, at_most, kilograms, span, to_five
from scheduler.planning.outlook import Window
from tests.fakes.kitchen import on

LONDON = Voice(zone="Europe/London", unit="F", now=on("12:00"))
UTC_C = Voice(zone="UTC", unit="C", now=on("12:00"))


@pytest.mark.parametrize(
    ("at", "said"),
    [
        (on("17:05"), "18:05"),
        (on("22:59"), "23:59"),
        (on("23:00"), "Sun 00:00"),
        (on("11:00", -1), "Fri 12:00"),
        (on("12:00", 6), "Fri 13:00"),
        (on("12:00", 8), "Sun 23 Aug 13:00"),
    ],
)
def test_a_clock_time_in_the_zone_of_the_room(at: dt.datetime, said: str) -> None:
    """Today a time stands alone; another day has its weekday, a far one its date; all in the zone of the room."""
    assert LONDON.clock(at) == said


def test_the_day_is_the_one_of_the_room() -> None:
    """Where it is past midnight already, midnight UTC is today."""
    voice = Voice(zone="Asia/Tokyo", unit="C", now=on("23:00"))
    assert voice.clock(on("23:30")) == "08:30"
    assert on("23:30").astimezone(ZoneInfo("Asia/Tokyo")).day == 16


@pytest.mark.parametrize(("clock", "said"), [("14:02", "14:00"), ("14:03", "14:05"), ("23:58", "Sun 00:00")])
def test_a_forecast_is_told_to_five_minutes(clock: str, said: str) -> None:
    """No forecast is better than five minutes, so none pretends to be."""
    assert UTC_C.about(on(clock)) == said
    assert to_five(on(clock)).minute % 5 == 0


@pytest.mark.parametrize(
    ("early", "late", "said"),
    [
        (on("14:00"), on("16:30"), "14:00 to 16:30"),
        (on("23:00"), on("02:00", 1), "23:00 to Sun 02:00"),
        (on("10:00", 1), on("16:00", 1), "Sun 10:00 to 16:00"),
        (on("14:00"), None, "14:00 to later than I can see"),
        (None, on("16:30"), "? to 16:30"),
    ],
)
def test_a_window(early: dt.datetime | None, late: dt.datetime | None, said: str) -> None:
    """The weekday stands once where both ends lie on one day, and an end that nobody can see is named as that."""
    assert UTC_C.window(Window(early=early, likely=None, late=late)) == said


@pytest.mark.parametrize(
    ("temp_c", "fahrenheit", "celsius"),
    [(100.0, "212 F", "100 C"), (62.8, "145 F", "63 C"), (0.0, "32 F", "0 C"), (93.4, "200 F", "93 C")],
)
def test_a_temperature_in_the_unit_of_the_room(temp_c: float, fahrenheit: str, celsius: str) -> None:
    """Whole degrees, in the unit that people use."""
    assert LONDON.temp(temp_c) == fahrenheit
    assert UTC_C.temp(temp_c) == celsius


def test_fine_temperatures_show_a_tenth_only_where_there_is_one() -> None:
    """Near a limit tenths count; whole ones stay whole."""
    assert UTC_C.temp(62.8, fine=True) == "62.8 C"
    assert UTC_C.temp(63.0, fine=True) == "63 C"


def test_a_band() -> None:
    """A band shows both ends with one unit, a single value only itself."""
    assert UTC_C.band(120.0, 135.0) == "120 to 135 C"
    assert UTC_C.band(121.1, 121.1) == "121 C"
    assert LONDON.band(121.1, 135.0) == "250 to 275 F"


@pytest.mark.parametrize(
    ("minutes", "said"),
    [(0, "0 min"), (7, "7 min"), (12, "10 min"), (13, "15 min"), (60, "1 h"), (68, "1 h 10 min"), (-90, "1 h 30 min"),
     (1500, "25 h"), (2880, "2 days"), (4000, "3 days")],
)  # fmt: skip
def test_a_span(minutes: float, said: str) -> None:
    """From ten minutes on spans are rounded to five, from two days on to days; a sign is not shown."""
    assert span(dt.timedelta(minutes=minutes)) == said


def test_a_mass() -> None:
    """Kilograms without needless digits."""
    assert kilograms(6.0) == "6 kg"
    assert kilograms(2.268) == "2.27 kg"


@pytest.mark.parametrize(
    ("minutes", "said"), [(25, "25 min"), (59, "59 min"), (60, "1 h"), (210, "3.5 h"), (300, "5 h"), (100, "1.7 h")]
)
def test_a_limit_below_an_hour_is_said_in_minutes(minutes: float, said: str) -> None:
    """Nobody says 0.4 h; from an hour on hours and tenths."""
    assert at_most(minutes) == said
