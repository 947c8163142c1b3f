"""Logs as spreadsheets, loggers and people write them."""

from __future__ import annotations

import datetime as dt

import pytest

from bot.backtest.events import Covered, Opened
from bot.backtest.log import Log, Notice, Trouble
from bot.backtest.reading import read_log
from scheduler.facts import Wrap
from scheduler.forecast import Opening
from scheduler.units import f_from_c

PLAIN = """# cut: brisket
# mass: 13 lb 8 oz
# thickness: 3 in
# pit: 250-275 F
# wrap: paper
minute,core_f,pit_f,event
0,41,250,
45,71,,spritz
120,110,262,
"""


def read(text: str) -> Log:
    """Return a log that can be used."""
    log = read_log(text)
    assert isinstance(log, Log), log
    return log


def cores(log: Log) -> list[tuple[float, int]]:
    """Return (minute, core in whole Fahrenheit) of each row with a core."""
    return [(row.minute, round(f_from_c(row.core_c))) for row in log.rows if row.core_c is not None]


def told(log: Log) -> list[tuple[Trouble, int | None]]:
    """Return what could not be used, and its lines."""
    return [(notice.trouble, notice.line) for notice in log.notices]


def test_a_plain_log_is_read_whole() -> None:
    """Cut, mass, thickness, pit, wrap, readings and events arrive, with nothing to complain of."""
    log = read(PLAIN)
    assert log.head.cut == "brisket"
    assert log.head.mass_kg == pytest.approx(6.123, abs=1e-3)
    assert log.head.thickness_m == pytest.approx(0.0762)
    assert log.head.pit_c == pytest.approx((121.1, 135.0), abs=0.05)
    assert log.head.wrap is Wrap.PAPER
    assert cores(log) == [(0, 41), (45, 71), (120, 110)]
    assert [row.pit_c is None for row in log.rows] == [False, True, False]
    assert log.rows[1].events == (Opened(kind=Opening.SPRITZ),)
    assert (log.unit, log.on_at, log.notices, log.skipped) == ("F", None, (), 0)


@pytest.mark.parametrize(
    "text",
    [
        "\ufeff" + PLAIN,
        PLAIN.replace("\n", "\r\n"),
        PLAIN.replace("\n", "\r"),
        "\n".join(line if line.startswith("#") else line.replace(",", ";") for line in PLAIN.split("\n")),
        "\n".join(line if line.startswith("#") else line.replace(",", "\t") for line in PLAIN.split("\n")),
        PLAIN.replace("\n# ", ",,,\n#").replace("# cut", '"# Cut"').replace('"# Cut": brisket', '"# Cut: brisket"'),
        PLAIN.replace("# mass:", "# Weight =").replace("minute,core_f", " Minute , Core F "),
        PLAIN.replace("\n45", "\n\n,,,\n# half way\n45"),
    ],
    ids=["mark", "crlf", "cr", "semicolons", "tabs", "quoted comments", "spellings", "blank rows"],
)  # fmt: skip
def test_the_dialects_of_csv_read_alike(text: str) -> None:
    """Byte order mark, line ends, delimiters, quotes and empty rows change nothing that was told."""
    log, plain = read(text), read(PLAIN)
    assert log.head == plain.head
    assert cores(log) == cores(plain)
    assert log.notices == ()


def test_columns_stand_in_any_order_among_others() -> None:
    """Columns are found by name; those not known are passed over, a missing tail of a row is empty."""
    log = read("event,humidity,core_c,minute,core_f\nlid,55,,0,41\n,60,21.5,45\n")
    assert cores(log) == [(0, 41), (45, 71)]
    assert log.rows[0].events == (Opened(kind=Opening.LID),)
    assert log.notices == ()


def test_of_two_filled_columns_the_unit_of_the_log_counts() -> None:
    """With Fahrenheit and Celsius in one row the Fahrenheit figure is taken."""
    assert cores(read("minute,core_f,core_c\n0,100,71\n")) == [(0, 100)]


def test_rows_out_of_order_are_sorted() -> None:
    """A row written late stands where its minute belongs."""
    assert cores(read("minute,core_f\n120,110\n0,41\n45,71\n")) == [(0, 41), (45, 71), (120, 110)]


def test_the_event_on_is_minute_zero() -> None:
    """Rows from before it have negative minutes, are named when they hold a core, and a second one is named."""
    log = read("minute,core_f,event\n10,38,\n30,40,on\n75,71,\n90,80,on\n")
    assert cores(log) == [(-20, 38), (0, 40), (45, 71), (60, 80)]
    assert told(log) == [(Trouble.BEFORE_ON, 2), (Trouble.SECOND_ON, 5)]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("2026-09-12T23:30", "2026-09-13T00:15"),
        ("2026-09-12 23:30:00", "2026-09-13 00:15:00"),
        ("2026-09-12T23:30+01:00", "2026-09-12T23:15Z"),
        ("20260912T2330", "20260913T0015"),
    ],
)
def test_times_are_iso_8601_with_or_without_a_zone(first: str, second: str) -> None:
    """The first row is meat on; minutes are counted across midnight and zones."""
    log = read(f"at,core_f\n{first},41\n{second},71\n")
    assert cores(log) == [(0, 41), (45, 71)]
    assert log.on_at is not None
    assert log.on_at.replace(tzinfo=None) == dt.datetime(2026, 9, 12, 23, 30)  # noqa: DTZ001 - wall time of the log


