"""The record of a cook: what stands in its file, read back by a library that did not write it."""

from __future__ import annotations

import csv
import datetime as dt
import io
from pathlib import Path

import pytest

from bot.papers.record_file import COLUMNS, record_csv
from scheduler.facts import (
    CareTold,
    Corrected,
    Discarded,
    Planned,
    Reading,
    SafeBy,
    SafeByTold,
    Serving,
    ServingKind,
    Slot,
    StepDone,
    TreatedTold,
    Treatment,
    Undone,
)
from tests.pictures.record import the_record
from tests.unit.bot.papers.records import entries, record, table, tell, two_pieces
from tests.unit.scheduler.logbook import Logbook, cooking, planned, resting


def the_reading(log: Logbook, value_c: float) -> dict[str, str]:
    """Return the row of the only reading with this value."""
    (row,) = [row for row in entries(record(log)) if row["value_c"] == f"{value_c:.1f}"]
    return row


def test_the_file_is_a_table_with_one_header() -> None:
    """Every row has every column, lines end as RFC 4180 says, and a spreadsheet sees that it is UTF-8."""
    data = record_csv(record(resting()))
    assert data.startswith(b"\xef\xbb\xbf")
    assert data.count(b"\r\n") == data.count(b"\n")
    rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")))
    assert tuple(rows[0]) == COLUMNS
    assert {len(row) for row in rows} == {len(COLUMNS)}


def test_a_time_has_its_date_and_its_offset() -> None:
    """Times are ISO 8601 on the clock of the cook's zone, in summer one hour ahead of UTC in London."""
    dinner = Serving(kind=ServingKind.WHEN_READY, zone="Europe/London")
    log = Logbook(Planned(cut="beef_chuck_ribs", serving=dinner, pit_low_c=135.0, pit_high_c=135.0))
    log.read(4.0, 5)
    (row,) = entries(record(log))
    assert row["time"] == "2026-09-12T07:05:00+01:00"
    assert dt.datetime.fromisoformat(row["time"]).utcoffset() == dt.timedelta(hours=1)


def test_a_reading_stands_in_both_units_with_who_read_it() -> None:
    """203 F and 95 C in columns of their own, the spread in both steps, the name, the spot."""
    log = cooking()
    log.tell(Reading(slot=Slot.CORE, value_c=95.0, spread_c=1.0, spot="point"), 400, by="Tomas")
    row = the_reading(log, 95.0)
    assert (row["value_f"], row["plus_minus_f"], row["plus_minus_c"]) == ("203.0", "1.8", "1.0")
    assert (row["by"], row["spot"]) == ("Tomas", "point")


@pytest.mark.parametrize(("value_c", "meets"), [(62.8, "yes"), (62.75, "yes"), (62.7, "NO")])
def test_the_last_core_before_the_pull_is_compared_with_the_minimum(value_c: float, meets: str) -> None:
    """145 F is 62.8 C: what rounds to it passes, a tenth less does not."""
    log = cooking()
    log.read(value_c, 400)
    log.done("pull", 410)
    (row,) = [row for row in entries(record(log)) if row["limit"] == "cooking minimum"]
    assert (row["limit_f"], row["limit_c"], row["meets"]) == ("145.0", "62.8", meets)


def test_a_range_is_compared_by_its_low_edge() -> None:
    """63 plus or minus 1 C may be under the minimum, so it does not meet it."""
    log = cooking()
    log.read(63.0, 400, spread_c=1.0)
    log.done("pull", 410)
    assert the_reading(log, 63.0)["meets"] == "NO"


def test_a_core_on_its_way_is_not_yet_there() -> None:
    """Meat that stays on the fire and is read again is not held against anybody."""
    log = cooking()
    log.read(40.0, 200)
    log.read(96.0, 470)
    log.done("pull", 480)
    assert [row["meets"] for row in entries(record(log)) if row["value_c"]] == ["not yet", "yes"]


def test_the_limit_follows_the_food() -> None:
    """Raw in the fridge, on the fire, off it, put away: each reading has the limit of its own stage."""
    log = Logbook(planned())
    log.read(3.0, 1)
    log.read(4.0, 2, slot=Slot.FRIDGE)
    log.done("light", 5)
    log.done("meat_on", 60)
    log.read(96.0, 470)
    log.done("pull", 480)
    log.read(70.0, 600)
    log.done("serve", 610)
    log.done("two_hour", 650, "away")
    log.read(20.0, 690, slot=Slot.LEFTOVERS)
    limits = [(row["value_c"], row["limit"], row["meets"]) for row in entries(record(log)) if row["value_c"]]
    assert limits == [
        ("3.0", "cold holding", "yes"),
        ("4.0", "cold holding", "yes"),
        ("96.0", "cooking minimum", "yes"),
        ("70.0", "hot holding", "yes"),
        ("20.0", "cooling, first stage", "yes"),
    ]


def test_food_that_cools_too_slowly_is_a_no() -> None:
    """At 100 minutes 30 C is on its way, at 130 minutes it missed the first stage."""
    log = resting()
    log.done("serve", 490)
    log.done("two_hour", 500, "away")
    log.read(30.0, 590, slot=Slot.LEFTOVERS)
    log.read(29.0, 640, slot=Slot.LEFTOVERS)
    assert the_reading(log, 30.0)["meets"] == "not yet"
    assert the_reading(log, 29.0)["meets"] == "NO"


def test_a_cold_pit_counts_while_the_core_is_cold() -> None:
    """The air of the pit has a limit while a core in the danger zone lies in it, and none afterwards."""
    log = cooking()
    log.read(90.0, 100, slot=Slot.PIT)
    log.read(80.0, 300)
    log.read(95.0, 301, slot=Slot.PIT)
    assert the_reading(log, 90.0)["meets"] == "NO"
    assert the_reading(log, 95.0)["meets"] == "n/a"


def test_what_was_done_next_is_told() -> None:
    """Held meat under the floor, reheated: the row says by whom and with which reading."""
    log = resting()
    log.read(58.0, 600)
    log.tell(Reading(slot=Slot.CORE, value_c=75.0), 640, by="Wren")
    assert the_reading(log, 58.0)["corrective_action"] == "reheated, read 167 F (75 C) 16:40, by Wren"


def test_meat_put_back_on_is_a_corrective_action() -> None:
    """Taking back a pull puts the meat back on; the pull stays in the record as withdrawn."""
    log = cooking()
    log.read(90.0, 390, slot=Slot.PIT)
    low = log.read(55.0, 400)
    pull = log.done("pull", 405)
    log.tell(Undone(of=pull), 410, by="Tomas")
    rows = entries(record(log))
    assert next(row for row in rows if row["what"] == "OFF THE FIRE")["remarks"] == "WITHDRAWN by Tomas, 12 Sep 12:50"
    assert the_reading(log, 55.0)["meets"] == "not yet"
    assert low


def test_discarding_is_told_with_who_and_when() -> None:
    """A reading that failed names the discarding; the discarding has a row of its own."""
    log = resting()
    log.read(50.0, 700)
    log.tell(Discarded(), 720, by="Bashir")
    assert the_reading(log, 50.0)["corrective_action"] == "DISCARDED 18:00, by Bashir"
    assert entries(record(log))[-1]["what"] == "DISCARDED"


def test_nothing_done_is_said() -> None:
    """A reading under its limit after which nobody told anything says "none recorded"."""
    log = resting()
    log.read(50.0, 700)
    assert the_reading(log, 50.0)["corrective_action"] == "none recorded"


def test_a_correction_shows_both_values() -> None:
    """The row has the value that counts, and says what it was, who changed it and when; its stop is in the record."""
    log = resting()
    slip = log.read(16.7, 600)
    log.tell(Corrected(of=slip, body=Reading(slot=Slot.CORE, value_c=70.0)), 606, by="Tomas")
    row = the_reading(log, 70.0)
    assert (row["meets"], row["remarks"]) == ("yes", "corrected from 62.1 F (16.7 C) by Tomas, 12 Sep 16:06")
    (found,) = [row for row in table(record(log)) if row["row"] == "finding" and row["what"].startswith("STOP: held")]
    assert found["corrective_action"] == "ended 12 Sep 16:06: what it rested on was corrected or withdrawn, by Tomas"


def test_a_doubtful_reading_proves_nothing() -> None:
    """One that would pass is not proven, one that would fail is a no; both are marked."""
    log = resting()
    log.read(80.0, 600, doubtful=True)
    log.read(40.0, 610, doubtful=True)
    assert [the_reading(log, value)["meets"] for value in (80.0, 40.0)] == ["not proven", "NO"]
    assert "doubtful" in the_reading(log, 80.0)["remarks"]


def test_what_was_typed_later_says_so() -> None:
    """A reading of noon typed at two is dated noon and says when it was typed."""
    log = cooking()
    log.tell(Reading(slot=Slot.CORE, value_c=80.0), 360, recorded=480)
    assert the_reading(log, 80.0)["remarks"] == "typed 12 Sep 14:00"


def test_what_nobody_measured_is_never_blank() -> None:
    """A cook with nothing read says so of each thing that should have been."""
    log = cooking()
    log.done("pull", 400)
    log.done("serve", 420)
    missing = [row["what"] for row in table(record(log)) if row["row"] == "missing"]
    assert missing == [
        "pit air: not measured",
        "fridge, raw meat (cold holding): not measured",
        "core while cooking: not measured",
        "core after it came off the fire (hot holding): not measured",
        "time out of the fridge: not told",
        "time put away or discarded: not told",
    ]
    (piece,) = [row for row in table(record(log)) if row["row"] == "piece"]
    assert piece["remarks"].endswith("NOT MEASURED")