def test_the_first_time_is_meat_on_though_its_reading_is_broken() -> None:
    """A probe that fails in the first row does not move the cook."""
    log = read("at,core_f\n2026-09-12T09:00,ERR\n2026-09-12T09:45,71\n")
    assert cores(log) == [(45, 71)]
    assert log.skipped == 1


def test_malformed_rows_are_named_by_line_and_counted() -> None:
    """Rows without a readable time or with a reading that is none are left out, the others kept."""
    log = read(
        "# cut: brisket\nminute,core_f,pit_f,event\n"
        "0,41,,\nsoon,50,,\n,60,,\n45,71,hot,\n60,999,,wrap foil\n1e9,80,,\n75,90,,\n"
    )
    assert cores(log) == [(0, 41), (75, 90)]
    assert told(log) == [
        (Trouble.TIME, 4), (Trouble.TIME, 5), (Trouble.TEMPERATURE, 6), (Trouble.CORE_TOO_HOT, 7), (Trouble.TIME, 8),
    ]  # fmt: skip
    assert log.skipped == 5


def test_a_broken_reading_does_not_hide_the_wrap_beside_it() -> None:
    """Of a malformed row the events are kept: the meat was wrapped, whatever the probe said."""
    log = read("minute,core_f,event\n0,41,\n60,999,wrap foil\n75,90,\n")
    assert log.rows[1].events == (Covered(wrap=Wrap.FOIL),)


def test_events_parted_by_commas_without_quotes_are_kept() -> None:
    """Behind the last column stands the rest of its events; what is none is named, its neighbours are kept."""
    log = read("minute,core_f,event\n0,41,on\n45,71,lid,foil\n60,80,spritz; sang,paper,late\n")
    assert log.rows[1].events == (Opened(kind=Opening.LID), Covered(wrap=Wrap.FOIL))
    assert log.rows[2].events == (Opened(kind=Opening.SPRITZ), Covered(wrap=Wrap.PAPER))
    assert told(log) == [(Trouble.EVENT, 4), (Trouble.EXTRA_CELLS, 4)]


def test_a_lost_quote_spoils_one_row_alone() -> None:
    """An open quote does not swallow the lines after it."""
    assert cores(read('minute,core_f,event\n0,41,"on\n45,71,\n120,110,\n'))[1:] == [(45, 71), (120, 110)]


def test_times_with_and_without_a_zone_do_not_mix() -> None:
    """The first time says which kind a log has; the other kind is named."""
    log = read("at,core_f\n2026-09-12T09:00,41\n2026-09-12T09:45Z,71\n2026-09-12T10:00,80\n2026-09-12,90\n")
    assert cores(log) == [(0, 41), (60, 80)]
    assert told(log) == [(Trouble.ZONE, 3), (Trouble.TIME, 5)]


def test_what_nobody_knows_is_named_and_ignored() -> None:
    """Header lines, events and cells that say nothing here cost nothing but a remark; prose costs not even that."""
    log = read(
        "# Harrow Lane harvest supper\n# cook: Wren\n# mass: heavy\n# wrap: undecided\n"
        "minute,core_f,event\n0,41,sang a song\n45,71,lid,late\n"
    )
    assert told(log) == [
        (Trouble.HEADER_UNKNOWN, 2), (Trouble.HEADER_UNREADABLE, 3), (Trouble.EVENT, 6), (Trouble.EXTRA_CELLS, 7),
    ]  # fmt: skip
    assert log.skipped == 0
    assert log.head.mass_kg is None
    assert log.head.wrap is None


@pytest.mark.parametrize(
    ("text", "trouble"),
    [
        ("", Trouble.NO_COLUMNS),
        ("\n\n# cut: brisket\n", Trouble.NO_COLUMNS),
        ("0,41\n45,71\n", Trouble.NO_COLUMNS),
        ("minute,pit_f\n0,250\n", Trouble.NO_COLUMNS),
        ("core_f,pit_f\n41,250\n", Trouble.NO_COLUMNS),
        ("minute,core_f\n", Trouble.NO_ROW),
        ("minute,core_f,pit_f\n0,,250\n45,ERR,\n", Trouble.NO_ROW),
        ("minute,core_f,event\n0,41,\n45,71,\n60,,on\n", Trouble.NO_ROW),
    ],
)
def test_a_log_without_a_usable_row_is_refused(text: str, trouble: Trouble) -> None:
    """Without columns, or without a core reading after meat on, there is nothing to replay."""
    refused = read_log(text)
    assert isinstance(refused, Notice)
    assert refused.trouble is trouble