def test_a_stop_that_stands_is_said_to_stand() -> None:
    """Served without a reading: the stop has no end in the record."""
    log = cooking()
    log.done("pull", 400)
    log.done("serve", 420)
    stops = {row["what"]: row["corrective_action"] for row in table(record(log, 430)) if row["row"] == "finding"}
    assert stops["STOP: served, minimum not measured"] == "NOT ENDED: it stands"


def test_guests_and_treatment_are_in_the_record() -> None:
    """What was told of guests, allergies, the occasion and the meat stands in it; what was not is "not told"."""
    log = cooking()
    log.tell(CareTold(at_risk=True, allergies=("nuts", "milk")), 61)
    log.tell(TreatedTold(treatments=(Treatment.INJECTED,)), 62)
    told = {row["what"]: row["remarks"] for row in table(record(log)) if row["row"] == "record"}
    assert (told["Guests at risk"], told["Allergies"]) == ("yes", "nuts, milk")
    assert told["Public or paid meal"] == "not told"
    (piece,) = [row for row in table(record(log)) if row["row"] == "piece"]
    assert piece["remarks"].startswith("injected; ")


def test_two_pieces_have_their_own_limits() -> None:
    """Ribs need 145 F and the chicken 165 F, at the same minute."""
    log = two_pieces()
    for piece in ("p1", "p2"):
        tell(log, StepDone(step="meat_on"), 60, piece=piece)
        tell(log, Reading(slot=Slot.CORE, value_c=70.0), 300, piece=piece)
        tell(log, StepDone(step="pull"), 310, piece=piece)
    found = {row["piece"]: (row["limit_f"], row["meets"]) for row in entries(record(log)) if row["value_c"]}
    assert found == {"beef short ribs": ("145.0", "yes"), "whole chicken": ("165.0", "NO")}


@pytest.mark.parametrize("name", ["=1+1", "+44", "-Ines", "@sum", "\t=1", " =1", "＝1"])  # noqa: RUF001 - a wide form is meant
def test_a_name_is_never_a_formula(name: str) -> None:
    """What a spreadsheet would compute is quoted with an apostrophe; figures are not."""
    log = cooking()
    log.tell(Reading(slot=Slot.CORE, value_c=-2.0, spot=name), 100, by=name)
    row = the_reading(log, -2.0)
    assert row["by"].startswith("'")
    assert row["spot"].startswith("'")
    assert row["value_c"] == "-2.0"


def test_any_letters_come_back_from_the_file() -> None:
    """Right-to-left names, emoji, quotes and line breaks in names harm no row."""
    log = cooking()
    names = ("אינס", "وِرن", "Tomas 🔥", 'Wren "the fire", 2nd', "Bashir\nlate")
    for number, name in enumerate(names):
        log.tell(Reading(slot=Slot.CORE, value_c=60.0 + number), 100 + number, by=name)
    read = [row["by"] for row in entries(record(log)) if row["value_c"]]
    assert read == [*names[:-1], "Bashir late"]


def test_safe_by_time_is_neither_a_yes_nor_a_no() -> None:
    """Intact beef held at 60 C long enough, by somebody's choice: its readings say so, and so does the piece."""
    log = cooking()
    log.tell(TreatedTold(treatments=()), 61)
    log.tell(CareTold(at_risk=False), 61)
    log.tell(SafeByTold(by=SafeBy.EQUIVALENCE), 61)
    for minutes in range(300, 400, 10):
        log.read(60.0, minutes)
    log.done("pull", 400)
    made = record(log)
    assert [row["meets"] for row in entries(made) if row["value_c"]][-1] == "by time"
    assert "by choice safe by its time at a lower temperature" in made.pieces[0].coldest


def test_what_comes_after_the_mending_is_no_corrective_action() -> None:
    """Food that was reheated, served and put away hours later was mended by the heat, not by the fridge."""
    log = resting()
    log.read(58.0, 600)
    log.read(75.0, 630)
    log.done("serve", 640)
    log.done("two_hour", 700, "away")
    assert the_reading(log, 58.0)["corrective_action"] == "reheated, read 167 F (75 C) 16:30, by Ines"


def test_the_excerpt_in_the_docs_is_what_the_program_writes() -> None:
    """Header and rows of the invented supper, word for word."""
    page = (Path(__file__).parents[4] / "docs" / "howto" / "event-record.md").read_text(encoding="utf-8")
    excerpt = page.partition("```csv\n")[2].partition("\n```")[0].split("\n")
    written = record_csv(the_record()).decode("utf-8-sig").split("\r\n")
    assert len(excerpt) == 3
    assert set(excerpt) <= set(written)


def test_the_same_log_gives_the_same_file() -> None:
    """Nothing but the log and the instant goes in."""
    assert record_csv(record(resting())) == record_csv(record(resting()))
